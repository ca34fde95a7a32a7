package spares

import (
	"math"
	"math/rand/v2"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// Outcome is what a trip comes to with what is on board.
type Outcome struct {
	// Home is the probability that no failure leaves a rig that cannot drive on: each
	// that would is fixed from what is on board.
	Home float64
	Lost Hours // expected, over all failures, in the trip's yardstick
	// The same 9 times in 10 between these, by how sure the likelihoods are.
	HomeWithin [2]float64
	LostWithin [2]Hours
}

// draws is how many worlds an interval is made of: enough that its ends lie within
// the width of a word of where more would put them, few enough for a phone.
const draws = 120

// Outcomes says what a trip comes to with a packing list and with nothing on board but
// what rides in friends' rigs.
// The intervals come from likelihoods drawn from what is known of each, with src.
//
// Failures are independent Poisson demands as in problem; a fix with a spare that
// counts for half works half of the time.
func Outcomes(kit fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip, pack fieldkit.Pack, src *rand.Rand) (with, without Outcome) {
	with, without, _ = OutcomesWhile(kit, cat, guides, trip, pack, src, nil)
	return with, without
}

// OutcomesWhile is Outcomes that asks between two worlds whether to go on; done is false
// if it was told not to.
func OutcomesWhile(kit fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip, pack fieldkit.Pack, src *rand.Rand, keepGoing func() bool) (with, without Outcome, done bool) {
	m, counts := modelOf(kit, cat, guides, trip, pack, keepGoing)
	none := m.friends()
	with.Home, with.Lost = m.outcome(counts)
	without.Home, without.Lost = m.outcome(none)
	var home, lost [2][]float64
	for range draws {
		if keepGoing != nil && !keepGoing() {
			return with, without, false
		}
		world := m.drawn(src)
		for i, c := range [][]int{counts, none} {
			h, l := world.outcome(c)
			home[i], lost[i] = append(home[i], h), append(lost[i], float64(l))
		}
	}
	for i, o := range []*Outcome{&with, &without} {
		o.HomeWithin = middle(home[i], o.Home)
		l := middle(lost[i], float64(o.Lost))
		o.LostWithin = [2]Hours{Hours(l[0]), Hours(l[1])}
	}
	return with, without, true
}

// middle is what 9 in 10 of the figures lie between, widened to hold one.
func middle(figures []float64, one float64) [2]float64 {
	slices.Sort(figures)
	low, high := figures[len(figures)/20], figures[len(figures)-1-len(figures)/20]
	return [2]float64{math.Min(low, one), math.Max(high, one)}
}

// drawn is the model with likelihoods drawn from what is known of them. Positions of
// one part kind share what is not known of their rate.
func (m *model) drawn(src *rand.Rand) *model {
	world := *m
	world.risks, world.demands = slices.Clone(m.risks), slices.Clone(m.demands)
	shared := map[string]float64{}
	within := func() float64 { return 0.0005 + 0.999*src.Float64() }
	for i := range world.risks {
		r := &world.risks[i]
		factor, ok := shared[r.position.Kind]
		if !ok {
			factor = r.likelihood.Factor(within())
			shared[r.position.Kind] = factor
		}
		r.expected = r.likelihood.Drawn(factor, within())
		if r.demand >= 0 {
			world.demands[r.demand].rate = r.expected
		}
	}
	return &world
}

// outcome is what a choice comes to: expected loss, and the probability that no rig is
// left that cannot drive.
func (m *model) outcome(counts []int) (home float64, lost Hours) {
	home = 1
	stranding := make([]bool, len(m.demands))
	for _, r := range m.risks {
		lost += Hours(r.expected) * r.without
		if r.demand >= 0 {
			stranding[r.demand] = r.cost.Strands()
		} else if r.cost.Strands() {
			home *= math.Exp(-r.expected)
		}
	}
	for pool := range m.pools {
		lost -= Hours(m.worthOf(pool, counts).value)
		home *= m.homeOf(pool, counts, stranding)
	}
	return home, max(lost, 0)
}

// homeOf is the probability that every stranding failure of a pool is fixed. It
// follows the failures one after the other as worthOf does and gives up those courses
// of events in which one is not; a fix that counts for part works that often.
func (p *problem) homeOf(pool int, counts []int, stranding []bool) float64 {
	members := p.pools[pool]
	live, total := p.live(members, counts, func(d int) bool { return p.ready(d, counts) })
	home, served := 1.0, map[int]bool{}
	for _, m := range live {
		served[m] = true
	}
	for m, d := range members {
		if stranding[d] && !served[m] {
			home *= math.Exp(-p.demands[d].rate)
		}
	}
	if total == 0 {
		return home
	}
	chains, states := p.chains(members, live, counts, enough(total))
	now, next := make([]float64, states), make([]float64, states)
	now[states-1] = 1
	well := 0.0
	for n := 0; ; n++ {
		left := 0.0
		for _, mass := range now {
			left += mass
		}
		well += left * (AtLeast(n, total) - AtLeast(n+1, total))
		if left*AtLeast(n+1, total) < leastMass {
			return home * min(well, 1)
		}
		for state, mass := range now {
			now[state] = 0
			for i, m := range live {
				if mass == 0 {
					break
				}
				d := &p.demands[members[m]]
				q := mass * d.rate / total
				used, after := chains[i].use(state)
				if stranding[members[m]] {
					if used < 0 {
						continue
					}
					q *= d.reach[used].worth
				}
				next[after] += q
			}
		}
		now, next = next, now
	}
}
