package journal_test

import (
	"context"
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
)

func TestSnapshots(t *testing.T) {
	store := journal.NewMemory()
	s := open(t, store)
	newID := counter("a")
	name := func(i int) {
		_, err := s.Do(ctx, "rename", now, newID, func(ed *journal.Edit) error {
			ed.SetName(newID())
			return nil
		})
		require.NoError(t, err, "edit %d", i)
	}
	for i := range journal.SnapshotEvery*5 + 20 {
		name(i)
	}
	again, report, err := journal.Open(ctx, store.Handle(), begin)
	require.NoError(t, err)
	require.Equal(t, 21, report.Replayed)
	sameKit(t, s.Kit(), again.Kit())

	store.Fault = func(op string) error {
		if op == "snapshot" {
			return errors.New("no room for a snapshot")
		}
		return nil
	}
	for i := range journal.SnapshotEvery {
		name(i)
	}
	again, report, err = journal.Open(ctx, store.Handle(), begin)
	require.NoError(t, err)
	require.Equal(t, 21+journal.SnapshotEvery, report.Replayed)
	sameKit(t, s.Kit(), again.Kit(), "a snapshot that fails costs only time")
}

func TestReplace(t *testing.T) {
	store := journal.NewMemory()
	s := open(t, store)
	_, err := s.Do(ctx, "log failure", now, counter("a"), logFailure("f1", "snapped"))
	require.NoError(t, err)
	before := s.Kit()
	backup := begin()
	backup.Name = "from the backup"

	bad := backup
	bad.Systems = nil
	_, err = s.Replace(ctx, "restore", now, counter("x"), bad)
	var refused *fieldkit.Error
	require.ErrorAs(t, err, &refused)
	require.Equal(t, fieldkit.BadInput, refused.Kind)
	sameKit(t, before, s.Kit())

	e, err := s.Replace(ctx, "restore the backup of 14 May", now, counter("b"), backup)
	require.NoError(t, err)
	sameKit(t, backup, s.Kit())
	sameKit(t, backup, open(t, store.Handle()).Kit())

	undo, err := s.Undo(ctx, e.ID, now, counter("c"))
	require.NoError(t, err)
	sameKit(t, before, s.Kit())
	redo, err := s.Undo(ctx, undo.ID, now, counter("d"))
	require.NoError(t, err)
	sameKit(t, backup, s.Kit())

	_, err = s.Do(ctx, "log failure", now, counter("e"), logFailure("f2", "after the restore"))
	require.NoError(t, err)
	_, err = s.Undo(ctx, redo.ID, now, counter("f"))
	require.ErrorAs(t, err, &refused)
	require.Equal(t, fieldkit.Conflict, refused.Kind, "the later note would be lost")
	old, err := s.KitAt(ctx, 2)
	require.NoError(t, err)
	sameKit(t, before, old)
	_, err = s.Undo(ctx, "begin", now, counter("g"))
	require.ErrorAs(t, err, &refused)
	require.Equal(t, fieldkit.Conflict, refused.Kind)
}

func TestKitAt(t *testing.T) {
	s := open(t, journal.NewMemory())
	kits := map[uint64]string{1: string(kitfile.Save(s.Kit()))}
	newID := counter("a")
	for range journal.SnapshotEvery*2 + 30 {
		_, err := s.Do(ctx, "rename", now, newID, func(ed *journal.Edit) error {
			ed.SetName("kit " + newID())
			return nil
		})
		require.NoError(t, err)
		kits[s.Seq()] = string(kitfile.Save(s.Kit()))
	}
	for seq, want := range kits {
		k, err := s.KitAt(ctx, seq)
		require.NoError(t, err)
		require.Equal(t, want, string(kitfile.Save(k)), "entry %d", seq)
	}
	for _, seq := range []uint64{0, s.Seq() + 1} {
		_, err := s.KitAt(ctx, seq)
		var e *fieldkit.Error
		require.ErrorAs(t, err, &e)
		require.Equal(t, fieldkit.NotFound, e.Kind)
	}
}

// spoiledBlob gives other bytes than were kept.
type spoiledBlob struct{ journal.Store }

func (s spoiledBlob) BlobsOf(context.Context, []string) ([]journal.Blob, error) {
	return []journal.Blob{{Hash: "abc", Data: []byte("other bytes")}}, nil
}

func TestDamagedPhotoIsNotShown(t *testing.T) {
	s := open(t, spoiledBlob{journal.NewMemory()})
	_, err := s.Blob(ctx, "abc")
	var e *fieldkit.Error
	require.ErrorAs(t, err, &e)
	require.Equal(t, fieldkit.NotFound, e.Kind)
}

// What a newer version of the program wrote beside the known fields is kept.
func TestUnknownFieldsAreKept(t *testing.T) {
	store := journal.NewMemory()
	s := open(t, store)
	rig := s.Kit().Rigs[0]
	rig.Extra = fieldkit.Extra{"winch": `{"pull":"4 t"}`}
	e, err := s.Do(ctx, "winch", now, counter("a"), func(ed *journal.Edit) error { ed.Put(rig); return nil })
	require.NoError(t, err)
	require.Equal(t, rig.Extra, open(t, store.Handle()).Kit().Rigs[0].Extra)
	whole := s.Kit()
	whole.Extra = fieldkit.Extra{"mood": `"good"`}
	_, err = s.Replace(ctx, "restore", now, counter("b"), whole)
	require.NoError(t, err)
	require.Equal(t, whole.Extra, open(t, store.Handle()).Kit().Extra)
	_, err = s.Do(ctx, "name", now, counter("c"), func(ed *journal.Edit) error { ed.SetName("new"); return nil })
	require.NoError(t, err)
	_, err = s.Undo(ctx, e.ID, now, counter("d"))
	require.NoError(t, err)
	again := open(t, store.Handle()).Kit()
	require.Equal(t, whole.Extra, again.Extra)
	require.Empty(t, again.Rigs[0].Extra)
}
