package spares

import (
	"cmp"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/likelihood"
	"trailfieldkit/fieldkit/order"
	"trailfieldkit/fieldkit/repair"
)

// risk is one position that may fail on the trip, whether or not a spare could help.
type risk struct {
	position      fieldkit.Position
	likelihood    Likelihood
	cost          Cost
	expected      float64 // failures over the trip
	without, with Hours   // what a failure counts, see Cost.Counts
	demand        int     // of the problem, -1 for none
}

// Loss is what one position may cost on a trip.
type Loss struct {
	Position   fieldkit.Position
	Rig        fieldkit.Rig
	Likelihood Likelihood
	Cost       Cost
	Avoids     Hours // expected, by carrying what fixes it: failures × what a fix saves, in the trip's yardstick
}

// Guessed reports that something of it rests on a starting guess.
func (l Loss) Guessed() bool { return l.Likelihood.Guessed() || l.Cost.Guessed() }

// Losses lists what the positions of a trip's rigs may cost, what is worth most to
// carry against first.
func Losses(kit fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip) (list []Loss) {
	for _, id := range rigsOf(trip) {
		rig, ok := kit.Rig(id)
		if !ok {
			continue
		}
		look := likelihood.Look(kit, cat, trip, rig)
		for _, p := range kit.PositionsOf(id) {
			l := look.Of(p)
			if l.Expected <= 0 {
				continue
			}
			cost := CostOf(cat, guides, trip, rig, p)
			without, with := cost.Counts(trip)
			list = append(list, Loss{p, rig, l, cost, Hours(l.Expected) * max(without-with, 0)})
		}
	}
	order.By(list, func(a, b Loss) int {
		return cmp.Or(cmp.Compare(b.Avoids, a.Avoids), strings.Compare(a.Position.ID, b.Position.ID))
	})
	return list
}
