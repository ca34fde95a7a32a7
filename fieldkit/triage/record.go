package triage

import (
	"math"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/likelihood"
)

// records are the places of a rig by part kind, each with what is known of it.
type records struct {
	outlook *likelihood.Outlook
	byKind  map[string][]record
	lately  map[string]int // failures on the trip under way, by part kind
}

type record struct {
	place fieldkit.Position // without an ID where the bill of materials lists none
	known likelihood.Likelihood
	// lately counts failures of the kind on the trip under way, which known does not
	// hold: package likelihood counts trips that are done.
	lately int
}

func recordsOf(kit fieldkit.Kit, cat fieldkit.Catalog, rig fieldkit.Rig) records {
	r := records{likelihood.Look(kit, cat, aDay, rig), map[string][]record{}, map[string]int{}}
	for _, f := range kit.Failures.All() {
		if f.Rig == rig.ID && slices.ContainsFunc(kit.Trips, func(t fieldkit.Trip) bool { return !t.Done && t.Holds(f) }) {
			r.lately[kindOf(kit, f)]++
		}
	}
	for _, p := range kit.PositionsOf(rig.ID) {
		r.byKind[p.Kind] = append(r.byKind[p.Kind], r.at(p))
	}
	return r
}

func (r records) at(p fieldkit.Position) record { return record{p, r.outlook.Of(p), r.lately[p.Kind]} }

// kindOf is the kind of part that failed.
func kindOf(kit fieldkit.Kit, f fieldkit.Failure) string {
	if p, ok := kit.Position(f.Position); ok {
		return p.Kind
	}
	part, _ := kit.Part(f.Part)
	return part.Kind
}

// expected is the failures that a day lets expect. Each failure on the trip under way
// adds one to those counted, by the same rule: a gamma law of shape one and the
// failures, whose mean grows by one part in that.
func (r record) expected() float64 {
	counted := 1 + float64(r.known.Failures)
	return r.known.Expected * (counted + float64(r.lately)) / counted
}

// of lists the places of a kind. One that the bill of materials does not list counts
// as one place.
func (r records) of(kind string) []record {
	if r.byKind[kind] == nil {
		r.byKind[kind] = []record{r.at(fieldkit.Position{Kind: kind})}
	}
	return r.byKind[kind]
}

// weigh sets the prior: failures of its parts that the day lets expect, each place by
// its age, its readings and the crew's log, and what comes without a part's failure.
func (c *live) weigh(all records) {
	rate, most := float64(c.cause.Besides)*1e-6*float64(aDay.Distance/fieldkit.Kilometre), -1.0
	for _, kind := range c.cause.Kinds {
		for _, r := range all.of(kind) {
			rate += r.expected() * float64(c.cause.Share) / 100
			if r.expected() > most {
				most, c.record = r.expected(), r
			}
		}
	}
	c.prior = math.Log(math.Max(rate, leastRate))
}
