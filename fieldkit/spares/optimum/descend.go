package optimum

import (
	"math"
	"slices"
)

const (
	firstStep = 0.125 // of the gap: how far below the bound the first target lies
	nextStep  = 2     // how much further the next one
	lastStep  = 1.2   // as much further as there must be room for, or all the rest is searched at once
	fewOpen   = 10    // columns that are searched without a target
	veryWide  = 0.1   // gap from which on choices are improved by hand before the search
)

// descend searches what is left of the problem at the last of some levels, each a
// reduction of the one before; base is what all of them have taken for good. It reduces
// the problem again as long as what is found lets much more of it be decided. It reports
// whether nothing worth the cutoff is left; if not, it was stopped.
func (s *search) descend(levels []*reduced, base float64) (done bool) {
	for deep := false; ; {
		r := levels[len(levels)-1]
		t := newTree(s, slices.Clone(levels), base)
		if len(r.Columns) == 0 {
			s.offer(t.lift(nil))
			return true
		}
		bound, done := t.root()
		s.lower(bound)
		if done || bound < s.cutoff() {
			return true
		}
		if s.ended {
			return false
		}
		if math.IsInf(s.target, -1) {
			t.near(nearNodes)
			if bound-s.value > veryWide*bound {
				t.exchange()
			}
		}
		if bound < s.cutoff() || !t.narrow() {
			return true
		}
		next := reduce(t.dom)
		if len(next.Columns) >= len(r.Columns)*3/4 {
			if !deep && math.IsInf(s.target, -1) && len(r.Columns) > fewOpen {
				if done, stopped := t.deepen(); done || stopped {
					return done
				}
				deep = true
			} else {
				ended, again := t.search()
				if !again {
					return ended
				}
				t.dom.undo(0, 0)
			}
			if !t.narrow() {
				return true
			}
			next = reduce(t.dom)
		}
		levels = append(levels, next)
		base += next.gain
	}
}

// deepen supposes that the optimum lies little below the bound of the root, and searches
// only what can be worth that much: by far the most is decided then. Where nothing is
// found, the target is a bound, and the next one is lower. So the search costs little more
// than if the optimum had been known from the start, whatever choices are found on the
// way. It reports whether the optimum was found, or else whether it was stopped.
//
// Source: iterative deepening (R. E. Korf 1985), on the bound.
func (t *tree) deepen() (done, stopped bool) {
	s := t.s
	fixed, muster := len(t.dom.fixed), len(t.dom.muster)
	top := t.base + t.top
	defer func() { s.target = math.Inf(-1) }()
	for step := firstStep * (top - s.better()); top-lastStep*step > s.better(); step *= nextStep {
		s.target = top - step
		if t.narrow() {
			next := reduce(t.dom)
			if !s.descend(append(slices.Clone(t.levels), next), t.base+next.gain) {
				return false, true
			}
		}
		if s.better() > s.target {
			return true, false
		}
		s.lower(s.target)
		t.dom.undo(fixed, muster)
	}
	return false, false
}
