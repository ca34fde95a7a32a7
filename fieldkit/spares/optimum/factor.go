package optimum

import "math"

// factor is the inverse of a basis as a product of elementary matrices, each the
// identity but for one column. Slack columns of the basis need none, so that its
// length is the number of other columns in the basis and the pivots since.
type factor struct {
	at    []int32 // pivot row of each
	start []int32 // of its other entries
	row   []int32
	val   []float64
	pivot []float64 // 1 / the pivot
}

func (f *factor) reset() {
	f.at, f.pivot, f.row, f.val = f.at[:0], f.pivot[:0], f.row[:0], f.val[:0]
	f.start = append(f.start[:0], 0)
}

// push adds the column v, pivoted in row r.
func (f *factor) push(r int, v []float64) {
	p := 1 / v[r]
	for i, x := range v {
		if i != r && math.Abs(x) > dropped {
			f.row, f.val = append(f.row, int32(i)), append(f.val, -x*p)
		}
	}
	f.at, f.pivot = append(f.at, int32(r)), append(f.pivot, p)
	f.start = append(f.start, int32(len(f.row)))
}

// pushSparse adds a column given by its entries, pivoted in row r with the entry p there.
func (f *factor) pushSparse(r int32, p float64, rows []int32, vals []float64) {
	p = 1 / p
	for e, i := range rows {
		if i != r {
			f.row, f.val = append(f.row, i), append(f.val, -vals[e]*p)
		}
	}
	f.at, f.pivot = append(f.at, r), append(f.pivot, p)
	f.start = append(f.start, int32(len(f.row)))
}

// cut takes off what was pushed after the first n.
func (f *factor) cut(n int) {
	f.at, f.pivot, f.start = f.at[:n], f.pivot[:n], f.start[:n+1]
	f.row, f.val = f.row[:f.start[n]], f.val[:f.start[n]]
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
		lo, hi := f.start[k], f.start[k+1]
		rows, vals := f.row[lo:hi], f.val[lo:hi]
		for e, i := range rows {
			v[i] += vals[e] * x
		}
	}
}

// backward turns v into vᵀ·B⁻¹.
func (f *factor) backward(v []float64) {
	for k := len(f.at) - 1; k >= 0; k-- {
		sum := v[f.at[k]] * f.pivot[k]
		lo, hi := f.start[k], f.start[k+1]
		rows, vals := f.row[lo:hi], f.val[lo:hi]
		for e, i := range rows {
			if x := v[i]; x != 0 {
				sum += vals[e] * x
			}
		}
		v[f.at[k]] = sum
	}
}
