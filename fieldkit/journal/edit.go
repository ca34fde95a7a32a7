package journal

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// Edit collects what one action changes. It is valid until the function it was
// given to returns.
type Edit struct {
	base, kit fieldkit.Kit
	touched   []recordKey
	places    map[recordKey]int // where undone deletions go back to, from 1
	settled   map[recordKey][]string
	err       error // the first call that made no sense
}

type recordKey struct{ collection, id string }

func newEdit(k fieldkit.Kit) *Edit {
	return &Edit{base: k, kit: k, places: map[recordKey]int{}, settled: map[recordKey][]string{}}
}

// Kit returns the kit as edited so far.
func (e *Edit) Kit() fieldkit.Kit { return e.kit }

// Put adds a record or replaces the one of the same ID.
func (e *Edit) Put(r fieldkit.Record) { e.putAt(r, 0) }

func (e *Edit) putAt(r fieldkit.Record, place int) {
	list, ok := fieldkit.CollectionNamed(r.Collection())
	if !ok || r.Key() == "" {
		e.refuse(fmt.Sprintf("a record %q of %q cannot be kept", r.Key(), r.Collection()))
		return
	}
	key := e.touch(r.Collection(), r.Key())
	if place > 0 {
		e.places[key] = place
		list.PutAt(&e.kit, r, place-1)
		return
	}
	list.Put(&e.kit, r)
}

// Delete removes a record; nothing happens if there is none.
func (e *Edit) Delete(collection, id string) {
	list, ok := fieldkit.CollectionNamed(collection)
	if !ok {
		e.refuse(fmt.Sprintf("nothing can be deleted from %q", collection))
		return
	}
	e.touch(collection, id)
	list.Remove(&e.kit, id)
}

// Settle says that a field stays as it is: the values that other phones gave it at
// the same time are done with. The collection "kit" holds the kit's own fields.
func (e *Edit) Settle(collection, id, field string) {
	if recordIn(e.kit, collection, id) == nil {
		return
	}
	key := e.touch(collection, id)
	e.settled[key] = append(e.settled[key], field)
}

// DropPhotos takes photos out of the records this edit has put, for want of room to
// keep them.
func (e *Edit) DropPhotos(photos []Blob) {
	given := func(hash string) bool {
		return slices.ContainsFunc(photos, func(b Blob) bool { return b.Hash == hash })
	}
	for _, key := range slices.Clone(e.touched) {
		switch r, _ := recordOf(e.kit, key); r := r.(type) {
		case fieldkit.Failure:
			r.Photos = slices.DeleteFunc(slices.Clone(r.Photos), given)
			e.Put(r)
		case fieldkit.Inspection:
			r.Photos = slices.DeleteFunc(slices.Clone(r.Photos), given)
			e.Put(r)
		}
	}
}

func recordOf(k fieldkit.Kit, key recordKey) (fieldkit.Record, bool) {
	list, ok := fieldkit.CollectionNamed(key.collection)
	if !ok {
		return nil, false
	}
	return list.Get(k, key.id)
}

// SetName names the kit.
func (e *Edit) SetName(name string) {
	e.touch(kitCollection, kitCollection)
	e.kit.Name = name
}

// SetCurrency says the ISO 4217 code of the kit's prices.
func (e *Edit) SetCurrency(code string) {
	e.touch(kitCollection, kitCollection)
	e.kit.Currency = code
}

func (e *Edit) setFields(f kitFields) {
	e.touch(kitCollection, kitCollection)
	e.kit.Name, e.kit.Currency, e.kit.Extra = f.Name, f.Currency, f.Extra
}

func (e *Edit) touch(collection, id string) recordKey {
	key := recordKey{collection, id}
	if !slices.Contains(e.touched, key) {
		e.touched = append(e.touched, key)
	}
	return key
}

func (e *Edit) refuse(what string) {
	if e.err == nil {
		e.err = &fieldkit.Error{Kind: fieldkit.BadInput, What: what}
	}
}

// changes lists what really changed: records that were replaced or deleted, then
// those put back to a place, the first place first, then those added at the end.
// In that order the places are right when the changes are applied one by one.
func (e *Edit) changes() []Change {
	var changed, back, added []Change
	for _, key := range e.touched {
		c := Change{Collection: key.collection, ID: key.id}
		c.Before = recordIn(e.base, key.collection, key.id)
		c.After = recordIn(e.kit, key.collection, key.id)
		c.Settled = e.settled[key]
		list, _ := fieldkit.CollectionNamed(key.collection)
		switch {
		case bytes.Equal(c.Before, c.After) && len(c.Settled) == 0:
		case c.After == nil:
			c.Place = list.Index(e.base, key.id) + 1
			changed = append(changed, c)
		case c.Before != nil:
			changed = append(changed, c)
		case e.places[key] > 0:
			c.Place = e.places[key]
			back = append(back, c)
		default:
			added = append(added, c)
		}
	}
	order.By(back, func(a, b Change) int { return cmp.Compare(a.Place, b.Place) })
	return slices.Concat(changed, back, added)
}
