package passon

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"iter"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// Added is what is put into a kit, as one edit, and what of it was there before.
type Added struct {
	Put   []fieldkit.Record // in the order of the kit file
	There []fieldkit.Record // of the kit, used as they are
	Main  fieldkit.Record   // the position, part, link or rig it is about, as in the kit afterwards
}

// Into lists the records to put to add a bundle to a kit. A position goes to the rig
// of that ID, under the system of the same name or a new one; a position of the same
// name and side there at which nothing is fitted yet is filled in. Other bundles need
// no rig. Prices in another currency are left out. Error of kind NotFound if there is
// no such rig.
func Into(k fieldkit.Kit, b Bundle, rig string, newID func() string) (Added, error) {
	t := &taking{kit: k, names: map[string]string{}, newID: newID}
	in := b.Kit
	if b.Kind() == OnePosition {
		if _, ok := k.Rig(rig); !ok {
			return Added{}, &fieldkit.Error{Kind: fieldkit.NotFound, What: "no rig is chosen for the position", Do: "choose one of your rigs, or add a rig first"}
		}
		for _, r := range in.Rigs {
			t.names["rigs "+r.ID] = rig
		}
		for _, s := range in.Systems {
			for _, mine := range k.Systems {
				if mine.Rig == rig && mine.Name == s.Name {
					t.names["systems "+s.ID] = mine.ID
				}
			}
		}
		in.Rigs = nil
		t.fillIn(in)
	} else {
		in.Rigs, in.Systems, in.Positions = nil, nil, fieldkit.List[fieldkit.Position]{}
	}
	in.Bins, in.Spares = nil, fieldkit.List[fieldkit.Spare]{}
	// What is there already, word for word, keeps its ID: donors, then the parts of
	// these donors, then the links of these parts.
	for _, d := range renamed(in, t.id).Donors {
		same(t, "donors", d, slices.All(k.Donors), func(r *fieldkit.Donor) { r.ID = d.ID })
	}
	for _, p := range renamed(in, t.id).Parts.All() {
		same(t, "parts", p, k.Parts.All(), func(r *fieldkit.Part) {
			r.ID, r.Price = p.ID, nil
			r.LookAlikes = copied(r.LookAlikes, func(a *fieldkit.LookAlike) { a.Part = "" }) // which part that is may not have come along
		})
	}
	for _, l := range renamed(in, t.id).Links.All() {
		same(t, "links", l, k.Links.All(), func(r *fieldkit.Link) { r.ID = l.ID })
	}
	return t.added(renamed(in, t.id), b.Kind()), nil
}

// RigsInto lists the records to put to add another kit's rigs beside those of a kit,
// marked as the owner's. IDs come from those of the other kit, so that adding the
// same rigs again brings them up to date and adds nothing twice.
func RigsInto(k, other fieldkit.Kit, owner string, rigs ...string) Added {
	b := Rigs(other, rigs...)
	in := renamed(b.Kit, func(collection, old string) string { return friendsID(other.ID, collection, old) })
	for i := range in.Rigs {
		in.Rigs[i].Owner = owner
	}
	t := &taking{kit: k}
	return t.added(in, Nothing)
}

// friendsID is the ID a record of another kit goes by in this one.
func friendsID(kit, collection, id string) string {
	sum := sha256.Sum256([]byte(kit + "\n" + collection + "\n" + id))
	return "f" + hex.EncodeToString(sum[:10])
}

// FriendsRig is the ID under which a rig of another kit stands beside one's own.
func FriendsRig(kit, rig string) string { return friendsID(kit, "rigs", rig) }

// fillIn looks for a position with nothing fitted that is the one passed on.
func (t *taking) fillIn(in fieldkit.Kit) {
	for _, p := range in.Positions.All() {
		for _, mine := range t.kit.Positions.All() {
			if mine.Part == "" && mine.System == t.names["systems "+p.System] && mine.Name == p.Name && mine.Side == p.Side && mine.Kind == p.Kind {
				t.names["positions "+p.ID] = mine.ID
			}
		}
	}
}

// filled is a position of the kit with what is fitted there.
func filled(mine, p fieldkit.Position) fieldkit.Position {
	mine.Part, mine.Quantity, mine.Fitted, mine.FittedAt, mine.Proof = p.Part, p.Quantity, p.Fitted, p.FittedAt, p.Proof
	if mine.Note == "" {
		mine.Note = p.Note
	}
	return mine
}

type taking struct {
	kit   fieldkit.Kit
	names map[string]string // new IDs by collection and old ID
	newID func() string
	there []fieldkit.Record
}

// id gives each record one new ID.
func (t *taking) id(collection, old string) string {
	key := collection + " " + old
	if t.names[key] == "" {
		t.names[key] = t.newID()
	}
	return t.names[key]
}

// same looks for a record that says the same, and uses it: level makes two records
// equal in what does not count.
func same[T fieldkit.Record](t *taking, collection string, wanted T, have iter.Seq2[int, T], level func(*T)) {
	level(&wanted)
	for _, r := range have {
		leveled := r
		level(&leveled)
		if bytes.Equal(kitfile.EncodeRecord(leveled), kitfile.EncodeRecord(wanted)) {
			for key, id := range t.names {
				if id == wanted.Key() && key[:len(collection)] == collection {
					t.names[key] = r.Key()
				}
			}
			t.there = append(t.there, r)
			return
		}
	}
}

// added lists what differs from the kit.
func (t *taking) added(in fieldkit.Kit, kind Kind) Added {
	a := Added{There: t.there}
	main := map[Kind]string{OnePosition: "positions", OneLink: "links", OneCard: "parts", Nothing: "rigs"}[kind]
	for _, c := range fieldkit.Collections {
		for _, r := range c.All(in) {
			if p, ok := r.(fieldkit.Part); ok && p.Price != nil && p.Price.Currency != t.kit.Currency {
				p.Price = nil
				r = p
			}
			have, there := c.Get(t.kit, r.Key())
			if p, ok := r.(fieldkit.Position); ok && there && kind == OnePosition {
				r = filled(have.(fieldkit.Position), p)
				a.Put = append(a.Put, r)
			}
			if c.Name == main && a.Main == nil {
				a.Main = r
			}
			if !there || kind == Nothing && !bytes.Equal(kitfile.EncodeRecord(have), kitfile.EncodeRecord(r)) {
				a.Put = append(a.Put, r)
			}
		}
	}
	return a
}
