package app

import (
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
	"trailfieldkit/fieldkit/spares"
)

// planPack plans the list of a trip, around what was set by hand where there is a
// list. What is ticked lies in its bin already: it stays too, though it is free to
// go the next time once the tick is taken off.
func planPack(k fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip) fieldkit.Pack {
	before, ok := packOf(k, trip.ID)
	if !ok {
		return spares.Plan(k, cat, guides, trip, nil).Pack
	}
	ticked := map[spares.Ref]bool{}
	before.Lines = slices.Clone(before.Lines)
	for i, l := range before.Lines {
		if l.Packed && !l.Pinned {
			ticked[spares.RefOf(l)] = true
			before.Lines[i].Pinned = true
		}
	}
	pack := spares.Plan(k, cat, guides, trip, &before).Pack
	for i, l := range pack.Lines {
		if ticked[spares.RefOf(l)] {
			pack.Lines[i].Pinned = false
		}
	}
	return pack
}
