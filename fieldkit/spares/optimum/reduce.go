package optimum

import (
	"slices"
)

// domain says what each column may still be, 0 or 1, and keeps the consequences of
// every decision: nothing that breaks a limit, has lost what it needs or shares a
// group with something taken may be 1, and what alone can meet a clause must be.
type domain struct {
	p      *Problem
	lo, hi []int8
	left   []int64 // by limit, beside what must be taken
	group  [][]int
	users  [][]int
	must   []bool  // by group: one of it is taken
	fixed  []int32 // columns whose lo = hi, in the order they became so
	muster []int32 // groups that became a must, in that order
	head   int     // of fixed: consequences drawn up to here
	broken bool
}

func newDomain(p *Problem) *domain {
	n := len(p.Columns)
	d := &domain{p: p, lo: make([]int8, n), hi: make([]int8, n), left: slices.Clone(p.Limits), group: groupsOf(p), users: make([][]int, n)}
	d.must = make([]bool, len(d.group))
	for j := range n {
		d.hi[j] = 1
		for _, clause := range p.Columns[j].Needs {
			for _, k := range clause {
				d.users[k] = append(d.users[k], j)
			}
		}
	}
	for j := range n {
		d.clauses(j)
	}
	d.spread()
	return d
}

func (d *domain) fix(j int, to int8) {
	if d.lo[j] == d.hi[j] {
		d.broken = d.broken || d.lo[j] != to
		return
	}
	d.lo[j], d.hi[j] = to, to
	d.fixed = append(d.fixed, int32(j))
	if to == 1 {
		for l, a := range d.p.Columns[j].Amounts {
			d.left[l] -= a
			d.broken = d.broken || d.left[l] < 0
		}
	}
}

func (d *domain) demand(g int) {
	if !d.must[g] {
		d.must[g] = true
		d.muster = append(d.muster, int32(g))
	}
}

// spread draws the consequences of what was fixed; it reports whether the domain
// still holds a choice as far as that shows.
func (d *domain) spread() bool {
	for !d.broken {
		before := len(d.fixed)
		d.follow()
		for j := range d.p.Columns {
			if d.lo[j] == d.hi[j] {
				continue
			}
			for l, a := range d.p.Columns[j].Amounts {
				if a > d.left[l] {
					d.fix(j, 0)
					break
				}
			}
		}
		for _, g := range d.muster {
			last, open := -1, 0
			for _, k := range d.group[g] {
				if d.hi[k] == 1 {
					last = k
					open++
				}
			}
			if open == 0 {
				d.broken = true
			} else if open == 1 {
				d.fix(last, 1)
			}
		}
		if d.head == len(d.fixed) && len(d.fixed) == before {
			break
		}
	}
	return !d.broken
}

// follow draws the consequences that come from needs and groups alone.
func (d *domain) follow() {
	for d.head < len(d.fixed) && !d.broken {
		j := int(d.fixed[d.head])
		d.head++
		if d.lo[j] == 1 {
			if g := d.p.Columns[j].Group; g > 0 {
				for _, k := range d.group[g] {
					if k != j {
						d.fix(k, 0)
					}
				}
			}
			d.clauses(j)
			continue
		}
		for _, u := range d.users[j] {
			d.clauses(u)
		}
	}
}

// clauses looks at what a column needs.
func (d *domain) clauses(j int) {
	if d.hi[j] == 0 {
		return
	}
	for _, clause := range d.p.Columns[j].Needs {
		last, open := -1, 0
		for _, k := range clause {
			if d.hi[k] == 1 {
				last = k
				open++
				if d.lo[k] == 1 {
					open = 2
					break
				}
			}
		}
		switch {
		case open == 0:
			d.fix(j, 0)
			return
		case open == 1 && d.lo[j] == 1:
			d.fix(last, 1)
		}
	}
}

// undo takes back what was fixed after the first so many columns and groups.
func (d *domain) undo(fixed, muster int) {
	for _, j := range d.fixed[fixed:] {
		if d.lo[j] == 1 {
			for l, a := range d.p.Columns[j].Amounts {
				d.left[l] += a
			}
		}
		d.lo[j], d.hi[j] = 0, 1
	}
	for _, g := range d.muster[muster:] {
		d.must[g] = false
	}
	d.fixed, d.muster, d.broken = d.fixed[:fixed], d.muster[:muster], false
	d.head = len(d.fixed)
}

// reduced is a smaller problem with the same optimum.
type reduced struct {
	Problem
	gain  float64 // of what is taken for good
	taken []bool  // by column of the larger problem: taken for good
	as    []int   // by column of the larger problem: the column that stands for it, −1 for none
	from  []int   // by column of the smaller: the one of the larger problem it was
}

// lift turns a choice of the smaller problem into one of the larger.
func (r *reduced) lift(taken []bool) []bool {
	all := slices.Clone(r.taken)
	for j, as := range r.as {
		if as >= 0 && taken[as] {
			all[j] = true
		}
	}
	return all
}

// reduce leaves out what is decided in a domain and what cannot matter, and lets one
// column stand for several that are only ever taken together.
func reduce(d *domain) *reduced {
	p := d.p
	n := len(p.Columns)
	cols := make([]Column, n)
	out, stands := make([]bool, n), make([]int, n)
	r := &reduced{taken: make([]bool, n), as: make([]int, n)}
	for j := range n {
		stands[j] = j
		if d.hi[j] == 0 || d.settled(j) {
			out[j], stands[j] = true, -1
			if d.lo[j] == 1 {
				r.taken[j] = true
				r.gain += p.Columns[j].Gain
			}
			continue
		}
		c := p.Columns[j]
		cols[j] = Column{Gain: c.Gain, Amounts: make([]int64, len(p.Limits)), Group: c.Group}
		copy(cols[j].Amounts, c.Amounts)
	clauses:
		for _, clause := range c.Needs {
			var rest []int
			for _, k := range clause {
				if d.settled(k) {
					continue clauses
				}
				if d.hi[k] == 1 {
					rest = append(rest, k)
				}
			}
			cols[j].Needs = append(cols[j].Needs, rest)
		}
	}
	for j := range n {
		if !out[j] {
			cols[j].Needs = tidy(cols[j].Needs)
		}
	}
	members := map[int]int{}
	for j := range n {
		if !out[j] && cols[j].Group > 0 {
			members[cols[j].Group]++
		}
	}
	for j := range n {
		if g := cols[j].Group; g > 0 && members[g] == 1 {
			cols[j].Group = 0
		}
	}
	for again := true; again; {
		again = false
		users := make([][]int, n)
		for j := range n {
			if out[j] {
				continue
			}
			for _, clause := range cols[j].Needs {
				for _, k := range clause {
					users[k] = append(users[k], j)
				}
			}
		}
		for a := range n {
			if out[a] {
				continue
			}
			c := &cols[a]
			switch {
			case c.Gain <= 0 && len(users[a]) == 0:
				out[a], stands[a], again = true, -1, true // nobody wants it
			case c.Gain >= 0 && weightless(c.Amounts) && len(c.Needs) == 0 && c.Group == 0:
				out[a], stands[a], again = true, -1, true // costs nothing: take it
				r.taken[a] = true
				r.gain += c.Gain
				for _, u := range users[a] {
					cols[u].Needs = slices.DeleteFunc(cols[u].Needs, func(clause []int) bool { return slices.Contains(clause, a) })
				}
			case c.Gain > 0 && weightless(c.Amounts) && len(users[a]) == 0 && c.Group == 0 && len(c.Needs) == 1 && len(c.Needs[0]) == 1:
				// What it needs brings it along.
				k := c.Needs[0][0]
				cols[k].Gain += c.Gain
				out[a], stands[a], again = true, k, true
			case len(users[a]) == 1 && c.Gain <= 0 && c.Group == 0:
				u := users[a][0]
				k := slices.IndexFunc(cols[u].Needs, func(clause []int) bool { return len(clause) == 1 && clause[0] == a })
				if k < 0 || out[u] {
					continue
				}
				// Taken with u or not at all.
				cols[u].Gain += c.Gain
				for l, x := range c.Amounts {
					cols[u].Amounts[l] += x
				}
				cols[u].Needs = tidy(append(slices.Delete(slices.Clone(cols[u].Needs), k, k+1), c.Needs...))
				for _, clause := range c.Needs { // now it is u that needs these
					for _, k := range clause {
						users[k] = append(users[k], u)
					}
				}
				out[a], stands[a], again = true, u, true
			}
		}
	}
	// Gains that need the same and weigh nothing are one gain.
	seen := map[string]int{}
	used := make([]bool, n)
	for j := range n {
		if !out[j] {
			for _, clause := range cols[j].Needs {
				for _, k := range clause {
					used[k] = true
				}
			}
		}
	}
	for j := range n {
		if out[j] || used[j] || cols[j].Group > 0 || cols[j].Gain <= 0 || !weightless(cols[j].Amounts) {
			continue
		}
		key := keyOf(cols[j].Needs)
		if first, ok := seen[key]; ok {
			cols[first].Gain += cols[j].Gain
			out[j], stands[j] = true, first
			continue
		}
		seen[key] = j
	}
	number := make([]int, n)
	for j := range n {
		if !out[j] {
			number[j] = len(r.Columns)
			r.Columns, r.from = append(r.Columns, cols[j]), append(r.from, j)
		}
	}
	for j := range r.Columns {
		for _, clause := range r.Columns[j].Needs {
			for k := range clause {
				clause[k] = number[clause[k]]
			}
		}
	}
	for j := range n {
		at := j
		for at >= 0 && out[at] && stands[at] != at && stands[at] >= 0 {
			at = stands[at]
		}
		r.as[j] = -1
		switch {
		case r.taken[j]:
		case at >= 0 && !out[at]:
			r.as[j] = number[at]
		case at >= 0 && r.taken[at]:
			r.taken[j] = true // stands for one that was taken for good afterwards
		}
	}
	groups := map[int]int{}
	for j := range r.Columns {
		if g := r.Columns[j].Group; g > 0 {
			if groups[g] == 0 {
				groups[g] = len(groups) + 1
			}
			r.Columns[j].Group = groups[g]
		}
	}
	r.Limits = slices.Clone(p.Limits)
	for j := range n {
		if d.settled(j) {
			for l, a := range p.Columns[j].Amounts {
				r.Limits[l] -= a
			}
		}
	}
	return r
}
