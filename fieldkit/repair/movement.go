package repair

import (
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
)

// Verdict says whether a rig may be moved.
type Verdict string

const (
	May       Verdict = "yes"
	MayWithin Verdict = "with limits"
	MayNot    Verdict = "no"
)

// severity ranks verdicts, the most cautious highest.
func (v Verdict) severity() int { return slices.Index([]Verdict{May, MayWithin, MayNot}, v) }

// Ruling is a verdict for the rigs its condition names, with its limits.
type Ruling struct {
	When    Condition         `json:"when,omitempty"`
	Verdict Verdict           `json:"verdict"`
	Why     string            `json:"why"`
	PerHour fieldkit.Distance `json:"perHour,omitempty"` // speed: distance in one hour; none is no figure
	Within  fieldkit.Distance `json:"within,omitempty"`  // how far; none is no figure
	Note    string            `json:"note,omitempty"`    // what else limits it
}

// Movement is the answer for one rig.
type Movement struct {
	Ruling
	// Ask lists the traits that are not known and could change the verdict. Until
	// they are, the most cautious ruling that may apply stands.
	Ask []string
}

// CanRoll says whether this rig may be pushed, winched or towed as it stands: a
// full-float axle rolls without its shaft, a semi-float one does not.
func (g Guide) CanRoll(rig fieldkit.Rig) Movement { return rule(g.Roll, rig) }

// CanDrive says whether this rig may be driven as it stands.
func (g Guide) CanDrive(rig fieldkit.Rig) Movement { return rule(g.Drive, rig) }

// CanDriveAfterFieldFix says whether this rig may be driven on the field fix.
func (g Guide) CanDriveAfterFieldFix(rig fieldkit.Rig) Movement { return rule(g.AfterFieldFix, rig) }

// rule goes through the rulings in order up to the first that holds; those that
// may hold on the way count too, and the most cautious wins.
func rule(rulings []Ruling, rig fieldkit.Rig) Movement {
	answer := Movement{}
	for _, r := range rulings {
		state := r.When.On(rig)
		if state == Fails {
			continue
		}
		if answer.Verdict == "" || r.Verdict.severity() > answer.Verdict.severity() {
			answer.Ruling = r
		}
		if state == Holds {
			break
		}
		for _, trait := range r.When.Traits() {
			if rig.Traits[trait] == "" && !slices.Contains(answer.Ask, trait) {
				answer.Ask = append(answer.Ask, trait)
			}
		}
	}
	return answer
}

// Text prints the verdict with its limits in the system read first.
func (r Ruling) Text(first fieldkit.System) string {
	text := string(r.Verdict)
	if r.PerHour != 0 {
		text += ", at most " + Speed(r.PerHour, first) + " (" + Speed(r.PerHour, first.Other()) + ")"
	}
	if r.Within != 0 {
		text += ", no further than " + r.Within.Both(first)
	}
	text += ": " + r.Why
	if r.Note != "" {
		text += "; " + r.Note
	}
	return text
}

// Speed prints a distance in one hour: "20 km/h" or "12 mph".
func Speed(perHour fieldkit.Distance, s fieldkit.System) string {
	if miles, ok := strings.CutSuffix(perHour.Show(s), " mi"); ok {
		return miles + " mph"
	}
	return perHour.Show(s) + "/h"
}
