package spares

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

// net is what a choice saves less what packing it is taken to cost.
func (p *problem) net(s *search, counts []int) float64 {
	s.start(counts)
	sum := s.total()
	for i, n := range counts {
		sum -= p.handling(option{i, n - p.items[i].least})
	}
	return sum
}

// enumerate tries every number of pieces of everything.
func (p *problem) enumerate() (best float64) {
	counts := make([]int, len(p.items))
	for i, it := range p.items {
		counts[i] = it.least
	}
	s := newSearch(p, counts)
	var walk func(i int)
	walk = func(i int) {
		if i == len(p.items) {
			if len(p.beyond(p.load(counts))) == 0 {
				best = max(best, p.net(s, counts))
			}
			return
		}
		for n := p.items[i].least; n <= p.items[i].most; n++ {
			counts[i] = n
			walk(i + 1)
		}
		counts[i] = p.items[i].least
	}
	walk(0)
	return best
}

func TestExactEqualsEnumeration(t *testing.T) {
	src := rand.New(rand.NewPCG(31, 32))
	cat, guides := testCatalog(), testGuides(t)
	for round := range 20 {
		kit, trip := randomKit(t, src)
		m := newModel(kit, cat, guides, trip, nil, nil)
		for i, a := range m.articles {
			most := 2
			if a.ref.Type == fieldkit.SpareItem {
				most = 1
			}
			m.items[i].most = min(m.items[i].most, most)
		}
		s := m.exact(nil, nil)
		where := fmt.Sprint("round ", round)
		if !s.proved {
			continue // pools too large: see TestLargePools
		}
		assert.InDelta(t, m.enumerate(), m.net(newSearch(&m.problem, s.counts), s.counts), 1e-9, where)
	}
}

func TestExactBesideGreedy(t *testing.T) {
	src := rand.New(rand.NewPCG(41, 42))
	cat, guides := testCatalog(), testGuides(t)
	better, proved := 0, 0
	for round := range 60 {
		kit, trip := randomKit(t, src)
		m := newModel(kit, cat, guides, trip, nil, nil)
		s, where := m.exact(nil, nil), fmt.Sprint("round ", round)
		evaluate := newSearch(&m.problem, s.counts)
		ours, theirs := m.net(evaluate, s.counts), m.net(evaluate, m.solve(nil))
		assert.GreaterOrEqual(t, ours, theirs-1e-9, where)
		assert.Empty(t, m.beyond(m.load(s.counts)), where)
		assert.GreaterOrEqual(t, s.bound, s.value, where)
		if ours > theirs+1e-9 {
			better++
		}
		if s.proved {
			proved++
		}
		// More weight never lowers what is saved, less what packing costs.
		m.limits.Mass *= 2
		if more := m.exact(nil, nil); s.proved && more.proved {
			assert.GreaterOrEqual(t, m.net(evaluate, more.counts), ours-1e-9, where)
		}
	}
	assert.Positive(t, better)
	assert.Greater(t, proved, 40)
	t.Logf("better than marginal analysis in %d of 60, proven in %d", better, proved)
}

// A pool of many parts that stand in for each other has more loads than can be weighed
// up: the choice keeps to the limits and the bound is above it.
func TestLargePools(t *testing.T) {
	kit, cat, guides, trip := largeKit(t)
	kit.Links = fieldkit.List[fieldkit.Link]{}
	for i := range 9 {
		kit.Links = kit.Links.With(fieldkit.Link{ID: fmt.Sprint("l", i), For: "p-000", With: fmt.Sprintf("p-%03d", 80*(i%5+1)), Grade: fieldkit.DropIn},
			fieldkit.Link{ID: fmt.Sprint("m", i), For: fmt.Sprintf("p-%03d", i), With: fmt.Sprintf("p-%03d", i+1), Grade: fieldkit.DropIn})
	}
	m := newModel(kit, cat, guides, trip, nil, nil)
	require.False(t, m.whole())
	asked := 0
	s := m.exact(func() bool { asked++; return asked < 3000 }, nil)
	assert.Empty(t, m.beyond(m.load(s.counts)))
	assert.GreaterOrEqual(t, s.bound, s.value)
	greedy := newSearch(&m.problem, m.solve(nil)).total()
	assert.Greater(t, s.value, greedy*0.98)
	t.Logf("value %.2f, bound %.2f, marginal analysis %.2f", s.value, s.bound, greedy)
}

func TestPlanIsProven(t *testing.T) {
	kit, cat, guides, trip := largeKit(t)
	p := Plan(kit, cat, guides, trip, nil)
	assert.GreaterOrEqual(t, float64(p.Bound), float64(p.Value))
	alone := kit
	alone.Links = fieldkit.List[fieldkit.Link]{} // small pools
	assert.True(t, Plan(alone, cat, guides, trip, nil).Proved)
	greedy := newModel(kit, cat, guides, trip, nil, nil)
	assert.GreaterOrEqual(t, float64(p.Value), newSearch(&greedy.problem, greedy.solve(nil)).total()-1)
	t.Logf("value %.2f bound %.2f proved %v", p.Value, p.Bound, p.Proved)

	// Told to stop at once, it still has a list within the limits.
	p = PlanWhile(kit, cat, guides, trip, nil, Watch{KeepGoing: func() bool { return false }})
	assert.Empty(t, p.Sheet.Totals.Over)
	assert.NotEmpty(t, p.Lines)
	assert.GreaterOrEqual(t, float64(p.Bound), float64(p.Value))
	assert.False(t, p.Proved)
	assert.False(t, slices.ContainsFunc(p.Lines, func(l Line) bool { return l.Line.Count < 1 }))
}

// A pool of which nothing fits the limits leaves no trace in the problem.
func TestNothingOfAPoolFits(t *testing.T) {
	kit, trip := testKit(t), testTrip()
	kit.Tools, kit.Consumables = nil, nil
	kit.Parts.Ref(0).Mass, kit.Parts.Ref(1).Mass = 2*fieldkit.Kilogram, 2*fieldkit.Kilogram // joint and hose
	kit.Parts.Ref(2).Mass = 800 * fieldkit.Gram                                             // pump
	trip.Limits.Mass = fieldkit.Kilogram
	assert.Equal(t, map[Ref]int{spare("pump-a"): 1}, counts(Plan(kit, testCatalog(), testGuides(t), trip, nil).Pack))
}
