package journal

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/merge"
)

// Salvage is what could be read of a store piece by piece, where it cannot be opened
// as a whole. Nothing in it has been checked.
type Salvage struct {
	Records   []Record
	Snapshots []Snapshot
	Head      Head
	Photos    []string // hashes
	Unread    []string // what the store did not give out, in words: "entry 17: …"
}

// Recover replays what was salvaged. Errors are those of Open; kind NotFound if there
// is nothing to replay.
func (s Salvage) Recover(ctx context.Context, blank func() fieldkit.Kit) (merge.Replica, Report, error) {
	if len(s.Records) == 0 && len(s.Snapshots) == 0 {
		return merge.Replica{}, Report{}, &fieldkit.Error{Kind: fieldkit.NotFound, What: "nothing of a kit could be read", Do: "restore a backup"}
	}
	m := NewMemory()
	m.kept.head, m.kept.records, m.kept.snapshots = s.Head, slices.Clone(s.Records), slices.Clone(s.Snapshots)
	slices.SortStableFunc(m.kept.records, func(a, b Record) int { return cmp.Compare(a.Seq, b.Seq) })
	slices.SortStableFunc(m.kept.snapshots, func(a, b Snapshot) int { return cmp.Compare(a.Head.Seq, b.Head.Seq) })
	session, report, err := Open(ctx, m, blank)
	if err != nil {
		return merge.Replica{}, Report{}, err
	}
	return session.Replica(), report, nil
}

// Begin keeps a copy with its photos as the first entry of an empty store, whether or
// not it has problems: what was recovered after damage may have some.
func Begin(ctx context.Context, store Store, what string, now fieldkit.Moment, from merge.Replica, blobs ...Blob) error {
	e := Entry{Seq: 1, ID: "begin", At: now, What: what}
	if _, err := whole(from)(&e, &state{}); err != nil {
		return err
	}
	rec, err := Seal(e, Head{})
	if err != nil {
		return err
	}
	return store.Append(ctx, rec, blobs)
}

// GoOn writes the kit as it is as a new start, after the person has seen what is
// damaged: with the snapshot of it, opening no longer names the damage. What is damaged
// stays in the store as it is, and Undo of the entry leads back.
func (s *Session) GoOn(ctx context.Context, what string, now fieldkit.Moment, newID func() string) (Entry, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	e, err := s.write(ctx, Entry{ID: newID(), At: now, What: what}, nil, func(e *Entry, at *state) (*state, error) {
		return whole(merge.Replica{Kit: at.kit, History: s.history})(e, at)
	})
	if err == nil {
		s.report.Damaged, s.report.BaseLost = nil, false
		s.snapshotOf(ctx, s.state.Load())() // at once: until it is there the damage is named
	}
	return e, err
}

// Short names the first few of what was set aside, and how many more there are.
func (r Report) Short(most int) []string {
	var lines []string
	if r.BaseLost {
		lines = append(lines, "the beginning of the journal cannot be read")
	}
	for i, d := range r.Damaged {
		if len(lines) >= most {
			return append(lines, fmt.Sprintf("and %d more", len(r.Damaged)-i))
		}
		lines = append(lines, d.String())
	}
	return lines
}
