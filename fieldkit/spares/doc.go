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
// one could be. What is proven, and where a bound is only a bound:
//
//   - Of a pool of spares with at most maxLoads ways to load it, every way is weighed up at
//     its exact worth; if all pools are such, the proof is of the problem itself, less a
//     minute for each piece of a spare and a second for each tool or pack (see exact).
//   - Of a larger pool only some loads are weighed up, and the bound takes every piece as
//     fitting every place at the hours of the best: the list says the gap, and is proved
//     only where value and bound meet.
//   - Of several rigs with limits of their own every line rides whole on one of them. If the
//     best list of all together cannot be shared out, the cases are planned one by one (see
//     planned); after maxCases of them the list is not called proved, and the gap is said.
//   - Bins are filled after the choice and bound nothing.
//   - A pool whose copies on board give more than maxStates courses of events counts too
//     low, never too high (see worthOf).
//
// What one line is good for is said in three ways: what leaving it at home costs with the
// rest as it is (Line.Saves), its share of the whole by a fair rule (Line.Share), and what
// leaving it at home costs once the rest is planned anew (Again.Without). How much more
// weight, money or space brings in what was left out is found by Again.Entry.
//
// It does not say whether a rig is fit to drive, does not count what cannot be
// given in hours (a failure that hurts someone is no matter of spares: see to it
// before leaving).
package spares
