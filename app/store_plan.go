package app

import (
	"reflect"
	"slices"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

// explained remembers what a packing list was found to be good for: a tick changes
// nothing of that, and must not wait for it to be worked out again.
type explained struct {
	on       grounds
	proposal spares.Proposal
}

// explaining is the working out of what a list is good for, under way.
type explaining struct {
	work
	on grounds
}

// patience is how long the page may be busy with one thing before a person feels it stand
// still: what a list is good for is shown with the list if it is there by then.
const patience = 100 * time.Millisecond

// grounds are what it rests on what a list is good for.
type grounds struct {
	trip  fieldkit.Trip
	lines []fieldkit.PackLine // what, how many, and whether by hand
	never []fieldkit.Item
	basis basis
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

func groundsOf(k fieldkit.Kit, trip fieldkit.Trip, pack fieldkit.Pack) grounds {
	on := grounds{trip: trip, never: pack.Never, basis: basisOf(k)}
	for _, l := range pack.Lines {
		on.lines = append(on.lines, fieldkit.PackLine{Type: l.Type, Item: l.Item, Count: l.Count, Pinned: l.Pinned})
	}
	return on
}

// explain says what a list is good for: from memory while nothing it rests on has changed,
// at once if working it out takes no longer than the page's patience. Else ok is false: it
// is worked out in slices while the screen is used, and screens load again when it is
// there. The one list that was asked about last is worked out; of another what is not done
// is dropped.
func (s *store) explain(trip fieldkit.Trip, pack fieldkit.Pack) (p spares.Proposal, ok bool) {
	return s.explainOr(trip, pack, func(keep func() bool) {
		s.post(func(ctx app.Context) {
			if keep() {
				s.loadAgain(ctx)
			}
		})
	})
}

// explainOr explains or, where that takes longer, calls later from the goroutine that has
// worked it out; keep remembers it, unless another list was asked about meanwhile.
func (s *store) explainOr(trip fieldkit.Trip, pack fieldkit.Pack, later func(keep func() bool)) (spares.Proposal, bool) {
	k := s.kit()
	on := groundsOf(k, trip, pack)
	if s.explaining != nil && reflect.DeepEqual(s.explaining.on, on) {
		return spares.Proposal{}, false
	}
	if s.explaining != nil {
		s.explaining.dropped, s.explaining = true, nil
	}
	if reflect.DeepEqual(s.explained.on, on) {
		return s.explained.proposal, true
	}
	e := &explaining{work{trip: trip.ID}, on}
	s.explaining = e
	began, waiting, seen := time.Now(), true, make(chan struct{})
	turn := func() bool {
		if waiting && time.Since(began) < s.patience {
			return true
		}
		if waiting {
			waiting = false
			close(seen)
		}
		return e.keepGoing()
	}
	go func() {
		p := spares.ExplainWhile(k, data.Catalog(), guidesOf(k), trip, pack, turn)
		keep := func() bool {
			if s.explaining != e {
				return false
			}
			s.explained, s.explaining = explained{on, p}, nil
			return true
		}
		if !waiting {
			later(keep)
			return
		}
		keep()
		close(seen)
	}()
	<-seen
	if s.explaining == e {
		return spares.Proposal{}, false
	}
	return s.explained.proposal, true
}

// withTrip is a kit in which one trip is otherwise.
func withTrip(k fieldkit.Kit, trip fieldkit.Trip) fieldkit.Kit {
	k.Trips = slices.Clone(k.Trips)
	for i := range k.Trips {
		if k.Trips[i].ID == trip.ID {
			k.Trips[i] = trip
		}
	}
	return k
}
