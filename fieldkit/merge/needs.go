package merge

import (
	"slices"

	"trailfieldkit/fieldkit"
)

// stands reports whether everything is there that a record cannot do without.
func stands(r fieldkit.Record, has func(collection, id string) bool) bool {
	switch r := r.(type) {
	case fieldkit.Assembly:
		return has("rigs", r.Rig)
	case fieldkit.Position:
		return has("systems", r.System)
	case fieldkit.Link:
		return has("parts", r.For) && has("parts", r.With)
	case fieldkit.Bin:
		return has("rigs", r.Rig)
	case fieldkit.Spare:
		return has("parts", r.Part)
	case fieldkit.Pack:
		return has("trips", r.Trip)
	case fieldkit.Run:
		return has("rigs", r.Rig)
	case fieldkit.Failure:
		return has("rigs", r.Rig)
	case fieldkit.Inspection:
		return has("positions", r.Position)
	}
	return true
}

// loosen leaves out the references of a record that lead nowhere and that it can do
// without. It reports whether there were any.
func loosen(r fieldkit.Record, has func(collection, id string) bool) (fieldkit.Record, bool) {
	l := looser{has: has}
	switch r := r.(type) {
	case fieldkit.Position:
		l.clear(&r.Parent, "positions")
		if l.clear(&r.Part, "parts") {
			r.Proof = nil
		}
		return r, l.changed
	case fieldkit.Part:
		l.clear(&r.Donor, "donors")
		r.LookAlikes = slices.Clone(r.LookAlikes)
		for i := range r.LookAlikes {
			l.clear(&r.LookAlikes[i].Part, "parts")
		}
		return r, l.changed
	case fieldkit.Spare:
		l.clear(&r.Bin, "bins")
		return r, l.changed
	case fieldkit.Consumable:
		l.clear(&r.Bin, "bins")
		return r, l.changed
	case fieldkit.Tool:
		l.clear(&r.Bin, "bins")
		return r, l.changed
	case fieldkit.Trip:
		r.Rigs = slices.DeleteFunc(slices.Clone(r.Rigs), func(id string) bool { return l.gone("rigs", id) })
		r.Costs = slices.DeleteFunc(slices.Clone(r.Costs), func(c fieldkit.Cost) bool { return l.gone("positions", c.Position) })
		r.Carries = slices.DeleteFunc(slices.Clone(r.Carries), func(c fieldkit.Carries) bool { return l.gone("rigs", c.Rig) })
		r.Friends = slices.DeleteFunc(slices.Clone(r.Friends), func(f fieldkit.Lent) bool { return l.goneItem(f.Type, f.Item) })
		return r, l.changed
	case fieldkit.Pack:
		r.Lines = slices.DeleteFunc(slices.Clone(r.Lines), func(line fieldkit.PackLine) bool { return l.goneItem(line.Type, line.Item) })
		for i := range r.Lines {
			l.clear(&r.Lines[i].Bin, "bins")
			l.clear(&r.Lines[i].Rig, "rigs")
		}
		r.Never = l.items(r.Never)
		return r, l.changed
	case fieldkit.Run:
		l.clear(&r.Position, "positions")
		l.clear(&r.Failure, "failures")
		r.Used = l.items(r.Used)
		return r, l.changed
	case fieldkit.Failure:
		l.clear(&r.Trip, "trips")
		l.clear(&r.Position, "positions")
		l.clear(&r.Part, "parts")
		l.clear(&r.Run, "runs")
		r.Used = l.items(r.Used)
		return r, l.changed
	}
	return r, false
}

// looser notes whether anything was left out.
type looser struct {
	has     func(collection, id string) bool
	changed bool
}

func (l *looser) gone(collection, id string) bool {
	gone := id != "" && !l.has(collection, id)
	l.changed = l.changed || gone
	return gone
}

func (l *looser) clear(id *string, collection string) bool {
	gone := l.gone(collection, *id)
	if gone {
		*id = ""
	}
	return gone
}

func (l *looser) goneItem(typ fieldkit.ItemType, id string) bool {
	switch typ {
	case fieldkit.SpareItem:
		return l.gone("parts", id)
	case fieldkit.ConsumableItem:
		return l.gone("consumables", id)
	case fieldkit.ToolItem:
		return l.gone("tools", id)
	}
	return false
}

func (l *looser) items(list []fieldkit.Item) []fieldkit.Item {
	return slices.DeleteFunc(slices.Clone(list), func(one fieldkit.Item) bool { return l.goneItem(one.Type, one.Item) })
}
