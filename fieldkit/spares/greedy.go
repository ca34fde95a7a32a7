package spares

import (
	"cmp"
	"slices"

	"trailfieldkit/fieldkit/order"
)

// leastGain is the expected saving below which nothing is packed: one minute. The
// likelihoods are not known that well.
const leastGain = 1.0 / 60

// maxRounds bounds how often room that trimming made is filled again.
const maxRounds = 4

// greedy chooses what to carry by marginal analysis.
type greedy struct {
	*search
	known map[int]known // by item: the gain of one more piece
	turn  func()        // of whoever watches
}

// known is a gain that holds until its pool is settled anew.
type known struct {
	turn int
	gain float64
}

// bundle is a set of items that is taken together: spares with what their repair
// needs.
type bundle struct {
	add  []option
	gain float64
	cost float64 // share of the scarcest limit it takes
}

// density is what a bundle gains for the share of the scarcest limit. Bundles that
// take nothing of any limit come first, the most useful of them before the others.
func (b bundle) density() float64 { return b.gain / max(b.cost, 1e-9) }

// solve chooses what to carry by marginal analysis: again and again the bundle that
// gains most for the share it takes of whichever limit is scarcest for it. Bundles
// are one more piece of a spare, or what a repair still lacks of tools and consumables
// with one, two or more of the spares it makes useful, so that a heavy tool several
// spares share is seen at its worth. It starts once from the pinned items alone and
// once from the single bundle that gains most, and keeps the better, which guards
// against many small things crowding out a large one.
//
// The choice never breaks a limit, except that pinned items always stay. It is not
// proven to be the best one. keepGoing only gets its turn; nil is left alone.
func (p *problem) solve(keepGoing func() bool) []int {
	pinned := make([]int, len(p.items))
	for i, it := range p.items {
		pinned[i] = it.least
	}
	g := &greedy{newSearch(p, pinned), map[int]known{}, orNothing(keepGoing)}
	g.grow()
	plain, value := g.counts, g.total()

	g.start(pinned)
	if first, ok := g.best(func(b bundle) float64 { return b.gain }); ok {
		g.settle(first.add, 1)
		g.grow()
		if g.total() > value+leastGain {
			return g.counts
		}
	}
	return plain
}

// grow adds bundles until none is left that gains anything and fits, takes off what
// later ones made useless, and fills the room that leaves.
func (g *greedy) grow() {
	for range maxRounds {
		for b, ok := g.best(bundle.density); ok; b, ok = g.best(bundle.density) {
			g.settle(b.add, 1)
		}
		if !g.trim() {
			return
		}
	}
}

// best returns the bundle that ranks highest of those that fit and gain something;
// of equal ones the first by item.
func (g *greedy) best(rank func(bundle) float64) (found bundle, ok bool) {
	consider := func(b bundle) {
		if b.gain >= leastGain && (!ok || rank(b) > rank(found)*(1+1e-9)) {
			found, ok = b, true
		}
	}
	g.turn()
	now := g.p.load(g.counts)
	for i := range g.p.items {
		more := option{i, 1}
		usable := slices.ContainsFunc(g.options[i], func(r int) bool { return g.met[r] })
		if cost, fits := g.costOf(now, more); usable && fits {
			consider(bundle{[]option{more}, g.oneMore(i), cost})
		}
	}
	for r := range g.p.remedies {
		if g.met[r] {
			continue
		}
		if gear, possible := g.complete(r, now); possible {
			g.family(gear, now, consider)
		}
	}
	return found, ok
}

// costOf returns the cost of one more piece on top of a load; fits is false if it
// breaks a limit or may not be taken.
func (g *greedy) costOf(now load, more option) (cost float64, fits bool) {
	if g.counts[more.item] >= g.p.items[more.item].most {
		return 0, false
	}
	return g.p.share(now, g.p.with(now, g.counts, []option{more}))
}

// oneMore is the gain of one more piece of a spare whose repair is on board.
func (g *greedy) oneMore(i int) float64 {
	turn := g.settled[g.p.poolOf[i]]
	if k := g.known[i]; k.turn == turn {
		return k.gain
	}
	gain := g.gain([]option{{i, 1}}, 1)
	g.known[i] = known{turn, gain}
	return gain
}

// family considers what a remedy lacks together with the spares it makes useful, for
// this or for other repairs: alone (for spares on board already), then with each of
// them, then with the best two, three and so on, passing over those that do not fit.
func (g *greedy) family(gear []option, now load, consider func(bundle)) {
	with := g.p.with(now, g.counts, gear)
	cost, fits := g.p.share(now, with)
	if !fits {
		return
	}
	before := slices.Clone(g.met)
	alone := g.change(g.add(gear, 1))
	defer g.add(gear, -1)
	consider(bundle{gear, alone, cost})

	var members []bundle
	for _, i := range g.opened(before) {
		more := option{i, 1}
		if g.counts[i] >= g.p.items[i].most {
			continue
		}
		if cost, fits := g.p.share(now, g.p.with(with, g.counts, []option{more})); fits {
			b := bundle{append(slices.Clone(gear), more), alone + g.onTop(more), cost}
			consider(b)
			members = append(members, b)
		}
	}
	order.By(members, func(a, b bundle) int { return cmp.Compare(b.density(), a.density()) })
	together := bundle{add: gear, gain: alone}
	for _, m := range members {
		more := m.add[len(gear)]
		load := g.p.with(with, g.counts, []option{more})
		cost, fits := g.p.share(now, load)
		if !fits || m.gain < alone+leastGain {
			continue
		}
		together = bundle{append(slices.Clone(together.add), more), together.gain + g.onTop(more), cost}
		consider(together)
		g.put([]option{more}, 1)
		with = load
	}
	g.put(together.add[len(gear):], -1)
}

// onTop is the gain of one more piece beside what is on board for a moment.
func (g *greedy) onTop(more option) float64 {
	pool := g.p.poolOf[more.item]
	without := g.value(pool)
	g.put([]option{more}, 1)
	defer g.put([]option{more}, -1)
	return g.value(pool) - without
}

// opened lists the spares that some repair can use now and could not before.
func (g *greedy) opened(before []bool) (items []int) {
	for r, met := range g.met {
		if met && !before[r] {
			items = append(items, g.users[r]...)
		}
	}
	slices.Sort(items)
	return slices.Compact(items)
}

// trim takes off pieces that are worth less than leastGain beside the rest, the
// least useful first. It reports whether there were any.
func (g *greedy) trim() (trimmed bool) {
	for ; ; trimmed = true {
		least, drop := leastGain, -1
		for i, it := range g.p.items {
			if g.counts[i] > it.least {
				if loss := -g.gain([]option{{i, 1}}, -1); loss < least {
					least, drop = loss, i
				}
			}
		}
		if drop < 0 {
			return trimmed
		}
		g.settle([]option{{drop, 1}}, -1)
	}
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
