// Package spares answers what to carry: how likely each position is to fail on a
// trip, and which spares, tools and consumables save the most time within the
// weight, the space and the money there is.
//
//	l := spares.LikelihoodOf(kit, cat, trip, position)        // l.Probability, l.Evidence
//	p := spares.Plan(kit, cat, guides, trip, nil)             // p.Lines say why, p.Notes what is guessed
//	pack := spares.Tick(p.Pack, spares.Ref{Type: fieldkit.SpareItem, Item: "seal"}, true)
//	p = spares.Plan(kit, cat, guides, trip, &pack)            // plans again, keeping pins, bans and ticks
//	p = spares.Explain(kit, cat, guides, trip, pack)          // what a list changed by hand is good for
//	fmt.Print(spares.PackText(kit, cat, pack, fieldkit.Inch)) // to share or print
//	buy := spares.Restock(kit, cat, trip)                     // after coming home
//
// The value of a list is an expected time: see problem for what exactly is counted.
// The choice never breaks a limit and is proven to be the best, or says how much better
// one could be (see exact).
//
// It does not say whether a rig is fit to drive, does not count what cannot be
// given in hours (a failure that hurts someone is no matter of spares: see to it
// before leaving).
package spares
