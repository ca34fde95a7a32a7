package spares

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
)

// The share of a thing where a repair needs several is its Shapley value (Shapley 1953,
// from memory). Here that is worked out from its definition, the average over all orders
// of packing of what each thing adds.
func TestSharesAreShapleyValues(t *testing.T) {
	kit, cat, guides := testKit(t), testCatalog(), testGuides(t)
	kit.Positions = fieldkit.ListOf(kit.Positions.Slice()[:1]) // one joint: spare, press, spanners, grease
	trip := testTrip()
	p := Plan(kit, cat, guides, trip, nil)
	require.Len(t, p.Lines, 4)
	m := newModel(kit, cat, guides, trip, nil, nil)
	value := func(lines []fieldkit.PackLine) float64 {
		counts := make([]int, len(m.items))
		for _, l := range lines {
			counts[m.index[RefOf(l)]] = l.Count
		}
		return newSearch(&m.problem, counts).total()
	}
	added, orders := map[Ref]float64{}, 0
	var all func(packed, left []fieldkit.PackLine)
	all = func(packed, left []fieldkit.PackLine) {
		if len(left) == 0 {
			for i, l := range packed {
				added[RefOf(l)] += value(packed[:i+1]) - value(packed[:i])
			}
			orders++
		}
		for i := range left {
			all(append(slices.Clone(packed), left[i]), slices.Delete(slices.Clone(left), i, i+1))
		}
	}
	all(nil, p.Pack.Lines)
	require.Equal(t, 24, orders)
	for _, l := range p.Lines {
		assert.InDelta(t, added[RefOf(l.Line)]/float64(orders)/float64(p.Value), l.Share, 1e-9, l.Name)
	}
}

// Shares add up to the whole on any kit, friends' things among them.
func TestSharesAddUp(t *testing.T) {
	src := rand.New(rand.NewPCG(5, 6))
	for round := range 20 {
		kit, trip := randomKit(t, src)
		trip.Friends = []fieldkit.Lent{{Type: fieldkit.ToolItem, Item: "press", Count: 1}, {Type: fieldkit.SpareItem, Item: "part-0", Count: 1}}
		kit.Trips = []fieldkit.Trip{trip}
		p := Plan(kit, testCatalog(), testGuides(t), trip, nil)
		sum := 0.0
		for _, l := range append(p.Lines, p.Friends...) {
			assert.GreaterOrEqual(t, l.Share, 0.0)
			sum += l.Share
		}
		if p.Value > 0 {
			assert.InDelta(t, 1, sum, 1e-9, "round %d", round)
		}
	}
}

// Without a thing the best list is that of the trip on which it is banned.
func TestWithoutIsThePlanWithABan(t *testing.T) {
	src := rand.New(rand.NewPCG(7, 8))
	cat, guides := testCatalog(), testGuides(t)
	for round := range 15 {
		kit, trip := randomKit(t, src)
		p := Plan(kit, cat, guides, trip, nil)
		again := PlanAgain(kit, cat, guides, trip, nil, p.Pack, nil)
		for _, l := range p.Lines {
			ref := RefOf(l.Line)
			keep := Ban(fieldkit.Pack{Trip: trip.ID}, ref)
			banned := Plan(kit, cat, guides, trip, &keep)
			d := again.Without(ref, nil)
			require.True(t, d.Proved && banned.Proved)
			assert.InDelta(t, max(float64(p.Value-banned.Value), 0), float64(d.Costs), 1e-9, "round %d: %s", round, l.Name)
			assert.LessOrEqual(t, float64(d.Costs), float64(l.Saves)+1e-9, "what else may come along makes up for some of it")
		}
	}
}

// What brings a thing in is checked by planning with that limit and with every step less,
// the thing pinned in every number of pieces and banned.
func TestEntryIsTheLeast(t *testing.T) {
	src := rand.New(rand.NewPCG(9, 10))
	cat, guides := testCatalog(), testGuides(t)
	found := 0
	for round := range 30 {
		kit, trip := randomKit(t, src)
		trip.Limits.Mass = fieldkit.Mass(1+src.IntN(8)) * fieldkit.Kilogram
		p := Plan(kit, cat, guides, trip, nil)
		again := PlanAgain(kit, cat, guides, trip, nil, p.Pack, nil)
		for _, l := range p.LeftOut[:min(len(p.LeftOut), 2)] {
			e := again.Entry(l.Ref, nil)
			if e.Mass == 0 {
				continue
			}
			found++
			where := fmt.Sprintf("round %d: %s, %+v", round, l.Name, e)
			require.True(t, e.Done, where)
			on := func(more fieldkit.Mass) bool {
				wider, with := trip, -1.0
				wider.Limits.Mass += more
				for n := 1; n <= MaxCopies; n++ {
					keep := SetCount(fieldkit.Pack{Trip: trip.ID}, l.Ref, n)
					q := Plan(kit, cat, guides, wider, &keep)
					if m := newModel(kit, cat, guides, wider, nil, nil); len(m.beyond(m.load(m.countsOf(q.Pack)))) == 0 {
						with = max(with, net(q))
					}
				}
				keep := Ban(fieldkit.Pack{Trip: trip.ID}, l.Ref)
				return with >= net(Plan(kit, cat, guides, wider, &keep))-1e-9
			}
			assert.True(t, on(e.Mass), where)
			for more := fieldkit.Mass(0); e.Proved && more <= e.Mass-100*fieldkit.Gram; more += 500 * fieldkit.Gram {
				assert.False(t, on(more), "%s: %v is enough", where, more)
			}
		}
	}
	assert.Greater(t, found, 10, "the cases have something to find")
}

// net is what a list saves less what packing it is taken to cost.
func net(p Proposal) float64 {
	sum := float64(p.Value)
	for _, l := range p.Pack.Lines {
		if l.Type == fieldkit.SpareItem {
			sum -= leastGain * float64(l.Count)
		} else {
			sum -= gearCost * float64(l.Count)
		}
	}
	return sum
}

// A list that somebody changed by hand is as far from the best one as the two save
// apart, packing counted; a search that is ended says what it leaves open.
func TestBest(t *testing.T) {
	src := rand.New(rand.NewPCG(11, 12))
	for round := range 12 {
		kit, trip := randomKit(t, src)
		p := Plan(kit, testCatalog(), testGuides(t), trip, nil)
		if len(p.Pack.Lines) < 2 {
			continue
		}
		less := p.Pack
		less.Lines = p.Pack.Lines[1:]
		without := Explain(kit, testCatalog(), testGuides(t), trip, less)
		again := PlanAgain(kit, testCatalog(), testGuides(t), trip, nil, less, nil)
		best := again.Best(nil)
		require.True(t, best.Proved, "round %d", round)
		assert.InDelta(t, net(p)-net(without), float64(best.More), 1e-9, "round %d", round)
		assert.Equal(t, best.More, best.Most)
		assert.NotContains(t, best.Words(false, true), "tick")
		assert.Equal(t, best.More >= nearly, strings.Contains(best.Words(true, false), "take the tick off"))
		assert.Equal(t, best.More >= nearly, strings.Contains(best.Words(false, true), "saves ≈ "+best.More.String()+" (guess) more"))
		ended := again.Best(func() bool { return false })
		assert.GreaterOrEqual(t, float64(ended.Most), float64(best.More)-1e-9, "round %d", round)
	}
}

// On the demo's next trip every answer is proved, and what was just left out is brought in
// by what is said.
func TestAgainOnTheDemo(t *testing.T) {
	kit, cat, guides := data.DemoKit(), data.Catalog(), data.Guides()
	trip := kit.Trips[len(kit.Trips)-1]
	p := Plan(kit, cat, guides, trip, nil)
	again := PlanAgain(kit, cat, guides, trip, nil, p.Pack, nil)
	best := again.Best(nil)
	assert.True(t, best.Proved)
	assert.Zero(t, best.More)
	assert.Contains(t, best.Words(true, true), "Proved: no list within the limits saves more")
	for _, l := range p.Lines[:6] {
		d := again.Without(RefOf(l.Line), nil)
		assert.True(t, d.Proved, l.Name)
		assert.LessOrEqual(t, float64(d.Costs), float64(l.Saves)+1e-9, l.Name)
	}
	for _, l := range p.LeftOut[:3] {
		e := again.Entry(l.Ref, nil)
		require.True(t, e.Done, l.Name)
		if e.Found() {
			wider, money := trip, *trip.Limits.Money
			money.Cents += e.Money.Cents
			wider.Limits = fieldkit.Limits{Mass: trip.Limits.Mass + e.Mass, Volume: trip.Limits.Volume + e.Volume, Money: &money}
			assert.Contains(t, counts(Plan(kit, cat, guides, wider, nil).Pack), l.Ref, l.Name)
		}
	}
}

func BenchmarkWithoutDemo(b *testing.B) {
	kit, cat, guides := data.DemoKit(), data.Catalog(), data.Guides()
	trip := kit.Trips[len(kit.Trips)-1]
	p := Plan(kit, cat, guides, trip, nil)
	again, i := PlanAgain(kit, cat, guides, trip, nil, p.Pack, nil), 0
	for b.Loop() {
		again.Without(RefOf(p.Pack.Lines[i%len(p.Pack.Lines)]), nil)
		i++
	}
}

func BenchmarkEntryDemo(b *testing.B) {
	kit, cat, guides := data.DemoKit(), data.Catalog(), data.Guides()
	trip := kit.Trips[len(kit.Trips)-1]
	p := Plan(kit, cat, guides, trip, nil)
	again, i := PlanAgain(kit, cat, guides, trip, nil, p.Pack, nil), 0
	for b.Loop() {
		again.Entry(p.LeftOut[i%5].Ref, nil)
		i++
	}
}

// Whoever asked may go away in the middle of a question: that changes no later answer, and
// who prepared the questions is not asked again.
func TestQuestionLeftHalfWay(t *testing.T) {
	kit, cat := data.DemoKit(), data.Catalog()
	trip := kit.Trips[len(kit.Trips)-1]
	for i := range trip.Carries { // so that rigs have to share, and some of it does not go
		trip.Carries[i].Mass = 40 * fieldkit.Kilogram
	}
	pack := Plan(kit, cat, data.Guides(), trip, nil).Pack
	prepared := false
	ask := func() *Again {
		return PlanAgain(kit, cat, data.Guides(), trip, nil, pack, func() bool { assert.False(t, prepared); return true })
	}
	a := ask()
	want := a.Best(nil)
	a, prepared = ask(), true
	for _, turns := range []int{1, 30, 1000} {
		gone := make(chan struct{})
		go func() {
			defer close(gone)
			a.Best(func() bool {
				if turns--; turns < 0 {
					runtime.Goexit()
				}
				return true
			})
		}()
		<-gone
		assert.Equal(t, want, a.Best(nil))
	}
}
