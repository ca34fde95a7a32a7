package optimum

import "slices"

// branch is a way to split: either a column, or a group between two of its members.
type branch struct {
	entity   int
	zeroDown []int // columns that are 0 on the lower side
	zeroUp   []int // columns that are 0 on the upper side
	oneUp    int   // column that is 1 on the upper side, −1 for none
	must     int   // group of which one is taken on the upper side, 0 for none
	frac     float64
	upFirst  bool
	upBound  float64 // estimates
	downBnd  float64
	fixedAll bool
	dead     bool
}

// apart makes the two children of a node.
func (t *tree) apart(n *node, b branch, bound float64) (first, other *node) {
	all := make([]int32, 0, len(t.dom.fixed)+4)
	for _, j := range t.dom.fixed {
		all = append(all, j*2+int32(t.dom.lo[j]))
	}
	down := &node{bound: bound, musts: slices.Clone(t.dom.muster), fixed: slices.Clone(all)}
	up := &node{bound: bound, musts: slices.Clone(t.dom.muster), fixed: all}
	for _, j := range b.zeroDown {
		down.fixed = append(down.fixed, int32(j*2))
	}
	for _, j := range b.zeroUp {
		up.fixed = append(up.fixed, int32(j*2))
	}
	if b.oneUp >= 0 {
		up.fixed = append(up.fixed, int32(b.oneUp*2+1))
	}
	if b.must > 0 {
		up.musts = append(up.musts, int32(b.must))
	}
	first, other = down, up
	if b.upFirst {
		first, other = up, down
	}
	other.head, other.atHi = slices.Clone(t.lp.head), slices.Clone(t.lp.atHi)
	return first, other
}

// anyOpen splits at the first column that is not decided.
func (t *tree) anyOpen() (branch, bool) {
	for j := range t.p.Columns {
		if t.dom.lo[j] != t.dom.hi[j] {
			return branch{entity: t.entity[j], zeroDown: t.all[j : j+1], oneUp: j, frac: 0.5, upFirst: true}, true
		}
	}
	return branch{}, false
}
