// Package counter answers what to say and show at a parts counter so that a stranger
// hands over the right part, and which positions of a rig are not yet known well
// enough for that.
//
//	card, err := counter.CardFor(kit, catalog, graph, "pump-garrund", "")
//	fmt.Print(card.Text(fieldkit.Inch))               // to share or print
//	states := counter.Ready(kit, catalog, "hobnail")  // one a position
//	for _, gap := range counter.GapsWorthClosing(states) { // the most worthwhile first
//		fmt.Println(gap.Title, gap.What, gap.Why)
//	}
//
// A card names the donor, never the rig's papers, and says plainly what is not known.
//
// It does not decide whether a part in hand fits: it lists the measurements that do.
package counter
