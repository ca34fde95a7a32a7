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
