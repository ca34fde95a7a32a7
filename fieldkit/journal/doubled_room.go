package journal

import (
	"context"
	"math"
	"slices"
)

// room is what of a copy is given up where there is none.
type room int

const (
	all      room = iota // nothing is given up
	noPhotos             // its photos are, those that the first has too
	noRoom               // all of it is, until the next start
)

// makeRoom gives up the next thing of the copy for what the first had no room for: a copy
// is never why somebody's photo or entry is refused. It gives up nothing that the first has
// not, and reports whether anything was given up.
func (d *Doubled) makeRoom(ctx context.Context) bool {
	if d.gaveUp(noRoom) {
		return false
	}
	limited, cancel := context.WithTimeout(ctx, d.copying.Patience)
	defer cancel()
	copied, err := d.copied(limited)
	if err != nil || copied == nil {
		return false
	}
	d.giveUp(noPhotos) // what is being copied ends
	return d.dropPhotos(limited, copied) || d.dropAll(limited, copied)
}

func (d *Doubled) dropPhotos(ctx context.Context, copied Copy) bool {
	there, err := copied.Blobs(ctx)
	if err != nil {
		return false
	}
	here, err := d.Store.Blobs(ctx)
	if err != nil {
		return false
	}
	twice := slices.DeleteFunc(there, func(hash string) bool {
		_, found := slices.BinarySearch(here, hash)
		return !found
	})
	if len(twice) == 0 {
		return false
	}
	d.giveUp(noPhotos)
	defer d.turn(politeness)()
	return copied.DropBlobs(ctx, twice) == nil
}

// dropAll gives up a copy that holds entries only, all of which the first has.
func (d *Doubled) dropAll(ctx context.Context, copied Copy) bool {
	have, err := copied.Since(ctx, math.MaxUint64)
	if err != nil || have.Head.Seq == 0 {
		return false
	}
	if photos, err := copied.Blobs(ctx); err != nil || len(photos) > 0 {
		return false
	}
	if same, err := goesOn(ctx, d.Store, have.Head); err != nil || !same || !sound(ctx, d.Store) {
		return false
	}
	d.giveUp(noRoom)
	defer d.turn(politeness)()
	if copied.GiveUp(ctx) != nil {
		return false
	}
	d.letGo()
	return true
}

func (d *Doubled) giveUp(r room) {
	d.mu.Lock()
	said := d.room > all
	d.room = max(d.room, r)
	if d.state = CopyNoPhotos; d.room == noRoom {
		d.state = CopyNoRoom
	}
	d.mu.Unlock()
	if !said {
		d.tell(News{NoRoom: true})
	}
}

func (d *Doubled) gaveUp(r room) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.room >= r
}

// comeBack lets the copy have its entries again: not even all of it made room enough.
func (d *Doubled) comeBack() {
	d.mu.Lock()
	d.room = min(d.room, noPhotos)
	d.mu.Unlock()
}
