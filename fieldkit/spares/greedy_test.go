package spares

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/fieldkit"
)

// group is a pool served by one spare, as in the published and constructed examples.
type group struct {
	rate, hours          float64
	grams, cents, millis int64
	copies               int
	tools                []int
}

type gear struct{ grams, cents, millis int64 }

// grouped makes a problem of groups and shared tools: items 0 … are the groups'
// spares, the tools follow.
func grouped(groups []group, tools []gear, grams, cents, millis int64) *problem {
	p := &problem{}
	p.limits.Mass = fieldkit.Mass(grams) * fieldkit.Gram
	p.limits.Volume = fieldkit.Volume(millis) * fieldkit.Millilitre
	if cents > 0 {
		p.limits.Money = &fieldkit.Money{Cents: cents}
	}
	for g, x := range groups {
		p.items = append(p.items, item{mass: fieldkit.Mass(x.grams) * fieldkit.Gram, volume: fieldkit.Volume(x.millis) * fieldkit.Millilitre, cents: x.cents, most: x.copies})
		re := remedy{}
		for _, t := range x.tools {
			re.wants = append(re.wants, want{anyOf: []option{{len(groups) + t, 1}}})
		}
		p.remedies = append(p.remedies, re)
		p.demands = append(p.demands, demand{rate: x.rate, hours: Hours(x.hours), reach: full(g), remedies: []int{g}})
	}
	for _, t := range tools {
		p.items = append(p.items, item{mass: fieldkit.Mass(t.grams) * fieldkit.Gram, volume: fieldkit.Volume(t.millis) * fieldkit.Millilitre, cents: t.cents, most: 1})
	}
	p.connect()
	return p
}

// best finds the optimum by trying everything.
func best(p *problem) (value float64) {
	counts := make([]int, len(p.items))
	var try func(i int)
	try = func(i int) {
		if i == len(counts) {
			if len(p.beyond(p.load(counts))) == 0 {
				value = max(value, total(p, counts...))
			}
			return
		}
		for counts[i] = p.items[i].least; counts[i] <= p.items[i].most; counts[i]++ {
			try(i + 1)
		}
		counts[i] = 0
	}
	try(0)
	return value
}

// Constructed, with the optimum by enumeration: five groups of places with three
// shared tools under three limits. Two pieces of group 2, one of group 4 and two of
// group 5 with the first tool avoid 170.60118537 h.
func TestSolveSharedToolsThreeLimits(t *testing.T) {
	p := grouped([]group{
		{0.285, 19, 1940, 300, 240, 4, []int{1, 2}},
		{1.219, 67, 1550, 6225, 1430, 3, nil},
		{0.732, 10, 560, 7250, 180, 4, []int{2}},
		{1.005, 72, 2430, 2300, 870, 4, nil},
		{0.944, 64, 2140, 3350, 550, 2, []int{0}},
	}, []gear{{1590, 3200, 1490}, {1790, 4000, 70}, {530, 825, 2600}}, 14650, 32750, 6620)
	assert.InDelta(t, 170.60118537, total(p, 0, 2, 0, 1, 2, 1, 0, 0), 1e-8)
	assert.InDelta(t, 170.60118537, best(p), 1e-8)
	got := p.solve(nil)
	assert.Empty(t, p.beyond(p.load(got)))
	assert.GreaterOrEqual(t, total(p, got...), 0.95*170.60118537)
}

// Two places share one heavy tool; the single best spare by value per kilogram
// stands alone and would block the better pair. Marginal analysis one spare at a
// time gets 5, the pair with its tool 7.6. Constructed; certain failures stand for
// the probabilities, as P(N ≥ 1) is close to 1 at a mean of 20.
func TestSolveSeesASharedToolAtItsWorth(t *testing.T) {
	p := grouped([]group{
		{20, 4.0, 1000, 4000, 0, 1, []int{0}},
		{20, 3.6, 1000, 3000, 0, 1, []int{0}},
		{20, 5.0, 2600, 9000, 0, 1, nil},
	}, []gear{{2500, 0, 0}}, 5000, 20000, 0)
	assert.InDelta(t, 7.6, best(p), 1e-6)
	assert.Equal(t, []int{1, 1, 0, 1}, p.solve(nil))
}

// Sherbrooke, Optimal Inventory Modeling of Systems, ch. 2 (method): least expected
// shortage for a budget. A: mean 1, cost 5; B: mean 4, cost 1. On the points of the
// marginal path greedy is exact; the shortages are by enumeration.
func TestSolveMarginalAnalysis(t *testing.T) {
	cases := []struct {
		budget   int64
		want     []int
		shortage float64
	}{
		{1, []int{0, 1}, 4.01831563889},
		{6, []int{0, 6}, 1.19543458146},
		{11, []int{1, 6}, 0.563314022634},
		{12, []int{1, 7}, 0.452640044232},
		{17, []int{2, 7}, 0.188398926575},
		{18, []int{2, 8}, 0.137265310782},
	}
	for _, c := range cases {
		p := grouped([]group{{1, 1, 0, 5, 0, 20, nil}, {4, 1, 0, 1, 0, 20, nil}}, nil, 0, c.budget, 0)
		got := p.solve(nil)
		assert.Equal(t, c.want, got, "budget %d", c.budget)
		assert.InDelta(t, c.shortage, 5-total(p, got...), 1e-9, "budget %d", c.budget)
		assert.InDelta(t, c.shortage, 5-best(p), 1e-9, "budget %d", c.budget)
	}
}

// Many small things do not crowd out one large one that is worth more.
func TestSolveTakesTheLargeThing(t *testing.T) {
	p := grouped([]group{{20, 1, 10, 0, 0, 1, nil}, {20, 50, 1000, 0, 0, 1, nil}}, nil, 1000, 0, 0)
	assert.Equal(t, []int{0, 1}, p.solve(nil))
}

func TestSolveLaws(t *testing.T) {
	src := rand.New(rand.NewPCG(5, 6))
	reached, possible := 0.0, 0.0
	for round := range 200 {
		p := randomProblem(src)
		got := p.solve(nil)
		value := total(p, got...)
		assert.Empty(t, p.beyond(p.load(got)), "round %d: never over a limit", round)
		for i, n := range got {
			assert.LessOrEqual(t, n, p.items[i].most, "round %d", round)
		}
		optimum := best(p)
		assert.LessOrEqual(t, value, optimum+1e-9, "round %d: no better than the best", round)
		reached, possible = reached+value, possible+optimum
		for i := range got {
			if got[i] > 0 {
				fewer := append([]int(nil), got...)
				fewer[i]--
				assert.GreaterOrEqual(t, value-total(p, fewer...), leastGain-1e-9, "round %d: item %d earns its place", round, i)
			}
		}
		for i := range got {
			more := append([]int(nil), got...)
			if more[i]++; more[i] <= p.items[i].most && len(p.beyond(p.load(more))) == 0 {
				assert.Less(t, total(p, more...)-value, leastGain+1e-9, "round %d: item %d was left though it fits", round, i)
			}
		}
		assert.Equal(t, got, p.solve(nil), "round %d: the same again", round)
	}
	assert.Greater(t, reached/possible, 0.97, "on the whole close to the best")
	t.Logf("%.4f of the best value", reached/possible)
}

// A pinned item stays though it breaks a limit, and nothing more is added on that side.
func TestSolveKeepsPins(t *testing.T) {
	p := grouped([]group{{0.5, 4, 900, 0, 0, 3, nil}, {0.5, 4, 300, 0, 0, 3, nil}, {0.5, 1, 0, 0, 0, 1, nil}}, nil, 1000, 0, 0)
	p.items[0].least = 2
	assert.Equal(t, []int{2, 0, 1}, p.solve(nil))
}

func randomProblem(src *rand.Rand) *problem {
	const spareKinds, tools = 4, 2
	p := &problem{limits: fieldkit.Limits{
		Mass: fieldkit.Mass(500+src.IntN(4000)) * fieldkit.Gram, Money: &fieldkit.Money{Cents: int64(src.IntN(20000))},
	}}
	for range spareKinds {
		p.items = append(p.items, item{mass: fieldkit.Mass(src.IntN(1500)) * fieldkit.Gram, cents: int64(src.IntN(5000)), stock: src.IntN(2), most: 2})
	}
	for range tools {
		p.items = append(p.items, item{mass: fieldkit.Mass(src.IntN(2000)) * fieldkit.Gram, stock: src.IntN(2), cents: 1000, most: 1})
	}
	p.remedies = []remedy{
		{}, {wants: []want{{anyOf: []option{{spareKinds, 1}}}}},
		{wants: []want{{anyOf: []option{{spareKinds, 1}}}, {anyOf: []option{{spareKinds + 1, 1}}}}},
		{wants: []want{{anyOf: []option{{spareKinds, 1}, {spareKinds + 1, 1}}}}},
	}
	for range 5 {
		d := demand{rate: 0.3 * src.Float64(), hours: Hours(1 + 10*src.Float64()), remedies: []int{src.IntN(len(p.remedies))}}
		for i := range spareKinds {
			if src.IntN(3) == 0 {
				d.reach = append(d.reach, reach{i, 1})
			}
		}
		p.demands = append(p.demands, d)
	}
	p.connect()
	return p
}
