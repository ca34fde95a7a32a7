package spares

import (
	"slices"

	"trailfieldkit/fieldkit"
)

// problem is what a solver chooses from, with nothing of the kit left in it but
// numbers: what may fail, what can be carried against it, and the limits. It says
// exactly what is maximised:
//
// Failures come as independent Poisson demands over the trip. A failure is fixed
// if one of the demand's remedies is on board whole (every want of it met) and a
// piece that reaches the demand is left; the first such piece in the demand's order
// is used up and saves hours × its worth. The value of a choice is the expected sum
// of these savings (see worth.go). Where one spare serves a demand alone this is
// hours × E[min(N, copies)]; where several overlap no failure is counted twice.
type problem struct {
	demands  []demand
	items    []item
	remedies []remedy
	limits   fieldkit.Limits
	turn     func() // gives whoever works on a screen's time a moment to hand on; may be nil

	pools    [][]int // demands that share spares, directly or through others
	poolOf   []int   // by item: the pool it is a spare of; -1 for none
	poolsFor [][]int // by remedy: the pools with a demand it fixes
	neededBy [][]int // by item: the remedies that it may help to meet
}

// demand is one position that may fail.
type demand struct {
	rate     float64 // failures expected over the trip
	hours    Hours   // saved by fixing one from what is on board
	reach    []reach // spares that fit, in the order in which they would be used
	remedies []int   // any of them will do
}

// reach says that an item fits a demand, and which share of the demand's hours a
// fix with it saves.
type reach struct {
	item  int
	worth float64
}

// remedy is a way to fix something: everything it wants has to be on board.
type remedy struct {
	title string // for explaining
	wants []want
}

// want is met by any one of the options, preferred first.
type want struct {
	kind  string // of tool or consumable, with its name, for explaining
	name  string
	anyOf []option
}

// option is an item in the count that meets a want.
type option struct{ item, count int }

// item is something that can be carried, with the amounts of one piece.
type item struct {
	mass   fieldkit.Mass
	volume fieldkit.Volume
	cents  int64 // of one piece beyond the stock
	stock  int
	friend int // pieces in a friend's rig: on board anyhow, and no load of ours
	least  int // friend, and more if pinned
	most   int // least or more; 0 for what may not be taken
}

// load is what a choice of items weighs, fills and costs.
type load struct {
	mass   fieldkit.Mass
	volume fieldkit.Volume
	cents  int64
}

// load adds up the items, by count.
func (p *problem) load(counts []int) (l load) {
	for i, n := range counts {
		l = l.plus(p.items[i].load(n))
	}
	return l
}

// with returns a load with more of some items, each named once.
func (p *problem) with(l load, counts []int, add []option) load {
	for _, a := range add {
		before, after := p.items[a.item].load(counts[a.item]), p.items[a.item].load(counts[a.item]+a.count)
		l = l.plus(load{after.mass - before.mass, after.volume - before.volume, after.cents - before.cents})
	}
	return l
}

func (it item) load(n int) load {
	n -= it.friend
	return load{times(it.mass, n), times(it.volume, n), times(it.cents, n-it.stock)}
}

func (l load) plus(m load) load {
	return load{plus(l.mass, m.mass), plus(l.volume, m.volume), plus(l.cents, m.cents)}
}

// beyond returns what of a load breaks a limit.
func (p *problem) beyond(l load) (over []Over) {
	if m := p.limits.Mass; m > 0 && l.mass > m {
		over = append(over, Over{Mass: l.mass - m})
	}
	if v := p.limits.Volume; v > 0 && l.volume > v {
		over = append(over, Over{Volume: l.volume - v})
	}
	if m := p.limits.Money; m != nil && l.cents > m.Cents {
		over = append(over, Over{Money: fieldkit.Money{Cents: l.cents - m.Cents, Currency: m.Currency}})
	}
	return over
}

// met reports whether a remedy is on board whole.
func (p *problem) met(r int, counts []int) bool {
	for _, w := range p.remedies[r].wants {
		if !w.met(counts) {
			return false
		}
	}
	return true
}

func (w want) met(counts []int) bool {
	for _, o := range w.anyOf {
		if counts[o.item] >= o.count {
			return true
		}
	}
	return false
}

// mayTake reports whether an option is within what may be taken at all.
func (p *problem) mayTake(o option) bool { return o.count <= p.items[o.item].most }

// ready reports whether a demand can be fixed with what is on board, spare aside.
func (p *problem) ready(d int, counts []int) bool {
	for _, r := range p.demands[d].remedies {
		if p.met(r, counts) {
			return true
		}
	}
	return false
}

// connect groups the demands into pools that share no spare with each other, and
// notes what leads to what. It is called once the lists are complete.
func (p *problem) connect() {
	pool := make([]int, len(p.demands)) // of each demand, as the lowest demand in it
	for d := range pool {
		pool[d] = d
	}
	var root func(int) int
	root = func(d int) int {
		if pool[d] != d {
			pool[d] = root(pool[d])
		}
		return pool[d]
	}
	first := map[int]int{} // by item: a demand it reaches
	for d := range p.demands {
		for _, r := range p.demands[d].reach {
			if other, ok := first[r.item]; ok {
				a, b := root(d), root(other)
				pool[max(a, b)] = min(a, b)
			} else {
				first[r.item] = d
			}
		}
	}
	p.pools, p.poolOf = nil, make([]int, len(p.items))
	p.poolsFor, p.neededBy = make([][]int, len(p.remedies)), make([][]int, len(p.items))
	for i := range p.poolOf {
		p.poolOf[i] = -1
	}
	number := map[int]int{}
	for d := range p.demands {
		n, ok := number[root(d)]
		if !ok {
			n = len(p.pools)
			number[root(d)] = n
			p.pools = append(p.pools, nil)
		}
		p.pools[n] = append(p.pools[n], d)
		for _, r := range p.demands[d].reach {
			p.poolOf[r.item] = n
		}
		for _, r := range p.demands[d].remedies {
			p.poolsFor[r] = appendNew(p.poolsFor[r], n)
		}
	}
	for r, re := range p.remedies {
		for _, w := range re.wants {
			for _, o := range w.anyOf {
				p.neededBy[o.item] = appendNew(p.neededBy[o.item], r)
			}
		}
	}
}

func appendNew(list []int, n int) []int {
	if slices.Contains(list, n) {
		return list
	}
	return append(list, n)
}
