package optimum

import (
	"math"
	"slices"
)

const (
	smaller  = 0.7 // share of the columns that are left, at most, where a part is searched as a problem of its own
	worthOwn = 25  // columns left from which on that pays
)

// part reduces what is left at the node the tree is at, where enough is decided there for
// that to be a much smaller problem: all that a node costs goes by its size.
func (t *tree) part() (r *reduced, ok bool) {
	open := 0
	for j := range t.dom.lo {
		if t.dom.lo[j] != t.dom.hi[j] {
			open++
		}
	}
	most := int(smaller * float64(len(t.dom.lo)))
	if open > most || open < t.s.worthOwn {
		return nil, false
	}
	r = reduce(t.dom)
	return r, len(r.Columns) <= most
}

// below searches such a part, reduced again as long as much more of it is decided. It
// reports whether it got to the end.
func (t *tree) below(r *reduced) (ended bool) {
	t.s.parts++
	levels, base := t.levels, t.base
	for dom := t.dom; ; {
		levels, base = append(slices.Clone(levels), r), base+r.gain
		sub := newTree(t.s, levels, base)
		if len(r.Columns) == 0 {
			t.s.offer(sub.lift(nil))
			return true
		}
		sub.sub, sub.limit = true, math.MaxInt
		if t.sub {
			sub.limit = t.limit
		}
		sub.inherit(dom, r)
		bound, done := sub.root()
		if done || bound < t.s.cutoff() || !sub.narrow() {
			return true
		}
		if t.s.ended {
			return false
		}
		next := reduce(sub.dom)
		if len(next.Columns) >= len(r.Columns)*4/5 {
			ended, _ = sub.search()
			return ended
		}
		dom, r = sub.dom, next
	}
}

// inherit demands of the reduced problem what a domain of the larger one demands, for the
// groups whose columns that are open all stand in it.
func (t *tree) inherit(d *domain, r *reduced) {
	for _, g := range d.muster {
		group := 0
		for _, j := range d.group[g] {
			if d.lo[j] == d.hi[j] {
				continue
			}
			if group = 0; r.as[j] >= 0 && r.from[r.as[j]] == j {
				group = r.Columns[r.as[j]].Group
			}
			if group == 0 {
				break
			}
		}
		if group > 0 {
			t.dom.demand(group)
		}
	}
}
