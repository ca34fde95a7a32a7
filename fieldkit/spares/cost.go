package spares

import (
	"fmt"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// Cost is what one failure at a position costs on a trip, by what is done about it.
type Cost struct {
	Move      fieldkit.Move    // what the rig can still do
	Carried   fieldkit.Minutes // lost when fixed with a spare on board
	Town      fieldkit.Minutes // lost on average by way of the best town; 0 if no town sells such a part
	Recovered fieldkit.Minutes // lost when it limps out, is towed out or is fetched
	Without   fieldkit.Minutes // the lesser of these two: lost with no spare on board
	Way       Way              // which of them that is
	Run       TownRun          // the best town, whether or not it is the way
	Own       fieldkit.Cost    // what the trip says by hand, nothing where it is reckoned
}

// Way is what is done about a failure with no spare on board.
type Way string

const (
	ByTown     Way = "bought on the way"
	LimpedOut  Way = "limped out"
	TowedOut   Way = "towed out"
	FetchedOut Way = "fetched"
)

// TownRun is a drive to buy the part. The town has it with probability Stock; else
// it is ordered, or the rig recovered, whichever is sooner.
type TownRun struct {
	Town   string
	Stores []string           // its kinds of store that may have the part, likeliest first
	Drive  fieldkit.Minutes   // there and back
	Stock  float64            // probability that the part is there; starting guess, or as the trip says
	Waits  []fieldkit.Minutes // until something is sold, by day of the trip
	Found  fieldkit.Minutes   // lost beyond drive and wait if it is there
	Else   fieldkit.Minutes   // the same if it is not
}

// Starting guesses, not measured.
const (
	// usualOrder is how long a part takes that is not on the shelf.
	usualOrder fieldkit.Minutes = 36 * 60
	// strandingCounts is what a stranding counts where getting home is the yardstick: a
	// day. Only its ratio to nothing matters.
	strandingCounts Hours = 24
	// usualHourWorth is what an hour is worth in cents where money is the yardstick and
	// the trip does not say.
	usualHourWorth = 2000
)

// stockOf is how likely a kind of store has a part, by its place in the part kind's
// list of stores, the likeliest first. Starting guess, not measured.
var stockOf = []float64{0.75, 0.6, 0.45, 0.3}

// CostOf says what a failure at a position of a rig costs on a trip. What the trip
// says by hand stands; the rest follows from the part kind's times, the repairs'
// rulings on whether the rig rolls and drives, and the trip's towns.
func CostOf(cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip, rig fieldkit.Rig, position fieldkit.Position) Cost {
	kind, _ := cat.PartKind(position.Kind)
	c := Cost{Own: trip.CostAt(position.ID)}
	c.Move, c.Carried, c.Recovered = c.Own.Move, c.Own.Carried, c.Own.Recovered
	if c.Move == "" {
		c.Move = moveOf(kind, guides, rig)
	}
	if c.Carried == 0 {
		c.Carried = kind.IfCarried
	}
	if c.Recovered == 0 {
		c.Recovered = kind.IfLeft + fetching(c.Move, trip)
	}
	c.Without, c.Way = c.Recovered, map[fieldkit.Move]Way{fieldkit.Tow: TowedOut, fieldkit.Walk: FetchedOut}[c.Move]
	if c.Way == "" {
		c.Way = LimpedOut
	}
	c.Run, c.Town = bestTown(kind, trip, c)
	if c.Town > 0 && c.Town < c.Without {
		c.Without, c.Way = c.Town, ByTown
	}
	return c
}

// moveOf is what a rig can still do with a part of the kind broken: as the repairs
// rule that deal with it, the mildest of them, else as the catalog guesses.
func moveOf(kind fieldkit.PartKind, guides []repair.Guide, rig fieldkit.Rig) fieldkit.Move {
	best := len(fieldkit.Moves)
	for _, g := range guides {
		if !slices.Contains(kind.Repairs, g.ID) || g.Suits.On(rig) == repair.Fails || len(g.Drive)+len(g.Roll) == 0 {
			continue
		}
		switch {
		case may(g.CanDrive(rig)):
			best = 0
		case may(g.CanRoll(rig)):
			best = min(best, 1)
		default:
			best = min(best, 2)
		}
	}
	switch {
	case best < len(fieldkit.Moves):
		return fieldkit.Moves[best]
	case kind.IfBroken != "":
		return kind.IfBroken
	}
	return fieldkit.Limp
}

func may(m repair.Movement) bool { return m.Verdict == repair.May || m.Verdict == repair.MayWithin }

// fetching is the time until help is there, beyond what the part kind says: nothing
// for a rig that limps or that another rig of the trip tows, else the way to the
// nearest town and back.
func fetching(move fieldkit.Move, trip fieldkit.Trip) fieldkit.Minutes {
	if move == fieldkit.Limp || move == fieldkit.Tow && len(rigsOf(trip)) > 1 || len(trip.Towns) == 0 {
		return 0
	}
	nearest := fieldkit.MaxMinutes
	for _, t := range trip.Towns {
		nearest = min(nearest, max(t.Away, 0))
	}
	return 2 * nearest
}

// bestTown is the town by way of which least is lost on average, and how much; the
// zero TownRun if none sells such a part.
func bestTown(kind fieldkit.PartKind, trip fieldkit.Trip, c Cost) (best TownRun, lost fieldkit.Minutes) {
	for _, t := range trip.Towns {
		miss := 1.0
		var stores []string
		for i, s := range kind.Stores {
			if slices.Contains(t.Stores, s) {
				miss *= 1 - stockOf[min(i, len(stockOf)-1)]
				stores = append(stores, s)
			}
		}
		if miss == 1 {
			continue
		}
		stock := 1 - miss
		if c.Own.Shelf > 0 {
			stock = float64(c.Own.Shelf) / fieldkit.MaxShelf
		}
		order := t.Order
		if order <= 0 {
			order = usualOrder
		}
		run := TownRun{
			Town: t.Name, Stores: stores, Drive: 2 * max(t.Away, 0), Stock: stock, Waits: waits(t, trip),
			Found: c.Carried, Else: min(order+c.Carried, max(c.Recovered, c.Carried)),
		}
		if on := run.average(); lost == 0 || on < lost {
			best, lost = run, on
		}
	}
	if c.Own.Town > 0 {
		lost = c.Own.Town
	}
	return best, lost
}

// waits is, for each day of a trip, how long a town sells nothing from that day on;
// for a trip without a day, any day of the week.
func waits(t fieldkit.Town, trip fieldkit.Trip) []fieldkit.Minutes {
	days, start := min(max(trip.Days, 1), 7), trip.Start
	if start.IsZero() {
		days, start = 7, fieldkit.Date{Year: 2026, Month: 1, Day: 5} // a Monday
	}
	list := make([]fieldkit.Minutes, days)
	for i := range list {
		for len(t.Closed) > 0 && list[i] < 7*24*60 && slices.Contains(t.Closed, start.AddDays(i+int(list[i]/(24*60))).Weekday()) {
			list[i] += 24 * 60
		}
	}
	return list
}

// average is the time lost by the run over all days and both ways it may end.
func (r TownRun) average() fieldkit.Minutes {
	return r.Drive + fieldkit.Minutes(r.wait()+r.Stock*float64(r.Found)+(1-r.Stock)*float64(r.Else)+0.5)
}

// wait is the time until something is sold, over all days, in minutes.
func (r TownRun) wait() (mean float64) {
	for _, w := range r.Waits {
		mean += float64(w) / float64(len(r.Waits))
	}
	return mean
}

// Words say what the average of the run is made of, beside how likely the part is there.
func (r TownRun) Words() string {
	words := r.Drive.String() + " there and back"
	if wait := fieldkit.Minutes(r.wait() + 0.5); wait > 0 {
		words += ", " + wait.String() + " on average until it is open"
	}
	return words + ", then " + r.Found.String() + " if the part is there, else " + r.Else.String() + ": ordered in, or given up"
}

// Guessed reports whether what a failure costs with a spare or without one rests on the
// part kind's times, which nobody has measured on this trip.
func (c Cost) Guessed() bool { return c.Own.Carried == 0 || c.GuessedWithout() }

// GuessedWithout is the same for what it costs without a spare.
func (c Cost) GuessedWithout() bool {
	if c.Way == ByTown {
		return c.Own.Town == 0
	}
	return c.Own.Recovered == 0
}

// Strands reports whether the rig does not get home by itself with this broken.
func (c Cost) Strands() bool { return c.Move != fieldkit.Limp }

// Counts is what a failure counts by the trip's yardstick, without a spare and with
// one, as hours. Where money is the yardstick it is what it costs in hours of the
// worth the trip gives them; where getting home is, a stranding is a day and all else
// nothing.
func (c Cost) Counts(trip fieldkit.Trip) (without, with Hours) {
	switch trip.Yardstick {
	case fieldkit.ByHome:
		if c.Strands() {
			return strandingCounts, 0
		}
		return 0, 0
	case fieldkit.ByMoney:
		without, with = Hours(c.Without.Hours()), Hours(c.Carried.Hours())
		if c.Way != ByTown && c.Strands() && trip.RecoveryPrice != nil {
			without += Hours(float64(trip.RecoveryPrice.Cents) / float64(hourWorth(trip)))
		}
		return without, with
	}
	return Hours(c.Without.Hours()), Hours(c.Carried.Hours())
}

// hourWorth is what an hour lost is worth on a trip, in cents.
func hourWorth(trip fieldkit.Trip) int64 {
	if trip.HourWorth != nil && trip.HourWorth.Cents > 0 {
		return trip.HourWorth.Cents
	}
	return usualHourWorth
}

// town is where the part is bought, none if that is not the way.
func (c Cost) town() string {
	if c.Way != ByTown {
		return ""
	}
	return c.Run.Town
}

// Words says in a line what is done without a spare and why it takes as long.
func (c Cost) Words() string {
	switch c.Way {
	case ByTown:
		if c.Own.Town > 0 {
			return "bought on the way, as set by hand"
		}
		return fmt.Sprintf("bought in %s: %s there and back, %s likely on the shelf, else ordered or given up", c.Run.Town, c.Run.Drive, Guess(Percent(c.Run.Stock), c.Own.Shelf == 0))
	case LimpedOut:
		return "limps out, or does without"
	case TowedOut:
		return "is towed out"
	}
	return "stays where it is until help is there"
}
