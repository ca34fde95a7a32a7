package journal_test

import (
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// What an edit costs does not grow with the kit: it copies one block of a list, which is
// full in a large kit. Bytes are counted, not time: they are the same on every computer.
func TestEditCostsTheSameInALargeKit(t *testing.T) {
	for name, edit := range map[string]func(ed *journal.Edit, text string){
		"failure changed": func(ed *journal.Edit, text string) { ed.Put(failure("failure-1", text)) },
		"failure added":   func(ed *journal.Edit, text string) { ed.Put(failure(text, "snapped")) },
		"position changed": func(ed *journal.Edit, text string) {
			ed.Put(fieldkit.Position{ID: "place-7", System: "front-axle", Name: text, Kind: "u-joint", Quantity: 1, Part: "part-7"})
		},
	} {
		t.Run(name, func(t *testing.T) {
			small, large := bytesOfEdit(t, 1, edit), bytesOfEdit(t, 100, edit)
			t.Logf("%d bytes an edit, %d in a kit of 100 times the size", small, large)
			assert.Less(t, large, 3*small)
		})
	}
}

// bytesOfEdit is how much one edit of a kit n times as large takes of memory, on average.
func bytesOfEdit(t *testing.T, n int, edit func(ed *journal.Edit, text string)) uint64 {
	t.Helper()
	s, _, err := journal.Open(ctx, journal.NewMemory(), func() fieldkit.Kit { return grown(n) })
	require.NoError(t, err)
	newID := counter("entry")
	do := func() {
		_, err := s.Do(ctx, "edit", now, newID, func(ed *journal.Edit) error {
			edit(ed, newID())
			return nil
		})
		require.NoError(t, err)
	}
	do() // what is made once
	const edits = 20
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	for range edits {
		do()
	}
	runtime.ReadMemStats(&after)
	return (after.TotalAlloc - before.TotalAlloc) / edits
}
