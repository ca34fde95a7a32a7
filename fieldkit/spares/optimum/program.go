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

// row is one row while a program is put together: Σ coefficient·column ≤ most.
type row struct {
	entries []entry
	most    float64
}

// newProgram makes the linear relaxation of a problem: one row a limit, one a clause
// (the columns of one group that share a clause stand in one row together, which is
// as strong as it gets), and one a group. groupRow says which row a group has, −1 for
// none.
func newProgram(p *Problem) (lp *program, groupRow []int) {
	var rows []row
	for l, limit := range p.Limits {
		largest := int64(1)
		for j := range p.Columns {
			largest = max(largest, p.Columns[j].Amounts[l])
		}
		r := row{most: float64(limit) / float64(largest), entries: make([]entry, 0, len(p.Columns))}
		for j := range p.Columns {
			if a := p.Columns[j].Amounts[l]; a > 0 {
				r.entries = append(r.entries, entry{int32(j), float64(a) / float64(largest)})
			}
		}
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
		r := row{most: 1, entries: make([]entry, len(list))}
		for k, j := range list {
			done[j] = true
			r.entries[k] = entry{int32(j), 1}
		}
		groupRow[g] = len(rows)
		rows = append(rows, r)
		rows = sharedNeeds(rows, p, list)
	}
	for j := range p.Columns {
		if done[j] {
			continue
		}
		for _, clause := range p.Columns[j].Needs { // no two are the same
			rows = append(rows, need(clause, j))
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

// need is the row that says: of some columns one is taken only with one of a clause.
func need(clause []int, list ...int) row {
	r := row{entries: make([]entry, 0, len(list)+len(clause))}
	for _, j := range list {
		r.entries = append(r.entries, entry{int32(j), 1})
	}
	for _, k := range clause {
		r.entries = append(r.entries, entry{int32(k), -1})
	}
	return r
}

// sharedNeeds adds one row for each different clause of some columns of which at most one
// is taken.
func sharedNeeds(rows []row, p *Problem, list []int) []row {
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
		rows = append(rows, need(s.clause, s.left...))
	}
	return rows
}

func fill(n int, rows []row, c []float64) *program {
	lp := &program{n: n, m: len(rows), c: c}
	lp.colStart, lp.rowStart = make([]int32, n+1), make([]int32, lp.m+1)
	lp.b = make([]float64, lp.m)
	for i, r := range rows {
		lp.b[i] = r.most
		lp.rowStart[i+1] = lp.rowStart[i] + int32(len(r.entries))
		for _, e := range r.entries {
			lp.colStart[e.at+1]++
		}
	}
	for j := range n {
		lp.colStart[j+1] += lp.colStart[j]
	}
	all := lp.colStart[n]
	lp.rowAll, lp.colAll = make([]entry, 0, all), make([]entry, all)
	next := slices.Clone(lp.colStart[:n])
	for i, r := range rows {
		lp.rowAll = append(lp.rowAll, r.entries...)
		for _, e := range r.entries {
			lp.colAll[next[e.at]] = entry{int32(i), e.val}
			next[e.at]++
		}
	}
	return lp
}
