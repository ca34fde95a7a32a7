package journal_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/merge"
)

// What is read piece by piece, in any order and with pieces missing, gives the same
// kit and names the same damage as the store itself would.
func TestSalvage(t *testing.T) {
	store := written(t, 17)
	store.records[14].Body = flip(store.records[14].Body, 60)
	want, report := opened(t, store)
	s := journal.Salvage{Head: store.head, Snapshots: store.snapshots}
	for i := range store.records {
		s.Records = append(s.Records, store.records[len(store.records)-1-i])
	}
	got, again, err := s.Recover(ctx, begin)
	require.NoError(t, err)
	sameKit(t, want.Kit(), got.Kit)
	require.Equal(t, report.String(), again.String())

	s.Snapshots, s.Records = nil, s.Records[:4]
	got, again, err = s.Recover(ctx, begin)
	require.NoError(t, err)
	require.True(t, again.BaseLost)
	require.False(t, again.Whole())
	require.Len(t, got.Kit.Failures.Slice(), 3)

	_, _, err = journal.Salvage{}.Recover(ctx, begin)
	require.ErrorContains(t, err, "nothing of a kit")
}

// A kit recovered with holes begins a new store, photos and all, and can be gone on
// with.
func TestBeginWithWhatWasRecovered(t *testing.T) {
	photo := journal.NewBlob("image/jpeg", []byte("the joint"))
	hurt := begin()
	hurt.Parts = fieldkit.List[fieldkit.Part]{} // two positions refer to a part that is lost
	store := journal.NewMemory()
	require.NoError(t, journal.Begin(ctx, store, "recovered", now, merge.Replica{Kit: hurt}, photo))
	require.ErrorIs(t, journal.Begin(ctx, store, "twice", now, merge.Replica{Kit: hurt}), journal.ErrBehind)
	s, report := opened(t, store)
	require.True(t, report.Whole())
	require.False(t, report.New)
	sameKit(t, hurt, s.Kit())
	_, err := s.Blob(ctx, photo.Hash)
	require.NoError(t, err)
	_, err = s.Do(ctx, "rename", now, counter("e"), func(ed *journal.Edit) error { ed.SetName("x"); return nil })
	require.NoError(t, err)
}

// After the person has seen the damage, going on writes one entry and removes none;
// the damage is no longer named, and taking it back names it again.
func TestGoOn(t *testing.T) {
	store := journal.NewMemory()
	s := open(t, store)
	newID := counter("entry")
	tail, err := store.Since(ctx, 0)
	require.NoError(t, err)
	later := journal.Entry{Seq: 2, ID: "later", What: "from a newer program",
		Changes: []journal.Change{{Collection: "cupboards", ID: "c", After: []byte(`{"id":"c"}`)}}}
	rec, err := journal.Seal(later, tail.Head)
	require.NoError(t, err)
	require.NoError(t, store.Append(ctx, rec, nil))
	s, report := opened(t, store.Handle())
	require.Contains(t, strings.Join(report.Short(1), " "), "cupboards")
	e, err := s.GoOn(ctx, "went on", now, newID)
	require.NoError(t, err)
	require.True(t, s.Report().Whole())
	again, report := opened(t, store.Handle())
	require.True(t, report.Whole())
	sameKit(t, s.Kit(), again.Kit())
	tail, err = store.Since(ctx, 0)
	require.NoError(t, err)
	require.Equal(t, rec.Body, tail.Records[1].Body, "what is damaged stays")
	_, err = again.Undo(ctx, e.ID, now, newID)
	require.NoError(t, err)
}

func TestShort(t *testing.T) {
	r := journal.Report{BaseLost: true}
	for i := range 5 {
		r.Damaged = append(r.Damaged, journal.Damage{Seq: uint64(i + 1), Last: uint64(i + 1), Why: "missing"})
	}
	require.Equal(t, []string{"the beginning of the journal cannot be read", "entry 1: missing", "and 4 more"}, r.Short(2))
	require.Len(t, r.Short(10), 6)
}
