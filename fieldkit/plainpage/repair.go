package plainpage

import (
	"fmt"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// RepairUnderWay is a repair with all its steps, from the one it stands at: the
// caution first, then the step, the crew's note at it, then what follows.
func RepairUnderWay(kit fieldkit.Kit, cat fieldkit.Catalog, g repair.Guide, run fieldkit.Run, address string, first fieldkit.System) Page {
	w := stepWriter{kit: kit, cat: cat, guide: g.ID, first: first}
	rig, _ := kit.Rig(run.Rig)
	place := ""
	if p, ok := kit.Position(run.Position); ok {
		w.position, place = p, p.Title()
	}
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
		w.step(repair.Listed{Step: now.Step, OnlyFor: now.OnlyFor, Next: -1})
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
		w.step(l)
		w.raw("</li>\n")
	}
	w.raw("</ol>").end()
	w.bullets("Notes to steps that are not there any more", repair.StrayNotes(kit, []repair.Guide{g}, g.ID))
	w.section("May it be moved?")
	if g.Own {
		w.tag("p", "", "This repair does not say. Until you know, leave it standing.")
	} else {
		w.raw("<ul class=\"list\">")
		w.entry("As it stands, pushed or towed", capital(g.CanRoll(rig).Text(first)))
		w.entry("As it stands, driven", capital(g.CanDrive(rig).Text(first)))
		w.entry("On the field fix, driven", capital(g.CanDriveAfterFieldFix(rig).Text(first)))
		w.raw("</ul>")
	}
	w.end()
	w.bullets("After 10 km (6 mi)", g.Afterwards.After10km)
	w.tag("p", "soft", "Figures are starting figures: the maker's figure and instructions stand, and local rules and a licensed mechanic's word go before this page.")
	return Page{Address: address, Kind: "repair under way", Title: g.Title, body: w.String()}
}

// stepWriter writes the steps of one repair at one position of a kit.
type stepWriter struct {
	writer
	kit      fieldkit.Kit
	cat      fieldkit.Catalog
	guide    string // ID of the repair
	position fieldkit.Position
	first    fieldkit.System
}

// step writes the cautions of a step, then the step; Next below zero leaves out what
// follows.
func (w *stepWriter) step(l repair.Listed) {
	for _, c := range l.Step.Cautions {
		w.caution(strings.TrimSuffix("Caution, "+string(c.Kind), ", "), strings.TrimSpace(strings.Join([]string{c.Hazard, c.Harm, c.Avoid}, " ")))
	}
	for _, r := range l.Because {
		w.tag("p", "soft", "Not asked: "+r.Text())
	}
	if l.OnlyFor != "" {
		w.tag("p", "note", "Only for: "+l.OnlyFor)
	}
	w.tag("p", "do", l.Step.Text)
	if note := repair.NoteAt(w.kit, w.guide, l.Step.ID); note != "" {
		w.tag("p", "note", "Your note: "+note)
	}
	for _, words := range l.Step.TorqueWords(w.kit, w.position, w.first) {
		w.tag("p", "figure", capital(words))
	}
	for _, f := range l.Step.Figures {
		w.tag("p", "figure", capital(f.Text(w.first)))
	}
	var tools []string
	for _, kind := range l.Step.Tools {
		if t, ok := w.cat.Tool(kind); ok {
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
