package measure

import (
	"slices"
	"strings"

	"trailfieldkit/fieldkit/standards"
)

// Kind is a kind of part with what can be measured on it.
type Kind struct {
	Name       string
	Aliases    []string
	Title      string
	Attributes []Attribute

	// candidates gives what the part may be. Kinds that go by rule make them up from
	// the readings.
	candidates func(h *standards.Handbook, r []reading) []standards.Designation
	// weight is how common a candidate is against the others; nil means all alike.
	weight func(d standards.Designation) float64
	// needs are attributes of which one must be known to name the part at all.
	needs []string
}

// Kinds lists the kinds in the order in which they are shown.
func Kinds() []Kind {
	return []Kind{
		bearing, tapered, seal, oRing, thread, bolt, fitting, hose,
		uJoint, spline, wheel, tyre, belt, battery, fuse, wire,
	}
}

// KindNamed finds a kind by its name or alias, whatever the case, blanks and dashes;
// ok is false if there is none.
func KindNamed(name string) (k Kind, ok bool) {
	folded := foldName(name)
	for _, k := range Kinds() {
		if foldName(k.Name) == folded || slices.ContainsFunc(k.Aliases, func(a string) bool { return foldName(a) == folded }) {
			return k, true
		}
	}
	return Kind{}, false
}

// AttributeNamed finds an attribute by its name or alias; ok is false if the kind has
// none of that name.
func (k Kind) AttributeNamed(name string) (a Attribute, ok bool) {
	folded := foldName(name)
	for _, a := range k.Attributes {
		if foldName(a.Name) == folded || foldName(a.Label()) == folded || slices.ContainsFunc(a.Aliases, func(x string) bool { return foldName(x) == folded }) {
			return a, true
		}
	}
	return Attribute{}, false
}

// foldName folds "U-joint", "u joint" and "ujoint" to one.
func foldName(name string) string {
	return strings.NewReplacer("-", "", "_", "", " ", "", ".", "").Replace(strings.ToLower(name))
}

// listed gives all designations of some kinds from the tables.
func listed(kinds ...standards.Kind) func(*standards.Handbook, []reading) []standards.Designation {
	return func(h *standards.Handbook, _ []reading) (all []standards.Designation) {
		for _, k := range kinds {
			all = append(all, h.Listed(k)...)
		}
		return all
	}
}
