package app

import (
	"reflect"
	"slices"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

// explained remembers what a packing list was found to be good for: a tick changes
// nothing of that, and must not wait for it to be worked out again.
type explained struct {
	trip     fieldkit.Trip
	lines    []spares.Ref
	counts   []int
	basis    basis
	proposal spares.Proposal
}

// basis is what an explanation rests on besides the list.
type basis struct {
	positions fieldkit.List[fieldkit.Position]
	parts     fieldkit.List[fieldkit.Part]
	links     fieldkit.List[fieldkit.Link]
	tools     []fieldkit.Tool
	stock     []fieldkit.Consumable
	spares    fieldkit.List[fieldkit.Spare]
	failures  fieldkit.List[fieldkit.Failure]
	readings  fieldkit.List[fieldkit.Inspection]
	priors    []fieldkit.Prior
	own       []fieldkit.OwnRepair
	rigs      []fieldkit.Rig
	trips     []fieldkit.Trip
	systems   []fieldkit.Assembly
	bins      []fieldkit.Bin
}

func basisOf(k fieldkit.Kit) basis {
	return basis{k.Positions, k.Parts, k.Links, k.Tools, k.Consumables, k.Spares, k.Failures, k.Inspections, k.Priors, k.OwnRepairs, k.Rigs, k.Trips, k.Systems, k.Bins}
}

// explanation is what an explanation of a list rests on, without it.
func explanation(k fieldkit.Kit, trip fieldkit.Trip, pack fieldkit.Pack) explained {
	e := explained{trip: trip, basis: basisOf(k)}
	for _, l := range pack.Lines {
		e.lines = append(e.lines, spares.RefOf(l))
		e.counts = append(e.counts, l.Count)
	}
	return e
}

// explain says what a list is good for, from memory while nothing it rests on has
// changed.
func (s *store) explain(trip fieldkit.Trip, pack fieldkit.Pack) spares.Proposal {
	now := explanation(s.kit(), trip, pack)
	if last := s.explained; reflect.DeepEqual(explained{last.trip, last.lines, last.counts, last.basis, spares.Proposal{}}, now) {
		return last.proposal
	}
	now.proposal = spares.Explain(s.kit(), data.Catalog(), guidesOf(s.kit()), trip, pack)
	s.explained = now
	return now.proposal
}

// explainWhile explains a list that is about to be kept, in slices.
func explainWhile(k fieldkit.Kit, trip fieldkit.Trip, pack fieldkit.Pack, keepGoing func() bool) explained {
	k.Trips = slices.Clone(k.Trips)
	for i := range k.Trips {
		if k.Trips[i].ID == trip.ID {
			k.Trips[i] = trip
		}
	}
	e := explanation(k, trip, pack)
	e.proposal = spares.ExplainWhile(k, data.Catalog(), guidesOf(k), trip, pack, keepGoing)
	return e
}
