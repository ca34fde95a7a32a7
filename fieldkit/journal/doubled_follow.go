package journal

import (
	"context"
	"errors"
	"math"
	"time"
)

// CopyState says how whole a second copy was when it was last looked at.
type CopyState int

const (
	CopyBehind   CopyState = iota // not looked at yet, or on its way
	CopyWhole                     // all entries and photos
	CopyNoPhotos                  // no room for all photos
	CopyNoRoom                    // no room at all
	CopyApart                     // it holds something else, and stays as it is
	CopyNotThere                  // this browser has no place for one
)

// Copied says how whole the copy is.
func (d *Doubled) Copied() CopyState {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.state
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
		var state CopyState
		state, err = d.follow(ctx)
		d.mu.Lock()
		d.state = state
	}
	d.following, d.failed, d.slow = false, err, d.slow && err != nil
	d.ended.Broadcast()
	d.mu.Unlock()
	return err
}

// together is how long a write that the first store has kept waits for its copy.
const together = time.Second

// keepsUp has the copy follow, and waits for it: what was acknowledged may be lost with no
// one of the two. A copy that takes longer than that, or has much to catch up with, is
// waited for no more until it has caught up.
func (d *Doubled) keepsUp(ctx context.Context) {
	copied := make(chan struct{})
	go func() {
		defer close(copied)
		_ = d.Follow(context.WithoutCancel(ctx)) // the next entry tries again
	}()
	d.mu.Lock()
	slow := d.slow
	d.mu.Unlock()
	if slow {
		return
	}
	late := time.NewTimer(together)
	defer late.Stop()
	select {
	case <-copied:
	case <-ctx.Done():
	case <-late.C:
		d.mu.Lock()
		d.slow = d.following
		d.mu.Unlock()
	}
}

func (d *Doubled) follow(ctx context.Context) (CopyState, error) {
	if d.gaveUp(noRoom) {
		return CopyNoRoom, nil
	}
	copied, err := d.copied(ctx)
	if err != nil || copied == nil {
		return CopyNotThere, err
	}
	have, err := copied.Since(ctx, math.MaxUint64)
	if err != nil {
		return CopyBehind, err
	}
	here, err := d.Store.Since(ctx, math.MaxUint64) // after the copy: it has all that was copied
	if err != nil {
		return CopyBehind, err
	}
	if have.Head.Seq <= here.Head.Seq {
		if same, err := goesOn(ctx, d.Store, have.Head); err != nil {
			return CopyBehind, err
		} else if same {
			return d.copy(ctx, copied)
		}
		return d.anew(ctx, copied, have.Head)
	}
	if here.Head.Seq == 0 {
		return CopyBehind, nil // cleared under the page, or deleted: never taken back while it is open
	}
	if same, err := goesOn(ctx, copied, here.Head); err != nil {
		return CopyBehind, err
	} else if same {
		count, err := d.takeBack(ctx, copied)
		d.tell(News{Regained: count})
		if err != nil || count > 0 {
			d.goOn()
			return CopyBehind, err
		}
	}
	return d.anew(ctx, copied, have.Head)
}

// copy brings the copy, which is the beginning of the first, up to it.
func (d *Doubled) copy(ctx context.Context, copied Copy) (CopyState, error) {
	d.mu.Lock()
	every := !d.whole
	d.whole = true // unless something more is kept, or is left below
	d.mu.Unlock()
	c := &carrier{from: d.Store, to: copied, turn: d.patientTurn, bare: func() bool { return d.gaveUp(noPhotos) }}
	_, left, err := c.run(ctx, every)
	if every && err == nil && left == nil { // photos that had not come back when the kit did
		if there, err := copied.Blobs(ctx); err == nil {
			_ = (&carrier{from: copied, to: d.Store, turn: d.patientTurn}).photos(ctx, there)
		}
	}
	if err != nil || left != nil {
		d.mu.Lock()
		d.whole = false
		d.mu.Unlock()
	}
	switch {
	case errors.Is(err, ErrFull) && d.dropPhotos(ctx, copied): // entries are worth more
		d.goOn()
		return CopyNoPhotos, nil
	case errors.Is(err, ErrFull):
		d.giveUp(noPhotos)
		return CopyNoRoom, err // the next entry tries again
	case errors.Is(err, errMissing):
		return CopyApart, err
	case err != nil:
		return CopyBehind, err
	case errors.Is(left, ErrFull):
		d.giveUp(noPhotos)
	case left != nil:
		return CopyBehind, nil
	}
	if d.gaveUp(noPhotos) {
		return CopyNoPhotos, nil
	}
	return CopyWhole, nil
}

// goOn has the run under way look once more.
func (d *Doubled) goOn() {
	d.mu.Lock()
	d.again = true
	d.mu.Unlock()
}

func (d *Doubled) tell(n News) {
	if d.copying.Told != nil && n != (News{}) {
		d.copying.Told(n)
	}
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
