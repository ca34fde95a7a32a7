package optimum

import (
	"cmp"
	"math"
	"slices"
)

const (
	whole      = 1e-6 // a value this near to 0 or 1 counts as that
	tried      = 4    // trials of an entity until its average is relied on
	trialSteps = 20   // pivots of a trial
	maxTrials  = 12   // entities tried at a node
)

// branching chooses where to split. Entities that were split often enough are judged by
// the average loss of the bound; the others are tried. dead says that a trial left
// nothing of the node.
func (t *tree) branching(bound, cut float64) (branch, bool) {
	list := t.splits()
	if len(list) == 0 {
		return branch{}, false
	}
	guess := func(b branch) float64 {
		up, down := mean(t.s.up, b.entity)*(1-b.frac), mean(t.s.down, b.entity)*b.frac
		return max(up, 1e-9) * max(down, 1e-9)
	}
	slices.SortStableFunc(list, func(a, b branch) int {
		return cmp.Or(cmp.Compare(guess(b), guess(a)), cmp.Compare(math.Abs(a.frac-0.5), math.Abs(b.frac-0.5)), a.entity-b.entity)
	})
	best, score := -1, -1.0
	trials, since := 0, 0
	for i := range list {
		b := &list[i]
		sure := t.s.up[b.entity].n >= tried && t.s.down[b.entity].n >= tried
		if !sure && trials < maxTrials && since < 6 && !t.s.ended {
			if trials == 0 {
				if t.lp.fresh > renewEvery/2-2 {
					t.lp.renew()
				}
				t.saved.save(t.lp)
			}
			trials++
			since++
			now := t.lp.value
			up, upDead := t.try(b, true, cut)
			down, downDead := t.try(b, false, cut)
			upLoss, downLoss := max(now-up, 0), max(now-down, 0)
			if upDead && downDead {
				return branch{dead: true}, false
			}
			if upDead || downDead {
				b.fixedAll, b.upFirst = true, downDead
				return *b, true
			}
			t.s.up[b.entity].add(upLoss / max(1-b.frac, 1e-3))
			t.s.down[b.entity].add(downLoss / max(b.frac, 1e-3))
			if sc := max(upLoss, 1e-9) * max(downLoss, 1e-9); sc > score {
				best, score, since = i, sc, 0
				b.upFirst = upLoss <= downLoss
			}
			continue
		}
		if sc := guess(*b); sc > score {
			best, score = i, sc
			b.upFirst = mean(t.s.up, b.entity)*(1-b.frac) <= mean(t.s.down, b.entity)*b.frac
		}
	}
	return list[best], true
}

func (s *score) add(x float64) { s.sum, s.n = s.sum+x, s.n+1 }

// mean is an entity's average, that of all where it has none.
func mean(list []score, entity int) float64 {
	if s := list[entity]; s.n > 0 {
		return s.sum / s.n
	}
	return 0
}

// splits lists the ways to split at the point of the relaxation.
func (t *tree) splits() (list []branch) {
	for g := range t.dom.group {
		if g == 0 || t.slack[g] < 0 {
			continue
		}
		if b, ok := t.splitGroup(g); ok {
			list = append(list, b)
		}
	}
	for j := range t.p.Columns {
		x := t.lp.x[j]
		if g := t.p.Columns[j].Group; g > 0 && t.slack[g] >= 0 {
			continue
		}
		if x > whole && x < 1-whole && t.dom.lo[j] != t.dom.hi[j] && t.pick.decides(j) {
			list = append(list, branch{entity: t.entity[j], zeroDown: t.all[j : j+1], oneUp: j, frac: x})
		}
	}
	return list
}

// splitGroup splits a group, whose list is sorted by size, where the relaxation mixes: at
// most so much, or more. Either side decides something that was open, wherever the point
// of the relaxation may be.
func (t *tree) splitGroup(g int) (branch, bool) {
	open := func(j int) bool { return t.dom.lo[j] != t.dom.hi[j] }
	mixed := func(j int) bool { return open(j) && t.lp.x[j] > whole && t.lp.x[j] < 1-whole }
	if !slices.ContainsFunc(t.dom.group[g], mixed) {
		return branch{}, false
	}
	var list []int
	middle := 0.0
	for _, j := range t.dom.group[g] {
		if open(j) {
			list = append(list, j)
			middle += t.lp.x[j] * float64(len(list))
		}
	}
	if t.dom.must[g] && len(list) == 1 {
		return branch{}, false
	}
	cut := min(int(middle), len(list)-1) // the first so many are the lower side
	taken := t.sum(list[cut:])
	if taken <= whole || taken >= 1-whole {
		// The mean falls on a gap: split off the largest that is mixed instead.
		for cut = len(list) - 1; cut > 0; cut-- {
			if mixed(list[cut]) {
				break
			}
		}
	}
	if cut == 0 && t.dom.must[g] {
		cut = 1
	}
	b := branch{entity: len(t.s.p.Columns) + t.s.p.Columns[t.entity[list[0]]].Group, oneUp: -1, must: g}
	b.zeroUp, b.zeroDown = list[:cut], list[cut:]
	b.frac = min(max(t.sum(b.zeroDown), 1e-3), 1-1e-3)
	return b, true
}

// sum adds up what the relaxation takes of some columns.
func (t *tree) sum(list []int) (taken float64) {
	for _, j := range list {
		taken += t.lp.x[j]
	}
	return taken
}

// state is a simplex to go back to after a trial.
type state struct {
	lo, hi, x, d, weight []float64
	head, place          []int32
	atHi                 []bool
	length, fresh        int
	value                float64
}

func (k *state) save(s *simplex) {
	k.lo, k.hi, k.x, k.d = append(k.lo[:0], s.lo...), append(k.hi[:0], s.hi...), append(k.x[:0], s.x...), append(k.d[:0], s.d...)
	k.weight, k.head, k.place = append(k.weight[:0], s.weight...), append(k.head[:0], s.head...), append(k.place[:0], s.place...)
	k.atHi, k.length, k.fresh, k.value = append(k.atHi[:0], s.atHi...), len(s.inv.at), s.fresh, s.value
}

func (k *state) restore(s *simplex) {
	copy(s.lo, k.lo)
	copy(s.hi, k.hi)
	copy(s.x, k.x)
	copy(s.d, k.d)
	copy(s.weight, k.weight)
	copy(s.head, k.head)
	copy(s.place, k.place)
	copy(s.atHi, k.atHi)
	s.inv.cut(k.length)
	s.fresh, s.value = k.fresh, k.value
}

// try looks a few pivots into one side of a split. dead says that nothing better can be
// there.
func (t *tree) try(b *branch, up bool, cut float64) (value float64, dead bool) {
	defer t.saved.restore(t.lp)
	fixed, muster := len(t.dom.fixed), len(t.dom.muster)
	zero := b.zeroDown
	if up {
		zero = b.zeroUp
		if b.oneUp >= 0 {
			t.dom.fix(b.oneUp, 1)
		}
		if b.must > 0 {
			t.dom.demand(b.must)
		}
	}
	for _, j := range zero {
		t.dom.fix(j, 0)
	}
	ok := t.dom.spread()
	if ok {
		t.lp.trying = true
		for j := range t.p.Columns {
			t.lp.lo[j], t.lp.hi[j] = float64(t.dom.lo[j]), float64(t.dom.hi[j])
		}
		if b.must > 0 && up {
			t.lp.hi[t.lp.n+t.slack[b.must]] = 0
		}
		t.lp.settle()
		t.lp.primals()
		v := t.lp.run(cut, trialSteps)
		value = t.lp.value
		if v == cutOff || value < cut {
			dead = t.lp.bound() < cut
		}
		t.lp.trying = false
	}
	t.dom.undo(fixed, muster)
	return value, !ok || dead
}
