package journal

import (
	"context"
	"errors"
	"math"
	"slices"
	"time"
)

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
		blobs := photosOf(ctx, from, some)
		done := d.turn(time.Hour)
		err = to.Append(ctx, r, blobs)
		if err != nil && !errors.Is(err, ErrBehind) && len(blobs) > 0 {
			full = err
			err = to.Append(ctx, r, nil)
		}
		done()
		if errors.Is(err, ErrBehind) {
			if same, err := goesOn(ctx, to, r.Head()); err != nil || !same {
				d.ask()
				return count, err
			}
			err = nil // another tab has just copied it
		}
		if err != nil {
			d.ask()
			return count, err
		}
		lacking = lacking[len(some):]
		count++
	}
	if len(lacking) > 0 || full != nil && !errors.Is(full, ErrFull) {
		d.ask()
	}
	return count, full
}

// ask has the next run look for photos.
func (d *Doubled) ask() {
	d.mu.Lock()
	d.photos = true
	d.mu.Unlock()
}

// photosOf gives those of the photos that are whole. Many are read once more, one by one,
// as they are kept: memory never holds all.
func photosOf(ctx context.Context, from Store, hashes []string) (whole []Blob) {
	for some := range slices.Chunk(hashes, readAtOnce) {
		blobs, err := from.BlobsOf(ctx, some)
		if err != nil {
			continue // a photo that cannot be read holds no entry back
		}
		for _, b := range blobs {
			if !b.Whole() {
				continue
			}
			if len(hashes) > readAtOnce {
				b.Data, b.Read = nil, func() ([]byte, error) {
					again, err := from.BlobsOf(ctx, []string{b.Hash})
					if err != nil {
						return nil, err
					}
					return again[0].Data, nil
				}
			}
			whole = append(whole, b)
		}
	}
	return whole
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
