package spares

import (
	"math"
	"slices"

	"trailfieldkit/fieldkit/spares/optimum"
)

// loads makes the columns of a pool: every number of pieces of its spares, with every set
// of its classes that can be fixed.
func (l *layout) loads(pool int, hint []int) {
	classes := l.classes(pool)
	type class struct {
		demands []int
		clause  []int
	}
	var open []class
	for _, c := range classes {
		if clause, possible := l.ways(l.demands[c[0]].remedies); possible {
			open = append(open, class{c, clause})
		}
	}
	items := l.sparesOf(pool)
	if len(open) == 0 || len(items) == 0 || len(open) > 8 {
		return
	}
	l.groups++
	group := l.groups
	type load struct {
		column optimum.Column
		more   []option
	}
	var made []load
	counts := slices.Clone(l.pinned)
	try := func() {
		l.turn()
		var more []option
		cost := 0.0
		for _, i := range items {
			if n := counts[i] - l.pinned[i]; n > 0 {
				more = append(more, option{i, n})
				cost += leastGain * float64(n)
			}
		}
		for set := 1; set < 1<<len(open); set++ {
			ready := map[int]bool{}
			var needs [][]int
			for c, of := range open {
				if set>>c&1 == 1 {
					for _, d := range of.demands {
						ready[d] = true
					}
					if of.clause != nil {
						needs = append(needs, of.clause)
					}
				} else if of.clause == nil {
					needs = append(needs, nil) // it can be fixed anyway: not a case of its own
				}
			}
			if slices.ContainsFunc(needs, func(c []int) bool { return c == nil }) {
				continue
			}
			gain := l.worthIf(pool, counts, func(d int) bool { return ready[d] }).value - cost
			if gain <= 0 {
				continue
			}
			if j, ok := l.add(more, gain, needs, group); ok {
				made = append(made, load{l.Columns[j], more})
				l.Columns, l.means = l.Columns[:j], l.means[:j]
			}
		}
	}
	l.each(pool, items, counts, hint, try)
	for a := range made {
		l.turn()
		beaten := false
		for b := range made {
			beaten = beaten || a != b && worse(made[a].column, made[b].column, a < b)
		}
		if !beaten {
			l.Columns, l.means = append(l.Columns, made[a].column), append(l.means, made[a].more)
		}
	}
}

// worse reports whether a column is no better than another in anything; of two alike the
// later one is.
func worse(a, b optimum.Column, earlier bool) bool {
	if a.Gain > b.Gain || a.Gain == b.Gain && earlier && slices.Equal(a.Amounts, b.Amounts) {
		return false
	}
	for l := range a.Amounts {
		if b.Amounts[l] > a.Amounts[l] {
			return false
		}
	}
	for _, clause := range b.Needs {
		if !slices.ContainsFunc(a.Needs, func(c []int) bool { return slices.Equal(c, clause) }) {
			return false
		}
	}
	return true
}

// each calls try with every load of a pool's spares in counts, or, of a pool too large
// for that, with those of few pieces and the hint's.
func (l *layout) each(pool int, items, counts, hint []int, try func()) {
	left := math.MaxInt
	if !l.small(pool) {
		left = 3
		for pieces := 4; pieces > 1; pieces-- {
			n := 1
			for k := range pieces {
				n = n * (len(items) + k) / (k + 1)
			}
			if n*(1<<len(l.classes(pool))-1) <= maxLoads {
				break
			}
			left = pieces - 1
		}
	}
	var walk func(k, left int)
	walk = func(k, left int) {
		if k == len(items) {
			try()
			return
		}
		i := items[k]
		for n := l.pinned[i]; n <= l.useful(pool, i) && n-l.pinned[i] <= left; n++ {
			counts[i] = n
			walk(k+1, left-(n-l.pinned[i]))
		}
		counts[i] = l.pinned[i]
	}
	walk(0, left)
	if hint != nil && !l.small(pool) {
		for _, i := range items {
			counts[i] = hint[i]
		}
		try()
		for _, i := range items { // and with one piece less of each
			if counts[i] > l.pinned[i] {
				counts[i]--
				try()
				counts[i]++
			}
		}
		for _, i := range items {
			counts[i] = l.pinned[i]
		}
	}
}

// cover takes every piece of a pool as fitting every place in it, at the hours of the
// best: the n-th piece, whichever it is, then saves at most these hours × P(N ≥ n), of all
// failures in the pool. No load saves more, nor weighs less than pieces that are all the
// first of their kind.
func (l *layout) cover(pool int) {
	rate, most := 0.0, 0.0
	var ways []int
	free := false
	for _, d := range l.pools[pool] {
		clause, possible := l.ways(l.demands[d].remedies)
		if !possible {
			continue
		}
		rate += l.demands[d].rate
		for _, r := range l.demands[d].reach {
			most = max(most, float64(l.demands[d].hours)*r.worth)
		}
		free = free || clause == nil
		for _, j := range clause {
			ways = appendNew(ways, j)
		}
	}
	var needs [][]int
	if !free {
		needs = [][]int{ways}
	}
	aboard, useful := 0, 0
	items := l.sparesOf(pool)
	for _, i := range items {
		aboard += l.pinned[i]
		useful += l.useful(pool, i)
	}
	for n := 1; n <= useful; n++ {
		gain := most * AtLeast(n, rate)
		if n <= aboard {
			l.add(nil, gain, needs, 0)
			continue
		}
		if gain <= leastGain {
			return
		}
		l.groups++
		for _, i := range items {
			if l.items[i].most > l.pinned[i] {
				l.add([]option{{i, 1}}, gain-leastGain, needs, l.groups)
			}
		}
	}
}
