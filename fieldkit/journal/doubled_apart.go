package journal

import (
	"context"
	"errors"
	"math"
)

// anew begins the copy anew where the two have come apart: where somebody wrote on before
// the rest of a kit came back, or another kit's copy was left behind. What only the copy
// holds is set aside first. A kit that is damaged itself leaves its copy alone, which may
// have what is missing.
func (d *Doubled) anew(ctx context.Context, copied Copy, end Head) (CopyState, error) {
	if d.copying.SetAside == nil || !sound(ctx, d.Store) {
		return CopyApart, nil
	}
	if err := d.copying.SetAside(ctx, copied); err != nil {
		return CopyApart, err
	}
	if now, err := copied.Since(ctx, math.MaxUint64); err != nil || now.Head != end {
		return CopyBehind, err // another tab has begun it anew meanwhile
	}
	done := d.turn(politeness)
	err := copied.Delete(ctx)
	done()
	if err != nil {
		return CopyApart, err
	}
	d.letGo()
	d.tell(News{Apart: true})
	d.goOn()
	return CopyBehind, nil
}

// sound reports whether the entries of a store are all there, each with its checksum.
func sound(ctx context.Context, s Store) bool {
	tail, err := s.Since(ctx, 0)
	if err != nil {
		return false
	}
	var last Head
	for _, r := range tail.Records {
		if r.Seq != last.Seq+1 || r.Prev != last.Hash || r.Hash != chain(r.Prev, r.Body) {
			return false
		}
		last = r.Head()
	}
	return last == tail.Head
}

// SetAside keeps all that a store holds in the first of some places that is empty, or
// where that was begun before and not ended. place opens the n-th, from 0, and fails where
// there are no more. Errors are those of place and of the stores.
func SetAside(ctx context.Context, from Store, place func(ctx context.Context, n int) (Store, error)) error {
	for n := 0; ; n++ {
		to, err := place(ctx, n)
		if err != nil {
			return err
		}
		done, err := setAside(ctx, from, to)
		_ = to.Close() // what was acknowledged is on disk
		if done || err != nil {
			return err
		}
	}
}

func setAside(ctx context.Context, from, to Store) (done bool, err error) {
	have, err := to.Since(ctx, math.MaxUint64)
	if err != nil {
		return false, err
	}
	if begun, err := goesOn(ctx, from, have.Head); err != nil || !begun {
		return false, err
	}
	_, left, err := (&carrier{from: from, to: to, turn: func() func() { return func() {} }}).run(ctx, true)
	return true, errors.Join(left, err)
}
