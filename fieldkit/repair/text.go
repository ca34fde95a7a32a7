package repair

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
)

// lineWidth is where a printed checklist wraps: what a narrow page and a text
// message both show.
const lineWidth = 76

// Text prints the whole checklist for a rig, to share or to carry on paper: only
// the steps this rig may come to, numbered, with a box to tick, each caution in
// front of its step. Names of tools and parts are those of the catalog.
func (g Guide) Text(cat fieldkit.Catalog, rig fieldkit.Rig, first fieldkit.System) string {
	g = g.For(rig)
	p := &printer{first: first}
	p.head(g, cat, rig)
	p.steps(g, rig)
	p.list("After 10 km (6 mi)", g.Afterwards.After10km)
	p.list("At home", g.Afterwards.AtHome)
	p.line("")
	p.wrap(0, "", "Figures are starting figures: the maker's figure and instructions stand, and local rules and a licensed mechanic's word go before this list.")
	return p.b.String()
}

type printer struct {
	b     strings.Builder
	first fieldkit.System
}

func (p *printer) head(g Guide, cat fieldkit.Catalog, rig fieldkit.Rig) {
	title := strings.ToUpper(g.Title)
	if rig.Name != "" {
		title += " - " + rig.Name
	}
	p.line(title)
	p.wrap(0, "", g.Summary)
	p.line("")
	p.wrap(0, "", fmt.Sprintf("Time: %s. Hands: %d.", g.Time, g.Hands))
	p.movement("May it be moved as it stands", g.CanRoll(rig), cat)
	p.movement("May it be driven as it stands", g.CanDrive(rig), cat)
	p.movement("May it be driven on the field fix", g.CanDriveAfterFieldFix(rig), cat)
	p.wrap(2, "Field fix: ", g.FieldFix)
	p.wrap(2, "Proper fix: ", g.ProperFix)
	p.list("Stop at once if", g.StopSigns)
	p.list("Tools", toolLines(g, cat))
	p.list("Used up", consumableLines(g, cat, p.first))
	p.list("Parts for the proper fix", partLines(g, cat))
}

func (p *printer) movement(question string, m Movement, cat fieldkit.Catalog) {
	p.wrap(2, question+"? ", m.Text(p.first)+".")
	for _, trait := range m.Ask {
		t, _ := cat.Trait(trait)
		p.wrap(2, "  It hangs on the "+named(t.Name, trait)+". ", t.Ask)
	}
}

func toolLines(g Guide, cat fieldkit.Catalog) (lines []string) {
	for _, n := range g.Tools {
		k, _ := cat.Tool(n.Kind)
		lines = append(lines, times(n.Count)+named(k.Name, n.Kind)+": "+n.Why+unless(n.Optional, " (can be done without)"))
	}
	return lines
}

func consumableLines(g Guide, cat fieldkit.Catalog, first fieldkit.System) (lines []string) {
	for _, n := range g.Consumables {
		k, _ := cat.Consumable(n.Kind)
		line := named(k.Name, n.Kind)
		if k.Grade != "" {
			line += " (" + k.Grade + ")"
		}
		lines = append(lines, line+": "+n.Amount.Both(first)+unless(n.Optional, " (can be done without)"))
	}
	return lines
}

func partLines(g Guide, cat fieldkit.Catalog) (lines []string) {
	for _, n := range g.Parts {
		k, _ := cat.PartKind(n.Kind)
		lines = append(lines, times(n.Count)+named(k.Name, n.Kind)+unless(n.Optional, " (if the old one is bad)"))
	}
	return lines
}

func times(n int) string {
	if n == 1 {
		return ""
	}
	return fmt.Sprintf("%d x ", n)
}

// unless adds what makes a line optional.
func unless(optional bool, words string) string {
	if optional {
		return words
	}
	return ""
}

// steps prints what this rig may come to, in the order of the list.
func (p *printer) steps(g Guide, rig fieldkit.Rig) {
	stage := Stage("")
	for _, l := range g.Checklist(rig) {
		if l.Step.Stage != stage {
			stage = l.Step.Stage
			p.line("")
			p.line("== " + strings.ToUpper(string(stage)) + " ==")
		}
		for _, r := range l.Because {
			p.wrap(8, "        ", "("+r.Text()+")")
		}
		p.step(l)
	}
}

func (p *printer) step(l Listed) {
	for _, c := range l.Step.Cautions {
		p.wrap(5, strings.TrimSuffix("  !! CAUTION, "+string(c.Kind), ", ")+": ", c.Hazard+" "+c.Harm+" "+c.Avoid)
	}
	only := ""
	if l.OnlyFor != "" {
		only = "(only for " + l.OnlyFor + ") "
	}
	p.wrap(8, fmt.Sprintf("[ ] %2d  ", l.Number), only+l.Step.Text)
	for _, t := range l.Step.Torques {
		p.wrap(10, "        tighten ", t.Text(p.first))
	}
	for _, f := range l.Step.Figures {
		p.wrap(10, "        limit ", f.Text(p.first))
	}
	for _, w := range l.Ways {
		p.wrap(10, "        - ", w.Answer+": go to "+StepWords(w.To))
	}
	if !l.Step.Asks() && l.Next != l.Number+1 {
		p.wrap(10, "        ", "then go to "+StepWords(l.Next))
	}
}

// StepWords names a step of a checklist by its number; 0 is the end.
func StepWords(number int) string {
	if number == 0 {
		return "the end"
	}
	return fmt.Sprintf("step %d", number)
}

func (p *printer) line(text string) { p.b.WriteString(text + "\n") }

func (p *printer) list(title string, lines []string) {
	if len(lines) == 0 {
		return
	}
	p.line("")
	p.line(title + ":")
	for _, l := range lines {
		p.wrap(4, "  - ", l)
	}
}

// wrap breaks text at lineWidth; lines after the first hang that many columns in.
func (p *printer) wrap(hang int, lead, text string) {
	line := lead
	for i, w := range strings.Fields(text) {
		switch {
		case i == 0:
			line += w
		case len([]rune(line))+1+len([]rune(w)) > lineWidth:
			p.line(line)
			line = strings.Repeat(" ", hang) + w
		default:
			line += " " + w
		}
	}
	p.line(line)
}
