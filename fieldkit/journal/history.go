package journal

import (
	"context"
	"fmt"
	"slices"
	"sort"

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

// LastBy returns the number of the last of the entries, the oldest first, that were
// written down by a moment; 0 if they all came later. Clocks may have been wrong: only
// the stamps count that agree on one order, the most there are, so that a few wild ones
// move nothing.
func LastBy(entries []Entry, at fieldkit.Moment) uint64 {
	end := len(entries)
	for _, i := range inOrder(entries) {
		if entries[i].At.After(at.Time) {
			end = i
			break
		}
	}
	if end == 0 {
		return 0
	}
	return entries[end-1].Seq
}

// inOrder gives the places of the most stamps that never go back, the longest
// non-decreasing subsequence, by patience sorting.
func inOrder(entries []Entry) []int {
	var ends []int // where the runs of each length end that end earliest
	before := make([]int, len(entries))
	for i, e := range entries {
		if e.At.IsZero() {
			continue
		}
		n := sort.Search(len(ends), func(n int) bool { return entries[ends[n]].At.After(e.At.Time) })
		before[i] = -1
		if n > 0 {
			before[i] = ends[n-1]
		}
		if n == len(ends) {
			ends = append(ends, i)
		} else {
			ends[n] = i
		}
	}
	if len(ends) == 0 {
		return nil
	}
	places := make([]int, len(ends))
	for n, i := len(ends)-1, ends[len(ends)-1]; n >= 0; n, i = n-1, before[i] {
		places[n] = i
	}
	return places
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
