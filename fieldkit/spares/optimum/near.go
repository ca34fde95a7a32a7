package optimum

import "slices"

const (
	nearEvery = 400 // nodes between two looks around the best choice
	nearNodes = 20  // nodes spent on one
)

// near looks for better choices that agree with the best one known wherever the
// relaxation agrees with it: what is left to decide there is a small problem of the same
// kind.
//
// Source: relaxation-induced neighbourhoods (E. Danna, E. Rothberg, C. Le Pape, 2005).
func (t *tree) near(nodes int) {
	for range 4 {
		if t.s.ended {
			return
		}
		best := t.s.best
		for _, level := range t.levels {
			best = level.lower(best)
		}
		d := newDomain(t.p)
		open := 0
		for j := range t.p.Columns {
			switch x := t.lp.x[j]; {
			case t.dom.lo[j] == t.dom.hi[j]:
				d.fix(j, t.dom.lo[j])
			case best[j] && x > 0.9:
				d.fix(j, 1)
			case !best[j] && x < 0.1:
				d.fix(j, 0)
			default:
				open++
			}
		}
		if !d.spread() || open == 0 || open > len(t.p.Columns)*2/3 {
			return
		}
		r := reduce(d)
		if len(r.Columns) == 0 {
			t.s.offer(t.lift(r.lift(nil)))
			return
		}
		sub := newTree(t.s, append(slices.Clone(t.levels), r), t.base+r.gain)
		sub.sub, sub.limit = true, t.s.nodes+nodes
		before := t.s.value
		bound, done := sub.root()
		if done || bound < t.s.cutoff() || !sub.narrow() {
			return
		}
		sub.search()
		if t.s.value <= before {
			return
		}
	}
}

// lower turns a choice of the larger problem into the columns of the smaller that stand
// for it, as far as there are any.
func (r *reduced) lower(taken []bool) []bool {
	small := make([]bool, len(r.Columns))
	for j, as := range r.as {
		if as >= 0 && taken[j] {
			small[as] = true
		}
	}
	return small
}
