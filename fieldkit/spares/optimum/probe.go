package optimum

import "math"

// probe fixes every column for which the reduced costs r show that it cannot be
// otherwise in a choice worth the cutoff: what follows from the other value costs, summed
// up, more than the bound leaves. Prices may put what a tool is worth on the repairs that
// need it; the sum finds it again wherever it was put. It reports whether anything is left.
//
// Source: fixing by reduced costs (Nemhauser and Wolsey 1988, II.5) with implications.
func (d *domain) probe(r []float64, bound, cut float64) bool {
	for again := true; again; {
		again = false
		for j := range d.lo {
			for value := range int8(2) {
				if d.lo[j] == d.hi[j] || bound-d.cost(r, j, value) >= cut {
					continue
				}
				d.fix(j, 1-value)
				d.follow()
				again = true
			}
		}
		if again && !d.spread() {
			return false
		}
	}
	return !d.broken
}

// cost sums what it takes off a bound to fix a column, with what follows from that.
func (d *domain) cost(r []float64, j int, value int8) (sum float64) {
	before := len(d.fixed)
	d.fix(j, value)
	d.follow()
	for _, k := range d.fixed[before:] {
		if r[k] > 0 == (d.lo[k] == 0) {
			sum += max(r[k], -r[k])
		}
	}
	if d.broken {
		sum = math.Inf(1)
	}
	d.undo(before, len(d.muster))
	return sum
}
