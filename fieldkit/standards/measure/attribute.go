package measure

import (
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// Attribute is one thing that can be measured on a kind of part.
type Attribute struct {
	Name    string // as the figures of designations are called: "bore", "od"
	Aliases []string
	Dim     fieldkit.Dimension
	How     string // how to take it
	Tool    Tool   // the usual one
	Wear    Spread // how far a worn part may be off beyond the tolerance of new ones

	// bare is the system of a number without a unit; "" means millimetres unless only
	// inches make sense.
	bare fieldkit.System
	// of gives the figure of a candidate; nil takes its figure of that name.
	of func(p part) (fieldkit.Value, bool)
	// spread gives how far new parts differ from the figure; nil means not at all.
	spread func(d standards.Designation, figure fieldkit.Length) Spread
	// blur widens the accuracy of the tool by a share of the figure, for parts that
	// are no more than about as large as their name says.
	blur float64
	// ratio is how far apart two figures may be as a share of them, for what is
	// compared so: pitches and areas.
	ratio float64
	// absent says that what has no such figure shows that: there is nothing to read.
	absent bool
	// silent keeps it from being asked for next: it is worked out, not measured. after
	// names the attribute that must be known before it is worth asking.
	silent bool
	after  string
	// often gives, for words that are usual rather than sure, how often they are right.
	often float64
	// same are words that mean each other: what people say, and what the tables say.
	same map[string][]string
}

// whole reports what is counted one by one: studs, ribs, teeth. Threads per inch are
// not: 11-1/2 are standard.
func (a Attribute) whole() bool { return a.Dim == fieldkit.DimCount && a.ratio == 0 }

// Spread is how far below and above a figure a part may measure.
type Spread struct{ Below, Above fieldkit.Length }

// Plus adds two spreads.
func (s Spread) Plus(t Spread) Spread { return Spread{s.Below + t.Below, s.Above + t.Above} }

// part is a candidate with its figures looked up.
type part struct {
	standards.Designation
	dims []standards.Dim
}

// dim gives a figure of the candidate; ok is false if it has none of that name.
func (p part) dim(name string) (v fieldkit.Value, ok bool) {
	for _, d := range p.dims {
		if d.Name == name {
			return d.Value, true
		}
	}
	return v, false
}

// figure gives what a candidate should measure.
func (a Attribute) figure(p part) (fieldkit.Value, bool) {
	if a.of != nil {
		return a.of(p)
	}
	return p.dim(a.Name)
}

// Label is the name of the attribute for people.
func (a Attribute) Label() string { return standards.Label(a.Name) }

// evenly is a spread that is the same for all figures.
func evenly(below, above fieldkit.Length) func(standards.Designation, fieldkit.Length) Spread {
	return func(standards.Designation, fieldkit.Length) Spread { return Spread{below, above} }
}
