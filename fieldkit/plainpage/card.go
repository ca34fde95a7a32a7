package plainpage

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/counter"
)

// Card is a counter card: what to ask for, for which donor, by which numbers and
// measurements.
func Card(c counter.Card, address string, first fieldkit.System) Page {
	var w writer
	w.section("").tag("p", "lead", capital(c.Ask)+".")
	if c.Donor != "" {
		w.raw("<div class=\"donor\">").tag("p", "", "It is from a").tag("p", "big", c.Donor).tag("p", "", c.DonorNote).raw("</div>\n")
	}
	w.tag("p", "notfor", capital(c.NotFor)).end()
	if len(c.Numbers) > 0 {
		w.section("Numbers")
		for _, n := range c.Numbers {
			proof := n.Proof
			if !n.Proven {
				proof = "not proven: " + n.Proof
			}
			w.raw("<div class=\"number\">").tag("p", "stamp", n.Value).tag("p", "", joined(n.Label, proof)).raw("</div>\n")
		}
		w.end()
	}
	for _, text := range c.Cautions {
		w.caution("Take care", text)
	}
	if len(c.Checks) > 0 {
		w.section("Measure before you pay").raw("<ul class=\"list\">")
		for _, check := range c.Checks {
			w.check(check, first)
		}
		w.raw("</ul>").end()
	}
	w.bullets("Not known", c.Missing)
	w.bullets("Buy with it", c.BuyWith)
	if len(c.StandIns) > 0 {
		w.section("If they have none, then this").raw("<ul class=\"list\">")
		for _, in := range c.StandIns {
			w.standIn(in)
		}
		w.raw("</ul>").end()
	}
	w.lookAlikes(c)
	if len(c.Stores) > 0 {
		w.section("Where to ask").raw("<ul class=\"list\">")
		for _, s := range c.Stores {
			w.entry(s.Name, "Say: "+s.Say)
		}
		w.raw("</ul>").end()
	}
	return Page{Address: address, Kind: "counter card", Title: capital(c.Title), body: w.String()}
}

func (w *writer) check(c counter.Check, first fieldkit.System) {
	value := "not known"
	if c.Measured {
		value = c.Value.Both(first)
	}
	how, wrong, worn := c.How, "", ""
	if c.Must {
		how = joined("decides", c.How)
	}
	if c.Why != "" {
		wrong = "If it differs: " + c.Why
	}
	if c.Worn {
		worn = "Ours was measured on a worn part"
	}
	w.raw("<li>").tag("b", "", capital(c.Name)).tag("span", "value", value)
	for _, s := range []string{capital(how), wrong, worn} {
		w.tag("span", "", s)
	}
	w.raw("</li>\n")
}

func (w *writer) standIn(in counter.StandInLine) {
	changes, donor := "", ""
	if len(in.Changes) > 0 {
		changes = "Changes: " + strings.Join(in.Changes, "; ")
	}
	if in.Donor != "" {
		donor = "From " + in.Donor
	}
	stock := ""
	if in.Stock > 0 {
		stock = fmt.Sprintf("%d in stock", in.Stock)
	}
	w.entry(in.Name, joined(append([]string{string(in.Grade)}, append(in.Numbers, stock)...)...), changes, donor, in.Chain, in.Doubt)
}

func (w *writer) lookAlikes(c counter.Card) {
	if len(c.LookAlikes)+len(c.DoesNotFit) == 0 {
		return
	}
	w.section("Looks like it, does not fit").raw("<ul class=\"list\">")
	for _, l := range c.LookAlikes {
		w.entry(l.Name, "Tell them apart: "+l.Tell)
	}
	for _, r := range c.DoesNotFit {
		w.entry(r.Name, joined(r.Numbers...), r.Why)
	}
	w.raw("</ul>").end()
}
