package journal

import (
	"context"
	"fmt"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/merge"
)

// History returns the last entries, newest first, at most limit of them; entries
// that cannot be read are left out, the session's report names them.
func (s *Session) History(ctx context.Context, limit int) ([]Entry, error) {
	if limit <= 0 {
		return nil, nil
	}
	tail, err := s.store.Since(ctx, s.Seq()-min(s.Seq(), uint64(limit)))
	if err != nil {
		return nil, err
	}
	var entries []Entry
	for _, rec := range slices.Backward(tail.Records) {
		if e, err := rec.Entry(); err == nil && len(entries) < limit {
			entries = append(entries, e)
		}
	}
	return entries, nil
}

// KitAt returns the kit as it was after entry seq: what a position looked like in
// March. Entries that cannot be read are left out.
func (s *Session) KitAt(ctx context.Context, seq uint64) (fieldkit.Kit, error) {
	r, err := s.ReplicaAt(ctx, seq)
	return r.Kit, err
}

// ReplicaAt is KitAt with the history as it was then.
func (s *Session) ReplicaAt(ctx context.Context, seq uint64) (merge.Replica, error) {
	if seq == 0 || seq > s.Seq() {
		return merge.Replica{}, &fieldkit.Error{Kind: fieldkit.NotFound, What: fmt.Sprintf("there is no entry %d", seq)}
	}
	r, _, err := rebuild(ctx, s.store, seq, func() fieldkit.Kit { return fieldkit.Kit{Format: fieldkit.Format} })
	if err != nil {
		return merge.Replica{}, err
	}
	if !r.based {
		return merge.Replica{}, &fieldkit.Error{Kind: fieldkit.Storage, What: fmt.Sprintf("the kit as of entry %d cannot be read any more", seq)}
	}
	return merge.Replica{Kit: r.kit, History: r.history}, nil
}

// find looks for an entry, the latest first: what is undone is nearly always
// recent.
func (s *Session) find(ctx context.Context, id string) (Entry, error) {
	for back := uint64(64); ; back *= 8 {
		entries, err := s.History(ctx, int(min(back, s.Seq())))
		if err != nil {
			return Entry{}, err
		}
		for _, e := range entries {
			if e.ID == id {
				return e, nil
			}
		}
		if back >= s.Seq() {
			return Entry{}, &fieldkit.Error{Kind: fieldkit.NotFound, What: fmt.Sprintf("there is no entry %q in the journal", id)}
		}
	}
}
