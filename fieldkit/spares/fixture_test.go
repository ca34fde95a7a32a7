package spares

import (
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

const hour fieldkit.Minutes = 60

// testCatalog has rates that make sums easy: on a trip of 1000 km of rough track a
// joint fails 0.1 times, a hose 0.2 times and a pump 0.05 times.
func testCatalog() fieldkit.Catalog {
	return fieldkit.Catalog{
		PartKinds: []fieldkit.PartKind{
			{ID: "joint", Name: "joint", System: "driveline", Stores: []string{"parts"}, Per10000: 1, IfLeft: 8 * hour, IfCarried: 2 * hour, Repairs: []string{"joint-swap"}},
			{ID: "hose", Name: "hose", System: "cooling", Stores: []string{"parts", "farm"}, Per10000: 2, IfLeft: 5 * hour, IfCarried: 1 * hour, Repairs: []string{"hose-swap"}},
			{ID: "pump", Name: "pump", System: "steering", Stores: []string{"dealer"}, Per10000: 0.5, IfLeft: 10 * hour, IfCarried: 2 * hour, Mass: 4 * fieldkit.Kilogram},
			{ID: "bulb", Name: "bulb", System: "electrical", Per10000: 5, IfLeft: 10, IfCarried: 15},
			{ID: "frame", Name: "frame", System: "suspension", IfLeft: 40 * hour},
		},
		ToolKinds: []fieldkit.ToolKind{
			{ID: "press", Name: "joint press", Mass: 3 * fieldkit.Kilogram},
			{ID: "spanners", Name: "spanners", Alternatives: []string{"sockets"}},
			{ID: "sockets", Name: "sockets"},
		},
		Consumables: []fieldkit.ConsumableKind{
			{ID: "grease", Name: "grease", Stores: []string{"farm"}},
			{ID: "coolant", Name: "coolant", Stores: []string{"farm"}},
		},
		Stores: []fieldkit.StoreKind{{ID: "parts", Name: "parts store"}, {ID: "farm", Name: "farm store"}, {ID: "dealer", Name: "dealer"}},
	}
}

func testGuides(t testing.TB) []repair.Guide {
	amount := func(s string) fieldkit.Value {
		v, err := fieldkit.ParseValue(s)
		require.NoError(t, err)
		return v
	}
	return []repair.Guide{
		{
			ID: "joint-swap", Title: "Swap a joint", PartKinds: []string{"joint"},
			Tools:       []repair.ToolNeed{{Kind: "press"}, {Kind: "spanners"}, {Kind: "torch", Optional: true}},
			Consumables: []repair.ConsumableNeed{{Kind: "grease", Amount: amount("50 g")}},
			Parts:       []repair.PartNeed{{Kind: "joint", Count: 1}},
		},
		{
			ID: "hose-swap", Title: "Swap a hose", PartKinds: []string{"hose"},
			Tools:       []repair.ToolNeed{{Kind: "spanners"}},
			Consumables: []repair.ConsumableNeed{{Kind: "coolant", Amount: amount("2 L")}},
			Parts:       []repair.PartNeed{{Kind: "hose", Count: 1}},
		},
	}
}

func usd(cents int64) *fieldkit.Money { return &fieldkit.Money{Cents: cents, Currency: "USD"} }

// testKit is one rig with two joints of one part, a hose and a pump, everything its
// repairs need, and nothing in stock.
func testKit(t testing.TB) fieldkit.Kit {
	size := func(s string) fieldkit.Value {
		v, err := fieldkit.ParseValue(s)
		require.NoError(t, err)
		return v
	}
	return fieldkit.Kit{
		Currency: "USD",
		Rigs:     []fieldkit.Rig{{ID: "badger", Name: "Badger"}, {ID: "mule", Name: "Mule"}},
		Systems:  []fieldkit.Assembly{{ID: "all", Rig: "badger"}, {ID: "all-mule", Rig: "mule"}},
		Positions: fieldkit.ListOf([]fieldkit.Position{
			{ID: "joint-l", System: "all", Name: "joint", Side: fieldkit.Left, Kind: "joint", Quantity: 1, Part: "joint-a"},
			{ID: "joint-r", System: "all", Name: "joint", Side: fieldkit.Right, Kind: "joint", Quantity: 1, Part: "joint-a"},
			{ID: "hose", System: "all", Name: "hose", Kind: "hose", Quantity: 1, Part: "hose-a"},
			{ID: "pump", System: "all", Name: "pump", Kind: "pump", Quantity: 1, Part: "pump-a"},
		}),
		Donors: []fieldkit.Donor{{ID: "d", Make: "Corvane", Model: "Tarn", YearFrom: 1991, YearTo: 1994}},
		Parts: fieldkit.ListOf([]fieldkit.Part{
			{ID: "joint-a", Kind: "joint", Name: "joint A", Donor: "d", Mass: 500 * fieldkit.Gram, Volume: 300 * fieldkit.Millilitre, Price: usd(2000)},
			{ID: "hose-a", Kind: "hose", Name: "hose A", Mass: 500 * fieldkit.Gram, Volume: 1 * fieldkit.Litre, Price: usd(1500)},
			{ID: "pump-a", Kind: "pump", Name: "pump A", Volume: 4 * fieldkit.Litre, Price: usd(9000)},
		}),
		Bins: []fieldkit.Bin{
			{ID: "drawer", Rig: "badger", Name: "drawer", Place: "behind the seat", MassLimit: 5 * fieldkit.Kilogram, Order: 1},
			{ID: "box", Rig: "badger", Name: "roof box", Order: 2},
		},
		Consumables: []fieldkit.Consumable{
			{ID: "grease", Kind: "grease", Name: "tin of grease", Size: size("400 g"), Count: 1, Mass: 450 * fieldkit.Gram, Price: usd(800)},
			{ID: "coolant", Kind: "coolant", Name: "bottle of coolant", Size: size("1 L"), Count: 1, Mass: 1100 * fieldkit.Gram, Volume: fieldkit.Litre, Price: usd(600)},
		},
		Tools: []fieldkit.Tool{
			{ID: "press", Kind: "press", Name: "joint press", Owned: true},
			{ID: "spanners", Kind: "spanners", Name: "roll of spanners", Owned: true, Bin: "drawer", Mass: 2 * fieldkit.Kilogram},
		},
		Trips: []fieldkit.Trip{testTrip()},
	}
}

func testTrip() fieldkit.Trip {
	return fieldkit.Trip{
		ID: "loop", Name: "Salt loop", Rigs: []string{"badger"}, Days: 5,
		Start: fieldkit.Date{Year: 2026, Month: 5, Day: 14}, Distance: 1000 * fieldkit.Kilometre, Terrain: fieldkit.RoughTrack,
	}
}

func spare(id string) Ref      { return Ref{fieldkit.SpareItem, id} }
func tool(id string) Ref       { return Ref{fieldkit.ToolItem, id} }
func consumable(id string) Ref { return Ref{fieldkit.ConsumableItem, id} }

// counts lists what is on a list as "type item": count.
func counts(p fieldkit.Pack) map[Ref]int {
	m := map[Ref]int{}
	for _, l := range p.Lines {
		m[RefOf(l)] += l.Count
	}
	return m
}

func lineOf(t testing.TB, p Proposal, ref Ref) Line {
	for _, l := range p.Lines {
		if RefOf(l.Line) == ref {
			return l
		}
	}
	require.Fail(t, "not on the list", "%v", ref)
	return Line{}
}
