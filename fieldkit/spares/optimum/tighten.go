package optimum

import "math"

const (
	cutRounds = 20
	leastFall = 0.01 // share of what is between the bound and the cutoff that a round must take off
)

// tighten adds rows to the relaxation that every choice fulfils and its point does not,
// and solves it again, as long as that lowers the bound. Cuts that no longer hold
// anything back are left out again. The verdict is that of the last time.
func (t *tree) tighten(cutoff float64) verdict {
	own := t.lp.m
	bound := t.lp.bound()
	top := t.base + bound
	if math.Abs(top-t.s.barren) <= Tolerance*math.Abs(top) {
		return solved // the same point, most likely
	}
	defer func() {
		if t.base+bound > top-Tolerance*math.Abs(top) {
			t.s.barren = top
		}
	}()
	for range cutRounds {
		cuts := t.lp.halves(len(t.p.Limits))
		if len(cuts) == 0 {
			break
		}
		t.lp = t.lp.extended(own, cuts)
		if v := t.lp.run(cutoff, math.MaxInt); v != solved {
			return v
		}
		now := t.lp.bound()
		fall := bound - now
		bound = now
		if fall < leastFall*(now-cutoff) {
			break
		}
	}
	return solved
}

// extended is the simplex with further rows, at the same point. Rows from own on that
// have slack are left out.
func (s *simplex) extended(own int, more []row) *simplex {
	r := rows{start: make([]int32, 1)}
	number := make([]int32, s.m) // of the rows kept
	for i := range s.m {
		number[i] = none
		if i >= own && s.place[s.n+i] >= 0 {
			continue
		}
		number[i] = int32(len(r.most))
		r.all = append(r.all, s.row(i)...)
		r.end(s.b[i])
	}
	kept := len(r.most)
	for _, cut := range more {
		r.all = append(r.all, cut.entries...)
		r.end(cut.most)
	}
	next := newSimplex(r.program(s.c), s.keep)
	copy(next.lo[:s.n], s.lo)
	copy(next.hi[:s.n], s.hi)
	copy(next.atHi[:s.n], s.atHi)
	for v := range next.place {
		next.place[v] = none
	}
	next.head = next.head[:0]
	for v, at := range s.place {
		if v >= s.n {
			if number[v-s.n] == none {
				continue
			}
			to := s.n + int(number[v-s.n])
			next.hi[to] = s.hi[v]
			v = to
		}
		if at >= 0 {
			next.head = append(next.head, int32(v))
		}
	}
	for i := kept; i < next.m; i++ {
		next.head = append(next.head, int32(next.n+i))
	}
	next.renew()
	return next
}
