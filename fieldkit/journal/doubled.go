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
// Everything is answered by the first store; what it has acknowledged is copied behind, in
// order, photos with it where there is room. One page does not write to both at the same
// time, unless the copy is slow, so that one kill damages one of them.
//
// The copy may be some entries short, and what is wrong with it is nobody's trouble: the
// next entry tries again. A copy that is not the beginning of the first, or that has an
// entry missing, is left as it is and helps no more.
type Doubled struct {
	Store                                      // the first
	open  func(context.Context) (Store, error) // opens the second; nil and no error if there can be none

	writing chan struct{} // holds one while either is written; see turn
	opening sync.Mutex    // held while the second is opened, which may take long
	second  Store         // guarded by opening; nil until it was opened

	mu        sync.Mutex
	closed    bool
	following bool
	ended     *sync.Cond // of following
	failed    error      // how the last run ended
	again     bool       // something was kept since it began to follow
	photos    bool       // the copy may lack some
}

// OpenDoubled takes a store and what opens its second copy. What the copy has beyond the
// end of the first is written there before anything is answered, all of it where the first
// is empty: regained says how many entries came back. A copy that does not answer within
// patience is not waited for, unless the first is empty. Errors are those of the first
// store, and of writing there.
func OpenDoubled(ctx context.Context, first Store, second func(context.Context) (Store, error), patience time.Duration) (d *Doubled, regained int, err error) {
	d = &Doubled{Store: first, open: second, writing: make(chan struct{}, 1), photos: true}
	d.ended = sync.NewCond(&d.mu)
	type answer struct {
		copied Store
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
	late := time.NewTimer(patience)
	defer late.Stop()
	if tail.Head.Seq == 0 {
		late.Stop()
	}
	regain := func(a answer) (int, error) {
		if a.err != nil && tail.Head.Seq == 0 {
			return 0, fmt.Errorf("%w: %w", ErrCopyUnread, a.err)
		}
		if a.err != nil || a.end.Seq <= tail.Head.Seq {
			return 0, nil
		}
		if same, err := goesOn(ctx, a.copied, tail.Head); err != nil || !same {
			return 0, nil
		}
		count, err := d.copy(ctx, a.copied, first, math.MaxInt)
		if errors.Is(err, ErrFull) && tail.Head.Seq+uint64(count) == a.end.Seq {
			err = nil // a photo has no room, its entry has
		}
		return count, err
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
	default: // what it has still comes, unless something else is written down first
		go func() { _, _ = regain(<-there) }()
		return d, 0, nil
	}
}

// ErrCopyUnread is wrapped where the first store is empty and the copy does not say what
// it has: all of a kit may be there.
var ErrCopyUnread = errors.New("the second copy could not be read")

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

// copied is the second store, opened when it is needed first.
func (d *Doubled) copied(ctx context.Context) (Store, error) {
	d.opening.Lock()
	defer d.opening.Unlock()
	if d.second != nil {
		return d.second, nil
	}
	second, err := d.open(ctx)
	if err == nil && second != nil {
		d.second = second
	}
	return second, err
}

// Append implements Store, and has the copy follow.
func (d *Doubled) Append(ctx context.Context, r Record, blobs []Blob) error {
	done := d.turn(politeness)
	err := d.Store.Append(ctx, r, blobs)
	done()
	if err == nil {
		d.mu.Lock()
		d.photos = d.photos || len(blobs) > 0
		d.mu.Unlock()
		go d.Follow(context.WithoutCancel(ctx))
	}
	return err
}

// PutSnapshot implements Store. The copy has none: all its entries are there.
func (d *Doubled) PutSnapshot(ctx context.Context, s Snapshot) error {
	defer d.turn(politeness)()
	return d.Store.PutSnapshot(ctx, s)
}

// Follow brings the copy up to the first store, as far as that can be. One run at a time;
// what is kept meanwhile is followed by the same run.
func (d *Doubled) Follow(ctx context.Context) (err error) {
	d.mu.Lock()
	if d.closed {
		d.mu.Unlock()
		return ErrClosed
	}
	if d.again = true; d.following {
		for d.following {
			d.ended.Wait()
		}
		defer d.mu.Unlock()
		return d.failed
	}
	d.following = true
	for d.again && err == nil {
		d.again = false
		d.mu.Unlock()
		err = d.follow(ctx)
		d.mu.Lock()
	}
	d.following, d.failed = false, err
	d.ended.Broadcast()
	d.mu.Unlock()
	return err
}

func (d *Doubled) follow(ctx context.Context) error {
	copied, err := d.copied(ctx)
	if err != nil || copied == nil {
		return err
	}
	have, err := copied.Since(ctx, math.MaxUint64)
	if err != nil {
		return err
	}
	if same, err := goesOn(ctx, d.Store, have.Head); err != nil || !same {
		return err // another kit's, or more than the first has: it is not touched
	}
	_, err = d.copy(ctx, d.Store, copied, heldAtOnce)
	return err
}

// goesOn reports whether a journal goes on where another one ends.
func goesOn(ctx context.Context, s Store, end Head) (bool, error) {
	if end.Seq == 0 {
		return true, nil
	}
	tail, err := s.Since(ctx, end.Seq-1)
	if err != nil || len(tail.Records) == 0 {
		return false, err
	}
	return tail.Records[0].Head() == end, nil
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
