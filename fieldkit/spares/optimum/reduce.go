package optimum

import "slices"

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
	r := remaining(d)
	r.dissolveGroups()
	for r.merge() {
	}
	r.join()
	return r.reduced(d.p)
}

// rest is what a domain leaves open of a problem, while it is reduced.
type rest struct {
	limits []int64
	gain   float64  // of what is taken for good
	taken  []bool   // by column of the problem: decided so by the domain
	number []int    // by column of the problem: its number here, −1 if it is decided
	from   []int    // by number: the column of the problem
	cols   []Column // by number; its clauses are numbers
	stands []int    // by number: the number that stands for it, mostly its own, −1 for none
	took   []bool   // by number: taken for good after all

	users   [][]int // by number: what needs it, while columns are merged
	numbers []int   // where the lists of users are
}

// remaining numbers what is open in a domain.
func remaining(d *domain) *rest {
	n := len(d.p.Columns)
	r := &rest{limits: slices.Clone(d.p.Limits), taken: make([]bool, n), number: make([]int, n)}
	open, needs, clauses := 0, 0, 0
	for j := range n {
		r.number[j] = none
		if settled := d.settled(j); settled || d.hi[j] == 0 {
			if r.taken[j] = settled; settled {
				r.gain += d.p.Columns[j].Gain
				for l, a := range d.p.Columns[j].Amounts {
					r.limits[l] -= a
				}
			}
			continue
		}
		r.number[j] = open
		open++
		clauses += len(d.p.Columns[j].Needs)
		for _, clause := range d.p.Columns[j].Needs {
			needs += len(clause)
		}
	}
	r.from, r.cols, r.stands, r.took = make([]int, 0, open), make([]Column, 0, open), make([]int, 0, open), make([]bool, open)
	amounts := make([]int64, open*len(d.p.Limits))
	lists, numbers := make([][]int, 0, clauses), make([]int, 0, needs)
	for j, k := range r.number {
		if k == none {
			continue
		}
		c := d.p.Columns[j]
		first := len(lists)
	clauses:
		for _, clause := range c.Needs {
			begin := len(numbers)
			for _, k := range clause {
				if r.taken[k] {
					numbers = numbers[:begin]
					continue clauses
				}
				if d.hi[k] == 1 {
					numbers = append(numbers, r.number[k])
				}
			}
			lists = append(lists, numbers[begin:len(numbers):len(numbers)])
		}
		own := amounts[k*len(d.p.Limits):][:len(d.p.Limits):len(d.p.Limits)]
		copy(own, c.Amounts)
		r.cols = append(r.cols, Column{Gain: c.Gain, Amounts: own, Needs: tidy(lists[first:len(lists):len(lists)]), Group: c.Group})
		r.from, r.stands = append(r.from, j), append(r.stands, k)
	}
	return r
}

// dissolveGroups frees what is alone in its group.
func (r *rest) dissolveGroups() {
	members := make([]int, len(r.number)+1)
	for k := range r.cols {
		members[r.cols[k].Group]++
	}
	for k := range r.cols {
		if members[r.cols[k].Group] == 1 {
			r.cols[k].Group = 0
		}
	}
}

func (r *rest) out(k int) bool { return r.stands[k] != k }

// find lists the users of each column.
func (r *rest) find() {
	each := func(f func(user, k int)) {
		for u := range r.cols {
			if r.out(u) {
				continue
			}
			for _, clause := range r.cols[u].Needs {
				for _, k := range clause {
					f(u, k)
				}
			}
		}
	}
	if r.users == nil {
		r.users = make([][]int, len(r.cols))
	}
	count, all := make([]int, len(r.cols)), 0
	each(func(_, k int) { count[k]++; all++ })
	if len(r.numbers) < all {
		r.numbers = make([]int, all)
	}
	free := r.numbers
	for k, n := range count {
		r.users[k], free = free[:0:n], free[n:]
	}
	each(func(u, k int) { r.users[k] = append(r.users[k], u) })
}

// merge leaves out columns that cannot matter or that others can stand for, and reports
// whether there were any.
func (r *rest) merge() (again bool) {
	r.find()
	users := r.users
	for a := range r.cols {
		if r.out(a) {
			continue
		}
		c := &r.cols[a]
		switch {
		case c.Gain <= 0 && len(users[a]) == 0:
			r.stands[a], again = none, true // nobody wants it
		case c.Gain >= 0 && weightless(c.Amounts) && len(c.Needs) == 0 && c.Group == 0:
			r.stands[a], r.took[a], again = none, true, true // costs nothing: take it
			r.gain += c.Gain
			for _, u := range users[a] {
				r.cols[u].Needs = slices.DeleteFunc(r.cols[u].Needs, func(clause []int) bool { return slices.Contains(clause, a) })
			}
		case c.Gain > 0 && weightless(c.Amounts) && len(users[a]) == 0 && c.Group == 0 && len(c.Needs) == 1 && len(c.Needs[0]) == 1:
			// What it needs brings it along.
			k := c.Needs[0][0]
			r.cols[k].Gain += c.Gain
			r.stands[a], again = k, true
		case len(users[a]) == 1 && c.Gain <= 0 && c.Group == 0:
			u := users[a][0]
			k := slices.IndexFunc(r.cols[u].Needs, func(clause []int) bool { return len(clause) == 1 && clause[0] == a })
			if k < 0 || r.out(u) {
				continue
			}
			// Taken with u or not at all.
			r.cols[u].Gain += c.Gain
			for l, x := range c.Amounts {
				r.cols[u].Amounts[l] += x
			}
			needs := append(slices.Delete(slices.Clone(r.cols[u].Needs), k, k+1), c.Needs...)
			for _, clause := range c.Needs { // now it is u that needs these
				for _, k := range clause {
					users[k] = append(users[k], u)
				}
			}
			r.cols[u].Needs = tidy(needs)
			r.stands[a], again = u, true
		}
	}
	return again
}

// join makes one gain of those that need the same and weigh nothing.
func (r *rest) join() {
	used := make([]bool, len(r.cols))
	for k := range r.cols {
		if !r.out(k) {
			for _, clause := range r.cols[k].Needs {
				for _, k := range clause {
					used[k] = true
				}
			}
		}
	}
	seen := map[string]int{}
	for k := range r.cols {
		c := &r.cols[k]
		if r.out(k) || used[k] || c.Group > 0 || c.Gain <= 0 || !weightless(c.Amounts) {
			continue
		}
		key := keyOf(c.Needs)
		if first, ok := seen[key]; ok {
			r.cols[first].Gain += c.Gain
			r.stands[k] = first
			continue
		}
		seen[key] = k
	}
}

// reduced is the problem that is left, its columns and groups numbered without gaps.
func (r *rest) reduced(p *Problem) *reduced {
	final, left := make([]int, len(r.cols)), 0
	for k := range r.cols {
		if final[k] = none; !r.out(k) {
			final[k] = left
			left++
		}
	}
	small := &reduced{
		Problem: Problem{Limits: r.limits, Columns: r.cols[:0]}, // in its place: no number grows
		gain:    r.gain, taken: r.taken, as: make([]int, len(r.number)), from: r.from[:0],
	}
	groups := make([]int, len(p.Columns)+1)
	last := 0
	for k, c := range r.cols {
		if r.out(k) {
			continue
		}
		for _, clause := range c.Needs {
			for i := range clause {
				clause[i] = final[clause[i]]
			}
		}
		if c.Group > 0 {
			if groups[c.Group] == 0 {
				last++
				groups[c.Group] = last
			}
			c.Group = groups[c.Group]
		}
		small.Columns, small.from = append(small.Columns, c), append(small.from, r.from[k])
	}
	for j, k := range r.number {
		if small.as[j] = none; k == none {
			continue
		}
		for r.out(k) && r.stands[k] != none {
			k = r.stands[k]
		}
		if small.as[j] = final[k]; r.took[k] {
			small.taken[j] = true
		}
	}
	return small
}
