package optimum

import "slices"

// wideGap is the share of the bound from which on choices are also improved by hand:
// where the relaxation says little, looking near its point does not help.
const wideGap = 0.01

const (
	exchangeable = 400 // columns beyond which exchanging takes too long
	kicks        = 12  // disturbed choices tried at a time
	kickSize     = 3   // columns forced in to disturb one
)

// exchange improves the best choice known by forcing something in, or out, and filling
// the room that is left again, the densest bundle first; then from choices disturbed a
// little, always the same ones.
func (t *tree) exchange() {
	c := t.pick
	if len(c.taken) > exchangeable {
		return
	}
	best := t.s.best
	for _, level := range t.levels {
		best = level.lower(best)
	}
	c.set(best)
	if slices.ContainsFunc(c.left, func(left int64) bool { return left < 0 }) {
		return // what is decided for good by now rules that choice out
	}
	t.climb()
	best, value := slices.Clone(c.taken), c.value
	for range kicks {
		for range kickSize {
			t.dice = t.dice*6364136223846793005 + 1442695040888963407
			j := int((t.dice >> 33) % uint64(len(c.taken)))
			for c.taken[j] || c.p.Columns[j].Gain <= 0 {
				if j++; j == len(c.taken) {
					break
				}
			}
			if j < len(c.taken) {
				c.force(j)
			}
		}
		c.grow(-1)
		t.climb()
		if c.value > value {
			copy(best, c.taken)
			value = c.value
		} else if c.value < value*(1-wideGap/2) {
			c.set(best)
		}
		if !t.s.keep() {
			return
		}
	}
}

// climb exchanges one column at a time while that gains something.
func (t *tree) climb() {
	c := t.pick
	best, value := slices.Clone(c.taken), c.value
	for again := true; again; {
		again = false
		for j := range c.taken {
			if c.p.Columns[j].Gain <= 0 || !t.s.keep() {
				continue
			}
			if c.taken[j] {
				c.without(j)
				c.grow(j)
			} else if c.force(j) {
				c.grow(-1)
			}
			c.prune()
			if c.value > value*(1+1e-12)+1e-12 {
				copy(best, c.taken)
				value, again = c.value, true
				t.offer()
			} else {
				c.set(best)
			}
		}
	}
}

// grow takes the densest bundle that fits until none does: what a tool makes cheap is
// seen anew after each. One column may be kept out.
func (c *choice) grow(but int) {
	for {
		best, density := -1, 0.0
		for j := range c.taken {
			if j == but || c.taken[j] || c.p.Columns[j].Gain <= 0 || !c.bundle(j) {
				continue
			}
			gain, weight := c.brings()
			if gain > 1e-12 && gain > density*weight && c.fits() {
				best, density = j, gain/weight
			}
		}
		if best < 0 || !c.apply(best) {
			return
		}
	}
}

// brings sums what the bundle in want gains, and what it takes of the limits.
func (c *choice) brings() (gain, weight float64) {
	weight = 1e-12
	for _, k := range c.want {
		gain += c.p.Columns[k].Gain
		weight += c.weight(k)
		if g := c.p.Columns[k].Group; g > 0 {
			for _, o := range c.group[g] {
				if c.taken[o] {
					gain -= c.p.Columns[o].Gain
					weight -= c.weight(o)
				}
			}
		}
	}
	return gain, max(weight, 1e-12)
}

// force takes a column with what it needs, and drops whatever gains least for its room
// until that fits. It reports whether that is possible.
func (c *choice) force(j int) bool {
	for {
		if c.taken[j] || !c.bundle(j) {
			return false
		}
		if c.fits() {
			return c.apply(j)
		}
		want := slices.Clone(c.want)
		worst, density := -1, 0.0
		for k, on := range c.taken {
			if !on || c.p.Columns[k].Gain <= 0 {
				continue
			}
			weight := 1e-12 + c.weight(k)
			for _, clause := range c.p.Columns[k].Needs {
				for _, n := range clause {
					if c.taken[n] && !slices.Contains(want, n) && !c.shared(n, k) {
						weight += c.weight(n)
					}
				}
			}
			if d := c.p.Columns[k].Gain / weight; worst < 0 || d < density {
				worst, density = k, d
			}
		}
		if worst < 0 {
			return false
		}
		c.without(worst)
	}
}

// shared reports whether something taken besides k names n among its needs.
func (c *choice) shared(n, k int) bool {
	return slices.ContainsFunc(c.users[n], func(u int) bool { return u != k && c.taken[u] })
}

// without drops a column with everything that cannot do without it, and then what
// nobody uses any more and gains nothing by itself.
func (c *choice) without(j int) {
	stack := []int{j}
	for len(stack) > 0 {
		k := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if !c.taken[k] {
			continue
		}
		c.drop(k)
		for _, u := range c.users[k] {
			if c.taken[u] && !c.met(u) {
				stack = append(stack, u)
			}
		}
	}
	c.prune()
}

func (c *choice) met(j int) bool {
	for _, clause := range c.p.Columns[j].Needs {
		if !slices.ContainsFunc(clause, func(k int) bool { return c.taken[k] }) {
			return false
		}
	}
	return true
}
