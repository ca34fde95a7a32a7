package spares

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
)

// agrees holds the computed outcome against simulated trips: within four standard
// errors, and a minute for the costs that are kept in whole minutes.
func agrees(t *testing.T, m *model, counts []int, trips int, seed uint64) {
	t.Helper()
	home, lost := m.outcome(counts)
	s := m.simulate(counts, trips, rand.New(rand.NewPCG(seed, 7)))
	assert.InDelta(t, home, s.Home, 4*s.HomeError+1e-9, "getting home, simulated %.4f ± %.4f", s.Home, s.HomeError)
	assert.InDelta(t, float64(lost), float64(s.Lost), 4*float64(s.LostError)+1.0/60, "lost, simulated %v ± %v", s.Lost, s.LostError)
}

func TestSimulationOfTheDemo(t *testing.T) {
	kit, cat, guides := data.DemoKit(), data.Catalog(), data.Guides()
	for _, trip := range kit.Trips[len(kit.Trips)-1:] {
		for _, yardstick := range fieldkit.Yardsticks {
			trip.Yardstick = yardstick
			trip.Towns = append([]fieldkit.Town(nil), trip.Towns...)
			trip.Towns[0].Closed = []fieldkit.Weekday{fieldkit.Sunday}
			t.Run(fmt.Sprint(trip.ID, " ", yardstick), func(t *testing.T) {
				pack := Plan(kit, cat, guides, trip, nil).Pack
				m, counts := modelOf(kit, cat, guides, trip, pack, nil)
				agrees(t, m, counts, 20_000, 1)
				agrees(t, m, make([]int, len(counts)), 20_000, 2)
			})
		}
	}
}

// Random kits with spares that fit several places, changes, hearsay, tools that are
// missing, towns and failures often enough that copies run out.
func TestSimulationOfRandomKits(t *testing.T) {
	for seed := range uint64(6) {
		src := rand.New(rand.NewPCG(seed, 99))
		kit, cat, guides, trip := largeKit(t)
		kit.Positions = fieldkit.ListOf(kit.Positions.Slice()[:20+src.IntN(40)])
		kit.Tools = kit.Tools[:20+src.IntN(40)]
		for i := range cat.PartKinds {
			cat.PartKinds[i].Per10000 *= 1 + 4*src.Float64()
			cat.PartKinds[i].Stores = []string{"parts"}
			cat.PartKinds[i].IfBroken = fieldkit.Moves[src.IntN(3)]
		}
		for i := range kit.Links.All() {
			kit.Links.Ref(i).Evidence = []fieldkit.Evidence{fieldkit.Measured, fieldkit.Hearsay}[src.IntN(2)]
			if src.IntN(3) == 0 {
				kit.Links.Ref(i).Grade, kit.Links.Ref(i).Changes = fieldkit.WithChanges, []string{"file the flange"}
			}
		}
		trip.Start, trip.Days = fieldkit.Date{Year: 2026, Month: 5, Day: 14}, 6
		trip.Towns = []fieldkit.Town{{Name: "A", Away: fieldkit.Minutes(20 + src.IntN(200)), Stores: []string{"parts"}, Closed: []fieldkit.Weekday{fieldkit.Saturday, fieldkit.Sunday}, Order: 600}}
		pack := Plan(kit, cat, guides, trip, nil).Pack
		m, counts := modelOf(kit, cat, guides, trip, pack, nil)
		require.NotEmpty(t, m.risks)
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			agrees(t, m, counts, 15_000, seed)
			agrees(t, m, make([]int, len(counts)), 15_000, seed+100)
			few := append([]int(nil), counts...)
			for i := range few {
				few[i] -= src.IntN(few[i] + 1)
			}
			agrees(t, m, few, 15_000, seed+200)
		})
	}
}

// Sums one can do by hand: two joints at 0.1 failures each, one of which strands.
func TestOutcomeByHand(t *testing.T) {
	kit, trip := testKit(t), testTrip()
	kit.Positions = fieldkit.ListOf(kit.Positions.Slice()[:2])
	trip.Costs = []fieldkit.Cost{{Position: "joint-l", Move: fieldkit.Tow}}
	empty := fieldkit.Pack{Trip: trip.ID}
	src := func() *rand.Rand { return rand.New(rand.NewPCG(1, 2)) }
	_, without := Outcomes(kit, testCatalog(), testGuides(t), trip, empty, src())
	assert.InDelta(t, 0.904837418036, without.Home, 1e-12, "exp(-0.1)")
	assert.InDelta(t, 0.2*8, float64(without.Lost), 1e-12)

	whole := Plan(kit, testCatalog(), testGuides(t), trip, nil).Pack
	with, again := Outcomes(kit, testCatalog(), testGuides(t), trip, whole, src())
	assert.Equal(t, without, again, "what is not on board changes nothing, and the same seed gives the same")
	assert.Greater(t, with.Home, 0.999)
	assert.Less(t, with.Lost, without.Lost)
	for _, o := range []Outcome{with, without} {
		assert.Less(t, o.HomeWithin[0], o.HomeWithin[1])
		assert.LessOrEqual(t, o.HomeWithin[0], o.Home)
		assert.GreaterOrEqual(t, o.HomeWithin[1], o.Home)
		assert.Less(t, o.LostWithin[0], o.Lost)
		assert.Greater(t, o.LostWithin[1], o.Lost)
	}
	assert.Zero(t, Simulate(kit, testCatalog(), testGuides(t), trip, whole, 0, src()))

	// One joint on board: stranded if the left one fails after the piece is gone.
	m, counts := modelOf(kit, testCatalog(), testGuides(t), trip, whole, nil)
	counts[m.index[spare("joint-a")]] = 1
	home, _ := m.outcome(counts)
	// Well: none or one failure, or the first at either and then only right ones:
	// e^-0.2·(1 + 0.2) + Σ over n ≥ 2 of P(N = n)·(1/2)^(n-1).
	want := 0.818730753078*1.2 + 2*(0.904837418036-0.818730753078*(1+0.1))
	assert.InDelta(t, want, home, 1e-11)
	agrees(t, m, counts, 40_000, 3)
}

func BenchmarkOutcomesDemo(b *testing.B) {
	kit, cat, guides := data.DemoKit(), data.Catalog(), data.Guides()
	trip := kit.Trips[len(kit.Trips)-1]
	pack := Plan(kit, cat, guides, trip, nil).Pack
	for b.Loop() {
		Outcomes(kit, cat, guides, trip, pack, rand.New(rand.NewPCG(1, 2)))
	}
}
