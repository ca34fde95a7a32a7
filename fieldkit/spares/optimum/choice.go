package optimum

import (
	"cmp"
	"slices"
)

// choice is an allowed choice while it is improved by hand: always complete, in that
// whatever is taken has what it needs.
type choice struct {
	p     *Problem
	taken []bool
	left  []int64 // by limit
	value float64
	// by column: the columns whose clauses name it
	users [][]int
	group [][]int
	want  []int // scratch: columns of the bundle
	in    []bool
	price []float64 // by limit: what a unit of it is taken to be worth
}

func newChoice(p *Problem) *choice {
	c := &choice{p: p, taken: make([]bool, len(p.Columns)), in: make([]bool, len(p.Columns)), left: slices.Clone(p.Limits)}
	c.users, c.group = make([][]int, len(p.Columns)), groupsOf(p)
	for j := range p.Columns {
		for _, clause := range p.Columns[j].Needs {
			for _, k := range clause {
				c.users[k] = append(c.users[k], j)
			}
		}
	}
	c.price = make([]float64, len(p.Limits))
	for l, limit := range p.Limits {
		c.price[l] = 1 / float64(max(limit, 1))
	}
	return c
}

func (c *choice) clear() {
	clear(c.taken)
	copy(c.left, c.p.Limits)
	c.value = 0
}

// set takes up a choice that is allowed.
func (c *choice) set(taken []bool) {
	c.clear()
	for j, on := range taken {
		if on {
			c.take(j)
		}
	}
}

func (c *choice) take(j int) {
	c.taken[j] = true
	c.value += c.p.Columns[j].Gain
	for l, a := range c.p.Columns[j].Amounts {
		c.left[l] -= a
	}
}

func (c *choice) drop(j int) {
	c.taken[j] = false
	c.value -= c.p.Columns[j].Gain
	for l, a := range c.p.Columns[j].Amounts {
		c.left[l] += a
	}
}

// weight is what a column takes of the limits at their prices.
func (c *choice) weight(j int) (sum float64) {
	for l, a := range c.p.Columns[j].Amounts {
		sum += c.price[l] * float64(a)
	}
	return sum
}

// bundle collects a column with what it still needs, cheapest ways first, in want. It
// reports whether there is a way at all.
func (c *choice) bundle(j int) bool {
	c.want = c.want[:0]
	ok := c.collect(j)
	for _, k := range c.want {
		c.in[k] = false
	}
	return ok
}

func (c *choice) collect(j int) bool {
	if c.taken[j] || c.in[j] {
		return true
	}
	c.in[j] = true
	c.want = append(c.want, j)
	if g := c.p.Columns[j].Group; g > 0 {
		for _, k := range c.group[g] {
			if k != j && c.in[k] {
				return false
			}
		}
	}
	for _, clause := range c.p.Columns[j].Needs {
		best, least := -1, 0.0
		for _, k := range clause {
			if c.taken[k] || c.in[k] {
				best = -1
				least = -1
				break
			}
			w := c.weight(k) - 1e-3*c.p.Columns[k].Gain
			if c.crowded(k) {
				w += crowding
			}
			if best < 0 || w < least {
				best, least = k, w
			}
		}
		if least == -1 && best == -1 {
			continue
		}
		if best < 0 || !c.collect(best) {
			return false
		}
	}
	return true
}

// crowding ranks a column last whose group something else is taken of.
const crowding = 1e12

func (c *choice) crowded(k int) bool {
	g := c.p.Columns[k].Group
	return g > 0 && slices.ContainsFunc(c.group[g], func(o int) bool { return o != k && (c.taken[o] || c.in[o]) })
}

// apply takes the bundle of a column if it fits and gains something; a column of the
// same group makes room for it. The columns taken stand in want afterwards.
func (c *choice) apply(j int) bool {
	if c.taken[j] || !c.bundle(j) {
		return false
	}
	gain := 0.0
	for _, k := range c.want {
		gain += c.p.Columns[k].Gain
		if g := c.p.Columns[k].Group; g > 0 {
			for _, o := range c.group[g] {
				if c.taken[o] {
					if len(c.users[o]) > 0 && c.needed(o, k) {
						return false
					}
					gain -= c.p.Columns[o].Gain
				}
			}
		}
	}
	if gain <= 1e-12 || !c.fits() {
		return false
	}
	for _, k := range c.want {
		if g := c.p.Columns[k].Group; g > 0 {
			for _, o := range c.group[g] {
				if c.taken[o] {
					c.drop(o)
				}
			}
		}
		c.take(k)
	}
	return true
}

// needed reports whether something taken needs the column o and would not do with k.
func (c *choice) needed(o, k int) bool {
	for _, u := range c.users[o] {
		if !c.taken[u] {
			continue
		}
		for _, clause := range c.p.Columns[u].Needs {
			met, names := false, false
			for _, x := range clause {
				names = names || x == o
				met = met || x != o && c.taken[x] || x == k
			}
			if names && !met {
				return true
			}
		}
	}
	return false
}

func (c *choice) fits() bool {
	for l := range c.left {
		need := int64(0)
		for _, k := range c.want {
			if a := c.p.Columns[k].Amounts; len(a) > l {
				need += a[l]
			}
			if g := c.p.Columns[k].Group; g > 0 {
				for _, o := range c.group[g] {
					if a := c.p.Columns[o].Amounts; c.taken[o] && len(a) > l {
						need -= a[l]
					}
				}
			}
		}
		if need > c.left[l] {
			return false
		}
	}
	return true
}

// fill takes bundles in the order given, again and again while something fits.
func (c *choice) fill(order []int) {
	for again := true; again; {
		again = false
		for _, j := range order {
			if !c.taken[j] && c.p.Columns[j].Gain > 0 && c.apply(j) {
				again = true
			}
		}
	}
}

// prune drops what gains nothing and is not needed.
func (c *choice) prune() {
	for again := true; again; {
		again = false
		for j, on := range c.taken {
			if !on || c.p.Columns[j].Gain > 0 {
				continue
			}
			used := false
			for _, u := range c.users[j] {
				if c.taken[u] && c.needed(j, -1) {
					used = true
					break
				}
			}
			if !used {
				c.drop(j)
				again = true
			}
		}
	}
}

// byDensity orders the columns by gain for what their bundle takes of the limits.
func (c *choice) byDensity() []int {
	density := make([]float64, len(c.taken))
	var order []int
	for j := range c.taken {
		if c.p.Columns[j].Gain <= 0 || !c.bundle(j) {
			continue
		}
		order = append(order, j)
		weight := 1e-9
		for _, k := range c.want {
			weight += c.weight(k)
		}
		density[j] = c.p.Columns[j].Gain / weight
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(density[b], density[a]) })
	return order
}

// decides reports whether taking a column uses up anything.
func (c *choice) decides(j int) bool {
	for _, a := range c.p.Columns[j].Amounts {
		if a > 0 {
			return true
		}
	}
	return c.p.Columns[j].Gain < 0
}
