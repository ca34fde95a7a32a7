package lookup

import (
	"trailfieldkit/fieldkit"
)

// Following gives the index of another state of the kit, as New would make it: only
// what the two do not have in common is made anew, so that it takes time by the edit
// and not by the kit. The index it is asked of is not to be used any more.
func (ix *Index) Following(kit fieldkit.Kit) *Index {
	b := ix.made
	t := compare(b.kit, kit)
	if t.all || len(t.parts)+len(t.positions) > len(b.entryOf)/4 || len(ix.entries) > 2*len(b.entryOf) {
		return New(kit, b.cat, ix.shelf) // it takes no longer, and leaves behind what is gone
	}
	b.kit = kit
	b.renew(t)
	return ix
}

// touched is what has to be said otherwise in another state of a kit.
type touched struct {
	was, is          fieldkit.Kit
	gone, came       []*fieldkit.Part
	parts, positions map[string]bool
	partsMoved       bool // some stand elsewhere in the list
	positionsMoved   bool
	donors, tools    bool
	all              bool
}

func compare(was, is fieldkit.Kit) *touched {
	t := &touched{was: was, is: is, parts: map[string]bool{}, positions: map[string]bool{}}
	t.gone, t.came = fieldkit.Changed(was.Parts, is.Parts)
	each(t.gone, t.came, t.part)
	gone, came := fieldkit.Changed(was.Positions, is.Positions)
	t.partsMoved = moved(was.Parts, is.Parts, t.gone, t.came)
	t.positionsMoved = moved(was.Positions, is.Positions, gone, came)
	each(gone, came, func(p *fieldkit.Position) {
		t.position(p)
		for _, below := range is.PositionsUnder(p.ID) {
			t.position(below)
		}
	})
	sparesGone, sparesCame := fieldkit.Changed(was.Spares, is.Spares)
	each(sparesGone, sparesCame, func(s *fieldkit.Spare) { t.parts[s.Part] = true })

	// An edit of these may touch many parts, but is rare.
	t.all = (len(was.Rigs) > 1) != (len(is.Rigs) > 1)
	rigs := otherwise(was.Rigs, is.Rigs, func(a, b fieldkit.Rig) bool { return a.Name == b.Name })
	systems := otherwise(was.Systems, is.Systems, func(a, b fieldkit.Assembly) bool {
		return a.Name == b.Name && a.Rig == b.Rig
	})
	for _, s := range is.Systems {
		if rigs[s.Rig] {
			systems[s.ID] = true
		}
	}
	for id := range systems {
		for _, p := range is.PositionsIn(id) {
			t.position(p)
		}
	}
	donors := otherwise(was.Donors, is.Donors, func(a, b fieldkit.Donor) bool {
		return a.Title() == b.Title() && a.Axle == b.Axle && a.Note == b.Note && a.VIN == b.VIN && a.YearFrom == b.YearFrom && a.YearTo == b.YearTo
	})
	bins := otherwise(was.Bins, is.Bins, func(a, b fieldkit.Bin) bool { return a.Name == b.Name })
	if len(donors) > 0 {
		for _, p := range is.Parts.Refs() {
			if donors[p.Donor] {
				t.parts[p.ID] = true
			}
		}
	}
	if len(bins) > 0 {
		for _, s := range is.Spares.Refs() {
			if bins[s.Bin] {
				t.parts[s.Part] = true
			}
		}
	}
	t.donors = !one(was.Donors, is.Donors)
	t.tools = len(bins) > 0 || !one(was.Tools, is.Tools) || !one(was.Consumables, is.Consumables)
	return t
}

func each[T any](gone, came []*T, do func(*T)) {
	for _, list := range [][]*T{gone, came} {
		for _, r := range list {
			do(r)
		}
	}
}

// moved reports whether an edit took a record out of a list or put one in between.
func moved[T fieldkit.Record](was, is fieldkit.List[T], gone, came []*T) bool {
	for _, r := range gone {
		if is.Place((*r).Key()) != was.Place((*r).Key()) {
			return true
		}
	}
	for _, r := range came {
		if at := is.Place((*r).Key()); at < was.Len() && at != was.Place((*r).Key()) {
			return true
		}
	}
	return false
}

// part says also where it is fitted: a position is found by itself as long as its part
// is not known.
func (t *touched) part(p *fieldkit.Part) {
	t.parts[p.ID] = true
	for _, at := range t.is.FittedAt(p.ID) {
		t.positions[at.ID] = true
	}
}

func (t *touched) position(p *fieldkit.Position) {
	t.positions[p.ID], t.parts[p.Part] = true, true
}

// otherwise gives the IDs of the records that are not alike in two lists, or only in one
// of them.
func otherwise[T fieldkit.Record](was, is []T, alike func(a, b T) bool) map[string]bool {
	ids := map[string]bool{}
	if one(was, is) {
		return ids
	}
	for _, r := range was {
		ids[r.Key()] = true
	}
	for _, r := range is {
		before, had := fieldkit.Find(was, r.Key())
		ids[r.Key()] = !had || !alike(before, r)
	}
	for id, differs := range ids {
		if !differs {
			delete(ids, id)
		}
	}
	return ids
}

// one reports whether two slices are the same.
func one[T any](a, b []T) bool { return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0]) }

// renew takes out the entries of what was touched, and makes them anew.
func (b *builder) renew(t *touched) {
	more := map[thing]int{} // parts of a kind, from a donor
	count := func(p *fieldkit.Part, by int) {
		b.count(p, by)
		more[thing{KindHit, p.Kind}] += by
		more[thing{DonorHit, p.Donor}] += by
	}
	for _, p := range t.gone {
		count(p, -1)
	}
	for _, p := range t.came {
		count(p, 1)
	}
	if t.donors {
		clear(b.donorPhrases)
	}
	for _, d := range t.was.Donors {
		if t.donors || more[thing{DonorHit, d.ID}] != 0 {
			b.drop(DonorHit, d.ID)
		}
	}
	for i, d := range t.is.Donors {
		if t.donors || more[thing{DonorHit, d.ID}] != 0 {
			b.donor(i, d)
		}
	}
	for i, k := range b.cat.PartKinds {
		if more[thing{KindHit, k.ID}] != 0 {
			b.drop(KindHit, k.ID)
			b.kind(i)
		}
	}
	for id := range t.positions {
		b.drop(PositionHit, id)
		if i := t.is.Positions.Place(id); i >= 0 {
			b.position(i, t.is.Positions.Ref(i))
		}
	}
	for id := range t.parts {
		b.drop(PartHit, id)
		if i := t.is.Parts.Place(id); i >= 0 {
			b.part(i, t.is.Parts.Ref(i))
		}
	}
	if t.tools {
		for _, tool := range t.was.Tools {
			b.drop(ToolHit, tool.ID)
		}
		for _, c := range t.was.Consumables {
			b.drop(ConsumableHit, c.ID)
		}
		b.tools()
	}
	if t.positionsMoved {
		for i, p := range t.is.Positions.Refs() {
			b.stands(PositionHit, p.ID, i)
		}
	}
	if t.partsMoved {
		for i, p := range t.is.Parts.Refs() {
			b.stands(PartHit, p.ID, i)
		}
	}
}

// stands says anew where an entry comes among its like.
func (b *builder) stands(kind Kind, id string, place int) {
	if e, is := b.entryOf[thing{kind, id}]; is {
		b.ix.entries[e].rank = rankOf(kind, place)
	}
}
