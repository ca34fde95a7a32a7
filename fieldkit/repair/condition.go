package repair

import (
	"maps"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
)

// Condition says what a rig must be like: for each trait of the catalog the
// options that will do. All traits named must hold; an empty condition holds on
// every rig.
type Condition map[string][]string

// Answered is whether a condition holds on a rig.
type Answered int

const (
	NotKnown Answered = iota // a trait it asks for is not known
	Holds
	Fails
)

// On says whether the condition holds on a rig. One trait that fails decides it,
// whatever else is not known.
func (c Condition) On(rig fieldkit.Rig) Answered {
	result := Holds
	for trait, options := range c {
		switch has := rig.Traits[trait]; {
		case has == "":
			if result == Holds {
				result = NotKnown
			}
		case !slices.Contains(options, has):
			result = Fails
		}
	}
	return result
}

// Traits lists the traits the condition asks for, sorted.
func (c Condition) Traits() []string { return slices.Sorted(maps.Keys(c)) }

// String prints "rear axle: full-float; front hub: locking or drive flange".
func (c Condition) String() string {
	var all []string
	for _, trait := range c.Traits() {
		all = append(all, words(trait)+": "+strings.Join(c[trait], " or "))
	}
	return strings.Join(all, "; ")
}

// words turns an ID into plain words.
func words(id string) string { return strings.ReplaceAll(id, "-", " ") }
