package optimum

import "math"

// factor is the inverse of a basis as a product of elementary matrices, each the
// identity but for one column. Slack columns of the basis need none, so that its
// length is the number of other columns in the basis and the pivots since.
type factor struct {
	at    []int32 // pivot row of each
	start []int32 // of its other entries
	all   []entry
	pivot []float64 // 1 / the pivot
}

func (f *factor) reset() {
	f.at, f.pivot, f.all = f.at[:0], f.pivot[:0], f.all[:0]
	f.start = append(f.start[:0], 0)
}

// push adds the column v, pivoted in row r.
func (f *factor) push(r int, v []float64) {
	p := 1 / v[r]
	for i, x := range v {
		if i != r && math.Abs(x) > dropped {
			f.all = append(f.all, entry{int32(i), -x * p})
		}
	}
	f.at, f.pivot = append(f.at, int32(r)), append(f.pivot, p)
	f.start = append(f.start, int32(len(f.all)))
}

// pushSparse adds a column given by its entries, pivoted in row r with the entry p there.
func (f *factor) pushSparse(r int32, p float64, col []entry) {
	p = 1 / p
	for _, e := range col {
		if e.at != r {
			f.all = append(f.all, entry{e.at, -e.val * p})
		}
	}
	f.at, f.pivot = append(f.at, r), append(f.pivot, p)
	f.start = append(f.start, int32(len(f.all)))
}

// cut takes off what was pushed after the first n.
func (f *factor) cut(n int) {
	f.at, f.pivot, f.start = f.at[:n], f.pivot[:n], f.start[:n+1]
	f.all = f.all[:f.start[n]]
}

// forward turns v into B⁻¹·v.
func (f *factor) forward(v []float64) { f.forwardFrom(0, v) }

// forwardFrom leaves the first so many columns out.
func (f *factor) forwardFrom(first int, v []float64) {
	for k := first; k < len(f.at); k++ {
		r := f.at[k]
		x := v[r]
		if x == 0 {
			continue
		}
		v[r] = x * f.pivot[k]
		for _, e := range f.all[f.start[k]:f.start[k+1]] {
			v[e.at] += e.val * x
		}
	}
}

// backward turns v into vᵀ·B⁻¹.
func (f *factor) backward(v []float64) {
	for k := len(f.at) - 1; k >= 0; k-- {
		sum := v[f.at[k]] * f.pivot[k]
		for _, e := range f.all[f.start[k]:f.start[k+1]] {
			if x := v[e.at]; x != 0 {
				sum += e.val * x
			}
		}
		v[f.at[k]] = sum
	}
}
