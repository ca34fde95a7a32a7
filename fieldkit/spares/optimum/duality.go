package optimum

// bound returns an upper bound of the program within the present bounds of the
// variables, and leaves each column's reduced cost in r. It holds whatever the state
// of the simplex: any prices y ≥ 0 of the rows give y·b + Σ max(r·lo, r·hi) with
// r = c − yᵀA, which is weak duality.
func (s *simplex) bound() (sum float64) {
	s.prices()
	copy(s.r, s.c)
	for i, y := range s.y {
		if y < 0 && s.hi[s.n+i] > 0 {
			y, s.y[i] = 0, 0
		}
		if y == 0 {
			continue
		}
		sum += y * s.b[i]
		for _, e := range s.row(i) {
			s.r[e.at] -= y * e.val
		}
	}
	for j, r := range s.r {
		if r > 0 {
			sum += r * s.hi[j]
		} else {
			sum += r * s.lo[j]
		}
	}
	return sum
}

// proofless reports whether the row r of the tableau does not prove, in plain sums
// over the rows as given, that no point fulfils them (Farkas).
func (s *simplex) proofless(r int) bool {
	clear(s.rho)
	s.rho[r] = 1
	s.inv.backward(s.rho)
	p := s.head[r]
	sign := -1.0 // too large: −rho proves it
	if s.x[p] < s.lo[p] {
		sign = 1
	}
	least := 0.0
	clear(s.r)
	for i, v := range s.rho {
		y := sign * v
		if y < 0 && s.hi[s.n+i] > 0 {
			y = 0
		}
		if y == 0 {
			continue
		}
		least -= y * s.b[i]
		for _, e := range s.row(i) {
			s.r[e.at] += y * e.val
		}
	}
	for j, g := range s.r {
		if g > 0 {
			least += g * s.lo[j]
		} else {
			least += g * s.hi[j]
		}
	}
	return least < 1e-9
}
