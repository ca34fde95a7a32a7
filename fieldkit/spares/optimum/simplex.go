package optimum

import (
	"math"
)

// Tolerances of the simplex. None of them decides whether a bound is right: see
// bound.
const (
	dropped    = 1e-14 // entries of the factor below it are taken for nothing
	smallPivot = 1e-7  // pivots below it are not used
	feasible   = 1e-9  // a basic variable may be this much out of its bounds
	dualSlack  = 1e-11 // a reduced cost may be this much on the wrong side
	renewEvery = 32    // pivots until the basis is factored anew
)

type verdict int

const (
	solved     verdict = iota // at the optimum of the relaxation
	cutOff                    // its bound fell to the cutoff
	impossible                // no point fulfils the rows
	stopped                   // asked to stop, or out of steps: the bound still holds
)

// Marks in head and place beside rows and variables.
const (
	none    = -1
	waiting = -2 // a basic column that has no row yet
)

// simplex is the dual simplex method with bounded variables over a program. All
// variables are boxed or slacks, so that every basis becomes dual feasible by moving
// nonbasic variables to their other bound: there is no first phase, and changed
// bounds after branching need none either.
//
// Source: the textbook method (R. E. Bixby; A. Koberstein), with dual steepest edge
// pricing (Forrest and Goldfarb 1992), long steps through the bounds, and the
// product form of the inverse.
type simplex struct {
	*program
	lo, hi  []float64 // by variable
	head    []int32   // by row: its basic variable
	place   []int32   // by variable: its row, −1 if not basic
	atHi    []bool    // by variable that is not basic
	x       []float64 // by variable
	d       []float64 // by variable: reduced cost, 0 if basic
	weight  []float64 // by row
	inv     factor
	fresh   int // pivots since the basis was factored
	pivots  int
	keep    func() bool
	trying  bool      // a trial: the basis is not to be factored anew
	rho     []float64 // scratch, by row
	alpha   []float64 // scratch, by variable
	touched []int32   // of alpha
	column  []float64
	tau     []float64
	flip    []float64
	y       []float64
	r       []float64
	value   float64 // of the objective at x
	mark    []bool
	cand    []int32
	old     []int32
	queue   []int32
	count   []int32 // by row
}

func newSimplex(p *program, keep func() bool) *simplex {
	all := p.n + p.m
	s := &simplex{
		program: p, keep: keep,
		lo: make([]float64, all), hi: make([]float64, all), head: make([]int32, p.m), place: make([]int32, all),
		atHi: make([]bool, all), x: make([]float64, all), d: make([]float64, all), weight: make([]float64, p.m),
		rho: make([]float64, p.m), alpha: make([]float64, all), column: make([]float64, p.m), tau: make([]float64, p.m),
		flip: make([]float64, p.m), y: make([]float64, p.m), r: make([]float64, p.n), mark: make([]bool, all), count: make([]int32, p.m),
	}
	for j := range all {
		s.hi[j], s.place[j] = 1, -1
		if j >= p.n {
			s.hi[j] = math.Inf(1)
		} else {
			s.atHi[j] = p.c[j] >= 0
		}
	}
	for i := range p.m {
		s.head[i], s.place[p.n+i], s.weight[i] = int32(p.n+i), int32(i), 1
	}
	s.inv.reset()
	s.renew()
	return s
}

// renew factors the basis anew and computes everything that rests on it.
func (s *simplex) renew() {
	s.refactor()
	s.duals()
	s.settle()
	s.primals()
	s.fresh = 0
}

// refactor builds the factor of the basis: first rows that one column alone has, whose
// columns no other one changes, then the rest by how few entries they have. A column
// without a pivot leaves the basis.
func (s *simplex) refactor() {
	s.inv.reset()
	cols, old, count := s.cand[:0], append(s.old[:0], s.head...), s.count
	s.old = old
	clear(count) // by row: basic columns not placed yet that have it
	for i := range s.head {
		s.head[i] = none
	}
	for _, v := range old {
		s.place[v] = none
		if r := int(v) - s.n; r >= 0 {
			s.head[r], s.place[v] = v, int32(r)
			continue
		}
		s.place[v] = waiting
		cols = append(cols, v)
		for _, e := range s.col(int(v)) {
			count[e.at]++
		}
	}
	s.cand = cols
	queue := s.queue[:0]
	place := func(j int32, r int) {
		s.head[r], s.place[j] = j, int32(r)
		for _, e := range s.col(int(j)) {
			if count[e.at]--; count[e.at] == 1 && s.head[e.at] == none {
				queue = append(queue, e.at)
			}
		}
	}
	for i, n := range count {
		if n == 1 && s.head[i] == none {
			queue = append(queue, int32(i))
		}
	}
	for k := 0; k < len(queue); k++ {
		i := queue[k]
		if s.head[i] != none || count[i] != 1 {
			continue
		}
		for _, e := range s.row(int(i)) {
			if s.place[e.at] == waiting {
				if math.Abs(e.val) >= 1e-3 {
					s.inv.pushSparse(i, e.val, s.col(int(e.at)))
					place(e.at, int(i))
				}
				break
			}
		}
	}
	s.queue = queue
	alone := len(s.inv.at)
	for _, j := range cols {
		if s.place[j] != waiting {
			continue
		}
		s.load(int(j))
		s.inv.forwardFrom(alone, s.column)
		best, score, largest := none, 0.0, 0.0
		for i, v := range s.column {
			if v != 0 && s.head[i] == none {
				largest = max(largest, math.Abs(v))
			}
		}
		for i, v := range s.column {
			if v == 0 || s.head[i] != none {
				continue
			}
			if a := math.Abs(v); a > smallPivot && a >= 0.1*largest {
				if sc := a / float64(1+count[i]); sc > score {
					best, score = i, sc
				}
			}
		}
		if best != none {
			s.inv.push(best, s.column)
			place(j, best)
			continue
		}
		s.place[j] = none
		for _, e := range s.col(int(j)) {
			count[e.at]--
		}
	}
	for i, v := range s.head {
		if v == none {
			s.head[i], s.place[s.n+i] = int32(s.n+i), int32(i)
		}
		// The weights belong to rows; after the rows changed places they are only a guess.
		if s.head[i] != old[i] {
			s.weight[i] = 1
		}
	}
}

// duals computes the reduced costs.
func (s *simplex) duals() {
	s.prices()
	copy(s.d, s.c)
	for i := range s.m {
		s.d[s.n+i] = -s.y[i]
		if s.y[i] == 0 {
			continue
		}
		for _, e := range s.row(i) {
			s.d[e.at] -= s.y[i] * e.val
		}
	}
	for _, v := range s.head {
		s.d[v] = 0
	}
}

// prices computes the dual value of each row.
func (s *simplex) prices() {
	for i, v := range s.head {
		s.y[i] = 0
		if int(v) < s.n {
			s.y[i] = s.c[v]
		}
	}
	s.inv.backward(s.y)
}

// settle moves every nonbasic variable to the bound that its reduced cost wants.
func (s *simplex) settle() {
	for j := range s.x {
		if s.place[j] >= 0 {
			continue
		}
		switch {
		case math.IsInf(s.hi[j], 1):
			s.atHi[j] = false
		case s.d[j] > dualSlack:
			s.atHi[j] = true
		case s.d[j] < -dualSlack:
			s.atHi[j] = false
		}
		s.x[j] = s.lo[j]
		if s.atHi[j] {
			s.x[j] = s.hi[j]
		}
	}
}

// primals computes the basic variables from the others.
func (s *simplex) primals() {
	copy(s.column, s.b)
	for j := range s.n {
		if s.place[j] < 0 && s.x[j] != 0 {
			for _, e := range s.col(j) {
				s.column[e.at] -= e.val * s.x[j]
			}
		}
	}
	for i := range s.m {
		if j := s.n + i; s.place[j] < 0 && s.x[j] != 0 {
			s.column[i] -= s.x[j]
		}
	}
	s.inv.forward(s.column)
	for i, v := range s.head {
		s.x[v] = s.column[i]
	}
	s.value = 0
	for j, c := range s.c {
		s.value += c * s.x[j]
	}
}

// run solves the relaxation, or stops once its bound has fallen to the cutoff, or
// after so many pivots.
func (s *simplex) run(cutoff float64, most int) verdict {
	for step := 0; ; step++ {
		if s.fresh >= renewEvery && !s.trying {
			s.renew()
		}
		r := s.leaving()
		if r < 0 {
			if s.fresh > renewEvery/2 && !s.trying {
				s.renew()
				if s.leaving() >= 0 && step < most {
					continue
				}
			}
			return solved
		}
		if step >= most || step%4 == 0 && !s.keep() {
			return stopped
		}
		if step > 0 && s.value < cutoff {
			return cutOff
		}
		switch s.pivot(r) {
		case impossible:
			if s.trying {
				return impossible
			}
			if s.fresh > 0 {
				s.renew() // make sure of it
				continue
			}
			if s.proofless(r) {
				return stopped
			}
			return impossible
		}
		s.pivots++
	}
}

// leaving picks the basic variable that is furthest out of its bounds, −1 if none is.
func (s *simplex) leaving() int {
	best, score := -1, 0.0
	for i, v := range s.head {
		out := s.x[v] - s.hi[v]
		if out < feasible {
			out = s.lo[v] - s.x[v]
			if out < feasible {
				continue
			}
		}
		if sc := out * out / s.weight[i]; sc > score {
			best, score = i, sc
		}
	}
	return best
}
