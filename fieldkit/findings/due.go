package findings

import (
	"cmp"
	"fmt"
	"math"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/likelihood"
	"trailfieldkit/fieldkit/order"
)

// Due is one thing that comes round, or comes to its limit.
type Due struct {
	Rig, RigName string
	Service      string // ID of the service on its rig; none for wear
	Position     string // ID, for wear
	Name         string
	State        DueState
	// By is the day it is likely due, the soonest of what is known: today where it is
	// due now, none where nobody can say.
	By fieldkit.Date
	// Reckoned reports that By rests on how much the rig is driven, not on the calendar.
	Reckoned bool
	Left     fieldkit.Distance // until it is due, below nothing when past; where HasLeft
	HasLeft  bool
	// Soonest and Furthest are the interval of Left for wear, nine times in ten, of
	// HoursLeft where it goes by those; no Furthest where Endless.
	Soonest, Furthest likelihood.Run
	Endless, Sure     bool
	HoursLeft         int // of the engine, where HasHours
	HasHours          bool
	Crossed           int                  // deep water since it was last done
	Last              fieldkit.ServiceDone // none if it was never written down
	Done              bool                 // it was done before
	rule              fieldkit.Service
	wear              likelihood.WearLine // what it is reckoned from, of wear
}

// DueState says how pressing it is.
type DueState string

const (
	Overdue DueState = "due now"
	Soon    DueState = "due soon"
	Later   DueState = "later"
	Unknown DueState = "never written down" // a service nobody has written down as done
)

// Soon is what comes within a month, or within a tenth of its interval.
const (
	soonDays  = 30
	soonShare = 10
)

// DueOn lists what is due on the rigs on a day: services by distance, engine hours,
// months and deep water, and parts whose wear line meets its limit. What is due now
// comes first, then by day.
func DueOn(kit fieldkit.Kit, cat fieldkit.Catalog, today fieldkit.Date) []Due {
	var all []Due
	for _, rig := range kit.Rigs {
		driven := drivingOf(kit, rig)
		_, now := logSpan(kit, rig, kit.PositionsOf(rig.ID))
		for _, s := range rig.Services {
			all = append(all, serviceDue(kit, rig, s, now, driven, today))
		}
		for _, p := range kit.PositionsOf(rig.ID) {
			if d, ok := wearDue(kit, cat, rig, p, driven, today); ok {
				all = append(all, d)
			}
		}
	}
	rank := map[DueState]int{Overdue: 0, Unknown: 1, Soon: 2, Later: 3}
	order.By(all, func(a, b Due) int {
		return cmp.Or(cmp.Compare(rank[a.State], rank[b.State]), compareKnown(a.By, b.By), cmp.Compare(a.RigName, b.RigName), cmp.Compare(a.Name, b.Name))
	})
	return all
}

// compareKnown orders dates, the unknown one last.
func compareKnown(a, b fieldkit.Date) int {
	if a.IsZero() != b.IsZero() {
		return b.Compare(a)
	}
	return a.Compare(b)
}

func serviceDue(kit fieldkit.Kit, rig fieldkit.Rig, s fieldkit.Service, now fieldkit.Distance, driven driving, today fieldkit.Date) Due {
	d := Due{Rig: rig.ID, RigName: rig.Name, Service: s.ID, Name: s.Name, State: Later, rule: s}
	if d.Last, d.Done = s.Last(); !d.Done {
		d.State, d.By = Unknown, today
		return d
	}
	if s.Months > 0 {
		d.reach(d.Last.On.AddMonths(s.Months), false, s.Months*30/soonShare, today)
	}
	if s.Every > 0 && d.Last.Odometer > 0 && now > 0 {
		d.Left, d.HasLeft = d.Last.Odometer+s.Every-now, true
		days, known := driven.daysFor(d.Left)
		d.near(d.Left <= 0, d.Left <= s.Every/soonShare, days, known, rig.OdometerOn, today)
	}
	if s.Hours > 0 && d.Last.Hours > 0 && rig.EngineHours > 0 {
		d.HoursLeft, d.HasHours = d.Last.Hours+s.Hours-rig.EngineHours, true
		days, known := driven.daysForHours(d.HoursLeft)
		d.near(d.HoursLeft <= 0, d.HoursLeft <= s.Hours/soonShare, days, known, rig.EngineHoursOn, today)
	}
	if s.Crossings > 0 {
		if d.Crossed = crossedSince(kit, rig, d.Last.On); d.Crossed >= s.Crossings {
			d.State, d.By, d.Reckoned = Overdue, today, false
		}
	}
	return d
}

// reach takes a day on which something is due, if it is the soonest so far.
func (d *Due) reach(day fieldkit.Date, reckoned bool, soon int, today fieldkit.Date) {
	left := today.DaysUntil(day)
	if left <= 0 {
		day = today
	}
	if d.By.IsZero() || day.Before(d.By) {
		d.By, d.Reckoned = day, reckoned
	}
	switch {
	case left <= 0 && !reckoned:
		d.State = Overdue
	case left <= max(soon, 0) || left <= soonDays:
		d.soon()
	}
}

// near takes what a meter says. The day is reckoned from when the meter was read, and
// from today where that is not known.
func (d *Due) near(due, soon bool, days int, known bool, read, today fieldkit.Date) {
	if due {
		d.State, d.By, d.Reckoned = Overdue, today, false
		return
	}
	if soon {
		d.soon()
	}
	if known {
		if read.IsZero() || today.Before(read) {
			read = today
		}
		d.reach(read.AddDays(days), true, 0, today)
	}
}

func (d *Due) soon() {
	if d.State == Later {
		d.State = Soon
	}
}

// crossedSince counts the deep crossings of a rig's trips that ended after a day.
func crossedSince(kit fieldkit.Kit, rig fieldkit.Rig, last fieldkit.Date) (n int) {
	for _, t := range kit.Trips {
		if t.Done && goes(t, rig.ID) && last.Before(t.End()) {
			n += max(t.Crossings, 0)
		}
	}
	return n
}

// wearDue is the part at a position that wears towards its limit; ok is false where
// its readings do not say when that is.
func wearDue(kit fieldkit.Kit, cat fieldkit.Catalog, rig fieldkit.Rig, p fieldkit.Position, driven driving, today fieldkit.Date) (Due, bool) {
	w, ok := likelihood.WearAt(kit, cat, p)
	if !ok || !w.Known && !w.AtLimit() {
		return Due{}, false
	}
	d := Due{Rig: rig.ID, RigName: rig.Name, Position: p.ID, Name: p.Title() + ": " + w.Measure.Name, State: Later, wear: w}
	var left likelihood.Run
	left, d.Soonest, d.Furthest, d.Endless, d.Sure = w.ToLimit()
	var days int
	var known bool
	read := rig.OdometerOn
	if w.ByHours {
		d.HoursLeft, d.HasHours = int(math.Round(float64(left))), w.Known
		if left > 0 {
			d.HoursLeft = max(d.HoursLeft, 1) // a part of an hour is not past
		}
		days, known = driven.daysForHours(d.HoursLeft)
		read = rig.EngineHoursOn
	} else {
		d.Left, d.HasLeft = left.Distance(), w.Known
		days, known = driven.daysFor(d.Left)
	}
	d.near(w.AtLimit() || w.Known && left <= 0, d.Sure && d.Soonest <= 0, days, known, read, today)
	return d, true
}

// Words says in a line what is left, or what is past.
func (d Due) Words(first fieldkit.System) string {
	var parts []string
	switch {
	case d.Service != "" && !d.Done:
		parts = append(parts, "nobody has written down when it was done last")
	case d.Service == "" && d.State == Overdue:
		return "at its limit, or past it"
	}
	if d.HasLeft {
		parts = append(parts, leftWords(d.Left, first))
	}
	if d.HasHours {
		if d.HoursLeft > 0 {
			parts = append(parts, counted(d.HoursLeft, "engine hour")+" left")
		} else {
			parts = append(parts, counted(-d.HoursLeft, "engine hour")+" past")
		}
	}
	if d.Service == "" && d.wear.Known && d.Sure {
		words := "nine times in ten from " + runWords(d.wear, d.Soonest, first)
		if d.Endless {
			words += " on, with no end the readings could give"
		} else {
			words += " to " + runWords(d.wear, d.Furthest, first)
		}
		parts = append(parts, words)
	}
	if d.rule.Crossings > 0 && d.Done {
		parts = append(parts, fmt.Sprintf("%d deep crossings since, due after %d", d.Crossed, d.rule.Crossings))
	}
	if !d.By.IsZero() && d.State != Overdue && d.State != Unknown {
		about := "by "
		if d.Reckoned {
			about = "about "
		}
		parts = append(parts, about+d.By.Show())
	}
	if len(parts) == 0 && d.Done {
		parts = append(parts, "last done "+d.Last.On.Show())
	}
	return joined(parts)
}

func runWords(w likelihood.WearLine, run likelihood.Run, first fieldkit.System) string {
	if w.ByHours {
		return counted(int(math.Round(float64(run))), "hour")
	}
	return run.Distance().Show(first)
}

func leftWords(left fieldkit.Distance, first fieldkit.System) string {
	switch {
	case left > 0:
		return left.Both(first) + " left"
	case left < 0:
		return (-left).Both(first) + " past"
	}
	return "nothing left"
}

// Rule says in words when a service comes round.
func Rule(s fieldkit.Service, first fieldkit.System) string {
	var parts []string
	if s.Every > 0 {
		parts = append(parts, "every "+s.Every.Both(first))
	}
	if s.Hours > 0 {
		parts = append(parts, fmt.Sprintf("every %d engine hours", s.Hours))
	}
	if s.Months > 0 {
		parts = append(parts, "every "+counted(s.Months, "month"))
	}
	switch {
	case s.Crossings == 1:
		parts = append(parts, "after every deep crossing")
	case s.Crossings > 1:
		parts = append(parts, fmt.Sprintf("after %d deep crossings", s.Crossings))
	}
	return joined(parts)
}

func joined(parts []string) (words string) {
	for i, p := range parts {
		if i > 0 {
			words += "; "
		}
		words += p
	}
	return words
}

func counted(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}
