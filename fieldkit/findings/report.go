package findings

import (
	"fmt"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
	"trailfieldkit/fieldkit/spares"
)

// Report is a trip as it is told afterwards: to print, to keep, to send.
type Report struct {
	Trip     fieldkit.Trip
	Crew     string // the kit's name
	Rigs     []string
	Failures []Told
	Lost     fieldkit.Minutes
	Readings []Told
	Restock  []spares.Need // what was used and what of it is to buy
	Due      []Due         // due now or soon on its rigs
}

// Told is one entry of the log in words.
type Told struct {
	On    fieldkit.Date
	At    string // "Hobnail: front axle joint, left"
	What  string
	Lines []string
}

// ReportOf tells a trip, with what is due on its rigs on a day.
func ReportOf(kit fieldkit.Kit, cat fieldkit.Catalog, trip fieldkit.Trip, today fieldkit.Date, first fieldkit.System) Report {
	r := Report{Trip: trip, Crew: kit.Name, Restock: spares.Restock(kit, cat, trip)}
	for _, id := range trip.Rigs {
		rig, _ := kit.Rig(id)
		r.Rigs = append(r.Rigs, rig.Name)
	}
	for _, f := range kit.Failures.All() {
		if trip.Holds(f) {
			r.Failures = append(r.Failures, toldFailure(kit, f, first))
			r.Lost += f.Lost
		}
	}
	for _, i := range kit.Inspections.All() {
		p, _ := kit.Position(i.Position)
		rig, _ := kit.RigOf(p)
		on := !trip.Start.IsZero() && !i.On.Before(trip.Start) && !trip.End().Before(i.On)
		if on && slices.Contains(trip.Rigs, rig.ID) {
			r.Readings = append(r.Readings, Told{On: i.On, At: rig.Name + ": " + p.Title(), What: i.Name + " " + i.Value.Both(first), Lines: nonEmpty(i.How, i.Note)})
		}
	}
	byDay := func(a, b Told) int { return a.On.Compare(b.On) }
	order.By(r.Failures, byDay)
	order.By(r.Readings, byDay)
	for _, d := range DueOn(kit, cat, today) {
		if d.State != Later && slices.Contains(trip.Rigs, d.Rig) {
			r.Due = append(r.Due, d)
		}
	}
	return r
}

// Days says when a trip was.
func (r Report) Days() string {
	if r.Trip.Start.IsZero() {
		return counted(max(r.Trip.Days, 1), "day")
	}
	if r.Trip.End() == r.Trip.Start {
		return r.Trip.Start.Show()
	}
	return r.Trip.Start.Show() + " to " + r.Trip.End().Show()
}

func toldFailure(kit fieldkit.Kit, f fieldkit.Failure, first fieldkit.System) Told {
	rig, _ := kit.Rig(f.Rig)
	at := rig.Name
	if p, ok := kit.Position(f.Position); ok {
		at += ": " + p.Title()
	}
	t := Told{On: f.On, At: at, What: f.What}
	odometer, before, lost := "", "", ""
	if f.Odometer > 0 {
		odometer = f.Odometer.Both(first)
	}
	if !f.Before.IsZero() {
		before = f.Before.Both(first)
	}
	if f.Lost > 0 {
		lost = f.Lost.String()
	}
	var used []string
	for _, u := range f.Used {
		name, ok := kit.ItemName(u.Type, u.Item)
		if !ok {
			name = u.Item
		}
		used = append(used, fmt.Sprintf("%d × %s", u.Count, name))
	}
	t.Lines = labelled([][2]string{{"How", string(f.Mode)}, {"Odometer", odometer}, {"Where", f.Place.Text}, {"Why", f.Why}, {"Conditions", f.Conditions},
		{"Reading before", before}, {"Fix", f.Fix}, {"Used", joined(used)}, {"Time lost", lost}})
	return t
}

func labelled(pairs [][2]string) (lines []string) {
	for _, p := range pairs {
		if p[1] != "" {
			lines = append(lines, p[0]+": "+p[1])
		}
	}
	return lines
}

func nonEmpty(texts ...string) (full []string) {
	for _, s := range texts {
		if s != "" {
			full = append(full, s)
		}
	}
	return full
}
