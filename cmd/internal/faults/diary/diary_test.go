package diary

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

var ctx = context.Background()

func TestScriptWithoutFaults(t *testing.T) {
	memory := journal.NewMemory()
	other := journal.NewMemory()
	run := Script(ctx, func(context.Context) (journal.Store, error) { return memory.Handle(), nil },
		func(context.Context) (journal.Store, error) { return other.Handle(), nil })
	require.Equal(t, []int{1, 2, 4, 5, 3}, run.Acknowledged)
	require.Empty(t, run.Told)
	d, err := Open(ctx, memory.Handle())
	require.NoError(t, err)
	found := d.Look(ctx)
	require.Empty(t, found.Wrong)
	require.Equal(t, []int{1, 2, 3, 4, 5}, found.Here)
	require.Equal(t, []int{9}, Missing([]int{1, 9}, found.Here))
}

// A look finds what must never be, or it would prove nothing.
func TestLookFindsHalves(t *testing.T) {
	lose := func(change func(ed *journal.Edit), photo ...journal.Blob) Found {
		memory := journal.NewMemory()
		d, err := Open(ctx, memory)
		require.NoError(t, err)
		require.NoError(t, d.Do(ctx, 1))
		_, err = d.Session.Do(ctx, "spoil", at(1), func() string { return EntryID(4) }, func(ed *journal.Edit) error {
			change(ed)
			return nil
		}, photo...)
		require.NoError(t, err)
		return d.Look(ctx)
	}
	for name, found := range map[string]Found{
		"no note":    lose(func(ed *journal.Edit) { ed.Delete("failures", noteID(1)) }),
		"no reading": lose(func(ed *journal.Edit) { ed.Delete("inspections", readingID(1)) }),
		"other words": lose(func(ed *journal.Edit) {
			ed.Put(fieldkit.Failure{ID: noteID(1), Rig: "rig", On: fieldkit.DateOf(at(1).Time), What: "other"})
		}),
		"a photo of nobody": lose(func(ed *journal.Edit) { ed.SetName("x") }, journal.NewBlob("image/jpeg", []byte("x"))),
	} {
		require.NotEmpty(t, found.Wrong, name)
	}
}
