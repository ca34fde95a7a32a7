package optimum

import "slices"

// A program is a linear one over variables between 0 and 1 and the slacks of its
// rows: maximise c·x with A·x + s = b, s ≥ 0. Columns 0 … n−1 are the columns of a
// Problem, n … n+m−1 the slacks. It is kept by columns and by rows, both sparse.
type program struct {
	n, m int

	colStart, rowStart []int32
	colAll, rowAll     []entry

	b []float64
	c []float64
}

// entry is one coefficient of a column, at a row, or of a row, at a column.
type entry struct {
	at  int32
	val float64
}

func (lp *program) col(j int) []entry { return lp.colAll[lp.colStart[j]:lp.colStart[j+1]] }
func (lp *program) row(i int) []entry { return lp.rowAll[lp.rowStart[i]:lp.rowStart[i+1]] }

// row is Σ coefficient·column ≤ most.
type row struct {
	entries []entry
	most    float64
}

// rows are those of a program while it is put together.
type rows struct {
	all   []entry
	start []int32 // of each, and the end of the last
	most  []float64
}

// put adds to the row that is being put together.
func (r *rows) put(val float64, columns ...int) {
	for _, j := range columns {
		r.all = append(r.all, entry{int32(j), val})
	}
}

// end ends that row.
func (r *rows) end(most float64) {
	r.start, r.most = append(r.start, int32(len(r.all))), append(r.most, most)
}

// newProgram makes the linear relaxation of a problem: one row a limit, one a clause
// (the columns of one group that share a clause stand in one row together, which is
// as strong as it gets), and one a group. groupRow says which row a group has, −1 for
// none.
func newProgram(p *Problem) (lp *program, groupRow []int) {
	members := groupsOf(p)
	count, size := len(p.Limits)+len(members), (len(p.Limits)+1)*len(p.Columns)
	for j := range p.Columns {
		count += len(p.Columns[j].Needs)
		for _, clause := range p.Columns[j].Needs {
			size += 1 + len(clause)
		}
	}
	r := rows{all: make([]entry, 0, size), start: make([]int32, 1, count+1), most: make([]float64, 0, count)}
	for l, limit := range p.Limits {
		largest := int64(1)
		for j := range p.Columns {
			largest = max(largest, p.Columns[j].Amounts[l])
		}
		for j := range p.Columns {
			if a := p.Columns[j].Amounts[l]; a > 0 {
				r.put(float64(a)/float64(largest), j)
			}
		}
		r.end(float64(limit) / float64(largest))
	}
	groupRow = make([]int, len(members))
	for g, list := range members {
		if groupRow[g] = none; len(list) > 1 {
			groupRow[g] = len(r.most)
			r.put(1, list...)
			r.end(1)
			r.sharedNeeds(p, list)
		}
	}
	for j := range p.Columns {
		if g := p.Columns[j].Group; g > 0 && groupRow[g] != none {
			continue
		}
		for _, clause := range p.Columns[j].Needs {
			r.put(1, j)
			r.put(-1, clause...)
			r.end(0)
		}
	}
	gains := make([]float64, len(p.Columns))
	for j := range gains {
		gains[j] = p.Columns[j].Gain
	}
	return r.program(gains), groupRow
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

// sharedNeeds adds one row for each different clause of some columns of which at most one
// is taken.
func (r *rows) sharedNeeds(p *Problem, list []int) {
	type shared struct {
		clause []int
		left   []int
	}
	var all []shared
	for _, j := range list {
		for _, clause := range p.Columns[j].Needs {
			at := slices.IndexFunc(all, func(s shared) bool { return slices.Equal(s.clause, clause) })
			if at < 0 {
				at = len(all)
				all = append(all, shared{clause: clause})
			}
			all[at].left = append(all[at].left, j)
		}
	}
	for _, s := range all {
		r.put(1, s.left...)
		r.put(-1, s.clause...)
		r.end(0)
	}
}

// program is the one with these rows that maximises c.
func (r *rows) program(c []float64) *program {
	n := len(c)
	lp := &program{n: n, m: len(r.most), c: c, b: r.most, rowStart: r.start, rowAll: r.all}
	lp.colStart, lp.colAll = make([]int32, n+1), make([]entry, len(r.all))
	for _, e := range r.all {
		lp.colStart[e.at+1]++
	}
	for j := range n {
		lp.colStart[j+1] += lp.colStart[j]
	}
	next := slices.Clone(lp.colStart[:n])
	for i := range lp.m {
		for _, e := range lp.row(i) {
			lp.colAll[next[e.at]] = entry{int32(i), e.val}
			next[e.at]++
		}
	}
	return lp
}
