package plainpage

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/findings"
)

// TripReport is a trip as it is told afterwards: who went, what broke and what mended
// it, what was measured, what was used and is to buy, what is due after it.
func TripReport(r findings.Report, address string, first fieldkit.System) Page {
	var w writer
	w.section("").tag("p", "big", r.Days())
	w.tag("p", "", joined(strings.Join(r.Rigs, " and "), r.Trip.Distance.Both(first), string(r.Trip.Terrain)))
	w.tag("p", "", joined(lostLine(r), crossings(r.Trip.Crossings)))
	w.tag("p", "soft", r.Trip.Note)
	w.end()
	w.told("What broke", "Nothing broke that was written down.", r.Failures)
	w.told("What was measured", "", r.Readings)
	if len(r.Restock) > 0 {
		w.section("Used, and to buy").raw("<ul class=\"list\">")
		for _, n := range r.Restock {
			buy := "none to buy"
			if n.Count > 0 {
				buy = fmt.Sprintf("%d to buy", n.Count)
			}
			w.entry(n.Name, joined(fmt.Sprintf("%d used", n.Used), fmt.Sprintf("%d left", n.Stock), buy))
		}
		w.raw("</ul>").end()
	}
	if len(r.Due) > 0 {
		w.section("Due after it").raw("<ul class=\"list\">")
		for _, d := range r.Due {
			w.entry(d.RigName+": "+d.Name, joined(capital(string(d.State)), d.Words(first)))
		}
		w.raw("</ul>").end()
	}
	return Page{Address: address, Kind: "trip report", Title: r.Trip.Name, body: w.String()}
}

func lostLine(r findings.Report) string {
	n := len(r.Failures)
	if n == 0 {
		return ""
	}
	noun := "failures"
	if n == 1 {
		noun = "failure"
	}
	return fmt.Sprintf("%d %s, %s lost", n, noun, r.Lost)
}

func crossings(n int) string {
	switch n {
	case 0:
		return ""
	case 1:
		return "1 deep crossing"
	}
	return fmt.Sprintf("%d deep crossings", n)
}

// told lists entries of the log; where there are none it says what that means, if
// anything.
func (w *writer) told(title, none string, list []findings.Told) {
	if len(list) == 0 && none == "" {
		return
	}
	w.section(title)
	if len(list) == 0 {
		w.tag("p", "", none).end()
		return
	}
	w.raw("<ul class=\"list\">")
	for _, t := range list {
		w.entry(t.What, append([]string{joined(t.On.Show(), t.At)}, t.Lines...)...)
	}
	w.raw("</ul>").end()
}
