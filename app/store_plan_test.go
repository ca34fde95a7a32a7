package app

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/spares"
)

// fakePage takes the turns that work gives the page: work waits at each until the test
// lets it go on.
type fakePage struct {
	given, back chan struct{}
	ended       chan func() bool // what was worked out in slices, when it is there
}

func newFakePage(t *testing.T) *fakePage {
	p := &fakePage{make(chan struct{}), make(chan struct{}), make(chan func() bool, 1)}
	real := handOver
	handOver = func() { p.given <- struct{}{}; <-p.back }
	t.Cleanup(func() { handOver = real })
	return p
}

// finish lets the work go on until it is done, and keeps what came of it.
func (p *fakePage) finish(t *testing.T) (kept bool) {
	for {
		select {
		case <-p.given:
			p.back <- struct{}{}
		case keep := <-p.ended:
			return keep()
		case <-time.After(time.Minute):
			require.Fail(t, "the work neither goes on nor ends")
		}
	}
}

// What planning says of its list is remembered with it: it is there at once when the list
// is kept, whatever ID and day it got, and is what is said of the list when it is opened.
func TestPlannedListIsExplainedWithIt(t *testing.T) {
	k := data.DemoKit()
	trip, ok := k.Trip(demoTrip)
	require.True(t, ok)
	trip.Limits.Mass = 90 * fieldkit.Pound
	k = withTrip(k, trip)
	assert.NotEqual(t, trip.Limits, data.DemoKit().Trips[len(k.Trips)-1].Limits, "the kit given is not touched")
	turns := 0
	p := planPack(k, data.Catalog(), guidesOf(k), trip, spares.Watch{KeepGoing: func() bool { turns++; return true }})
	least := len(p.Lines)
	for _, rig := range trip.Rigs {
		least += len(k.PositionsOf(rig))
	}
	assert.Greater(t, turns, least, "a turn for each position, each line, and more")

	s := storeOf(t, k)
	opened, said := s.explain(trip, p.Pack)
	require.True(t, said)
	opened.Bound, opened.Proved = p.Bound, p.Proved
	assert.Equal(t, p, opened)

	pack := p.Pack
	pack.ID, pack.Made = "new", fieldkit.Date{Year: 2026, Month: 12, Day: 1}
	p.Notes = []string{"from memory"}
	s.explained = explained{groundsOf(k, trip, pack), p}
	pack.Lines = slices.Clone(pack.Lines)
	pack.Lines[0].Packed = true
	remembered, said := s.explain(trip, pack)
	require.True(t, said)
	assert.Equal(t, []string{"from memory"}, remembered.Notes, "a tick changes nothing of it")
}

// A list that takes longer than a moment to explain is worked out in slices: it is shown
// meanwhile without figures, and with the right ones when they are there.
func TestExplainInSlices(t *testing.T) {
	k := packed(t)
	want := viewPackTrip(storeOf(t, k), demoTrip)
	require.True(t, want.said)

	s, page := storeOf(t, k), newFakePage(t)
	s.patience = 0
	trip, pack := want.trip, want.pack
	ask := func(pack fieldkit.Pack) (spares.Proposal, bool) {
		return s.explainOr(trip, pack, func(keep func() bool) { page.ended <- keep })
	}
	p, said := ask(pack)
	assert.False(t, said)
	assert.Equal(t, spares.Proposal{}, p)
	<-page.given // the page has its turn, the work waits

	v := viewPackTrip(s, demoTrip) // the same list: nothing is begun anew
	assert.False(t, v.said)
	assert.Equal(t, want.sheet, v.sheet, "the list itself is there")
	assert.Empty(t, v.reasons)
	line := viewPackLine(s, demoTrip, spares.RefOf(pack.Lines[0]))
	assert.True(t, line.found)
	assert.Equal(t, "working it out …", savesWords(line))
	page.back <- struct{}{}

	require.True(t, page.finish(t))
	p, said = ask(pack)
	assert.True(t, said)
	assert.Equal(t, want.proposal, p)
	assert.Nil(t, s.explaining)
}

// What is asked about another list drops the work on the one before: that ends at its next
// turn, and nothing of it is ever shown. So it is when the kit changes under a list.
func TestExplainDropsWhatNobodyWants(t *testing.T) {
	k := packed(t)
	trip, _ := k.Trip(demoTrip)
	pack := *toCome(k)
	other := spares.SetCount(pack, spares.RefOf(pack.Lines[0]), 0)
	for name, change := range map[string]func(s *store) fieldkit.Pack{
		"another list": func(*store) fieldkit.Pack { return other },
		"another kit, by another tab": func(s *store) fieldkit.Pack {
			fewer := packed(t)
			fewer.Failures = fieldkit.List[fieldkit.Failure]{}
			s.session = openTest(t, fewer)
			return pack
		},
	} {
		t.Run(name, func(t *testing.T) {
			s, page := storeOf(t, k), newFakePage(t)
			s.patience = 0
			stale := make(chan struct{}, 1)
			_, said := s.explainOr(trip, pack, func(func() bool) { stale <- struct{}{} })
			require.False(t, said)
			<-page.given
			first := s.explaining

			now := change(s)
			_, said = s.explainOr(trip, now, func(keep func() bool) { page.ended <- keep })
			require.False(t, said, "what is there of the list before is not shown for this one")
			assert.True(t, first.dropped)
			page.back <- struct{}{}
			require.True(t, page.finish(t))
			p, said := s.explain(trip, now)
			require.True(t, said)
			assert.Equal(t, spares.Explain(s.kit(), data.Catalog(), guidesOf(s.kit()), trip, now), p)
			assert.Empty(t, stale, "the dropped work came to no end")
		})
	}
}

// The count that a person sets is what planning again leaves, down to nothing.
func TestSetByHandHoldsWhenPlannedAgain(t *testing.T) {
	k := packed(t)
	trip, _ := k.Trip(demoTrip)
	ref := spares.RefOf(toCome(k).Lines[0])
	n := toCome(k).Lines[0].Count
	for name, want := range map[string]int{"more": n + 3, "one": 1, "none": 0} {
		t.Run(name, func(t *testing.T) {
			k, err := edited(t, k, func(e *journal.Edit) error {
				pack, _ := packOf(e.Kit(), demoTrip)
				e.Put(addPieces(e.Kit(), pack, ref, want-n))
				return nil
			})
			require.NoError(t, err)
			again := planPack(k, data.Catalog(), guidesOf(k), trip, spares.Watch{})
			assert.Equal(t, want, countOn(again.Pack, ref))
			assert.Equal(t, want == 0, staysAtHome(again.Pack, ref))
		})
	}
}

// Of what is under way at once a plan that has begun comes first, then what a list is good
// for, then the rest; what was stopped ends soon and waits for nobody.
func TestWhatComesFirst(t *testing.T) {
	t.Cleanup(func() { planning, kept.explaining = nil, nil })
	rest := &work{}
	assert.True(t, rest.comesFirst())
	kept.explaining = &explaining{}
	assert.False(t, rest.comesFirst())
	assert.True(t, kept.explaining.comesFirst())
	planning = &planWork{}
	assert.True(t, kept.explaining.comesFirst(), "a plan that waits for another press does nothing yet")
	planning.begun = true
	assert.True(t, planning.comesFirst())
	assert.False(t, kept.explaining.comesFirst())
	assert.False(t, rest.comesFirst())
	rest.stopped = true
	assert.True(t, rest.comesFirst())
}
