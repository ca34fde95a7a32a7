package journal_test

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit/journal"
)

// place is where one of the two stores lies; what is in it can be thrown away under the app.
type place struct{ kept *journal.Memory }

func newPlace() *place { return &place{journal.NewMemory()} }

func (p *place) store() journal.Copy { return p.kept.Handle() }

func (p *place) throwAway(t *testing.T) {
	t.Helper()
	require.NoError(t, p.kept.Handle().Delete(t.Context()))
}

func (p *place) head(t *testing.T) uint64 {
	t.Helper()
	return headOf(t, p.store()).Seq
}

// entries lists them all.
func (p *place) entries(t *testing.T) []journal.Record {
	t.Helper()
	tail, err := p.store().Since(t.Context(), 0)
	require.NoError(t, err)
	return tail.Records
}

func (p *place) photos(t *testing.T) []string {
	t.Helper()
	hashes, err := p.store().Blobs(t.Context())
	require.NoError(t, err)
	return hashes
}

func headOf(t *testing.T, s journal.Store) journal.Head {
	t.Helper()
	tail, err := s.Since(t.Context(), math.MaxUint64)
	require.NoError(t, err)
	return tail.Head
}

// doubled opens both.
func doubled(t *testing.T, first, second *place) (*journal.Doubled, int) {
	t.Helper()
	d, regained, err := journal.OpenDoubled(context.Background(), first.store(), copyingTo(func() journal.Copy {
		if second == nil {
			return nil
		}
		return second.store()
	}))
	require.NoError(t, err)
	return d, regained
}

// copying waits as long as it takes.
func copying(open func() (journal.Copy, error)) journal.Copying {
	return journal.Copying{Open: func(context.Context) (journal.Copy, error) { return open() }, Patience: time.Minute}
}

// copyingTo opens a copy that answers at once, each time anew.
func copyingTo(open func() journal.Copy) journal.Copying {
	return copying(func() (journal.Copy, error) { return open(), nil })
}

// entry is one that notes something, and names its photos.
func entry(seq uint64, what string, photos ...journal.Blob) journal.Entry {
	e := journal.Entry{Seq: seq, ID: fmt.Sprint("note ", what), What: what}
	if len(photos) > 0 {
		hashes := make([]string, len(photos))
		for i, b := range photos {
			hashes[i] = b.Hash
		}
		after, _ := json.Marshal(map[string]any{"id": "n", "photos": hashes}) // plain texts always encode
		e.Changes = []journal.Change{{Collection: "failures", ID: "n", After: after}}
	}
	return e
}

// next is an entry that follows the head.
func next(t *testing.T, s journal.Store, what string, photos ...journal.Blob) journal.Record {
	t.Helper()
	head := headOf(t, s)
	r, err := journal.Seal(entry(head.Seq+1, what, photos...), head)
	require.NoError(t, err)
	return r
}

// jotDown appends an entry.
func jotDown(t *testing.T, s journal.Store, what string, photos ...journal.Blob) {
	t.Helper()
	require.NoError(t, s.Append(t.Context(), next(t, s, what, photos...), photos))
}

// jot appends so many entries, each with the photos.
func jot(t *testing.T, s journal.Store, count int, photos ...journal.Blob) {
	t.Helper()
	for range count {
		jotDown(t, s, "noted", photos...)
	}
}

// lost is a kit of so many entries that was copied whole and then thrown away.
func lost(t *testing.T, entries int, photo ...journal.Blob) (first, second *place) {
	t.Helper()
	first, second = newPlace(), newPlace()
	d, _ := doubled(t, first, second)
	jot(t, d, entries, photo...)
	require.NoError(t, d.Follow(t.Context()))
	require.NoError(t, d.Close())
	first.throwAway(t)
	return first, second
}

// takeBack appends entries as they are.
func (p *place) takeBack(t *testing.T, entries ...journal.Record) {
	t.Helper()
	for _, r := range entries {
		require.NoError(t, p.store().Append(t.Context(), r, nil))
	}
}
