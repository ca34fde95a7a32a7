package journal

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/order"
)

// Undo takes back an entry by writing its opposite, which can be undone in turn.
// Photos stay. Errors: kind NotFound if there is no such entry; Conflict, naming
// the record, if something it changed was changed again since; BadInput if the
// kit would then contradict itself; Storage.
func (s *Session) Undo(ctx context.Context, entryID string, now fieldkit.Moment, newID func() string) (Entry, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if _, err := s.refresh(ctx); err != nil {
		return Entry{}, err
	}
	undone, err := s.find(ctx, entryID)
	if err != nil {
		return Entry{}, err
	}
	draft := Entry{ID: newID(), At: now, What: "undo: " + undone.What, Undoes: undone.ID}
	if len(undone.Kit) > 0 {
		return s.undoReplace(ctx, draft, undone)
	}
	return s.write(ctx, draft, nil, func(e *Entry, at *state) (*state, error) {
		ed := newEdit(at.kit)
		if err := takeBack(ed, undone); err != nil {
			return nil, err
		}
		e.Changes = ed.changes()
		kit, err := apply(at.kit, *e)
		if err != nil {
			return nil, err
		}
		next := &state{kit: kit, wounded: at.wounded}
		return next, next.check(at, *e)
	})
}

// undoReplace brings back the kit as it was before a restore.
func (s *Session) undoReplace(ctx context.Context, draft, undone Entry) (Entry, error) {
	if undone.Seq == 1 {
		return Entry{}, &fieldkit.Error{Kind: fieldkit.Conflict, What: "there was nothing before the kit was begun"}
	}
	before, err := s.ReplicaAt(ctx, undone.Seq-1)
	if err != nil {
		return Entry{}, err
	}
	fill := whole(before)
	return s.write(ctx, draft, nil, func(e *Entry, at *state) (*state, error) {
		if n := at.head.Seq - undone.Seq; n > 0 {
			return nil, &fieldkit.Error{Kind: fieldkit.Conflict, Where: undone.What,
				What: fmt.Sprintf("something was written down since, up to entry %d", at.head.Seq),
				Do:   "undo the later entries first, or take over the kit before it, under Kit, latest changes"}
		}
		return fill(e, at)
	})
}

// takeBack edits the opposite of an entry. Deleted records go back to the places
// they had, the first place first.
func takeBack(ed *Edit, undone Entry) error {
	changes := slices.Clone(undone.Changes)
	order.By(changes, func(a, b Change) int { return cmp.Compare(a.back(), b.back()) })
	for _, c := range changes {
		if !sameRecord(ed.base, c.Collection, c.ID, c.After) {
			return &fieldkit.Error{Kind: fieldkit.Conflict, Where: undone.What,
				What: recordName(c) + " was changed since", Do: "undo the later change first, or correct it by hand"}
		}
		if err := takeBackChange(ed, c); err != nil {
			return &fieldkit.Error{Kind: fieldkit.Storage, Where: undone.What, What: recordName(c) + " cannot be read as it was", Cause: err}
		}
	}
	return nil
}

// back is the place a deleted record goes back to, 0 for other changes.
func (c Change) back() int {
	if len(c.After) == 0 {
		return c.Place
	}
	return 0
}

func takeBackChange(ed *Edit, c Change) error {
	switch {
	case c.Collection == kitCollection:
		var f kitFields
		if err := json.Unmarshal(c.Before, &f); err != nil {
			return err
		}
		ed.setFields(f)
	case len(c.Before) == 0:
		ed.Delete(c.Collection, c.ID)
	default:
		r, err := kitfile.DecodeRecord(c.Collection, c.Before)
		if err != nil {
			return err
		}
		ed.putAt(r, c.back())
	}
	return ed.err
}

// recordName names a record as a person knows it: position "tie rod end".
func recordName(c Change) string {
	raw := c.After
	if len(raw) == 0 {
		raw = c.Before
	}
	var words struct{ Name, What, Make, Model string }
	_ = json.Unmarshal(raw, &words) // a record without these is named by its ID
	name := cmp.Or(words.Name, words.What, words.Model, words.Make, c.ID)
	noun, ok := nouns[c.Collection]
	if !ok {
		noun = c.Collection
	}
	return fmt.Sprintf("%s %q", noun, name)
}

var nouns = map[string]string{
	kitCollection: "kit", "rigs": "rig", "systems": "system", "positions": "position", "donors": "donor",
	"parts": "part", "links": "interchange link", "bins": "bin", "spares": "spare", "consumables": "consumable",
	"tools": "tool", "trips": "trip", "packs": "packing list", "runs": "repair", "failures": "failure",
	"inspections": "reading", "visits": "visit to a store",
	"ownRepairs": "own repair", "stepNotes": "note at a step",
}
