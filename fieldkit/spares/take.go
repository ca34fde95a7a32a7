package spares

import (
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// TakeAgain makes the list of an earlier trip the list of another: the same things in the
// same bins, as far as those go along, nothing ticked yet. What lay in no bin, or in one
// that stays at home, is shared out and stowed as Plan does. here is the list that the
// trip has so far, without lines: its ID stays, and so does what it leaves at home. The
// list gets no date; whoever keeps it gives it one.
func TakeAgain(kit fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip, before, here fieldkit.Pack) fieldkit.Pack {
	again := here
	again.Trip, again.Lines, again.Never, again.ByHand = trip.ID, nil, before.Never, true
	for _, l := range before.Lines {
		l.Packed, l.Why = false, ""
		again.Lines = append(again.Lines, l)
	}
	for _, n := range here.Never {
		again = Ban(again, Ref{n.Type, n.Item})
	}
	m := newModel(kit, cat, guides, trip, nil, nil)
	m.shareOut(again.Lines)
	stow(binsOf(kit, trip), again.Lines, m.article)
	m.aboard(again.Lines)
	return again
}
