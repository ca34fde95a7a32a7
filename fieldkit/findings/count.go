package findings

import (
	"cmp"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// Tally is what a log says of one heading: how often something failed, and what that
// cost.
type Tally struct {
	Name     string
	ID       string // of the kind, the position or the trip; none where it has none
	Failures int
	Lost     fieldkit.Minutes
	Unlost   int // failures that do not say how much time they cost
}

// Heading says under what a failure is counted.
type Heading func(kit fieldkit.Kit, cat fieldkit.Catalog, f fieldkit.Failure) (id, name string)

// NotSaid is the name of what a failure does not say.
const NotSaid = "not said"

// BySystem counts by the system of the position, by its name on all rigs.
func BySystem(kit fieldkit.Kit, _ fieldkit.Catalog, f fieldkit.Failure) (id, name string) {
	p, _ := kit.Position(f.Position)
	if s, ok := kit.System(p.System); ok {
		return "", s.Name
	}
	return "", NotSaid
}

// ByPartKind counts by the kind of part.
func ByPartKind(kit fieldkit.Kit, cat fieldkit.Catalog, f fieldkit.Failure) (id, name string) {
	p, ok := kit.Position(f.Position)
	id = p.Kind
	if !ok {
		part, _ := kit.Part(f.Part)
		id = part.Kind
	}
	if kind, ok := cat.PartKind(id); ok {
		return id, kind.Name
	}
	if id == "" {
		return "", NotSaid
	}
	return id, id
}

// ByTrip counts by the trip it happened on.
func ByTrip(kit fieldkit.Kit, _ fieldkit.Catalog, f fieldkit.Failure) (id, name string) {
	for _, t := range kit.Trips {
		if t.Holds(f) {
			return t.ID, t.Name
		}
	}
	return "", "on no trip"
}

// ByMode counts by how it failed.
func ByMode(_ fieldkit.Kit, _ fieldkit.Catalog, f fieldkit.Failure) (id, name string) {
	if f.Mode == "" {
		return "", NotSaid
	}
	return "", string(f.Mode)
}

// Count counts the failures of a rig, of all rigs if it is none, under a heading: the
// most frequent first, of those alike what cost more.
func Count(kit fieldkit.Kit, cat fieldkit.Catalog, by Heading, rig string) []Tally {
	at := map[[2]string]int{}
	var list []Tally
	for _, f := range kit.Failures.All() {
		if rig != "" && f.Rig != rig {
			continue
		}
		id, name := by(kit, cat, f)
		i, known := at[[2]string{id, name}]
		if !known {
			i = len(list)
			at[[2]string{id, name}] = i
			list = append(list, Tally{Name: name, ID: id})
		}
		list[i].Failures++
		list[i].Lost += f.Lost
		if f.Lost == 0 {
			list[i].Unlost++
		}
	}
	order.By(list, func(a, b Tally) int {
		return cmp.Or(cmp.Compare(b.Failures, a.Failures), cmp.Compare(b.Lost, a.Lost), cmp.Compare(a.Name, b.Name))
	})
	return list
}

// Costliest puts tallies in the order of the time they cost, and leaves out what cost
// none.
func Costliest(list []Tally) []Tally {
	var costly []Tally
	for _, t := range list {
		if t.Lost > 0 {
			costly = append(costly, t)
		}
	}
	order.By(costly, func(a, b Tally) int {
		return cmp.Or(cmp.Compare(b.Lost, a.Lost), cmp.Compare(b.Failures, a.Failures), cmp.Compare(a.Name, b.Name))
	})
	return costly
}

// TripHours lists the trips that are done, oldest first, with what their failures cost,
// trips without a failure too. A rig's trips are those it went on.
func TripHours(kit fieldkit.Kit, rig string) []Tally {
	var list []Tally
	trips := slices.Clone(kit.Trips)
	order.By(trips, func(a, b fieldkit.Trip) int { return a.Start.Compare(b.Start) })
	for _, t := range trips {
		if !t.Done || !goes(t, rig) {
			continue
		}
		one := Tally{ID: t.ID, Name: t.Name}
		for _, f := range kit.Failures.All() {
			if t.Holds(f) && (rig == "" || f.Rig == rig) {
				one.Failures++
				one.Lost += f.Lost
				if f.Lost == 0 {
					one.Unlost++
				}
			}
		}
		list = append(list, one)
	}
	return list
}

func goes(t fieldkit.Trip, rig string) bool {
	return rig == "" || slices.Contains(t.Rigs, rig)
}
