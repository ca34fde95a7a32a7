package journal_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/merge"
)

// whole is a kit with what is kept beside it, for comparing.
func whole(r merge.Replica) string {
	h := r.History.Clone()
	h.By = ""
	return string(kitfile.Save(r.Kit)) + string(h.Encode())
}

func note(position, text string) func(*journal.Edit) error {
	return func(ed *journal.Edit) error {
		p, _ := ed.Kit().Position(position)
		p.Note = text
		ed.Put(p)
		return nil
	}
}

// Two phones of a crew edit and merge each other's copy: both ways give the same kit,
// the merge is one entry, can be undone and done again, and survives a restart.
func TestMergeOfTwoPhones(t *testing.T) {
	stores := []*journal.Memory{journal.NewMemory(), journal.NewMemory()}
	mine, theirs := open(t, stores[0]), open(t, stores[1])
	a, b := counter("a"), counter("b")
	do := func(s *journal.Session, newID func() string, edit func(*journal.Edit) error) {
		t.Helper()
		_, err := s.Do(ctx, "edit", now, newID, edit)
		require.NoError(t, err)
	}
	do(mine, a, note("joint-left", "mine, written first"))
	do(mine, a, logFailure("failure-mine", "snapped"))
	do(theirs, b, note("seal-left", "weeps"))
	do(theirs, b, note("seal-left", "weeps badly"))
	do(theirs, b, note("joint-left", "theirs, written later"))
	do(theirs, b, logFailure("failure-theirs", "bent"))

	before := mine.Replica()
	entry, err := mine.Merge(ctx, "merged", now, a, theirs.Replica())
	require.NoError(t, err)
	require.NotEmpty(t, entry.ID)
	merged := mine.Replica()
	_, err = theirs.Merge(ctx, "merged", now, b, before)
	require.NoError(t, err)
	require.Equal(t, whole(merged), whole(theirs.Replica()), "either way the same")

	k := mine.Kit()
	require.Len(t, k.Failures.Slice(), 2)
	p, _ := k.Position("joint-left")
	require.Equal(t, "theirs, written later", p.Note)
	clashes := merge.Clashes(merged)
	require.Len(t, clashes, 2, "the note, and the count that each took one from: %+v", clashes)
	require.Equal(t, `"mine, written first"`, string(clashes[0].Lost[0].Value))
	require.Equal(t, "count", clashes[1].Field)

	none, err := mine.Merge(ctx, "merged", now, a, theirs.Replica())
	require.NoError(t, err)
	require.Empty(t, none.ID, "nothing new writes nothing")

	again := open(t, stores[0].Handle())
	require.Equal(t, whole(merged), whole(again.Replica()), "after a restart")

	_, err = mine.Undo(ctx, entry.ID, now, a)
	require.NoError(t, err)
	require.Equal(t, string(kitfile.Save(before.Kit)), string(kitfile.Save(mine.Kit())))
	_, err = mine.Merge(ctx, "merged", now, a, theirs.Replica())
	require.NoError(t, err)
	require.Equal(t, string(kitfile.Save(merged.Kit)), string(kitfile.Save(mine.Kit())), "and merged again")

	// The value that lost is taken; on the other phone it then wins without a clash.
	_, err = mine.Do(ctx, "take the other", now, a, func(ed *journal.Edit) error {
		r, err := merge.Take(ed.Kit(), clashes[0], clashes[0].Lost[0])
		if err == nil {
			ed.Put(r)
		}
		return err
	})
	require.NoError(t, err)
	_, err = mine.Do(ctx, "keep the count", now, a, func(ed *journal.Edit) error {
		ed.Settle("spares", "spare-joint", "count")
		return nil
	})
	require.NoError(t, err)
	require.Empty(t, merge.Clashes(mine.Replica()))
	_, err = theirs.Merge(ctx, "merged", now, b, mine.Replica())
	require.NoError(t, err)
	p, _ = theirs.Kit().Position("joint-left")
	require.Equal(t, "mine, written first", p.Note)
	require.Empty(t, merge.Clashes(theirs.Replica()))
}

// Stamps survive snapshots, restarts and undo, and are later than all before, even if
// the phone's clock goes back.
func TestStampsAfterRestart(t *testing.T) {
	store := journal.NewMemory()
	s := open(t, store)
	newID := counter("e")
	last := merge.Stamp{}
	at := now
	for i := range 2*journal.SnapshotEvery + 7 {
		e, err := s.Do(ctx, "edit", at, newID, note("seal-left", fmt.Sprint("note ", i)))
		require.NoError(t, err)
		require.Positive(t, e.Stamp.Compare(last))
		last, at = e.Stamp, fieldkit.Moment{Time: at.AddDate(0, 0, -1)}
		if i%50 == 49 {
			again := open(t, store.Handle())
			require.Equal(t, whole(s.Replica()), whole(again.Replica()))
			require.Equal(t, s.Replica().History.By, again.Replica().History.By, "one line of edits")
			s = again
		}
	}
}

// A journal of before stamps opens, and its edits are later than what the kit began
// with.
func TestEntriesWithoutStamp(t *testing.T) {
	store := journal.NewMemory()
	s := open(t, store)
	_, err := s.Do(ctx, "edit", now, counter("e"), note("seal-left", "old"))
	require.NoError(t, err)
	tail, err := store.Since(ctx, 0)
	require.NoError(t, err)
	old := journal.NewMemory()
	head := journal.Head{}
	for _, rec := range tail.Records {
		e, err := rec.Entry()
		require.NoError(t, err)
		e.Stamp = merge.Stamp{}
		rec, err = journal.Seal(e, head)
		require.NoError(t, err)
		require.NoError(t, old.Append(ctx, rec, nil))
		head = rec.Head()
	}
	mine := open(t, old)
	_, err = mine.Merge(ctx, "merged", now, counter("m"), merge.Replica{Kit: begin()})
	require.NoError(t, err)
	p, _ := mine.Kit().Position("seal-left")
	require.Equal(t, "old", p.Note)
}

// Going back to an earlier kit goes back to its history too, so that a merge brings in
// again what the other phone knows.
func TestRestoreTakesTheHistoryAlong(t *testing.T) {
	s, other := open(t, journal.NewMemory()), open(t, journal.NewMemory())
	newID := counter("e")
	_, err := s.Do(ctx, "first", now, newID, note("seal-left", "first"))
	require.NoError(t, err)
	early := s.Replica()
	_, err = s.Do(ctx, "second", now, newID, note("seal-left", "second"))
	require.NoError(t, err)
	_, err = other.Merge(ctx, "merged", now, counter("o"), s.Replica())
	require.NoError(t, err)
	_, err = s.Restore(ctx, "restored", now, newID, early)
	require.NoError(t, err)
	e, err := s.Do(ctx, "third", now, newID, note("joint-left", "third"))
	require.NoError(t, err)
	require.NotEqual(t, early.History.By, e.Stamp.By, "a new line of edits")
	_, err = s.Merge(ctx, "merged", now, newID, other.Replica())
	require.NoError(t, err)
	p, _ := s.Kit().Position("seal-left")
	require.Equal(t, "second", p.Note)
	p, _ = s.Kit().Position("joint-left")
	require.Equal(t, "third", p.Note)
}
