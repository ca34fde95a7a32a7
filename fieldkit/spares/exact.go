package spares

import (
	"math"
	"slices"

	"trailfieldkit/fieldkit/spares/optimum"
)

const (
	// maxLoads bounds the loads of one pool that are weighed up against each other.
	// Beyond it only some are, and the bound comes from a looser count.
	maxLoads = 2500
	// gearCost is what packing a tool or a pack is taken to cost, a second, so that none
	// goes along for nothing; a piece of a spare costs leastGain.
	gearCost = 1.0 / 3600
	// planNodes ends a search that nobody watches.
	planNodes = 3000
	// looseNodes ends the search for the bound of large pools.
	looseNodes = 100
)

// solution is a choice with what is known of how good it is.
type solution struct {
	counts []int
	value  float64 // expected hours saved
	bound  float64 // no choice saves more
	proved bool
	nodes  int
}

// exact finds the choice that saves most, less a minute for each piece of a spare and a
// second for each tool or pack: what is worth less than packing it stays at home.
//
// It hands the problem to package optimum. A pool of demands becomes a group of loads:
// so many pieces of each of its spares, with a set of demands that can be fixed; its gain
// is worthOf, its amounts are those of the pieces, and it needs a remedy for each of its
// demands. That is exact for any pool with at most maxLoads loads. Of a larger pool only
// loads of few pieces are weighed up, and those the greedy choice has, so that the choice
// may be improved upon: the bound then takes every piece of it as fitting every place at
// the hours of the best (see cover), and is too high.
//
// Told to stop before it has begun to search, it gives the greedy choice.
//
// The bound holds for value less these costs, to which the costs of the choice are added
// again; that can only be too high.
func (p *problem) exact(keep func() bool, found func(value, bound float64)) solution {
	if p.whole() {
		return p.decide(keep, found, false, nil)
	}
	greedy := p.solve(keep)
	if keep != nil && !keep() {
		s := solution{counts: greedy, value: newSearch(p, greedy).total()}
		s.bound = max(s.value, p.all())
		return s
	}
	s := p.decide(keep, found, false, greedy)
	if loose := p.decide(keep, nil, true, nil); loose.bound > s.value {
		s.bound, s.proved = loose.bound, loose.bound <= s.value*(1+optimum.Tolerance)
	} else {
		s.bound, s.proved = s.value, true
	}
	return s
}

// all is what would be saved if every failure were fixed by what fits best: no choice
// saves more.
func (p *problem) all() (hours float64) {
	for _, d := range p.demands {
		hours += d.rate * float64(d.hours)
	}
	return hours
}

// whole reports whether no pool is too large to weigh up all its loads.
func (p *problem) whole() bool {
	for pool := range p.pools {
		if !p.small(pool) {
			return false
		}
	}
	return true
}

func (p *problem) small(pool int) bool {
	n := 1<<len(p.classes(pool)) - 1
	for _, i := range p.sparesOf(pool) {
		n *= p.useful(pool, i) - p.items[i].least + 1
		if n > maxLoads {
			return false
		}
	}
	return true
}

// sparesOf lists the spares of a pool, by item.
func (p *problem) sparesOf(pool int) (items []int) {
	for _, d := range p.pools[pool] {
		for _, r := range p.demands[d].reach {
			items = appendNew(items, r.item)
		}
	}
	slices.Sort(items)
	return items
}

// useful is the number of pieces of a spare beyond which one more cannot be worth
// packing: the n-th is used with P(N ≥ n) at most.
func (p *problem) useful(pool, item int) int {
	it := p.items[item]
	rate, most := 0.0, 0.0
	for _, d := range p.pools[pool] {
		for _, r := range p.demands[d].reach {
			if r.item == item {
				rate += p.demands[d].rate
				most = max(most, float64(p.demands[d].hours)*r.worth)
			}
		}
	}
	n := it.least
	for n < it.most && AtLeast(n+1, rate)*most > leastGain {
		n++
	}
	return n
}

// classes lists the demands of a pool that the same remedies fix, together.
func (p *problem) classes(pool int) (list [][]int) {
	for _, d := range p.pools[pool] {
		i := slices.IndexFunc(list, func(c []int) bool { return slices.Equal(p.demands[c[0]].remedies, p.demands[d].remedies) })
		if i < 0 {
			list = append(list, []int{d})
		} else {
			list[i] = append(list[i], d)
		}
	}
	return list
}

// layout is a problem laid out in columns.
type layout struct {
	*problem
	optimum.Problem
	means   [][]option // by column: what it adds to the pinned pieces
	pinned  []int
	first   []map[int]int // by item that is gear: the column of each number of pieces
	remedy  []int         // by remedy: its column, −1 if on board already, −2 if out of reach
	groups  int
	measure []func(load) int64
	turn    func() // of whoever watches, while loads are weighed up
}

// decide lays the problem out and solves it; loose asks for the bound of large pools.
func (p *problem) decide(keep func() bool, found func(value, bound float64), loose bool, hint []int) solution {
	l := &layout{problem: p, pinned: make([]int, len(p.items)), remedy: make([]int, len(p.remedies)), turn: orNothing(keep)}
	for i, it := range p.items {
		l.pinned[i] = it.least
	}
	l.limit()
	l.gear()
	l.fixes()
	for pool := range p.pools {
		if loose && !p.small(pool) {
			l.cover(pool)
		} else {
			l.loads(pool, hint)
		}
	}
	l.coarsen()
	l.number()
	o := optimum.Options{KeepGoing: keep, MaxNodes: planNodes}
	if loose {
		o.MaxNodes = looseNodes
	}
	if found != nil {
		o.Found = func(a optimum.Answer) { found(a.Value, a.Bound) }
	}
	a := optimum.Solve(&l.Problem, o)
	s := solution{counts: slices.Clone(l.pinned), nodes: a.Nodes, proved: a.Proved}
	cost := 0.0
	for j, on := range a.Taken {
		if on {
			for _, more := range l.means[j] {
				s.counts[more.item] += more.count
				cost += l.handling(more)
			}
		}
	}
	s.value = newSearch(p, s.counts).total()
	s.bound = max(s.value, a.Bound+cost)
	return s
}

// packing is what the pieces of a choice are taken to cost, those that are given aside.
func (p *problem) packing(counts []int) (cost float64) {
	for i, n := range counts {
		if more := n - p.items[i].least; more > 0 {
			cost += p.handling(option{i, more})
		}
	}
	return cost
}

func (p *problem) handling(more option) float64 {
	if p.poolOf[more.item] >= 0 {
		return leastGain * float64(more.count)
	}
	return gearCost * float64(more.count)
}

// limit takes over the limits, less what is pinned. What is pinned alone is over a limit
// leaves nothing of it.
func (l *layout) limit() {
	now := l.load(l.pinned)
	add := func(most int64, of func(load) int64) {
		l.Limits = append(l.Limits, max(0, most-of(now)))
		l.measure = append(l.measure, of)
	}
	if m := l.problem.limits.Mass; m > 0 {
		add(int64(m), func(x load) int64 { return int64(x.mass) })
	}
	if v := l.problem.limits.Volume; v > 0 {
		add(int64(v), func(x load) int64 { return int64(x.volume) })
	}
	if m := l.problem.limits.Money; m != nil {
		add(m.Cents, func(x load) int64 { return x.cents })
	}
}

// coarsen measures each limit in the largest step that all amounts are multiples of,
// which changes nothing, and keeps sums of quantities from running over. Only where that
// is not enough are amounts rounded, up.
func (l *layout) coarsen() {
	const most = math.MaxInt64 / 8
	for k := range l.Limits {
		step, sum := int64(0), int64(0)
		for _, c := range l.Columns {
			for a, b := step, c.Amounts[k]; ; a, b = b, a%b {
				if b == 0 {
					step = a
					break
				}
			}
		}
		step = max(step, 1)
		for _, c := range l.Columns {
			sum = plus(sum, c.Amounts[k]/step)
		}
		if sum > most {
			step *= int64(8 * len(l.Columns)) // no amount is over its limit, so this is enough
		}
		l.Limits[k] /= step
		for _, c := range l.Columns {
			c.Amounts[k] = (c.Amounts[k] + step - 1) / step
		}
	}
}

// number gives the groups that have columns numbers without gaps.
func (l *layout) number() {
	numbers := map[int]int{}
	for j := range l.Columns {
		if group := &l.Columns[j].Group; *group > 0 {
			if numbers[*group] == 0 {
				numbers[*group] = len(numbers) + 1
			}
			*group = numbers[*group]
		}
	}
}

// add makes a column; ok is false if it alone is over a limit.
func (l *layout) add(more []option, gain float64, needs [][]int, group int) (column int, ok bool) {
	now := l.load(l.pinned)
	then := l.with(now, l.pinned, more)
	c := optimum.Column{Gain: gain, Needs: needs, Group: group}
	for k, of := range l.measure {
		a := of(then) - of(now)
		if a > l.Limits[k] {
			return -1, false
		}
		c.Amounts = append(c.Amounts, a)
	}
	l.Columns = append(l.Columns, c)
	l.means = append(l.means, more)
	return len(l.Columns) - 1, true
}

// gear makes a column for every number of pieces of a tool or consumable that some want
// asks for.
func (l *layout) gear() {
	asked := make([][]int, len(l.items))
	for _, re := range l.remedies {
		for _, w := range re.wants {
			for _, o := range w.anyOf {
				if o.count > l.items[o.item].least && o.count <= l.items[o.item].most {
					asked[o.item] = appendNew(asked[o.item], o.count)
				}
			}
		}
	}
	l.first = make([]map[int]int, len(l.items))
	for i, counts := range asked {
		l.first[i] = map[int]int{}
		slices.Sort(counts)
		group := 0
		if len(counts) > 1 {
			l.groups++
			group = l.groups
		}
		for _, n := range counts {
			more := option{i, n - l.pinned[i]}
			if j, ok := l.add([]option{more}, -l.handling(more), nil, group); ok {
				l.first[i][n] = j
			}
		}
	}
}

const (
	onBoard = -1 // a remedy that wants nothing that is not pinned
	beyond  = -2 // a remedy with a want that nothing can meet
)

// fixes makes a column for every remedy.
func (l *layout) fixes() {
	for r, re := range l.remedies {
		var needs [][]int
		l.remedy[r] = onBoard
		for _, w := range re.wants {
			if w.met(l.pinned) {
				continue
			}
			var clause []int
			for _, o := range w.anyOf {
				for n, j := range l.first[o.item] {
					if n >= o.count && !slices.Contains(clause, j) {
						clause = append(clause, j)
					}
				}
			}
			if len(clause) == 0 {
				l.remedy[r] = beyond
				break
			}
			slices.Sort(clause)
			needs = append(needs, clause)
		}
		if l.remedy[r] == onBoard && len(needs) > 0 {
			l.remedy[r], _ = l.add(nil, 0, needs, 0)
		}
	}
}

// ways is the clause that one of some remedies is on board: possible is false if none can
// be, and nil columns mean that one is anyway.
func (l *layout) ways(remedies []int) (clause []int, possible bool) {
	for _, r := range remedies {
		switch j := l.remedy[r]; j {
		case onBoard:
			return nil, true
		case beyond:
		default:
			clause = append(clause, j)
		}
	}
	slices.Sort(clause)
	return clause, len(clause) > 0
}
