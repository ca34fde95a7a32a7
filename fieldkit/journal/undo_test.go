package journal_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// Undo gives the very kit there was, down to the order of the lists, and undo of
// the undo gives the other one back.
func TestUndo(t *testing.T) {
	for name, edit := range map[string]func(*journal.Edit) error{
		"a note added": logFailure("f1", "snapped"),
		"a record changed": func(ed *journal.Edit) error {
			p, _ := ed.Kit().Position("joint-left")
			p.Note = "greased"
			ed.Put(p)
			return nil
		},
		"the first of a list deleted": func(ed *journal.Edit) error {
			ed.Delete("positions", "joint-left")
			return nil
		},
		"two of a list deleted, the later first": func(ed *journal.Edit) error {
			ed.Delete("positions", "joint-right")
			ed.Delete("positions", "joint-left")
			return nil
		},
		"all of a list deleted": func(ed *journal.Edit) error {
			for _, p := range ed.Kit().Positions.All() {
				ed.Delete("positions", p.ID)
			}
			return nil
		},
		"deleted, added and changed": func(ed *journal.Edit) error {
			p, _ := ed.Kit().Position("joint-right")
			ed.Delete("positions", "joint-left")
			p.ID, p.Name = "hub-right", "locking hub"
			ed.Put(p)
			p.ID, p.Name = "hub-left", "locking hub"
			ed.Put(p)
			p.ID, p.Name = "seal-left", "axle seal, inner"
			ed.Put(p)
			return nil
		},
		"deleted and put again": func(ed *journal.Edit) error {
			p, _ := ed.Kit().Position("joint-left")
			ed.Delete("positions", "joint-left")
			p.Note = "put again"
			ed.Put(p)
			return nil
		},
	} {
		t.Run(name, func(t *testing.T) {
			store := journal.NewMemory()
			s := open(t, store)
			e, err := s.Do(ctx, name, now, counter("do"), edit)
			require.NoError(t, err)
			done := s.Kit()
			undo, err := s.Undo(ctx, e.ID, now, counter("undo"))
			require.NoError(t, err)
			require.Equal(t, e.ID, undo.Undoes)
			require.Equal(t, "undo: "+name, undo.What)
			sameKit(t, begin(), s.Kit())
			_, err = s.Undo(ctx, undo.ID, now, counter("redo"))
			require.NoError(t, err)
			require.ElementsMatch(t, ids(done), ids(s.Kit()))
			sameKit(t, s.Kit(), open(t, store.Handle()).Kit())
		})
	}
}

func ids(k fieldkit.Kit) (all []string) {
	for _, c := range fieldkit.Collections {
		for _, r := range c.All(k) {
			all = append(all, c.Name+" "+r.Key())
		}
	}
	return all
}

func TestUndoRefused(t *testing.T) {
	s := open(t, journal.NewMemory())
	newID := counter("a")
	note := func(text string) journal.Entry {
		e, err := s.Do(ctx, "note: "+text, now, newID, func(ed *journal.Edit) error {
			p, _ := ed.Kit().Position("seal-left")
			p.Note = text
			ed.Put(p)
			return nil
		})
		require.NoError(t, err)
		return e
	}
	first, second := note("weeps"), note("pours")
	var refused *fieldkit.Error
	_, err := s.Undo(ctx, first.ID, now, newID)
	require.ErrorAs(t, err, &refused)
	require.Equal(t, fieldkit.Conflict, refused.Kind)
	require.Contains(t, err.Error(), `position "axle seal" was changed since`)
	_, err = s.Undo(ctx, second.ID, now, newID)
	require.NoError(t, err)
	_, err = s.Undo(ctx, first.ID, now, newID)
	require.NoError(t, err)
	sameKit(t, begin(), s.Kit())
	_, err = s.Undo(ctx, second.ID, now, newID)
	require.ErrorAs(t, err, &refused)
	_, err = s.Undo(ctx, "no such entry", now, newID)
	require.ErrorAs(t, err, &refused)
	require.Equal(t, fieldkit.NotFound, refused.Kind)
}

// What was added and is in use by now cannot simply vanish.
func TestUndoWouldBreakTheKit(t *testing.T) {
	s := open(t, journal.NewMemory())
	newID := counter("a")
	added, err := s.Do(ctx, "add part", now, newID, func(ed *journal.Edit) error {
		ed.Put(fieldkit.Part{ID: "seal", Kind: "seal", Name: "axle seal"})
		return nil
	})
	require.NoError(t, err)
	_, err = s.Do(ctx, "fit it", now, newID, func(ed *journal.Edit) error {
		p, _ := ed.Kit().Position("seal-left")
		p.Part = "seal"
		ed.Put(p)
		return nil
	})
	require.NoError(t, err)
	kit := s.Kit()
	_, err = s.Undo(ctx, added.ID, now, newID)
	var refused *fieldkit.Error
	require.ErrorAs(t, err, &refused)
	require.Equal(t, fieldkit.BadInput, refused.Kind)
	sameKit(t, kit, s.Kit())
}

// An entry far back, and one that another tab wrote, are found all the same.
func TestUndoFarBackAndElsewhere(t *testing.T) {
	store := journal.NewMemory()
	here, there := open(t, store), open(t, store.Handle())
	e, err := there.Do(ctx, "log failure", now, counter("there"), logFailure("f1", "snapped"))
	require.NoError(t, err)
	newID := counter("here")
	for range 700 {
		_, err := here.Do(ctx, "rename", now, newID, func(ed *journal.Edit) error {
			ed.SetName(newID())
			return nil
		})
		require.NoError(t, err)
	}
	_, err = here.Undo(ctx, e.ID, now, newID)
	require.NoError(t, err)
	require.Empty(t, here.Kit().Failures.Slice())
	require.Equal(t, 2, here.Kit().Stock("joint"))
}
