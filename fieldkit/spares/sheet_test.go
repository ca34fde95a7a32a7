package spares

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

// Worked by hand: 3 pumps of 4 kg and 4 L (their kind's weight, their own size), 2
// hoses of 0.5 kg and 1 L, the spanners of 2 kg: 12 + 1 + 2 = 15 kg, 12 + 2 = 14 L.
// To buy: 1 of 3 pumps at 90.00, 2 hoses at 15.00 = 120.00.
func TestSheet(t *testing.T) {
	kit := testKit(t)
	kit.Spares = fieldkit.ListOf([]fieldkit.Spare{{ID: "s1", Part: "pump-a", Count: 1}, {ID: "s2", Part: "pump-a", Count: 1, Bin: "box"}})
	kit.Trips[0].Limits = fieldkit.Limits{Mass: 14 * fieldkit.Kilogram, Volume: 20 * fieldkit.Litre, Money: usd(10000)}
	pack := fieldkit.Pack{Trip: "loop", Lines: []fieldkit.PackLine{
		{Type: fieldkit.SpareItem, Item: "pump-a", Count: 3, Bin: "drawer", Packed: true},
		{Type: fieldkit.SpareItem, Item: "hose-a", Count: 2, Bin: "trailer"}, // no such bin
		{Type: fieldkit.ToolItem, Item: "spanners", Count: 1, Bin: "box"},
	}}
	s := SheetOf(kit, testCatalog(), pack)
	require.Len(t, s.Bins, 3)
	assert.Equal(t, "drawer", s.Bins[0].Bin.ID)
	assert.Equal(t, 12*fieldkit.Kilogram, s.Bins[0].Mass)
	assert.Equal(t, 1, s.Bins[0].Ticked)
	assert.Equal(t, "box", s.Bins[1].Bin.ID)
	assert.Empty(t, s.Bins[2].Bin.ID, "what has no place comes last")
	assert.Equal(t, "hose A", s.Bins[2].Rows[0].Name)
	assert.Equal(t, 1, s.Bins[0].Rows[0].Short)
	assert.Equal(t, *usd(9000), *s.Bins[0].Rows[0].Cost)

	want := Totals{
		Lines: 3, Ticked: 1, Mass: 15 * fieldkit.Kilogram, Volume: 14 * fieldkit.Litre,
		Typical:    Typical{Mass: true}, // of the pump
		TickedMass: 12 * fieldkit.Kilogram, Spend: *usd(12000),
		Over: []Over{{Mass: fieldkit.Kilogram, Typical: true}, {Money: *usd(2000)}, {Bin: "drawer", Mass: 7 * fieldkit.Kilogram, Typical: true}},
	}
	assert.Equal(t, want, s.Totals)
	assert.Equal(t, "≈ 7 kg (15 lb) (guess) over the weight limit of drawer", s.Totals.Over[2].Text(fieldkit.Metric))
	assert.Equal(t, "20.00 USD over the money of the trip", s.Totals.Over[1].Text(fieldkit.Inch))
	assert.Equal(t, "1 qt (946 mL) over the space of the trip", Over{Volume: 946_352_946_000_000}.Text(fieldkit.Inch))
}

// What only the catalog of its kind says of a weight or a size is marked, wherever it is
// added up.
func TestSheetMarksTypicalWeights(t *testing.T) {
	kit, cat := testKit(t), testCatalog()
	for i := range cat.PartKinds {
		if cat.PartKinds[i].ID == kit.Parts.At(0).Kind {
			cat.PartKinds[i].Mass = 2 * fieldkit.Kilogram
		}
	}
	pack := fieldkit.Pack{Trip: "loop", Lines: []fieldkit.PackLine{{Type: fieldkit.SpareItem, Item: kit.Parts.At(0).ID, Count: 1, Bin: "drawer"}, {Type: fieldkit.SpareItem, Item: "hose-a", Count: 1, Bin: "box"}}}
	assert.Zero(t, SheetOf(kit, cat, pack).Totals.Typical, "weighed and measured")
	kit.Parts.Ref(0).Mass = 0
	s := SheetOf(kit, cat, pack)
	assert.Equal(t, Typical{Mass: true}, s.Totals.Typical)
	assert.Zero(t, s.Totals.Unweighed)
	assert.Equal(t, Typical{Mass: true}, s.Bins[0].Typical)
	assert.Zero(t, s.Bins[1].Typical)
	assert.Equal(t, Typical{Mass: true}, s.Rigs[0].Typical)
	assert.Contains(t, PackText(kit, cat, pack, fieldkit.Metric), "≈ 2 kg (4.4 lb) (guess)")
	assert.Contains(t, Explain(kit, cat, testGuides(t), testTrip(), pack).Notes, GuessMeans)
}

func TestSheetCountsWhatIsNotKnown(t *testing.T) {
	kit := testKit(t)
	kit.Parts.Ref(0).Mass, kit.Parts.Ref(0).Price = 0, nil
	pack := fieldkit.Pack{Trip: "loop", Lines: []fieldkit.PackLine{
		{Type: fieldkit.SpareItem, Item: "joint-a", Count: 1},
		{Type: fieldkit.SpareItem, Item: "gone", Count: 1},
		{Type: "moon dust", Item: "gone", Count: 1},
	}}
	s := SheetOf(kit, testCatalog(), pack)
	assert.Equal(t, 3, s.Totals.Unweighed)
	assert.Equal(t, 3, s.Totals.Unpriced)
	assert.Zero(t, s.Totals.Spend.Cents)
}

// No count, however absurd, makes a sum run over into the light.
func TestSheetNeverRunsOver(t *testing.T) {
	kit := testKit(t)
	for i := range kit.Parts.All() {
		kit.Parts.Ref(i).Mass, kit.Parts.Ref(i).Volume, kit.Parts.Ref(i).Price = math.MaxInt64/3, math.MaxInt64/2, usd(math.MaxInt64/2)
	}
	kit.Trips[0].Limits = fieldkit.Limits{Mass: fieldkit.Kilogram, Volume: fieldkit.Litre, Money: usd(1)}
	pack := fieldkit.Pack{Trip: "loop"}
	for _, p := range kit.Parts.All() {
		pack.Lines = append(pack.Lines, fieldkit.PackLine{Type: fieldkit.SpareItem, Item: p.ID, Count: math.MaxInt})
	}
	s := SheetOf(kit, testCatalog(), pack)
	assert.Equal(t, fieldkit.Mass(math.MaxInt64), s.Totals.Mass)
	assert.Equal(t, fieldkit.Volume(math.MaxInt64), s.Totals.Volume)
	assert.Len(t, s.Totals.Over, 3)
}

func TestShopping(t *testing.T) {
	kit := testKit(t)
	kit.Spares = fieldkit.ListOf([]fieldkit.Spare{{ID: "s", Part: "hose-a", Count: 2}})
	kit.Tools[0].Owned, kit.Tools[0].Price = false, usd(5500)
	pack := fieldkit.Pack{Trip: "loop", Lines: []fieldkit.PackLine{
		{Type: fieldkit.ToolItem, Item: "press", Count: 1},
		{Type: fieldkit.SpareItem, Item: "joint-a", Count: 2},
		{Type: fieldkit.SpareItem, Item: "hose-a", Count: 2}, // all in stock
		{Type: fieldkit.ConsumableItem, Item: "coolant", Count: 3},
	}}
	assert.Equal(t, []Need{
		{Ref: spare("joint-a"), Name: "joint A", For: "1991-1994 Corvane Tarn", Count: 2, Cost: usd(4000), Stores: []string{"parts store"}},
		{Ref: consumable("coolant"), Name: "bottle of coolant", Count: 2, Stock: 1, Cost: usd(1200), Stores: []string{"farm store"}},
		{Ref: tool("press"), Name: "joint press", Count: 1, Cost: usd(5500)},
	}, Shopping(kit, testCatalog(), pack))
}

func TestRestock(t *testing.T) {
	kit, trip := testKit(t), testTrip()
	use := func(kind fieldkit.ItemType, id string, n int) []fieldkit.Item {
		return []fieldkit.Item{{Type: kind, Item: id, Count: n}}
	}
	kit.Spares = fieldkit.ListOf([]fieldkit.Spare{{ID: "s", Part: "joint-a", Count: 1}})
	kit.Failures = fieldkit.ListOf([]fieldkit.Failure{
		{ID: "1", Rig: "badger", Trip: "loop", Used: use(fieldkit.SpareItem, "joint-a", 1)},
		{ID: "2", Rig: "badger", On: trip.Start, Used: use(fieldkit.SpareItem, "joint-a", 1)},
		{ID: "3", Rig: "badger", On: trip.Start.AddDays(-1), Used: use(fieldkit.SpareItem, "joint-a", 1)},               // before
		{ID: "4", Rig: "mule", On: trip.Start, Used: use(fieldkit.SpareItem, "joint-a", 1)},                             // stayed home
		{ID: "5", Rig: "badger", Trip: "other", On: trip.Start.AddDays(9), Used: use(fieldkit.SpareItem, "joint-a", 1)}, // another trip
		{ID: "8", Rig: "badger", On: trip.Start.AddDays(trip.Days), Used: use(fieldkit.SpareItem, "joint-a", 1)},        // the day after its last
		{ID: "9", Rig: "badger", On: trip.Start.AddDays(trip.Days + 1), Used: use(fieldkit.SpareItem, "joint-a", 1)},    // long home
		{ID: "6", Rig: "badger", Trip: "loop", Used: use(fieldkit.ConsumableItem, "coolant", 2)},
		{ID: "7", Rig: "badger", Trip: "loop", Used: use(fieldkit.ToolItem, "press", 1)}, // not used up
	})
	kit.Packs = []fieldkit.Pack{{Trip: "loop", Lines: []fieldkit.PackLine{{Type: fieldkit.SpareItem, Item: "joint-a", Count: 4}}}}
	got := Restock(kit, testCatalog(), trip)
	require.Len(t, got, 2)
	assert.Equal(t, Need{Ref: spare("joint-a"), Name: "joint A", For: "1991-1994 Corvane Tarn", Count: 3, Stock: 1, Used: 3, Cost: usd(6000), Stores: []string{"parts store"}}, got[0],
		"four were on the list and one is left")
	assert.Equal(t, 2, got[1].Count, "not on the list: what was used")
	assert.Empty(t, Restock(kit, testCatalog(), fieldkit.Trip{ID: "never"}))
}
