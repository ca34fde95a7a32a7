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
	pack := planPack(k, data.Catalog(), data.Guides(), trip, spares.Watch{}).Pack
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

	again := planPack(k, data.Catalog(), data.Guides(), trip, spares.Watch{}).Pack
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
