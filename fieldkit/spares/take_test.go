package spares

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
)

func TestTakeAgain(t *testing.T) {
	before := fieldkit.Pack{ID: "a", Trip: "old", Lines: []fieldkit.PackLine{
		{Type: fieldkit.ToolItem, Item: "press", Count: 1, Bin: "box", Packed: true, Pinned: true, Why: "once"},
		{Type: fieldkit.SpareItem, Item: "joint-a", Count: 1, Bin: "trailer", Rig: "mule"}, // neither goes along
		{Type: fieldkit.SpareItem, Item: "gone", Count: 1},
	}, Never: []fieldkit.Item{{Type: fieldkit.SpareItem, Item: "pump-a", Count: 1}}}
	again := TakeAgain(testKit(t), testCatalog(), testGuides(t), testTrip(), before, fieldkit.Pack{})
	assert.Equal(t, "loop", again.Trip)
	assert.Empty(t, again.ID)
	assert.Equal(t, before.Never, again.Never)
	assert.Equal(t, fieldkit.PackLine{Type: fieldkit.ToolItem, Item: "press", Count: 1, Bin: "box", Pinned: true}, again.Lines[0])
	for _, l := range again.Lines {
		assert.Contains(t, []string{"drawer", "box"}, l.Bin, l.Item)
		assert.Empty(t, l.Rig, "the bin says it")
	}
	assert.True(t, before.Lines[0].Packed, "the list before stays as it was")
	assert.Equal(t, "trailer", before.Lines[1].Bin)
}

// What the trip leaves at home stays there, whatever the list before had.
func TestTakeAgainLeavesAtHome(t *testing.T) {
	pump, press := fieldkit.Item{Type: fieldkit.SpareItem, Item: "pump-a", Count: 1}, fieldkit.Item{Type: fieldkit.ToolItem, Item: "press"}
	before := fieldkit.Pack{ID: "a", Trip: "old", Lines: []fieldkit.PackLine{
		{Type: fieldkit.ToolItem, Item: "press", Count: 1}, {Type: fieldkit.SpareItem, Item: "joint-a", Count: 1},
	}, Never: []fieldkit.Item{pump}}
	again := TakeAgain(testKit(t), testCatalog(), testGuides(t), testTrip(), before, fieldkit.Pack{ID: "b", Trip: "loop", Never: []fieldkit.Item{press}})
	assert.Equal(t, "b", again.ID)
	assert.Equal(t, []fieldkit.Item{pump, press}, again.Never)
	assert.Len(t, again.Lines, 1)
	assert.Equal(t, "joint-a", again.Lines[0].Item)
	assert.Equal(t, []fieldkit.Item{pump}, before.Never, "the list before stays as it was")
}

// The demo's earlier list names no bins: taken for the next trip, everything on it rides
// in a bin or on a rig that goes.
func TestTakeAgainOnTheDemo(t *testing.T) {
	kit := data.DemoKit()
	trip := kit.Trips[len(kit.Trips)-1]
	again := TakeAgain(kit, data.Catalog(), data.Guides(), trip, kit.Packs[0], fieldkit.Pack{})
	kit.Packs = []fieldkit.Pack{again}
	for _, b := range SheetOf(kit, data.Catalog(), again).Bins {
		if len(b.Rows) > 0 {
			assert.True(t, slices.Contains(trip.Rigs, b.RigID), "%d lines on no rig", len(b.Rows))
		}
	}
}

// What a trip costs with nothing on board rests on guesses though the list mends nothing.
func TestGuessedWithoutAList(t *testing.T) {
	p := Explain(testKit(t), testCatalog(), testGuides(t), testTrip(), fieldkit.Pack{Trip: "loop"})
	assert.Positive(t, p.Bare)
	assert.True(t, p.Guessed)

	nobody := testTrip()
	nobody.Rigs = nil
	p = Explain(testKit(t), testCatalog(), testGuides(t), nobody, fieldkit.Pack{Trip: "loop"})
	assert.Contains(t, p.Notes, "no rig goes on this trip, so nothing is reckoned to fail: say which rigs go")
}
