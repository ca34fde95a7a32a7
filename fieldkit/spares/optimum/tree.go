package optimum

import (
	"cmp"
	"container/heap"
	"math"
	"slices"
)

// tree is branch and bound over one reduced problem.
type tree struct {
	s      *search
	p      *Problem
	base   float64
	lp     *simplex
	slack  []int // by group: its row, −1 for none
	dom    *domain
	pick   *choice
	order  []int     // gains by what they bring at the prices of the root
	r      []float64 // reduced costs of the root, by column
	top    float64   // bound of the root, without base
	open   nodes
	entity []int // by column: its number in the whole problem
	all    []int // 0, 1, 2 …
	saved  state
	sub    bool       // part of the choices only: its bound says nothing of the whole
	limit  int        // nodes of a sub; the search ends at so many in all
	levels []*reduced // from the whole problem to this one
	dice   uint64     // of exchange
	seen   float64    // best value when the tree was last narrowed
}

// score averages what a branch took off the bound, for one unit of what was rounded.
type score struct{ sum, n float64 }

// newTree begins a tree over the last of some levels, each a reduction of the one before;
// base is what all of them have taken for good.
func newTree(s *search, levels []*reduced, base float64) *tree {
	p := &levels[len(levels)-1].Problem
	t := &tree{s: s, p: p, base: base, levels: levels, entity: make([]int, len(p.Columns)), all: make([]int, len(p.Columns))}
	for j := range t.entity {
		at := j
		for i := len(levels) - 1; i >= 0; i-- {
			at = levels[i].from[at]
		}
		t.entity[j], t.all[j] = at, j
	}
	lp, rows := newProgram(p)
	t.slack = rows
	t.lp = newSimplex(lp, s.keep)
	t.dom = newDomain(p)
	t.pick = newChoice(p)
	return t
}

// lift turns a choice into one of the whole problem.
func (t *tree) lift(taken []bool) []bool {
	for i := len(t.levels) - 1; i >= 0; i-- {
		taken = t.levels[i].lift(taken)
	}
	return taken
}

// bounds hands the domain's bounds to the simplex.
func (t *tree) bounds() {
	for j := range t.p.Columns {
		t.lp.lo[j], t.lp.hi[j] = float64(t.dom.lo[j]), float64(t.dom.hi[j])
	}
	for g, i := range t.slack {
		if i >= 0 {
			t.lp.hi[t.lp.n+i] = math.Inf(1)
			if t.dom.must[g] {
				t.lp.hi[t.lp.n+i] = 0
			}
		}
	}
	t.lp.rebound()
}

// rebound moves nonbasic variables to bounds that have changed.
func (s *simplex) rebound() {
	if s.fresh > renewEvery/2 {
		s.refactor()
		s.duals()
		s.fresh = 0
	}
	s.settle()
	s.primals()
}

// root solves the relaxation of the whole and looks for choices around it; done says
// that no better choice is left.
func (t *tree) root() (bound float64, done bool) {
	t.bounds()
	verdict := t.lp.run(t.s.cutoff()-t.base, math.MaxInt)
	if verdict == impossible {
		return t.s.value, true
	}
	if verdict == solved {
		if verdict = t.tighten(t.s.cutoff() - t.base); verdict == impossible {
			return t.s.value, true
		}
	}
	t.top = t.lp.bound()
	t.r = slices.Clone(t.lp.r)
	for l := range t.p.Limits {
		largest := int64(1)
		for j := range t.p.Columns {
			largest = max(largest, t.p.Columns[j].Amounts[l])
		}
		t.pick.price[l] = t.lp.y[l]/float64(largest) + 1e-9/float64(max(t.p.Limits[l], 1))
	}
	t.order = t.pick.byDensity()
	for _, list := range t.dom.group { // by size, to be split
		slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(t.pick.weight(a), t.pick.weight(b)) })
	}
	if verdict != solved {
		return t.base + t.top, false
	}
	t.round()
	return t.base + t.top, false
}

func (t *tree) offer() {
	if t.base+t.pick.value <= t.s.value {
		return
	}
	t.s.offer(t.lift(t.pick.taken))
}

// round makes a choice out of the point of the relaxation: what is taken most first,
// then whatever fits beside it.
func (t *tree) round() {
	var list []int
	for j := range t.p.Columns {
		if t.lp.x[j] > 1e-6 && t.p.Columns[j].Gain > 0 {
			list = append(list, j)
		}
	}
	byDesc(list, t.lp.x)
	t.pick.clear()
	for _, j := range list {
		if t.lp.x[j] > 0.999 {
			t.pick.apply(j)
		}
	}
	for _, j := range list {
		t.pick.apply(j)
	}
	t.pick.fill(t.order)
	t.pick.prune()
	t.offer()
}

// asIs offers the point of the relaxation where it is whole.
func (t *tree) asIs() {
	taken := make([]bool, len(t.p.Columns))
	for j := range taken {
		taken[j] = t.lp.x[j] > 0.5
	}
	t.s.offer(t.lift(taken))
}

// narrow decides for good what the prices of the root show no better choice can have
// otherwise. It reports whether anything better is left.
func (t *tree) narrow() bool {
	return t.dom.probe(t.r, t.top, t.s.cutoff()-t.base)
}

// search branches until nothing better can be left, and reports whether it got there.
// It ends before that on being stopped, and where so much can be decided at the root by
// now that it is better to begin again with what remains (again).
func (t *tree) search() (ended, again bool) {
	t.seen = t.s.value
	met := t.s.better() > t.s.target
	t.dom.fixed, t.dom.head = t.dom.fixed[:0], 0 // these hold for good
	t.bounds()
	root := &node{bound: t.top, musts: slices.Clone(t.dom.muster), head: slices.Clone(t.lp.head), atHi: slices.Clone(t.lp.atHi)}
	heap.Push(&t.open, root)
	serial, next := 0, nearEvery
	for len(t.open) > 0 {
		if t.open[0].bound < t.s.cutoff()-t.base {
			break
		}
		if !t.sub {
			t.s.lower(t.base + t.open[0].bound)
			if t.s.value > t.seen && t.worthwhile() || !met && t.s.better() > t.s.target {
				return false, true
			}
			if t.s.nodes >= next {
				next = t.s.nodes + nearEvery
				t.near(nearNodes)
				if t.base+t.open[0].bound-t.s.value > wideGap*(t.base+t.open[0].bound) {
					t.exchange()
				}
			}
		}
		if t.out() {
			return false, false
		}
		n := heap.Pop(&t.open).(*node)
		if !t.load(n) {
			continue
		}
		for at := n; at != nil; {
			if at != n && t.out() {
				t.leave(at)
				return false, false
			}
			child, ok := t.visit(at, &serial)
			if t.s.ended {
				return false, false // the bound of what was open before still holds
			}
			if !ok {
				break
			}
			at = child
		}
	}
	return true, false
}

// out reports whether the search is to stop, or has had its nodes.
func (t *tree) out() bool {
	return !t.s.keep() || t.s.o.MaxNodes > 0 && t.s.nodes >= t.s.o.MaxNodes || t.sub && t.s.nodes >= t.limit
}

// leave puts the node the tree is at among those yet to be looked at.
func (t *tree) leave(n *node) {
	n.head, n.atHi = slices.Clone(t.lp.head), slices.Clone(t.lp.atHi)
	heap.Push(&t.open, n)
}

// worthwhile reports whether the prices of the root decide a good part of what was open
// when the tree was begun, now that a better choice is known.
func (t *tree) worthwhile() bool {
	t.seen = t.s.value
	cut := t.s.cutoff() - t.base
	open, decided := 0, 0
	t.dom.undo(0, 0)
	for j, r := range t.r {
		if t.dom.lo[j] == t.dom.hi[j] {
			continue
		}
		open++
		if r < 0 && t.top+r < cut || r > 0 && t.top-r < cut {
			decided++
		}
	}
	return decided > open/6
}
