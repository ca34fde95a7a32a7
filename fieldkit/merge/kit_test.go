package merge

import (
	"fmt"
	"math/rand/v2"

	"trailfieldkit/fieldkit"
)

// begin is the kit all phones of the crew start with.
func begin() fieldkit.Kit {
	return fieldkit.Kit{
		Format: fieldkit.Format, Version: fmt.Sprintf("%d.%d", fieldkit.MajorVersion, fieldkit.MinorVersion), ID: "test-kit", Name: "Dry Fork crew", Currency: "USD",
		Rigs:    []fieldkit.Rig{{ID: "rig", Name: "Bramble", Traits: map[string]string{"hubs": "locking"}}, {ID: "second", Name: "Thistle"}},
		Systems: []fieldkit.Assembly{{ID: "front-axle", Rig: "rig", Name: "front axle"}, {ID: "brakes", Rig: "second", Name: "brakes"}},
		Positions: fieldkit.ListOf([]fieldkit.Position{
			{ID: "end-left", System: "front-axle", Name: "wheel end", Side: fieldkit.Left, Kind: "wheel-end", Quantity: 1},
			{ID: "joint-left", System: "front-axle", Parent: "end-left", Name: "axle U-joint", Side: fieldkit.Left, Kind: "u-joint", Quantity: 1, Part: "joint"},
			{ID: "joint-right", System: "front-axle", Name: "axle U-joint", Side: fieldkit.Right, Kind: "u-joint", Quantity: 1, Part: "joint"},
			{ID: "hose", System: "brakes", Name: "brake hose", Kind: "hose", Quantity: 1},
		}),
		Donors: []fieldkit.Donor{{ID: "donor", Make: "Orvane", Model: "Tusker", YearFrom: 1988, YearTo: 1991}},
		Parts: fieldkit.ListOf([]fieldkit.Part{
			{ID: "joint", Kind: "u-joint", Name: "axle U-joint", Donor: "donor", Price: &fieldkit.Money{Cents: 4200, Currency: "USD"}},
			{ID: "joint-b", Kind: "u-joint", Name: "axle U-joint, greasable"},
		}),
		Links:  fieldkit.ListOf([]fieldkit.Link{{ID: "link", For: "joint", With: "joint-b", Grade: fieldkit.DropIn, Evidence: fieldkit.Seen}}),
		Bins:   []fieldkit.Bin{{ID: "box", Rig: "rig", Name: "ammo box"}},
		Spares: fieldkit.ListOf([]fieldkit.Spare{{ID: "spare-joint", Part: "joint", Count: 4, Bin: "box"}}),
		Trips:  []fieldkit.Trip{{ID: "trip", Name: "Salt loop", Rigs: []string{"rig", "second"}, Days: 5, Distance: 400 * fieldkit.Kilometre, Terrain: fieldkit.Sand}},
		Packs: []fieldkit.Pack{{ID: "pack", Trip: "trip", Lines: []fieldkit.PackLine{
			{Type: fieldkit.SpareItem, Item: "joint", Count: 2, Bin: "box"}, {Type: fieldkit.SpareItem, Item: "joint-b", Count: 1}}}},
	}
}

var day = fieldkit.Date{Year: 2026, Month: 5, Day: 14}

// randomEdit is something a person does: it may be refused as the journal refuses
// what contradicts the kit.
func randomEdit(rnd *rand.Rand, id string) func(*fieldkit.Kit) {
	what, a, b := rnd.IntN(20), rnd.IntN(4), rnd.IntN(1000)
	pick := func(k fieldkit.Kit, collection string) fieldkit.Record {
		c, _ := fieldkit.CollectionNamed(collection)
		list := c.All(k)
		if len(list) == 0 {
			return nil
		}
		return list[b%len(list)]
	}
	put := func(k *fieldkit.Kit, r fieldkit.Record) {
		c, _ := fieldkit.CollectionNamed(r.Collection())
		c.Put(k, r)
	}
	return func(k *fieldkit.Kit) {
		switch what {
		case 0:
			k.Name = fmt.Sprint("kit ", b)
		case 1, 2:
			put(k, fieldkit.Failure{ID: "failure-" + id, Rig: []string{"rig", "second"}[a%2], On: day, What: "snapped", Position: "joint-left", Used: []fieldkit.Item{{Type: fieldkit.SpareItem, Item: "joint", Count: 1}}})
			if s, ok := k.Spares.Find("spare-joint"); ok && s.Count > 0 {
				s.Count--
				put(k, s)
			}
		case 3:
			if f, ok := pick(*k, "failures").(fieldkit.Failure); ok {
				f.Why, f.Photos = fmt.Sprint("reason ", b), append(f.Photos[:len(f.Photos):len(f.Photos)], fmt.Sprintf("%064x", b))
				put(k, f)
			}
		case 4:
			put(k, fieldkit.Part{ID: "part-" + id, Kind: "hose", Name: fmt.Sprint("hose ", b)})
		case 5, 6:
			if p, ok := pick(*k, "positions").(fieldkit.Position); ok {
				if part := pick(*k, "parts"); part != nil {
					p.Part, p.Proof = part.Key(), &fieldkit.Proof{How: fieldkit.Seen, By: id}
					put(k, p)
				}
			}
		case 7:
			if p, ok := pick(*k, "positions").(fieldkit.Position); ok {
				p.Note = fmt.Sprint("note ", b)
				put(k, p)
			}
		case 8: // one position under another, perhaps around in a ring
			p, ok := pick(*k, "positions").(fieldkit.Position)
			if q, ok2 := k.Position([]string{"end-left", "joint-left", "joint-right", "hose"}[a]); ok && ok2 {
				p.Parent = q.ID
				put(k, p)
			}
		case 9, 10:
			names := []string{"parts", "positions", "systems", "rigs", "spares", "links", "donors", "trips", "bins", "failures"}
			if r := pick(*k, names[b%len(names)]); r != nil && (r.Collection() != "rigs" || a == 0) {
				deleteWhole(k, r)
			}
		case 11:
			if p, ok := pick(*k, "packs").(fieldkit.Pack); ok && len(p.Lines) > 0 {
				p.Lines = append([]fieldkit.PackLine{}, p.Lines...)
				p.Lines[b%len(p.Lines)].Packed = a%2 == 0
				put(k, p)
			}
		case 12:
			if p, ok := pick(*k, "packs").(fieldkit.Pack); ok {
				if part := pick(*k, "parts"); part != nil {
					p.Lines = append(append([]fieldkit.PackLine{}, p.Lines...), fieldkit.PackLine{Type: fieldkit.SpareItem, Item: part.Key(), Count: 1 + a})
					put(k, p)
				}
			}
		case 13:
			if p, ok := pick(*k, "parts").(fieldkit.Part); ok {
				p.Numbers = append(append([]fieldkit.Number{}, p.Numbers...), fieldkit.Number{Value: fmt.Sprint("K-", b), Issuer: fieldkit.MakerNumber})
				p.Price = &fieldkit.Money{Cents: int64(b), Currency: k.Currency}
				put(k, p)
			}
		case 14:
			k.Currency = []string{"USD", "CAD", "EUR", "AUD"}[a]
			for _, r := range fieldkit.Relabelled(*k, k.Currency) {
				put(k, r)
			}
		case 15:
			if d, ok := pick(*k, "donors").(fieldkit.Donor); ok {
				d.YearFrom, d.YearTo = 1950+b%50, 1950+b%50+a
				put(k, d)
			}
		case 16:
			if r, ok := pick(*k, "rigs").(fieldkit.Rig); ok {
				r.Traits = map[string]string{"hubs": fmt.Sprint(a), fmt.Sprint("trait-", b%5): "yes"}
				put(k, r)
			}
		case 17:
			put(k, fieldkit.Inspection{ID: "reading-" + id, Position: "joint-left", On: day, Name: "play", Value: fieldkit.Value{Dim: fieldkit.DimLength, Base: int64(b) * 1000}})
		case 18: // what was deleted is put back under its old ID, as an undo does
			put(k, fieldkit.Part{ID: "joint-b", Kind: "u-joint", Name: fmt.Sprint("axle U-joint ", b)})
		default:
			if s, ok := pick(*k, "spares").(fieldkit.Spare); ok {
				s.Count = b
				put(k, s)
			}
		}
	}
}

// deleteWhole deletes a record with what cannot stand without it, as the screens do.
func deleteWhole(k *fieldkit.Kit, r fieldkit.Record) {
	c, _ := fieldkit.CollectionNamed(r.Collection())
	c.Remove(k, r.Key())
	has := func(collection, id string) bool {
		c, _ := fieldkit.CollectionNamed(collection)
		return c.Index(*k, id) >= 0
	}
	for changed := true; changed; {
		changed = false
		for _, c := range fieldkit.Collections {
			for _, rec := range c.All(*k) {
				if !stands(rec, has) {
					c.Remove(k, rec.Key())
					changed = true
				} else if loose, yes := loosen(rec, has); yes {
					c.Put(k, loose)
					changed = true
				}
			}
		}
	}
}
