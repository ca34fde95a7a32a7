package plainpage

import (
	"fmt"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// RepairUnderWay is a repair with all its steps, from the one it stands at: the
// caution first, then the step, then what follows.
func RepairUnderWay(g repair.Guide, run fieldkit.Run, rig fieldkit.Rig, place string, cat fieldkit.Catalog, address string, first fieldkit.System) Page {
	var w writer
	now := repair.Current(g, run, rig)
	w.section("").tag("p", "lead", joined(rig.Name, place))
	if now.Ended {
		w.tag("p", "big", "All steps done")
	} else {
		w.tag("p", "big", fmt.Sprintf("Step %d of about %d", now.Number, now.About))
	}
	w.tag("p", "note", now.Moved).end()
	w.bullets("Stop at once if", g.StopSigns)
	if !now.Ended {
		w.section("Now: " + string(now.Step.Stage))
		w.step(repair.Listed{Step: now.Step, OnlyFor: now.OnlyFor, Next: -1}, cat, first)
		w.end()
	}
	w.section("All steps").raw("<ol class=\"steps\">")
	for _, l := range g.Checklist(rig) {
		state := ""
		switch {
		case !now.Ended && l.Step.ID == now.Step.ID:
			state = "You are here"
		case slices.Contains(run.Path, l.Step.ID):
			state = strings.TrimSuffix("Done: "+run.Answers[l.Step.ID], ": ")
		}
		w.raw("<li>").tag("span", "tag", state)
		w.step(l, cat, first)
		w.raw("</li>\n")
	}
	w.raw("</ol>").end()
	w.section("May it be moved?").raw("<ul class=\"list\">")
	w.entry("As it stands, pushed or towed", capital(g.CanRoll(rig).Text(first)))
	w.entry("As it stands, driven", capital(g.CanDrive(rig).Text(first)))
	w.entry("On the field fix, driven", capital(g.CanDriveAfterFieldFix(rig).Text(first)))
	w.raw("</ul>").end()
	w.bullets("After 10 km (6 mi)", g.Afterwards.After10km)
	w.tag("p", "soft", "Figures are starting figures: the maker's figure and instructions stand, and local rules and a licensed mechanic's word go before this page.")
	return Page{Address: address, Kind: "repair under way", Title: g.Title, body: w.String()}
}

// step writes the cautions of a step, then the step; Next below zero leaves out what
// follows.
func (w *writer) step(l repair.Listed, cat fieldkit.Catalog, first fieldkit.System) {
	for _, c := range l.Step.Cautions {
		w.caution("Caution, "+string(c.Kind), strings.Join([]string{c.Hazard, c.Harm, c.Avoid}, " "))
	}
	for _, r := range l.Because {
		w.tag("p", "soft", "Not asked: "+r.Text())
	}
	if l.OnlyFor != "" {
		w.tag("p", "note", "Only for: "+l.OnlyFor)
	}
	w.tag("p", "do", l.Step.Text)
	for _, t := range l.Step.Torques {
		w.tag("p", "figure", capital(t.Text(first)))
	}
	for _, f := range l.Step.Figures {
		w.tag("p", "figure", capital(f.Text(first)))
	}
	var tools []string
	for _, kind := range l.Step.Tools {
		if t, ok := cat.Tool(kind); ok {
			tools = append(tools, t.Name)
		}
	}
	if len(tools) > 0 {
		w.tag("p", "soft", "In hand: "+strings.Join(tools, "; "))
	}
	if l.Next < 0 {
		return
	}
	for _, way := range l.Ways {
		w.tag("p", "way", capital(way.Answer)+": go to "+repair.StepWords(way.To))
	}
	if !l.Step.Asks() && l.Next != l.Number+1 {
		w.tag("p", "way", "Then go to "+repair.StepWords(l.Next))
	}
}
