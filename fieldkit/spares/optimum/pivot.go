package optimum

import "math"

// pivot takes the basic variable of row r out of the basis.
func (s *simplex) pivot(r int) verdict {
	p := s.head[r]
	sign, out := 1.0, s.x[p]-s.hi[p]
	if s.x[p] < s.lo[p] {
		sign, out = -1, s.lo[p]-s.x[p]
	}
	clear(s.rho)
	s.rho[r] = 1
	s.inv.backward(s.rho)
	s.priceRow()
	q := s.entering(sign, out)
	if q < 0 {
		s.wipe()
		return impossible
	}
	// The entering column.
	s.load(q)
	s.inv.forward(s.column)
	pivot := s.column[r]
	if math.Abs(pivot) < smallPivot || math.Abs(pivot-s.alpha[q]) > 1e-6*(1+math.Abs(pivot)) {
		s.wipe()
		if s.fresh == 0 || s.trying {
			// Not to be trusted even afresh: leave this row alone for now.
			s.weight[r] *= 1e6
			return solved
		}
		s.renew()
		return solved
	}
	step := math.Max(0, -s.d[q]/(sign*s.alpha[q]))
	flipped := s.dualStep(sign*step, q)
	if flipped {
		s.inv.forward(s.flip)
		for i, v := range s.head {
			s.x[v] -= s.flip[i]
		}
		clear(s.flip)
	}
	bound := s.hi[p]
	if sign < 0 {
		bound = s.lo[p]
	}
	move := (s.x[p] - bound) / pivot
	for i, v := range s.head {
		if a := s.column[i]; a != 0 {
			s.x[v] -= move * a
		}
	}
	s.reweigh(r, pivot)
	s.x[q] += move
	s.value += s.d[q] * move
	s.x[p], s.d[p], s.d[q] = bound, sign*step, 0
	s.atHi[p] = sign > 0
	s.place[p], s.place[q], s.head[r] = -1, int32(r), int32(q)
	s.inv.push(r, s.column)
	s.fresh++
	s.wipe()
	return solved
}

func (s *simplex) load(j int) {
	clear(s.column)
	if j >= s.n {
		s.column[j-s.n] = 1
		return
	}
	for _, e := range s.col(j) {
		s.column[e.at] = e.val
	}
}

// priceRow computes the row rho of the tableau over the nonbasic variables.
func (s *simplex) priceRow() {
	for i, v := range s.rho {
		if math.Abs(v) < dropped {
			continue
		}
		for _, e := range s.row(i) {
			j := e.at
			if s.place[j] >= 0 {
				continue
			}
			if !s.mark[j] {
				s.mark[j] = true
				s.touched = append(s.touched, j)
			}
			s.alpha[j] += v * e.val
		}
		if j := s.n + i; s.place[j] < 0 {
			s.mark[j] = true
			s.touched = append(s.touched, int32(j))
			s.alpha[j] = v
		}
	}
}

func (s *simplex) wipe() {
	for _, j := range s.touched {
		s.alpha[j], s.mark[j] = 0, false
	}
	s.touched = s.touched[:0]
}

// entering walks along the dual step through the bounds of boxed variables while the
// leaving one stays out of its own, and returns the variable to stop at, −1 if none.
func (s *simplex) entering(sign, slope float64) int {
	s.cand = s.cand[:0]
	for _, j := range s.touched {
		a := sign * s.alpha[j]
		if s.lo[j] == s.hi[j] || math.Abs(a) < 1e-9 {
			continue
		}
		if !s.atHi[j] && a > 0 || s.atHi[j] && a < 0 {
			s.cand = append(s.cand, j)
		}
	}
	for len(s.cand) > 0 {
		most := math.Inf(1)
		for _, j := range s.cand {
			if ratio := (math.Abs(s.d[j]) + dualSlack) / math.Abs(s.alpha[j]); ratio < most {
				most = ratio
			}
		}
		best, size, passed := -1, 0.0, 0.0
		keep := s.cand[:0]
		for _, j := range s.cand {
			a := math.Abs(s.alpha[j])
			if math.Abs(s.d[j])/a > most {
				keep = append(keep, j)
				continue
			}
			passed += a * (s.hi[j] - s.lo[j])
			if a > size {
				best, size = int(j), a
			}
		}
		if slope-passed < 0 || math.IsInf(passed, 1) {
			return best
		}
		slope -= passed
		s.cand = keep
		if len(keep) == 0 {
			return -1
		}
	}
	return -1
}

// dualStep changes the reduced costs and moves what is now on the wrong bound; it
// reports whether anything moved, its effect on the rows then stands in flip.
func (s *simplex) dualStep(step float64, q int) (flipped bool) {
	for _, j := range s.touched {
		if int(j) == q {
			continue
		}
		before, move := s.d[j], 0.0
		s.d[j] += step * s.alpha[j]
		switch d := s.d[j]; {
		case d > dualSlack && !s.atHi[j]:
			if math.IsInf(s.hi[j], 1) {
				s.d[j] = 0
				continue
			}
			move = s.hi[j] - s.lo[j]
			s.atHi[j], s.x[j] = true, s.hi[j]
		case d < -dualSlack && s.atHi[j]:
			move = s.lo[j] - s.hi[j]
			s.atHi[j], s.x[j] = false, s.lo[j]
		}
		if move == 0 {
			continue
		}
		flipped = true
		s.value += before * move
		if int(j) >= s.n {
			s.flip[int(j)-s.n] += move
			continue
		}
		for _, e := range s.col(int(j)) {
			s.flip[e.at] += move * e.val
		}
	}
	return flipped
}

// reweigh updates the steepest-edge weights for a pivot in row r.
func (s *simplex) reweigh(r int, pivot float64) {
	if s.trying {
		return // the weights are put back soon
	}
	norm := 0.0
	for i, v := range s.rho {
		s.tau[i] = v
		norm += v * v
	}
	s.inv.forward(s.tau)
	for i, a := range s.column {
		if a == 0 || i == r {
			continue
		}
		k := a / pivot
		s.weight[i] = max(s.weight[i]-2*k*s.tau[i]+k*k*norm, 1e-4)
	}
	s.weight[r] = max(norm/(pivot*pivot), 1e-4)
}
