package limp

import (
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// Assess says whether the rig may be moved and within which limits. With nothing
// broken it may. The order of the faults does not matter.
func Assess(f Facts, d Damage) Answer {
	j := &judge{facts: f, damage: d, answer: Answer{Verdict: repair.May}}
	for _, fault := range Faults() {
		if d.has(fault) {
			rules[fault](j)
		}
	}
	j.drive()
	j.fuel()
	if j.answer.Verdict == repair.MayNot {
		j.answer.PerHour, j.answer.Within, j.answer.Grade = 0, 0, 0
		j.say(Practice, "Chock the wheels, get people off the slope below it, and ask for help: a winch or a tow by someone who sees it, not a try under its own power.")
	} else if j.answer.Verdict == repair.MayWithin {
		j.watch("Stop after 1 km and look: heat, leaks, noise, play. Then every 10 km.")
		j.say(Practice, "Only to the next place where it can be mended, off public roads where local rules demand it; the maker's instructions go first.")
	}
	return j.answer
}

// judge gathers an answer.
type judge struct {
	facts  Facts
	damage Damage
	answer Answer
}

// Speeds as distance in one hour.
const (
	walk   = 5 * fieldkit.Kilometre
	crawl  = 15 * fieldkit.Kilometre
	slow   = 30 * fieldkit.Kilometre
	steady = 50 * fieldkit.Kilometre
	brisk  = 80 * fieldkit.Kilometre
)

func (j *judge) say(basis Basis, text string) {
	line := Line{text, basis}
	if !slices.Contains(j.answer.Lines, line) {
		j.answer.Lines = append(j.answer.Lines, line)
	}
}

func (j *judge) watch(text string) {
	if !slices.Contains(j.answer.Watch, text) {
		j.answer.Watch = append(j.answer.Watch, text)
	}
}

// refuse says no; the first reason is the one shown.
func (j *judge) refuse(why string) {
	if j.answer.Verdict != repair.MayNot {
		j.answer.Verdict, j.answer.Why = repair.MayNot, why
		return
	}
	j.say(Practice, why)
}

// limit allows moving within limits; a limit of 0 is none.
func (j *judge) limit(why string, perHour, within fieldkit.Distance, grade int) {
	a := &j.answer
	if a.Verdict != repair.MayNot {
		tighter := a.Verdict == repair.May || perHour != 0 && (a.PerHour == 0 || perHour < a.PerHour)
		a.Verdict = repair.MayWithin
		if tighter {
			if a.Why != "" {
				j.say(Practice, a.Why)
			}
			a.Why = why
		} else {
			j.say(Practice, why)
		}
	} else {
		j.say(Practice, why)
	}
	a.PerHour, a.Within = lower(a.PerHour, perHour), lower(a.Within, within)
	a.Grade = lower(a.Grade, grade)
}

// lower gives the tighter of two limits of which 0 is none.
func lower[L ~int | ~int64](a, b L) L {
	if a == 0 || b != 0 && b < a {
		return b
	}
	return a
}

// trait reads how the rig is built. Where it is not known it is asked for and the
// worst value stands in.
func (j *judge) trait(id, worst string) string {
	if v := j.facts.Traits[id]; v != "" {
		return v
	}
	if !slices.Contains(j.answer.Ask, id) {
		j.answer.Ask = append(j.answer.Ask, id)
	}
	return worst
}
