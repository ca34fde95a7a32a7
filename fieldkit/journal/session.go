package journal

import (
	"context"
	"errors"
	"fmt"
	"math"
	"sync"
	"sync/atomic"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/merge"
)

// maxTries bounds how often an edit is repeated because others wrote first; each
// time means that somebody else's action was kept.
const maxTries = 50

// Session is one open kit: what the screens read and write. All methods may be
// called from several goroutines; Kit never waits.
type Session struct {
	store   Store
	state   atomic.Pointer[state]
	mu      sync.Mutex     // one action at a time
	history *merge.History // guarded by mu: of the kit in state, changed in place
	later   func(func())   // runs what keeps a snapshot; without it that is done at once
	pace    pace           // guarded by mu: when the next snapshot is due
	report  Report         // guarded by mu
	// An entry that may or may not have been kept, and the entry itself once it was
	// read in; guarded by mu.
	unsure string
	late   *Entry
}

// state is what the session holds after one entry; it never changes.
type state struct {
	kit     fieldkit.Kit
	head    Head
	wounded bool
}

var errOtherKit = &fieldkit.Error{Kind: fieldkit.Conflict,
	What: "this kit was deleted or replaced while it was open here",
	Do:   "save a backup of what is on this screen, then open the kit again"}

// errNothingReadable keeps a journal of which nothing is left but a snapshot that is
// not whole from being taken for an empty one.
var errNothingReadable = &fieldkit.Error{Kind: fieldkit.Storage,
	What: "a kit was kept here, and nothing of it can be read", Do: "restore a backup; what is left was not touched"}

// Open replays what the store holds. An empty store begins with the blank kit,
// kept as the first entry. A kit whose journal is damaged opens with everything
// that could be read, and the report names the rest. The session owns the store.
func Open(ctx context.Context, store Store, blank func() fieldkit.Kit) (*Session, Report, error) {
	for range maxTries {
		r, lost, err := rebuild(ctx, store, math.MaxUint64, blank)
		if err != nil {
			return nil, Report{}, err
		}
		report := Report{Replayed: len(r.entries), Damaged: r.damaged, LostSnapshots: lost, BaseLost: !r.based}
		if r.head.Seq == 0 && lost > 0 {
			return nil, Report{}, errNothingReadable
		}
		if r.head.Seq == 0 {
			report = Report{New: true, LostSnapshots: lost}
			first := Entry{Seq: 1, ID: "begin", What: "kit begun", Kit: kitfile.SaveCompact(blank())}
			rec, err := Seal(first, Head{})
			if err == nil {
				err = store.Append(ctx, rec, nil)
			}
			if errors.Is(err, ErrBehind) { // another tab began at the same time
				continue
			}
			if err != nil {
				return nil, Report{}, err
			}
			r.take(Tail{Records: []Record{rec}, Head: rec.Head()})
		}
		s := &Session{store: store, history: r.history, report: report, pace: r.pace}
		s.state.Store(&state{kit: r.kit, head: r.head, wounded: r.wounded})
		return s, report, nil
	}
	return nil, Report{}, ErrBehind
}

// Kit returns the kit as last kept or read in. It never changes; later actions
// give another one.
func (s *Session) Kit() fieldkit.Kit { return s.state.Load().kit }

// Replica returns the kit with its history, as a backup or another phone needs it.
func (s *Session) Replica() merge.Replica {
	s.mu.Lock()
	defer s.mu.Unlock()
	return merge.Replica{Kit: s.Kit(), History: s.history.Clone()}
}

// Seq returns the number of the last entry the session knows.
func (s *Session) Seq() uint64 { return s.state.Load().head.Seq }

// Report says what opening found, and any damage read in since.
func (s *Session) Report() Report {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.report
}

// Refresh reads in what other tabs have written and reports whether there was
// anything. Error of kind Conflict if the kit was deleted or replaced by another
// one in the store: the session still holds it, for a backup.
func (s *Session) Refresh(ctx context.Context) (bool, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	before := s.Seq()
	_, err := s.refresh(ctx)
	return s.Seq() != before, err
}

func (s *Session) refresh(ctx context.Context) ([]Entry, error) {
	at := s.state.Load()
	tail, err := s.store.Since(ctx, at.head.Seq)
	if err != nil {
		return nil, err
	}
	if tail.Head.Seq < at.head.Seq || tail.Head.Seq == at.head.Seq && tail.Head.Hash != at.head.Hash {
		return nil, errOtherKit
	}
	if len(tail.Records) > 0 {
		if next := tail.Records[0]; next.Seq == at.head.Seq+1 && next.Prev != at.head.Hash {
			return nil, errOtherKit
		}
	}
	if tail.Head.Seq == at.head.Seq {
		return nil, nil
	}
	r := &replay{kit: at.kit, history: s.history, based: true, head: at.head, wounded: at.wounded, pace: s.pace}
	r.take(tail)
	s.report.Damaged = append(s.report.Damaged[:len(s.report.Damaged):len(s.report.Damaged)], r.damaged...)
	s.history, s.pace = r.history, r.pace
	s.state.Store(&state{kit: r.kit, head: r.head, wounded: r.wounded})
	for _, e := range r.entries {
		if e.ID == s.unsure {
			s.late = &e
		}
	}
	return r.entries, nil
}

// snapshot keeps one now and then. It is only a cache: if it cannot be kept, the
// next one is tried after as many entries. A kit that misses something is not
// snapshot, so that the damage is found and named at every start.
func (s *Session) snapshot(ctx context.Context) {
	at := s.state.Load()
	if at.wounded || !s.pace.due() {
		return
	}
	keep := s.snapshotOf(ctx, at)
	if s.later == nil {
		keep()
		return
	}
	s.later(keep)
}

// snapshotOf gives what keeps a snapshot of a state.
func (s *Session) snapshotOf(ctx context.Context, at *state) (keep func()) {
	s.pace.tried()
	history := s.history.Clone() // as of this entry, however late it is written
	return func() {
		_ = s.store.PutSnapshot(ctx, NewSnapshot(at.head, kitfile.SaveCompact(at.kit)).With(history.Encode()))
	}
}

// KeepSnapshotsLater lets another one run what keeps a snapshot: writing a large kit
// takes a moment for which the answer to an action should not wait. It is called
// before the session is used.
func (s *Session) KeepSnapshotsLater(later func(keep func())) { s.later = later }

// Blob returns a photo. Errors: kind NotFound if there is none or its bytes are
// damaged; Storage.
func (s *Session) Blob(ctx context.Context, hash string) (Blob, error) {
	found, err := s.store.BlobsOf(ctx, []string{hash})
	if err != nil {
		return Blob{}, err
	}
	b := found[0]
	if b.Hash == "" {
		return Blob{}, NoBlob(hash)
	}
	if !b.Whole() {
		return Blob{}, &fieldkit.Error{Kind: fieldkit.NotFound, What: fmt.Sprintf("photo %.12q is damaged", hash), Do: "restore it from a backup"}
	}
	return b, nil
}

// Blobs lists the hashes of all photos kept, also those only old entries refer to.
func (s *Session) Blobs(ctx context.Context) ([]string, error) { return s.store.Blobs(ctx) }

// Delete throws the kit, its journal and its photos away for good and closes the
// session.
func (s *Session) Delete(ctx context.Context) error { return s.store.Delete(ctx) }

// Close ends the use of the store. Kit still answers.
func (s *Session) Close() error { return s.store.Close() }
