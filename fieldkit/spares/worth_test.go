package spares

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// pooled makes a problem of demands that need no tools.
func pooled(demands ...demand) *problem {
	p := &problem{demands: demands, remedies: []remedy{{}}}
	items := 0
	for d := range p.demands {
		p.demands[d].remedies = []int{0}
		for _, r := range p.demands[d].reach {
			items = max(items, r.item+1)
		}
	}
	p.items = make([]item, items)
	p.connect()
	return p
}

func total(p *problem, counts ...int) (sum float64) {
	for pool := range p.pools {
		sum += p.worthOf(pool, counts).value
	}
	return sum
}

func full(items ...int) (list []reach) {
	for _, i := range items {
		list = append(list, reach{i, 1})
	}
	return list
}

// One kind of spare: hours × E[min(N, copies)], the demands of all its places added.
func TestWorthOfOneSpare(t *testing.T) {
	p := pooled(demand{rate: 0.2, hours: 5, reach: full(0)}, demand{rate: 0.3, hours: 5, reach: full(0)})
	for copies := 0; copies <= 6; copies++ {
		assert.InDelta(t, 5*expectedUses(0.5, copies), total(p, copies), 1e-11)
	}
	// One pooled spare keeps the rig going with P(N ≤ 1) = 0.9098 (printed Poisson
	// table, mean 0.5): the second failure is the first that is not mended, so of the
	// value of very many copies, 0.5 uses, one copy misses E[(N−1)⁺].
	assert.InDelta(t, 0.9098, AtMost(1, 0.5), 5e-5)
}

// Of two places with unequal hours each failure counts its own: first come, first
// served, so that one piece goes to either in proportion to its rate.
func TestWorthOfUnequalPlaces(t *testing.T) {
	p := pooled(demand{rate: 0.1, hours: 10, reach: full(0)}, demand{rate: 0.3, hours: 2, reach: full(0)})
	assert.InDelta(t, (1-math.Exp(-0.4))*(0.25*10+0.75*2), total(p, 1), 1e-12)
}

// Spare A fits place 1 only, spare B both; one of each. A is used first at place 1.
// A serves min(N1, 1), B serves one if N2 ≥ 1 or N1 ≥ 2:
//
//	E = 1 − e^−λ1 + 1 − e^−λ2·e^−λ1·(1 + λ1)
func TestWorthOfOverlap(t *testing.T) {
	l1, l2 := 0.7, 0.4
	p := pooled(demand{rate: l1, hours: 1, reach: full(0, 1)}, demand{rate: l2, hours: 1, reach: full(1)})
	want := 1 - math.Exp(-l1) + 1 - math.Exp(-l2)*math.Exp(-l1)*(1+l1)
	assert.InDelta(t, want, total(p, 1, 1), 1e-11)

	out := p.worthOf(0, []int{1, 1})
	assert.InDelta(t, 1-math.Exp(-l1), out.uses[0][0], 1e-11, "A at place 1")
	assert.InDelta(t, want, out.uses[0][0]+out.uses[0][1]+out.uses[1][0], 1e-11)
}

func TestWorthOfAPlaceThatCannotBeMended(t *testing.T) {
	p := pooled(demand{rate: 0.5, hours: 4, reach: full(0)})
	p.items = append(p.items, item{})
	p.remedies = []remedy{{wants: []want{{anyOf: []option{{1, 1}}}}}}
	p.connect()
	assert.Zero(t, total(p, 3, 0))
	assert.InDelta(t, 4*expectedUses(0.5, 3), total(p, 3, 1), 1e-11)
}

// The recursion over all orders of failures, by the definition: P(N = n) times the
// share of each order.
func byOrders(p *problem, counts []int) (sum float64) {
	rate := 0.0
	for _, d := range p.demands {
		rate += d.rate
	}
	var after func(left []int, n int) float64 // expected saving of n further failures
	after = func(left []int, n int) (value float64) {
		if n == 0 {
			return 0
		}
		for _, d := range p.demands {
			next, saved := left, 0.0
			for _, r := range d.reach {
				if left[r.item] > 0 {
					next = append([]int(nil), left...)
					next[r.item]--
					saved = float64(d.hours) * r.worth
					break
				}
			}
			value += d.rate / rate * (saved + after(next, n-1))
		}
		return value
	}
	probability := math.Exp(-rate)
	for n := 1; n <= 7; n++ {
		probability *= rate / float64(n)
		sum += probability * after(counts, n)
	}
	return sum
}

func TestWorthEqualsTheSumOverAllOrders(t *testing.T) {
	src := rand.New(rand.NewPCG(1, 2))
	for round := range 30 {
		p, counts := randomPool(src, 3, 3)
		assert.InDelta(t, byOrders(p, counts), total(p, counts...), 1e-5, "round %d", round) // 8 failures and more are left out of the sum
	}
}

// A further piece never makes a list worse, whatever is on it.
func TestWorthNeverFallsWithAnotherPiece(t *testing.T) {
	src := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		p, counts := randomPool(src, 5, 4)
		before := total(p, counts...)
		for i := range counts {
			counts[i]++
			assert.GreaterOrEqual(t, total(p, counts...), before-1e-10)
			counts[i]--
		}
		bound := 0.0
		for _, d := range p.demands {
			bound += d.rate * float64(d.hours)
		}
		assert.LessOrEqual(t, before, bound+1e-10, "no more than all failures cost")
	}
}

func randomPool(src *rand.Rand, demands, items int) (*problem, []int) {
	var list []demand
	for range demands {
		d := demand{rate: 0.02 + 0.2*src.Float64(), hours: Hours(1 + 9*src.Float64())}
		for i := range items {
			if src.IntN(2) == 0 {
				d.reach = append(d.reach, reach{i, 1})
			}
		}
		if n := len(d.reach); n > 0 && src.IntN(2) == 0 {
			d.reach[n-1].worth = 0.5
		}
		list = append(list, d)
	}
	p := pooled(list...)
	counts := make([]int, items)
	p.items = make([]item, items)
	for i := range counts {
		counts[i] = src.IntN(3)
	}
	p.connect()
	return p, counts
}

// Hundreds of pieces of many parts that all fit one place are followed only as far
// as the memory goes: too low a value, never too high, and in no time.
func TestWorthOfTooManyStates(t *testing.T) {
	var items []int
	counts := make([]int, 30)
	for i := range counts {
		items = append(items, i)
		counts[i] = MaxCount
	}
	p := pooled(demand{rate: 6, hours: 1, reach: full(items...)})
	got := total(p, counts...)
	assert.LessOrEqual(t, got, 6+1e-9)
	assert.InDelta(t, 6, got, 0.01)
}

func TestPools(t *testing.T) {
	p := pooled(
		demand{rate: 1, reach: full(0)}, demand{rate: 1, reach: full(1, 2)},
		demand{rate: 1, reach: full(2)}, demand{rate: 1, reach: full(0)}, demand{rate: 1, reach: full(1, 0)},
		demand{rate: 1, reach: full(3)},
	)
	assert.Equal(t, "[[0 1 2 3 4] [5]]", fmt.Sprint(p.pools))
	assert.Equal(t, "[0 0 0 1]", fmt.Sprint(p.poolOf))
}
