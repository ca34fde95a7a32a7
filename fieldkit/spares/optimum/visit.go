package optimum

import "container/heap"

// load goes to a node from anywhere.
func (t *tree) load(n *node) bool {
	t.dom.undo(0, 0)
	for _, g := range n.musts {
		t.dom.demand(int(g))
	}
	for _, f := range n.fixed {
		t.dom.fix(int(f/2), int8(f%2))
	}
	if !t.dom.spread() {
		return false
	}
	copy(t.lp.head, n.head)
	copy(t.lp.atHi, n.atHi)
	for v := range t.lp.place {
		t.lp.place[v] = -1
	}
	for i, v := range t.lp.head {
		t.lp.place[v] = int32(i)
	}
	for i := range t.lp.weight {
		t.lp.weight[i] = 1
	}
	t.lp.refactor()
	t.lp.duals()
	t.lp.fresh = 0
	t.bounds()
	return true
}

// visit solves the node whose bounds are set, and returns the child to go on with; the
// other one is left open. ok is false where nothing is left below, or on being stopped.
func (t *tree) visit(n *node, serial *int) (child *node, ok bool) {
	t.s.nodes++
	cut := t.s.cutoff() - t.base
	verdict := t.lp.run(cut, 2000+20*t.lp.m)
	if verdict == impossible {
		return nil, false
	}
	bound := min(t.lp.bound(), n.bound)
	if bound < cut {
		return nil, false
	}
	if t.s.ended {
		n.bound = bound
		return nil, false
	}
	// Reduced costs decide more.
	before := len(t.dom.fixed)
	if !t.dom.probe(t.lp.r, bound, cut) {
		return nil, false
	}
	if len(t.dom.fixed) > before {
		t.bounds()
		if t.lp.leaving() >= 0 {
			verdict = t.lp.run(cut, 2000+20*t.lp.m)
			if verdict == impossible {
				return nil, false
			}
			if b := min(t.lp.bound(), bound); b < bound {
				bound = b
			}
			if bound < cut {
				return nil, false
			}
			if t.s.ended {
				n.bound = bound
				return nil, false
			}
		}
	}
	n.bound = bound
	old := t.s.value
	t.round()
	if t.s.value > old {
		cut = t.s.cutoff() - t.base
		if bound < cut {
			return nil, false
		}
	}
	if part, ok := t.part(); ok {
		if !t.below(part) && !t.s.ended {
			t.leave(n) // out of nodes
		}
		return nil, false
	}
	b, ok := t.branching(bound, cut)
	if !ok {
		if b.dead {
			return nil, false
		}
		// The point of the relaxation is a choice. Where rounding errors leave a doubt,
		// look at each column that is still open.
		t.asIs()
		if bound < t.s.cutoff()-t.base {
			return nil, false
		}
		b, ok = t.anyOpen()
		if !ok {
			return nil, false
		}
	}
	if b.fixedAll { // a trial showed that one side is empty: go on in the other
		first, _ := t.apart(n, b, bound)
		return t.enter(first)
	}
	first, other := t.apart(n, b, bound)
	*serial++
	other.serial = *serial
	if other.bound >= cut {
		heap.Push(&t.open, other)
	}
	next, good := t.enter(first)
	if !good {
		// Go straight on with the other one.
		for i, x := range t.open {
			if x == other {
				heap.Remove(&t.open, i)
				break
			}
		}
		if other.bound < cut || !t.load(other) {
			return nil, false
		}
		return other, true
	}
	return next, true
}

// enter sets the bounds for a child of the node the tree is at.
func (t *tree) enter(n *node) (*node, bool) {
	for _, g := range n.musts {
		t.dom.demand(int(g))
	}
	for _, f := range n.fixed {
		if j := f / 2; t.dom.lo[j] != t.dom.hi[j] || t.dom.lo[j] != int8(f%2) {
			t.dom.fix(int(j), int8(f%2))
		}
	}
	if !t.dom.spread() {
		return nil, false
	}
	t.bounds()
	return n, true
}
