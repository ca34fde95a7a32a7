package spares

import (
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// TakeAgain makes the list of an earlier trip the list of another: the same things in the
// same bins, as far as those go along, nothing ticked yet. What lay in no bin, or in one
// that stays at home, is shared out and stowed as Plan does. The list has no ID and no
// date; whoever keeps it gives it both.
func TakeAgain(kit fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip, before fieldkit.Pack) fieldkit.Pack {
	again := fieldkit.Pack{Trip: trip.ID, Never: before.Never, ByHand: true}
	for _, l := range before.Lines {
		l.Packed, l.Why = false, ""
		again.Lines = append(again.Lines, l)
	}
	m := newModel(kit, cat, guides, trip, nil)
	m.shareOut(again.Lines)
	stow(binsOf(kit, trip), again.Lines, m.article)
	m.aboard(again.Lines)
	return again
}
