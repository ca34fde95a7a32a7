package optimum

// A program is a linear one over variables between 0 and 1 and the slacks of its
// rows: maximise c·x with A·x + s = b, s ≥ 0. Columns 0 … n−1 are the columns of a
// Problem, n … n+m−1 the slacks. It is kept by columns and by rows, both sparse.
type program struct {
	n, m int

	colStart []int32
	colRow   []int32
	colVal   []float64
	rowStart []int32
	rowCol   []int32
	rowVal   []float64

	b []float64
	c []float64
}

// row is one row while a program is put together: Σ coefficient·column ≤ most.
type row struct {
	cols []int32
	vals []float64
	most float64
}

// newProgram makes the linear relaxation of a problem: one row a limit, one a clause
// (the columns of one group that share a clause stand in one row together, which is
// as strong as it gets), and one a group. groupRow says which row a group has, −1 for
// none.
func newProgram(p *Problem) (lp *program, groupRow []int) {
	var rows []row
	for l, limit := range p.Limits {
		r, largest := row{}, int64(1)
		for j := range p.Columns {
			if a := p.Columns[j].Amounts[l]; a > 0 {
				r.cols = append(r.cols, int32(j))
				r.vals = append(r.vals, float64(a))
				largest = max(largest, a)
			}
		}
		for k := range r.vals {
			r.vals[k] /= float64(largest)
		}
		r.most = float64(limit) / float64(largest)
		rows = append(rows, r)
	}
	members := groupsOf(p)
	groupRow = make([]int, len(members))
	done := make([]bool, len(p.Columns))
	for g, list := range members {
		groupRow[g] = -1
		if len(list) < 2 {
			continue
		}
		r := row{most: 1}
		for _, j := range list {
			done[j] = true
			r.cols = append(r.cols, int32(j))
			r.vals = append(r.vals, 1)
		}
		groupRow[g] = len(rows)
		rows = append(rows, r)
		rows = append(rows, sharedNeeds(p, list)...)
	}
	for j := range p.Columns {
		if !done[j] {
			rows = append(rows, sharedNeeds(p, []int{j})...)
		}
	}
	gains := make([]float64, len(p.Columns))
	for j := range gains {
		gains[j] = p.Columns[j].Gain
	}
	return fill(len(p.Columns), rows, gains), groupRow
}

// groupsOf lists the columns of each group, by group number.
func groupsOf(p *Problem) [][]int {
	most := 0
	for j := range p.Columns {
		most = max(most, p.Columns[j].Group)
	}
	members := make([][]int, most+1)
	for j := range p.Columns {
		if g := p.Columns[j].Group; g > 0 {
			members[g] = append(members[g], j)
		}
	}
	return members
}

// sharedNeeds gives one row for each different clause of some columns of which at
// most one is taken.
func sharedNeeds(p *Problem, list []int) (rows []row) {
	type entry struct {
		clause []int
		left   []int
	}
	var entries []entry
	for _, j := range list {
	clauses:
		for _, clause := range p.Columns[j].Needs {
			for e := range entries {
				if equal(entries[e].clause, clause) {
					entries[e].left = append(entries[e].left, j)
					continue clauses
				}
			}
			entries = append(entries, entry{clause, []int{j}})
		}
	}
	for _, e := range entries {
		r := row{}
		for _, j := range e.left {
			r.cols, r.vals = append(r.cols, int32(j)), append(r.vals, 1)
		}
		for _, k := range e.clause {
			r.cols, r.vals = append(r.cols, int32(k)), append(r.vals, -1)
		}
		rows = append(rows, r)
	}
	return rows
}

func equal(a, b []int) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

func fill(n int, rows []row, c []float64) *program {
	lp := &program{n: n, m: len(rows), c: c}
	lp.colStart, lp.rowStart = make([]int32, n+1), make([]int32, lp.m+1)
	lp.b = make([]float64, lp.m)
	for i, r := range rows {
		lp.b[i] = r.most
		lp.rowStart[i+1] = lp.rowStart[i] + int32(len(r.cols))
		lp.rowCol, lp.rowVal = append(lp.rowCol, r.cols...), append(lp.rowVal, r.vals...)
		for _, j := range r.cols {
			lp.colStart[j+1]++
		}
	}
	for j := range n {
		lp.colStart[j+1] += lp.colStart[j]
	}
	next := append([]int32(nil), lp.colStart[:n]...)
	lp.colRow, lp.colVal = make([]int32, len(lp.rowCol)), make([]float64, len(lp.rowCol))
	for i, r := range rows {
		for k, j := range r.cols {
			lp.colRow[next[j]], lp.colVal[next[j]] = int32(i), r.vals[k]
			next[j]++
		}
	}
	return lp
}
