package journal

import (
	"context"
	"encoding/json"
	"errors"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/merge"
)

// Do keeps one action. It gives edit the current kit, writes what it changed
// together with the photos, and returns once that is durable; only then does Kit
// show it. If something else was written down meanwhile, that is read in and edit
// runs again on the newer kit, so edit must not count on being called once.
//
// what says in the user's words what was done. An edit that changes nothing
// writes nothing and returns the zero Entry. Errors: what edit returned; kind
// BadInput if the kit would then contradict itself; kind Storage if it could not
// be kept. After an error the kit is without the action, which may be tried again.
// If the store broke down between keeping the entry and saying so, it may turn up
// later: let newID give the same ID when the person tries again, and it is
// recognised instead of written twice.
func (s *Session) Do(ctx context.Context, what string, now fieldkit.Moment, newID func() string, edit func(*Edit) error, blobs ...Blob) (Entry, error) {
	return s.act(ctx, Entry{ID: newID(), At: now, What: what}, edit, blobs)
}

func (s *Session) act(ctx context.Context, draft Entry, edit func(*Edit) error, blobs []Blob) (Entry, error) {
	if err := allWhole(blobs); err != nil {
		return Entry{}, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.write(ctx, draft, blobs, func(e *Entry, at *state) (*state, error) {
		ed := newEdit(at.kit)
		if err := edit(ed); err != nil {
			return nil, err
		}
		if ed.err != nil {
			return nil, ed.err
		}
		e.Changes = ed.changes()
		if len(e.Changes) == 0 {
			return nil, nil
		}
		kit, err := apply(at.kit, *e)
		if err != nil {
			return nil, &fieldkit.Error{Kind: fieldkit.BadInput, Where: e.What, What: err.Error()}
		}
		next := &state{kit: kit, wounded: at.wounded}
		return next, next.check(at, *e)
	})
}

// Replace is Restore of a kit without history.
func (s *Session) Replace(ctx context.Context, what string, now fieldkit.Moment, newID func() string, kit fieldkit.Kit, blobs ...Blob) (Entry, error) {
	return s.Restore(ctx, what, now, newID, merge.Replica{Kit: kit}, blobs...)
}

// Restore starts the kit anew from another copy. What was there before stays in the
// journal: Undo of the entry brings it back.
// Error of kind BadInput if the kit has problems.
func (s *Session) Restore(ctx context.Context, what string, now fieldkit.Moment, newID func() string, from merge.Replica, blobs ...Blob) (Entry, error) {
	if problems := kitfile.Check(from.Kit); len(problems) > 0 {
		return Entry{}, &fieldkit.Error{Kind: fieldkit.BadInput, Where: what, What: problems[0].What, Do: problems[0].Do}
	}
	if err := allWhole(blobs); err != nil {
		return Entry{}, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.write(ctx, Entry{ID: newID(), At: now, What: what}, blobs, whole(from))
}

// Merge joins another phone's copy into the kit, as one entry that Undo takes back.
// A copy that says nothing new and has no photo that is not kept here whole writes nothing and
// returns the zero Entry. Errors of kind Conflict as merge.Join gives them; Storage.
func (s *Session) Merge(ctx context.Context, what string, now fieldkit.Moment, newID func() string, other merge.Replica, blobs ...Blob) (Entry, error) {
	if err := allWhole(blobs); err != nil {
		return Entry{}, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.write(ctx, Entry{ID: newID(), At: now, What: what}, blobs, func(e *Entry, at *state) (*state, error) {
		both, report, err := merge.Join(merge.Replica{Kit: at.kit, History: s.history}, other)
		if err != nil {
			return nil, err
		}
		if report.Nothing {
			if lacking, err := s.Lacking(ctx, blobs); err != nil || lacking == 0 {
				return nil, err
			}
		}
		return whole(both)(e, at)
	})
}

// Lacking counts the photos that are not kept here whole. Those that are kept are read.
func (s *Session) Lacking(ctx context.Context, blobs []Blob) (n int, err error) {
	if len(blobs) == 0 {
		return 0, nil
	}
	kept, err := s.store.Blobs(ctx)
	if err != nil {
		return 0, err
	}
	here := map[string]bool{}
	for _, hash := range kept {
		here[hash] = true
	}
	for _, b := range blobs {
		if here[b.Hash] {
			mine, err := s.store.BlobsOf(ctx, []string{b.Hash})
			if ctx.Err() != nil {
				return 0, ctx.Err()
			}
			if err == nil && len(mine) == 1 && mine[0].Whole() {
				continue
			}
		}
		n++
	}
	return n, nil
}

// whole drafts an entry that carries a kit and its history. The line of edits ends:
// what is edited from here on belongs to another one.
func whole(from merge.Replica) func(*Entry, *state) (*state, error) {
	raw := kitfile.SaveCompact(from.Kit)
	var history json.RawMessage
	if from.History != nil {
		h := *from.History
		h.By = ""
		history = h.Encode()
	}
	return func(e *Entry, at *state) (*state, error) {
		e.Kit, e.History = raw, history
		again, err := kitfile.DecodeKit(raw)
		if err != nil {
			return nil, &fieldkit.Error{Kind: fieldkit.BadInput, Where: e.What, What: "the kit cannot be read back: " + err.Error()}
		}
		return &state{kit: again}, nil
	}
}

// write appends the entry that draft fills in, and publishes the state it gives.
// draft runs again whenever the journal has grown; a nil state writes nothing.
func (s *Session) write(ctx context.Context, e Entry, blobs []Blob, draft func(*Entry, *state) (*state, error)) (Entry, error) {
	if s.late != nil && s.late.ID == e.ID {
		return *s.late, nil
	}
	for range maxTries {
		at := s.state.Load()
		e.Seq = at.head.Seq + 1
		e.Stamp = s.history.Next(e.At, e.ID)
		next, err := draft(&e, at)
		if err != nil || next == nil {
			return Entry{}, err
		}
		if e.Kit != nil {
			e.Stamp = merge.Stamp{}
		}
		rec, err := Seal(e, at.head)
		if err != nil {
			return Entry{}, err
		}
		err = s.store.Append(ctx, rec, blobs)
		if err == nil {
			next.head = rec.Head()
			s.pace.took(e, len(rec.Body))
			if s.history, err = follow(s.history, e); err != nil {
				return Entry{}, err // its history was read before it was written
			}
			s.state.Store(next)
			s.snapshot(ctx)
			return e, nil
		}
		read, unread := s.refresh(ctx)
		for _, other := range read {
			if other.ID == e.ID { // it was kept after all; only the answer was lost
				return other, nil
			}
		}
		if !errors.Is(err, ErrBehind) {
			if unread != nil {
				s.unsure, s.late = e.ID, nil
			}
			return Entry{}, err
		}
		if unread != nil {
			return Entry{}, unread
		}
	}
	return Entry{}, ErrBehind
}
