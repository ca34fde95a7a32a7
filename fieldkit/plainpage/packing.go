package plainpage

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

// PackingList is what goes along on a trip: bin by bin, with what is packed ticked,
// and what is still to buy.
func PackingList(sheet spares.Sheet, shopping []spares.Need, address string, first fieldkit.System) Page {
	var w writer
	t := sheet.Totals
	w.section("").tag("p", "big", fmt.Sprintf("%d of %d packed", t.Ticked, t.Lines))
	w.tag("p", "", joined(spares.Guess(t.Mass.Both(first), t.Typical.Mass), spares.Guess(t.Volume.Both(first), t.Typical.Volume)))
	for _, o := range t.Over {
		w.tag("p", "notfor", capital(o.Text(first)))
	}
	w.end()
	for _, b := range sheet.Bins {
		if len(b.Rows) > 0 {
			w.bin(b, first)
		}
	}
	if len(shopping) > 0 {
		w.section("To buy before leaving").raw("<ul class=\"list\">")
		for _, n := range shopping {
			cost, donor := "price not known", ""
			if n.Cost != nil {
				cost = n.Cost.String()
			}
			if n.For != "" {
				donor = "For " + n.For
			}
			w.entry(fmt.Sprintf("%d × %s", n.Count, n.Name), cost, donor, capital(strings.Join(n.Stores, ", ")))
		}
		w.raw("</ul>").end()
	}
	return Page{Address: address, Kind: "packing list", Title: sheet.Trip.Name, body: w.String()}
}

func (w *writer) bin(b spares.BinSheet, first fieldkit.System) {
	title := "In no bin yet"
	if b.Bin.ID != "" {
		title = b.Bin.Name
	}
	w.section(title).tag("p", "soft", joined(b.Rig, b.Bin.Place, spares.Guess(b.Mass.Both(first), b.Typical.Mass), fmt.Sprintf("%d of %d packed", b.Ticked, len(b.Rows))))
	w.raw("<ul class=\"list\">")
	for _, r := range b.Rows {
		state, short, weight := "to pack", "", "weight not known"
		if r.Line.Packed {
			state = "packed"
		}
		if r.Short > 0 {
			short = fmt.Sprintf("%d to buy", r.Short)
		}
		if r.Mass > 0 {
			weight = spares.Guess(r.Mass.Show(first), r.Typical.Mass)
		}
		w.entry(fmt.Sprintf("%d × %s", r.Line.Count, r.Name), joined(state, short, weight))
	}
	w.raw("</ul>").end()
}
