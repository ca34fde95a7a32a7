package app

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

// What lies in a bin does not fall off the list when the trip is planned again,
// even where its repair has become impossible meanwhile.
func TestPlanningAgainKeepsTicks(t *testing.T) {
	k := data.DemoKit()
	trip := k.Trips[len(k.Trips)-1]
	pack := planPack(k, data.Catalog(), data.Guides(), trip, spares.Watch{})
	pack.ID = "p"
	var jack spares.Ref
	for _, l := range pack.Lines {
		if itemName(k, l.Type, l.Item) == "jack stand" {
			jack = spares.RefOf(l)
		}
	}
	require.NotZero(t, jack)
	for _, l := range pack.Lines {
		if l.Type == fieldkit.ConsumableItem {
			pack = spares.Tick(pack, spares.RefOf(l), true)
		}
	}
	pack = spares.Ban(pack, jack)
	k.Packs = []fieldkit.Pack{pack}

	again := planPack(k, data.Catalog(), data.Guides(), trip, spares.Watch{})
	require.Less(t, len(again.Lines), len(pack.Lines), "without a stand much cannot be done")
	for _, l := range pack.Lines {
		if !l.Packed {
			continue
		}
		i := slices.IndexFunc(again.Lines, func(n fieldkit.PackLine) bool { return spares.RefOf(n) == spares.RefOf(l) })
		if assert.GreaterOrEqual(t, i, 0, l.Item) {
			assert.True(t, again.Lines[i].Packed, l.Item)
			assert.False(t, again.Lines[i].Pinned, l.Item)
			assert.Equal(t, l.Count, again.Lines[i].Count, l.Item)
			assert.Equal(t, l.Bin, again.Lines[i].Bin, l.Item)
		}
	}
	assert.False(t, slices.ContainsFunc(again.Lines, func(l fieldkit.PackLine) bool { return spares.RefOf(l) == jack }))
}

// The crew's own repairs count like those of the program: what they take is on the list,
// and what a list is good for is worked out again when one changes.
func TestOwnRepairsCountWhenPacking(t *testing.T) {
	k := data.DemoKit()
	assert.Greater(t, len(guidesOf(k)), len(data.Guides()), "the demo crew has a repair of its own")
	without := k
	without.OwnRepairs = nil
	assert.NotEqual(t, basisOf(k), basisOf(without))
	moved := slices.Clone(k.Systems)
	moved[0].Rig = "another"
	without = k
	without.Systems = moved
	assert.NotEqual(t, basisOf(k), basisOf(without))
}

// What a list is good for is worked out before it is kept, with the limit it was planned
// within, so that the page need not do it in one go; what it then says is the same.
func TestListIsExplainedBeforeItIsKept(t *testing.T) {
	k := data.DemoKit()
	trip, ok := k.Trip(demoTrip)
	require.True(t, ok)
	trip.Limits.Mass = 90 * fieldkit.Pound
	asked := 0
	keepGoing := func() bool { asked++; return false }
	pack := planPack(k, data.Catalog(), guidesOf(k), trip, spares.Watch{})
	said := explainWhile(k, trip, pack, keepGoing)
	turns := len(pack.Lines)
	for _, rig := range trip.Rigs {
		turns += len(k.PositionsOf(rig))
	}
	assert.Greater(t, asked, turns, "a turn for each position, each line, and more for what is left out")

	k.Trips = slices.Clone(k.Trips)
	k.Trips[slices.IndexFunc(k.Trips, func(t fieldkit.Trip) bool { return t.ID == trip.ID })] = trip
	s := storeOf(t, k)
	fresh := s.explain(trip, pack)
	assert.Equal(t, fresh, said.proposal)

	said.proposal.Notes = []string{"from memory"}
	s.explained = said
	pack.ID, pack.Made = "new", fieldkit.Date{}
	assert.Equal(t, []string{"from memory"}, s.explain(trip, pack).Notes)
}
