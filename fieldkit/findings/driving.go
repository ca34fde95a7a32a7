package findings

import (
	"cmp"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// driving is how much a rig is driven, from readings of its odometer and hour meter
// that have a day: over the last year, or as much of it as is known.
type driving struct {
	far   fieldkit.Distance
	days  int
	hours int // of the engine, in hourDays
	hdays int
}

// A year is looked back; two weeks are the least that says anything.
const (
	lookBack  = 365
	leastDays = 14
)

// dated is one reading of a meter.
type dated struct {
	on fieldkit.Date
	at int64
}

// drivingOf reads how much a rig is driven.
func drivingOf(kit fieldkit.Kit, rig fieldkit.Rig) (d driving) {
	odometer, hours := meters(kit, rig)
	far, days := rise(odometer)
	d.far, d.days = fieldkit.Distance(far), days
	h, hdays := rise(hours)
	d.hours, d.hdays = int(h), hdays
	return d
}

// meters lists the dated readings of a rig's odometer and of its hour meter.
func meters(kit fieldkit.Kit, rig fieldkit.Rig) (odometer, hours []dated) {
	see := func(on fieldkit.Date, d fieldkit.Distance, h int) {
		if !on.IsZero() && d > 0 {
			odometer = append(odometer, dated{on, int64(d)})
		}
		if !on.IsZero() && h > 0 {
			hours = append(hours, dated{on, int64(h)})
		}
	}
	see(rig.OdometerOn, rig.Odometer, 0)
	see(rig.EngineHoursOn, 0, rig.EngineHours)
	for _, s := range rig.Services {
		for _, done := range s.Done {
			see(done.On, done.Odometer, done.Hours)
		}
	}
	on := map[string]bool{}
	for _, p := range kit.PositionsOf(rig.ID) {
		on[p.ID] = true
		see(p.Fitted, p.FittedAt, 0)
	}
	for _, f := range kit.Failures.All() {
		if f.Rig == rig.ID {
			see(f.On, f.Odometer, 0)
		}
	}
	for _, i := range kit.Inspections.All() {
		if on[i.Position] {
			see(i.On, i.Odometer, 0)
		}
	}
	return odometer, hours
}

// rise is how far a meter went from the first reading within a year of the last up to
// that; nothing where that is under two weeks, or where the meter did not rise. A
// year without a second reading reaches back to the last one before it.
func rise(readings []dated) (far int64, days int) {
	if len(readings) < 2 {
		return 0, 0
	}
	order.By(readings, func(a, b dated) int { return cmp.Or(a.on.Compare(b.on), cmp.Compare(a.at, b.at)) })
	last := readings[len(readings)-1]
	first := last
	for i := len(readings) - 2; i >= 0; i-- {
		within := readings[i].on.DaysUntil(last.on) <= lookBack
		if !within && first.on.DaysUntil(last.on) >= leastDays {
			break
		}
		first = readings[i]
	}
	far, days = last.at-first.at, first.on.DaysUntil(last.on)
	if days < leastDays || far <= 0 {
		return 0, 0
	}
	return far, days
}

// daysFor is the days in which a rig drives so far; ok is false if that is not known.
func (d driving) daysFor(way fieldkit.Distance) (days int, ok bool) {
	if d.far <= 0 {
		return 0, false
	}
	return capped(float64(way) / float64(d.far) * float64(d.days)), true
}

func (d driving) daysForHours(hours int) (days int, ok bool) {
	if d.hours <= 0 {
		return 0, false
	}
	return capped(float64(hours) / float64(d.hours) * float64(d.hdays)), true
}

// farAhead is as many days as are worth naming: twenty years.
const farAhead = 20 * 365

func capped(days float64) int { return int(min(max(days, -farAhead), farAhead)) }
