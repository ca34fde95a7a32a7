package spares

import (
	"cmp"
	"slices"
)

// leastGain is the expected saving below which nothing is packed: one minute. The
// likelihoods are not known that well.
const leastGain = 1.0 / 60

// search is one run of the greedy planner over a problem.
type search struct {
	p       *problem
	counts  []int
	values  []float64 // by pool
	seen    map[string]float64
	options [][]int // by item: the remedies of the demands it reaches
	users   [][]int // by remedy: the items that reach a demand it fixes
}

// bundle is a set of items that is taken together: spares with what their repair
// needs.
type bundle struct {
	add  []option
	gain float64
	cost float64 // share of the scarcest limit it takes
}

// solve chooses what to carry by marginal analysis: again and again the bundle that
// gains most for the share it takes of whichever limit is scarcest for it. Bundles
// are one more piece of a spare with the tools and consumables its repair still
// lacks, and for each repair its tools with all the spares they make useful, so that a
// heavy tool several spares share is seen at its worth. It starts once from the
// pinned items alone and once from the single bundle that gains most, and keeps the
// better, which guards against many small things crowding out a large one.
//
// The choice never breaks a limit, except that pinned items always stay. It is not
// proven to be the best one.
func (p *problem) solve() []int {
	s := &search{p: p, seen: map[string]float64{}}
	s.index()
	pinned := make([]int, len(p.items))
	for i, it := range p.items {
		pinned[i] = it.least
	}
	s.start(pinned)
	s.grow()
	plain, value := s.counts, s.total()

	s.start(pinned)
	if first, ok := s.best(func(b bundle) float64 { return b.gain }); ok {
		s.take(first)
		s.grow()
		if s.total() > value+leastGain {
			return s.counts
		}
	}
	return plain
}

// index notes which remedies matter to each item and the other way round.
func (s *search) index() {
	s.options, s.users = make([][]int, len(s.p.items)), make([][]int, len(s.p.remedies))
	for _, d := range s.p.demands {
		for _, via := range d.reach {
			for _, r := range d.remedies {
				if !slices.Contains(s.options[via.item], r) {
					s.options[via.item] = append(s.options[via.item], r)
					s.users[r] = append(s.users[r], via.item)
				}
			}
		}
	}
	for r := range s.users {
		slices.Sort(s.users[r])
	}
}

func (s *search) start(counts []int) {
	s.counts = slices.Clone(counts)
	s.values = make([]float64, len(s.p.pools))
	for pool := range s.values {
		s.values[pool] = s.value(pool)
	}
}

func (s *search) total() (sum float64) {
	for _, v := range s.values {
		sum += v
	}
	return sum
}

// value looks up or computes what the choice is worth in one pool.
func (s *search) value(pool int) float64 {
	key := s.p.key(pool, s.counts)
	v, ok := s.seen[key]
	if !ok {
		v = s.p.worthOf(pool, s.counts).value
		s.seen[key] = v
	}
	return v
}

// grow adds bundles until none is left that gains anything and fits, then takes off
// what later ones made useless.
func (s *search) grow() {
	for {
		b, ok := s.best(bundle.density)
		if !ok {
			break
		}
		s.take(b)
	}
	s.trim()
}

// density is what a bundle gains for the share of the scarcest limit. Bundles that
// take nothing of any limit come first, the most useful of them before the others.
func (b bundle) density() float64 { return b.gain / max(b.cost, 1e-9) }

func (s *search) take(b bundle) {
	s.apply(b, 1)
	for _, pool := range s.pools(b) {
		s.values[pool] = s.value(pool)
	}
}

func (s *search) apply(b bundle, sign int) {
	for _, a := range b.add {
		s.counts[a.item] += sign * a.count
	}
}

// best returns the bundle that ranks highest of those that fit and gain something;
// of equal ones the first by item.
func (s *search) best(rank func(bundle) float64) (found bundle, ok bool) {
	now := s.p.load(s.counts)
	consider := func(add []option) bool {
		b := bundle{add: add}
		fits := s.judge(&b, now)
		if fits && b.gain >= leastGain && (!ok || rank(b) > rank(found)*(1+1e-9)) {
			found, ok = b, true
		}
		return fits
	}
	for i := range s.p.items {
		if s.counts[i] >= s.p.items[i].most {
			continue
		}
		for _, r := range s.options[i] {
			if add, possible := s.complete(r); possible {
				consider(append(add, option{i, 1}))
			}
		}
	}
	for r := range s.p.remedies {
		if gear, possible := s.complete(r); possible && len(gear) > 0 {
			s.family(gear, now, consider)
		}
	}
	return found, ok
}

// complete lists what a remedy still lacks; possible is false if some want of it
// cannot be met.
func (s *search) complete(r int) (add []option, possible bool) {
	defer func() { s.apply(bundle{add: add}, -1) }()
	for _, w := range s.p.remedies[r].wants {
		if w.met(s.counts) {
			continue
		}
		i := slices.IndexFunc(w.anyOf, s.p.mayTake)
		if i < 0 {
			return add, false
		}
		// Put on board at once: what meets this want may meet the next as well.
		lacks := option{w.anyOf[i].item, w.anyOf[i].count - s.counts[w.anyOf[i].item]}
		add = merge(add, lacks)
		s.counts[lacks.item] += lacks.count
	}
	return add, true
}

// merge adds to a list that names each item once.
func merge(add []option, more option) []option {
	for i := range add {
		if add[i].item == more.item {
			add[i].count += more.count
			return add
		}
	}
	return append(add, more)
}

// family considers what a remedy lacks together with the spares it makes useful, for
// this or for other repairs: alone (for spares on board already), then with the best
// spare, the best two and so on, passing over those that no longer fit.
func (s *search) family(gear []option, now load, consider func([]option) bool) {
	consider(gear)
	var members []bundle
	for _, i := range s.opens(gear) {
		b := bundle{add: append(slices.Clone(gear), option{i, 1})}
		if s.judge(&b, now) && b.gain >= leastGain {
			members = append(members, b)
		}
	}
	slices.SortStableFunc(members, func(a, b bundle) int { return cmp.Compare(b.density(), a.density()) })
	together := gear
	for _, m := range members {
		more := append(slices.Clone(together), m.add[len(gear)])
		if consider(more) {
			together = more
		}
	}
}

// opens lists the spares that may be taken and that some repair can use once the
// gear is on board, and not before.
func (s *search) opens(gear []option) (items []int) {
	before := make([]bool, len(s.p.remedies))
	for r := range before {
		before[r] = s.p.met(r, s.counts)
	}
	s.apply(bundle{add: gear}, 1)
	defer s.apply(bundle{add: gear}, -1)
	for r := range before {
		if !before[r] && s.p.met(r, s.counts) {
			for _, i := range s.users[r] {
				if s.counts[i] < s.p.items[i].most {
					items = append(items, i)
				}
			}
		}
	}
	slices.Sort(items)
	return slices.Compact(items)
}

// judge fills in a bundle's gain and cost; it reports whether it fits.
func (s *search) judge(b *bundle, now load) bool {
	var fits bool
	if b.cost, fits = s.p.share(now, s.p.with(now, s.counts, b.add)); !fits {
		return false
	}
	b.gain = s.gain(*b)
	return true
}

// gain is what a bundle adds to the value of the choice.
func (s *search) gain(b bundle) (gain float64) {
	s.apply(b, 1)
	defer s.apply(b, -1)
	for _, pool := range s.pools(b) {
		gain += s.value(pool) - s.values[pool]
	}
	return gain
}

// share returns the largest share of what is left of any limit that a step from one
// load to another takes, and whether it fits. A step that takes nothing of a limit
// that pinned items broke already still fits.
func (p *problem) share(now, then load) (share float64, fits bool) {
	fits = true
	weigh := func(now, then, limit int64) {
		if then == now {
			return
		}
		if then > limit {
			fits = false
			return
		}
		share = max(share, float64(then-now)/float64(limit-now))
	}
	if l := p.limits.Mass; l > 0 {
		weigh(int64(now.mass), int64(then.mass), int64(l))
	}
	if l := p.limits.Volume; l > 0 {
		weigh(int64(now.volume), int64(then.volume), int64(l))
	}
	if l := p.limits.Money; l != nil {
		weigh(now.cents, then.cents, l.Cents)
	}
	return share, fits
}

// pools lists the pools a bundle can change, in order.
func (s *search) pools(b bundle) (pools []int) {
	for _, a := range b.add {
		pools = append(pools, s.p.touches[a.item]...)
	}
	slices.Sort(pools)
	return slices.Compact(pools)
}

// trim takes off pieces that are worth less than leastGain beside the rest, the
// least useful first.
func (s *search) trim() {
	for {
		least, drop := leastGain, bundle{}
		for i, it := range s.p.items {
			if s.counts[i] <= it.least {
				continue
			}
			b := bundle{add: []option{{i, 1}}}
			if loss := s.loss(b); loss < least {
				least, drop = loss, b
			}
		}
		if drop.add == nil {
			return
		}
		s.apply(drop, -1)
		for _, pool := range s.pools(drop) {
			s.values[pool] = s.value(pool)
		}
	}
}

// loss is what leaving a bundle at home costs.
func (s *search) loss(b bundle) (loss float64) {
	s.apply(b, -1)
	defer s.apply(b, 1)
	for _, pool := range s.pools(b) {
		loss += s.values[pool] - s.value(pool)
	}
	return loss
}
