package journal

import (
	"context"
	"errors"
	"fmt"
	"math"
	"sync"
	"time"
)

// Doubled is a Store with a second copy in a place of its own: browsers have been seen to
// find their own files of a database damaged and to throw away all that was in it.
// Everything is answered by the first store; what it has kept is copied, in order, photos
// with it where there is room, and acknowledged when both have it: what one of them alone
// has goes with that. One page does not write to both at the same time, unless the copy is
// slow, so that one kill damages one of them.
//
// A copy that is slow is not waited for, see keepsUp: it may then be some entries short.
// What is wrong with it is nobody's trouble: the next entry tries again. Where the first
// has no room the copy gives up its own, see makeRoom; where the two have come apart it is
// made anew, see anew.
type Doubled struct {
	Store   // the first
	copying Copying

	writing chan struct{} // holds one while either is written; see turn
	opening sync.Mutex    // held while the second is opened, which may take long
	second  Copy          // guarded by opening; nil until it was opened

	mu        sync.Mutex
	closed    bool
	following bool
	ended     *sync.Cond // of following
	failed    error      // how the last run ended
	again     bool       // something was kept since it began to follow
	whole     bool       // the last run left no photo behind
	slow      bool       // a write waited for the copy in vain, and that has not caught up since
	room      room       // what it gives up
	state     CopyState
}

// CopyPatience is how long opening a kit waits to hear whether its copy has more: a person
// waits in front of it.
const CopyPatience = 3 * time.Second

// Copying says how a second copy is kept.
type Copying struct {
	// Open opens the second store; nil and no error if there can be none.
	Open func(context.Context) (Copy, error)
	// SetAside keeps elsewhere all that a copy holds which has come apart from the first;
	// without it such a copy is left as it is, and helps no more.
	SetAside func(context.Context, Store) error
	// Patience is how long opening waits for the copy, unless the first is empty.
	Patience time.Duration
	// WithoutPhotos leaves them out for now: there was no room for them lately.
	WithoutPhotos bool
	// Told hears, on any goroutine, what happens after opening; it may be nil.
	Told func(News)
}

// News is what happened to a kit with a second copy after it was opened.
type News struct {
	Regained int  // entries came back from the copy, late
	Apart    bool // what only the copy held was set aside
	NoRoom   bool // there was no room for photos in the copy
}

// ErrCopyUnread is wrapped where the first store is empty and the copy does not say what
// it has: all of a kit may be there.
var ErrCopyUnread = errors.New("the second copy could not be read")

// OpenDoubled takes a store and how its second copy is kept. What the copy has beyond the
// end of the first is written there before anything is answered, all of it where the first
// is empty: regained says how many entries came back. A copy that does not answer within
// patience is not waited for, unless the first is empty; what it has comes late, and is
// told then. Errors are those of the first store, and of writing there.
func OpenDoubled(ctx context.Context, first Store, how Copying) (d *Doubled, regained int, err error) {
	d = &Doubled{Store: first, copying: how, writing: make(chan struct{}, 1)}
	d.ended = sync.NewCond(&d.mu)
	if how.WithoutPhotos {
		d.room = noPhotos
	}
	type answer struct {
		copied Copy
		end    Head
		err    error
	}
	there := make(chan answer, 1)
	go func() { // beside what the first store has to read
		copied, err := d.copied(ctx)
		if err != nil || copied == nil {
			there <- answer{err: err}
			return
		}
		tail, err := copied.Since(ctx, math.MaxUint64)
		there <- answer{copied, tail.Head, err}
	}()
	tail, err := first.Since(ctx, math.MaxUint64)
	if err != nil {
		return d, 0, err
	}
	regain := func(a answer) (int, error) {
		if a.err != nil && tail.Head.Seq == 0 {
			return 0, fmt.Errorf("%w: %w", ErrCopyUnread, a.err)
		}
		if a.err != nil || a.end.Seq <= tail.Head.Seq {
			return 0, nil
		}
		same, err := goesOn(ctx, a.copied, tail.Head)
		if err != nil || !same {
			return 0, nil // its trouble is nobody's
		}
		return d.takeBack(ctx, a.copied)
	}
	late := time.NewTimer(how.Patience)
	defer late.Stop()
	if tail.Head.Seq == 0 {
		late.Stop()
	}
	select {
	case a := <-there:
		regained, err = regain(a)
		return d, regained, err
	case <-ctx.Done():
		return d, 0, ctx.Err()
	case <-late.C:
	}
	select {
	case a := <-there: // both were ready: a busy page sees them at once
		regained, err = regain(a)
		return d, regained, err
	default:
		go func() {
			<-there
			_ = d.Follow(context.WithoutCancel(ctx)) // takes it back still, or says why not
		}()
		return d, 0, nil
	}
}

// takeBack brings the first store what the copy, which goes on where that ends, has beyond.
func (d *Doubled) takeBack(ctx context.Context, copied Store) (count int, err error) {
	count, _, err = (&carrier{from: copied, to: d.Store, turn: d.patientTurn}).run(ctx, true) // an entry may come without its photo
	if errors.Is(err, errMissing) {
		err = nil
	}
	return count, err
}

// politeness is how long a write to the first store waits for one to the copy.
const politeness = 250 * time.Millisecond

// turn waits until the other store is not being written, for a limit: a copy that hangs
// holds nobody up.
func (d *Doubled) turn(limit time.Duration) (done func()) {
	select {
	case d.writing <- struct{}{}:
		return func() { <-d.writing }
	case <-time.After(limit):
		return func() {}
	}
}

// patientTurn is the turn of what nobody waits for.
func (d *Doubled) patientTurn() (done func()) { return d.turn(time.Hour) }

// copied is the second store, opened when it is needed first.
func (d *Doubled) copied(ctx context.Context) (Copy, error) {
	d.opening.Lock()
	defer d.opening.Unlock()
	if d.second != nil {
		return d.second, nil
	}
	second, err := d.copying.Open(ctx)
	if err == nil && second != nil {
		d.second = second
	}
	return second, err
}

// letGo has the second store opened anew when it is needed next.
func (d *Doubled) letGo() {
	d.opening.Lock()
	defer d.opening.Unlock()
	d.second = nil
}

// Append implements Store, and has the copy follow.
func (d *Doubled) Append(ctx context.Context, r Record, blobs []Blob) error {
	return d.write(ctx, blobs, func() error { return d.Store.Append(ctx, r, blobs) })
}

// PutBlobs implements Store, and has the copy follow.
func (d *Doubled) PutBlobs(ctx context.Context, blobs []Blob) error {
	return d.write(ctx, blobs, func() error { return d.Store.PutBlobs(ctx, blobs) })
}

func (d *Doubled) write(ctx context.Context, blobs []Blob, put func() error) error {
	politely := func() error {
		defer d.turn(politeness)()
		return put()
	}
	err := politely()
	for errors.Is(err, ErrFull) && d.makeRoom(ctx) {
		err = politely()
	}
	if err != nil {
		d.comeBack()
		return err
	}
	d.mu.Lock()
	d.whole = d.whole && len(blobs) == 0
	d.mu.Unlock()
	d.keepsUp(ctx)
	return nil
}

// PutSnapshot implements Store. The copy has none: all its entries are there.
func (d *Doubled) PutSnapshot(ctx context.Context, s Snapshot) error {
	defer d.turn(politeness)()
	return d.Store.PutSnapshot(ctx, s)
}

// Delete throws both away, the copy first: what is deleted on purpose never comes back.
func (d *Doubled) Delete(ctx context.Context) error {
	copied, err := d.copied(ctx)
	if err != nil {
		return err
	}
	defer d.turn(politeness)()
	if copied != nil {
		if err := copied.Delete(ctx); err != nil {
			return err
		}
	}
	return d.Store.Delete(ctx)
}

// Close implements Store. It does not wait for a copy that is being opened.
func (d *Doubled) Close() error {
	d.mu.Lock()
	d.closed = true
	d.mu.Unlock()
	go func() {
		d.opening.Lock()
		defer d.opening.Unlock()
		if d.second != nil {
			_ = d.second.Close() // nothing of it is acknowledged to anybody
		}
	}()
	return d.Store.Close()
}
