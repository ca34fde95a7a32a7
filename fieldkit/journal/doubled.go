package journal

import (
	"context"
	"errors"
	"math"
	"slices"
	"sync"
	"time"
)

// Doubled is a Store with a second copy in a place of its own: browsers have been seen to
// find their own files of a database damaged and to throw away all that was in it.
// Everything is answered by the first store; what it has acknowledged is copied behind, in
// order, photos with it where there is room. The two are never written at the same time by
// one page, so that one kill damages one of them at most.
//
// The copy may be some entries short, and what is wrong with it is nobody's trouble: the
// next entry tries again. A copy that is not the beginning of the first, or that has an
// entry missing, is left as it is and helps no more.
type Doubled struct {
	Store                                      // the first
	open  func(context.Context) (Store, error) // opens the second; nil and no error if there can be none

	writing sync.Mutex // held while either is written
	opening sync.Mutex // held while the second is opened, which may take long
	second  Store      // guarded by opening; nil until it was opened

	mu        sync.Mutex
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
	d = &Doubled{Store: first, open: second, photos: true}
	d.ended = sync.NewCond(&d.mu)
	type answer struct {
		copied Store
		end    Head
	}
	there := make(chan answer, 1)
	go func() { // beside what the first store has to read
		copied, err := d.copied(ctx)
		if err != nil || copied == nil {
			there <- answer{}
			return
		}
		tail, _ := copied.Since(ctx, math.MaxUint64) // unreadable is as good as nothing
		there <- answer{copied, tail.Head}
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
	select {
	case a := <-there:
		if a.end.Seq <= tail.Head.Seq {
			return d, 0, nil
		}
		if same, err := goesOn(ctx, a.copied, tail.Head); err != nil || !same {
			return d, 0, nil
		}
		regained, err = d.copy(ctx, a.copied, first, math.MaxInt)
		if regained > 0 && errors.Is(err, ErrFull) {
			err = nil // a photo has no room, its entry has
		}
		return d, regained, err
	case <-late.C:
		return d, 0, nil
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
	d.writing.Lock()
	err := d.Store.Append(ctx, r, blobs)
	d.writing.Unlock()
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
	d.writing.Lock()
	defer d.writing.Unlock()
	return d.Store.PutSnapshot(ctx, s)
}

// Follow brings the copy up to the first store, as far as that can be. One run at a time;
// what is kept meanwhile is followed by the same run.
func (d *Doubled) Follow(ctx context.Context) (err error) {
	d.mu.Lock()
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

// heldAtOnce is how many photos the last entry to be copied brings along at most: as many
// as memory holds without harm. What is left, after a large backup was restored, comes
// with later entries.
const heldAtOnce = 64

// copy appends to one store what another has after its head, and the photos it lacks, a
// few with each entry and so many with the last. It ends where an entry is missing, or
// another tab copies as well.
func (d *Doubled) copy(ctx context.Context, from, to Store, withLast int) (count int, err error) {
	have, err := to.Since(ctx, math.MaxUint64)
	if err != nil {
		return 0, err
	}
	tail, err := from.Since(ctx, have.Head.Seq)
	if err != nil || len(tail.Records) == 0 {
		return 0, err
	}
	lacking, err := d.lacking(ctx, from, to)
	if err != nil {
		return 0, err
	}
	var full error
	for i, r := range tail.Records {
		some := lacking[:min(readAtOnce, len(lacking))]
		if i == len(tail.Records)-1 {
			some = lacking[:min(withLast, len(lacking))]
		}
		blobs, err := from.BlobsOf(ctx, some)
		if err != nil {
			return count, err
		}
		blobs = slices.DeleteFunc(blobs, func(b Blob) bool { return !b.Whole() })
		d.writing.Lock()
		err = to.Append(ctx, r, blobs)
		if errors.Is(err, ErrFull) && len(blobs) > 0 {
			full = err
			err = to.Append(ctx, r, nil)
		}
		d.writing.Unlock()
		if errors.Is(err, ErrBehind) {
			return count, nil
		}
		if err != nil {
			return count, err
		}
		lacking = lacking[len(some):]
		count++
	}
	if len(lacking) > 0 {
		d.mu.Lock()
		d.photos = true
		d.mu.Unlock()
	}
	return count, full
}

// lacking lists the photos that one store has and another has not.
func (d *Doubled) lacking(ctx context.Context, from, to Store) ([]string, error) {
	d.mu.Lock()
	ask := d.photos
	d.photos = false
	d.mu.Unlock()
	if !ask {
		return nil, nil
	}
	there, err := from.Blobs(ctx)
	if err != nil {
		return nil, err
	}
	here, err := to.Blobs(ctx)
	if err != nil {
		return nil, err
	}
	return slices.DeleteFunc(there, func(hash string) bool {
		_, found := slices.BinarySearch(here, hash)
		return found
	}), nil
}

// Delete throws both away, the copy first: what is deleted on purpose never comes back.
func (d *Doubled) Delete(ctx context.Context) error {
	copied, err := d.copied(ctx)
	if err != nil {
		return err
	}
	d.writing.Lock()
	defer d.writing.Unlock()
	if copied != nil {
		if err := copied.Delete(ctx); err != nil {
			return err
		}
	}
	return d.Store.Delete(ctx)
}

// Close implements Store. It does not wait for a copy that is being opened.
func (d *Doubled) Close() error {
	go func() {
		d.opening.Lock()
		defer d.opening.Unlock()
		if d.second != nil {
			_ = d.second.Close() // nothing of it is acknowledged to anybody
		}
	}()
	return d.Store.Close()
}
