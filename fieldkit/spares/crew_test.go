package spares

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

// Whatever the rigs carry, none is over its limits, every line rides on one of them, and
// what is proved saves as much as the rigs' limits together would allow.
func TestCrewLaws(t *testing.T) {
	src := rand.New(rand.NewPCG(31, 32))
	cat, guides := testCatalog(), testGuides(t)
	shared := 0
	for round := range 60 {
		kit, trip := randomKit(t, src)
		trip.Carries = []fieldkit.Carries{{Rig: "badger", Mass: fieldkit.Mass(1+src.IntN(9)) * fieldkit.Kilogram}, {Rig: "mule", Mass: fieldkit.Mass(src.IntN(9)) * fieldkit.Kilogram, Volume: fieldkit.Volume(1+src.IntN(9)) * fieldkit.Litre}}
		kit.Trips = []fieldkit.Trip{trip}
		p := Plan(kit, cat, guides, trip, nil)
		where := fmt.Sprintf("round %d", round)
		for _, o := range p.Sheet.Totals.Over {
			assert.Fail(t, "over a limit", "%s: %s", where, o.Text(fieldkit.Metric))
		}
		require.Len(t, p.Sheet.Rigs, 2)
		lines, mass := 0, fieldkit.Mass(0)
		for _, r := range p.Sheet.Rigs {
			lines, mass = lines+r.Lines, mass+r.Mass
			if r.Carries.Mass > 0 {
				assert.LessOrEqual(t, r.Mass, r.Carries.Mass, where)
			}
			if r.Carries.Volume > 0 {
				assert.LessOrEqual(t, r.Volume, r.Carries.Volume, where)
			}
		}
		assert.Equal(t, p.Sheet.Totals.Lines, lines, "%s: every line rides on a rig", where)
		assert.Equal(t, p.Sheet.Totals.Mass, mass, where)
		if p.Sheet.Rigs[0].Lines > 0 && p.Sheet.Rigs[1].Lines > 0 {
			shared++
		}
		together := trip
		together.Limits, together.Carries = boundsOf(trip), nil
		free := Plan(kit, cat, guides, together, nil)
		assert.LessOrEqual(t, float64(p.Value), float64(free.Bound)+1e-9, where)
		assert.LessOrEqual(t, float64(p.Value), float64(p.Bound)+1e-9, where)
		assert.Equal(t, counts(p.Pack), counts(Plan(kit, cat, guides, trip, &p.Pack).Pack), "%s: planning again changes nothing", where)
		assert.Equal(t, p.Sheet, Explain(kit, cat, guides, trip, p.Pack).Sheet, where)
	}
	assert.Greater(t, shared, 20, "lists are shared between the rigs")
}

// A spare that both rigs use is carried once, on the one with room.
func TestSharedOutByTheRigsLimits(t *testing.T) {
	kit, cat, guides, trip := testKit(t), testCatalog(), testGuides(t), testTrip()
	kit.Positions = kit.Positions.With(fieldkit.Position{ID: "pump-m", System: "all-mule", Name: "pump", Kind: "pump", Quantity: 1, Part: "pump-a"})
	trip.Rigs = []string{"badger", "mule"}
	trip.Limits.Money = nil
	trip.Carries = []fieldkit.Carries{{Rig: "badger", Mass: 12 * fieldkit.Kilogram}, {Rig: "mule", Mass: 5 * fieldkit.Kilogram}}
	kit.Trips = []fieldkit.Trip{trip}
	p := Plan(kit, cat, guides, trip, nil)
	assert.Equal(t, 1, counts(p.Pack)[spare("pump-a")], "the pump of both")
	assert.Empty(t, p.Sheet.Totals.Over)

	// A pump of 4 kg is more than the mule alone carries.
	trip.Carries[1].Mass = 3 * fieldkit.Kilogram
	trip.Carries[0].Mass = 3 * fieldkit.Kilogram
	kit.Trips = []fieldkit.Trip{trip}
	p = Plan(kit, cat, guides, trip, nil)
	assert.NotContains(t, counts(p.Pack), spare("pump-a"))
	for _, l := range p.LeftOut {
		if l.Ref == spare("pump-a") {
			assert.Equal(t, "it is more than any one rig carries", l.Text(fieldkit.Metric))
		}
	}
	assert.Empty(t, p.Sheet.Totals.Over)
}

// What is packed lies where it lies: planning again moves it to no other rig and no other
// bin, also where something heavier usually rides there.
func TestPackedStaysWhereItLies(t *testing.T) {
	kg := fieldkit.Kilogram
	kit, cat, guides, trip := testKit(t), testCatalog(), testGuides(t), testTrip()
	kit.Bins = []fieldkit.Bin{{ID: "drawer", Rig: "badger", Name: "drawer", MassLimit: 5 * kg, Order: 1}, {ID: "chest", Rig: "mule", Name: "chest", Order: 1}}
	kit.Spares = fieldkit.ListOf([]fieldkit.Spare{{ID: "s", Part: "pump-a", Count: 1, Bin: "drawer"}}) // 4 kg
	trip.Rigs = []string{"badger", "mule"}
	trip.Carries = []fieldkit.Carries{{Rig: "badger", Mass: 6 * kg}, {Rig: "mule", Mass: 20 * kg}}
	kit.Trips = []fieldkit.Trip{trip}
	for name, packed := range map[string]fieldkit.PackLine{
		"in a bin":  {Type: fieldkit.ToolItem, Item: "spanners", Count: 1, Packed: true, Bin: "drawer"},                    // 2 kg
		"in no bin": {Type: fieldkit.ToolItem, Item: "press", Count: 1, Packed: true, Rig: "badger"},                       // 3 kg
		"over all":  {Type: fieldkit.ConsumableItem, Item: "coolant", Count: 7, Packed: true, Bin: "drawer", Pinned: true}, // 7.7 kg
	} {
		keep := fieldkit.Pack{Trip: trip.ID, Lines: []fieldkit.PackLine{packed}}
		p := Plan(kit, cat, guides, trip, &keep)
		at := lineOf(t, p, RefOf(packed)).Line
		assert.Equal(t, packed.Bin, at.Bin, name)
		assert.Equal(t, packed.Rig, at.Rig, name)
		assert.NotEqual(t, "drawer", lineOf(t, p, spare("pump-a")).Line.Bin, "%s: there is no room left for the pump", name)
	}
}

// What cannot be shared out as one list is planned case by case: three joints of 3 kg on two
// rigs that carry 5 kg each are two, and that is proved.
func TestSharingOutThatDoesNotGo(t *testing.T) {
	kit, cat, trip := testKit(t), testCatalog(), testTrip()
	kit.Tools, kit.Consumables, kit.Bins = nil, nil, nil
	kit.Parts, kit.Positions = fieldkit.List[fieldkit.Part]{}, fieldkit.List[fieldkit.Position]{}
	for i := range 3 {
		id := fmt.Sprintf("p-%d", i)
		kit.Parts = kit.Parts.With(fieldkit.Part{ID: id, Kind: "joint", Name: id, Mass: 3 * fieldkit.Kilogram})
		kit.Positions = kit.Positions.With(fieldkit.Position{ID: id, System: "all", Name: id, Kind: "joint", Quantity: 1, Part: id})
	}
	trip.Rigs = []string{"badger", "mule"}
	trip.Carries = []fieldkit.Carries{{Rig: "badger", Mass: 5 * fieldkit.Kilogram}, {Rig: "mule", Mass: 5 * fieldkit.Kilogram}}
	kit.Trips = []fieldkit.Trip{trip}
	p := Plan(kit, cat, testGuides(t), trip, nil)
	assert.Len(t, p.Lines, 2)
	assert.Empty(t, p.Sheet.Totals.Over)
	assert.True(t, p.Proved)
	assert.InDelta(t, float64(p.Value), float64(p.Bound), 1e-9)

	// Told to stop it gives a list that goes, and the bound of the rigs together.
	p = PlanWhile(kit, cat, testGuides(t), trip, nil, Watch{KeepGoing: func() bool { return false }})
	assert.Empty(t, p.Sheet.Totals.Over)
	assert.False(t, p.Proved)
	assert.Greater(t, float64(p.Bound), float64(p.Value))
}

// The list of a crew is the best of all that can be shared out: on small kits every choice
// of up to four pieces, and every way to lay it on the rigs, is tried.
func TestCrewListIsTheBest(t *testing.T) {
	src := rand.New(rand.NewPCG(41, 42))
	cat, guides := testCatalog(), testGuides(t)
	tight := 0
	for round := range 40 {
		kit, trip := testKit(t), testTrip()
		kit.Tools, kit.Consumables, kit.Bins = nil, nil, nil
		kit.Parts, kit.Positions = fieldkit.List[fieldkit.Part]{}, fieldkit.List[fieldkit.Position]{}
		const parts = 5
		for i := range parts {
			id, kind := fmt.Sprintf("p-%d", i), []string{"joint", "hose", "pump"}[src.IntN(3)]
			kit.Parts = kit.Parts.With(fieldkit.Part{ID: id, Kind: kind, Name: id, Mass: fieldkit.Mass(500+src.IntN(3500)) * fieldkit.Gram, Volume: fieldkit.Volume(500+src.IntN(3500)) * fieldkit.Millilitre})
			for k := range 1 + src.IntN(2) {
				at := fmt.Sprintf("x-%d-%d", i, k)
				kit.Positions = kit.Positions.With(fieldkit.Position{ID: at, System: []string{"all", "all-mule"}[src.IntN(2)], Name: at, Kind: kind, Quantity: 1, Part: id})
			}
		}
		trip.Rigs = []string{"badger", "mule"}
		trip.Carries = []fieldkit.Carries{
			{Rig: "badger", Mass: fieldkit.Mass(1000+src.IntN(5000)) * fieldkit.Gram, Volume: fieldkit.Volume(1000+src.IntN(5000)) * fieldkit.Millilitre},
			{Rig: "mule", Mass: fieldkit.Mass(1000+src.IntN(5000)) * fieldkit.Gram},
		}
		kit.Trips = []fieldkit.Trip{trip}
		p := Plan(kit, cat, guides, trip, nil)
		require.True(t, p.Proved, "round %d", round)

		m := newModel(kit, cat, guides, trip, nil, nil)
		counts, best, alone := make([]int, parts), 0.0, 0.0
		var lay func(i int, free [2]load) bool
		lay = func(i int, free [2]load) bool {
			if i == parts {
				return true
			}
			l := m.items[i].load(counts[i])
			for r := range free {
				if now := free; l.mass <= now[r].mass && l.volume <= now[r].volume {
					now[r].mass, now[r].volume = now[r].mass-l.mass, now[r].volume-l.volume
					if lay(i+1, now) {
						return true
					}
				}
			}
			return false
		}
		free := [2]load{{mass: trip.Carries[0].Mass, volume: trip.Carries[0].Volume}, {mass: trip.Carries[1].Mass, volume: math.MaxInt64}}
		for choice := range 3125 { // 5 to the 5th
			for i := range counts {
				counts[i], choice = choice%5, choice/5
			}
			net := newSearch(&m.problem, counts).total() - m.packing(counts)
			if lay(0, free) {
				best = max(best, net)
			} else if len(m.beyond(m.load(counts))) == 0 {
				alone = max(alone, net)
			}
		}
		if alone > best {
			tight++
		}
		got := m.countsOf(p.Pack)
		assert.InDelta(t, best, newSearch(&m.problem, got).total()-m.packing(got), 1e-9, "round %d", round)
	}
	assert.Greater(t, tight, 5, "often the best for the rigs together cannot be shared out")
}

// What rides with a friend serves the repairs, weighs and costs nothing, is not on the
// list, and what it saves by itself is not the list's.
func TestFriendsRig(t *testing.T) {
	kit, cat, guides, trip := testKit(t), testCatalog(), testGuides(t), testTrip()
	plain := Plan(kit, cat, guides, trip, nil)
	trip.Friends = []fieldkit.Lent{
		{Type: fieldkit.ToolItem, Item: "press", Count: 1, Who: "Bo"},
		{Type: fieldkit.SpareItem, Item: "pump-a", Count: 1, Who: "Bo"},
	}
	kit.Trips = []fieldkit.Trip{trip}
	p := Plan(kit, cat, guides, trip, nil)
	assert.NotContains(t, counts(p.Pack), tool("press"))
	assert.Contains(t, counts(p.Pack), spare("joint-a"), "its repair needs the press")
	assert.Less(t, p.Sheet.Totals.Mass, plain.Sheet.Totals.Mass)
	require.Len(t, p.Friends, 2)
	assert.Equal(t, "Bo", p.Friends[0].Who)
	assert.Equal(t, []string{"Swap a joint"}, p.Friends[0].Repairs)
	assert.Greater(t, float64(p.Friends[1].Saves), 0.0)
	assert.Less(t, float64(p.Bare), float64(plain.Bare), "the friend's pump alone saves something")
	assert.InDelta(t, float64(p.Bare-p.Value), float64(p.Left), 1e-9)
	again := Explain(kit, cat, guides, trip, p.Pack)
	assert.InDelta(t, float64(p.Value), float64(again.Value), 1e-9)
	with, without := Outcomes(kit, cat, guides, trip, p.Pack, rand.New(rand.NewPCG(1, 2)))
	assert.InDelta(t, float64(p.Left), float64(with.Lost), 1e-9)
	assert.InDelta(t, float64(p.Bare), float64(without.Lost), 1e-9)
	assert.Contains(t, PackText(kit, cat, p.Pack, fieldkit.Metric), "In friends' rigs, at hand\n  1 x joint press; Bo\n")
}
