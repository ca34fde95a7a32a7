package spares

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
)

// PackText prints a packing list to share or to take along on paper: bin by bin with
// boxes to tick, weights in the system read first with the other in brackets, what
// is still to buy and where, and what stays at home.
func PackText(kit fieldkit.Kit, cat fieldkit.Catalog, pack fieldkit.Pack, first fieldkit.System) string {
	var b strings.Builder
	p := printer{&b, kit, cat, first}
	sheet := SheetOf(kit, cat, pack)
	p.heading(sheet.Trip)
	shown := ""
	for _, bin := range sheet.Bins {
		if len(bin.Rows) == 0 {
			continue
		}
		if len(sheet.Rigs) > 1 && bin.RigID != shown {
			p.rig(sheet, bin.RigID)
			shown = bin.RigID
		}
		p.bin(bin)
	}
	p.friends(sheet.Trip)
	if sheet.Totals.Lines == 0 {
		p.line("\nNothing is on the list yet.")
	} else {
		p.totals(sheet.Totals)
	}
	p.shopping(Shopping(kit, cat, pack), sheet.Totals)
	p.atHome(pack)
	return b.String()
}

// printer writes the parts of a packing list.
type printer struct {
	*strings.Builder
	kit   fieldkit.Kit
	cat   fieldkit.Catalog
	first fieldkit.System
}

func (p printer) line(format string, args ...any) {
	p.WriteString(strings.TrimRight(fmt.Sprintf(format, args...), " ") + "\n")
}

func (p printer) heading(t fieldkit.Trip) {
	name := t.Name
	if name == "" {
		name = "a trip the kit does not hold"
	}
	p.line("PACKING LIST: %s", name)
	var facts []string
	if !t.Start.IsZero() {
		facts = append(facts, t.Start.Show())
	}
	if t.Days > 0 {
		facts = append(facts, countOf(t.Days, "day", "days"))
	}
	if t.Distance > 0 {
		facts = append(facts, t.Distance.Both(p.first))
	}
	if t.Terrain != "" {
		facts = append(facts, string(t.Terrain))
	}
	if len(facts) > 0 {
		p.line("%s", strings.Join(facts, ", "))
	}
	var rigs []string
	for _, id := range t.Rigs {
		if r, ok := p.kit.Rig(id); ok {
			rigs = append(rigs, r.Name)
		}
	}
	if len(rigs) > 0 {
		p.line("Rigs: %s", strings.Join(rigs, ", "))
	}
}

// rig heads what one rig of several carries.
func (p printer) rig(s Sheet, id string) {
	for _, r := range s.Rigs {
		if r.Rig.ID != id {
			continue
		}
		mass, volume := Guess(r.Mass.Both(p.first), r.Typical.Mass), Guess(r.Volume.Both(p.first), r.Typical.Volume)
		if r.Carries.Mass > 0 {
			mass += " of " + r.Carries.Mass.Both(p.first)
		}
		if r.Carries.Volume > 0 {
			volume += " of " + r.Carries.Volume.Both(p.first)
		}
		p.line("\n%s: %s, %s, %s", strings.ToUpper(r.Rig.Name), countOf(r.Lines, "line", "lines"), mass, volume)
		return
	}
	p.line("\nON NO RIG YET")
}

// friends lists what rides in friends' rigs.
func (p printer) friends(t fieldkit.Trip) {
	if len(t.Friends) == 0 {
		return
	}
	p.line("\nIn friends' rigs, at hand")
	for _, f := range t.Friends {
		who := ""
		if f.Who != "" {
			who = "; " + f.Who
		}
		p.line("  %d x %s%s", f.Count, articleOf(p.kit, p.cat, Ref{f.Type, f.Item}).name, who)
	}
}

func (p printer) bin(s BinSheet) {
	title := "In no bin"
	if s.Bin.ID != "" {
		title = s.Bin.Name
		if s.Bin.Place != "" {
			title += ", " + s.Bin.Place
		}
	}
	if s.Rig != "" {
		title += " (" + s.Rig + ")"
	}
	p.line("\n%s", title)
	amounts := Guess(s.Mass.Both(p.first), s.Typical.Mass)
	if s.Bin.MassLimit > 0 {
		amounts += " of " + s.Bin.MassLimit.Both(p.first)
	}
	amounts += "; " + Guess(s.Volume.Both(p.first), s.Typical.Volume)
	if s.Bin.VolumeLimit > 0 {
		amounts += " of " + s.Bin.VolumeLimit.Both(p.first)
	}
	p.line("  %s", amounts)
	for _, r := range s.Rows {
		p.row(r)
	}
}

func (p printer) row(r Row) {
	box := "[ ]"
	if r.Line.Packed {
		box = "[x]"
	}
	buy := ""
	if r.Short > 0 {
		buy = fmt.Sprintf("; buy %d", r.Short)
	}
	weight := "weight not known"
	if r.Mass > 0 {
		weight = Guess(r.Mass.Both(p.first), r.Typical.Mass)
	}
	p.line("  %s %d x %s; %s%s", box, r.Line.Count, r.Name, weight, buy)
}

func (p printer) totals(t Totals) {
	p.line("\nTogether: %s, %s; %s; %d packed", countOf(t.Lines, "line", "lines"), Guess(t.Mass.Both(p.first), t.Typical.Mass), Guess(t.Volume.Both(p.first), t.Typical.Volume), t.Ticked)
	for _, o := range t.Over {
		p.line("OVER: %s", o.Text(p.first))
	}
}

func (p printer) shopping(needs []Need, t Totals) {
	if len(needs) == 0 {
		return
	}
	p.line("\nTo buy before leaving")
	for _, n := range needs {
		cost := "price not known"
		if n.Cost != nil {
			cost = n.Cost.String()
		}
		p.line("  [ ] %d x %s; %s", n.Count, n.Name, cost)
		if n.For != "" {
			p.line("      for a %s", n.For)
		}
		if len(n.Stores) > 0 {
			p.line("      at: %s", strings.Join(n.Stores, ", "))
		}
	}
	unpriced := ""
	if t.Unpriced > 0 {
		unpriced = fmt.Sprintf(", and %s whose price is not known", countOf(t.Unpriced, "line", "lines"))
	}
	p.line("  Together %s%s", t.Spend, unpriced)
}

func (p printer) atHome(pack fieldkit.Pack) {
	if len(pack.Never) == 0 {
		return
	}
	p.line("\nAt home on purpose")
	for _, n := range pack.Never {
		p.line("  %s", articleOf(p.kit, p.cat, Ref{n.Type, n.Item}).name)
	}
}
