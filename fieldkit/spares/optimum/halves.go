package optimum

import (
	"cmp"
	"math"
	"slices"
)

// Cuts from halving: some rows with whole coefficients, and bounds of variables, are
// added up so that all coefficients are even and the right side is odd. Half of it,
// rounded down, holds for every choice, and cuts off points whose slacks in all that was
// added are less than 1 together. Which rows to add is an odd cycle in a graph whose
// nodes are the variables between their bounds, and the ground: an edge is a row with
// two of them, or a bound. All sums are of whole numbers, so that a cut is exact.
//
// Source: A. Caprara, M. Fischetti, {0, ½}-Chvátal–Gomory cuts, Mathematical Programming
// 74 (1996).
const (
	mostCuts    = 40   // of one round
	mostMixed   = 4    // variables between their bounds in a row that is used
	leastDepth  = 0.02 // how far off the point must be, in units of the cut's norm
	mostInCut   = 60   // entries
	groundLevel = 0    // node of the bounds
)

// edge is a row, or a bound where row is none, between two nodes.
type edge struct {
	to, row int32
	odd     int32 // 1 if it turns the right side from even to odd
	slack   float64
}

// way is the shortest way found to a node.
type way struct {
	dist      float64
	row, back int32
	done      bool
}

// halver looks for cuts at the point of a simplex.
type halver struct {
	s     *simplex
	first int // rows from here on have whole coefficients
	node  []int32
	mixed []int32 // by node: its variable
	edges [][]edge
	cuts  []row
	depth []float64
	sum   []int32 // by variable: coefficient of the cut being made
	known map[string]bool
	// of cycle: by node·2, and 1 more where the way is odd
	way            []way
	reached, front []int32
}

// halves finds cuts among the rows from the first one on, the deepest first.
func (s *simplex) halves(first int) []row {
	h := &halver{s: s, first: first, node: make([]int32, s.n), mixed: []int32{none}, sum: make([]int32, s.n), known: map[string]bool{}}
	for j := range s.n {
		h.node[j] = none
		if x := s.x[j]; x > whole && x < 1-whole {
			h.node[j] = int32(len(h.mixed))
			h.mixed = append(h.mixed, int32(j))
		}
	}
	h.edges = make([][]edge, len(h.mixed))
	for k := 1; k < len(h.mixed); k++ {
		h.join(groundLevel, int32(k), edge{row: none, slack: s.x[h.mixed[k]]})
		h.join(groundLevel, int32(k), edge{row: none, slack: 1 - s.x[h.mixed[k]], odd: 1})
	}
	for i := first; i < s.m; i++ {
		h.row(i)
	}
	h.way = make([]way, 2*len(h.mixed))
	for k := range h.way {
		h.way[k].dist = math.Inf(1)
	}
	for k := 1; k < len(h.mixed); k++ {
		h.cycle(int32(k))
	}
	order := make([]int, len(h.cuts))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(h.depth[b], h.depth[a]) })
	var list []row
	for _, i := range order[:min(len(order), mostCuts)] {
		list = append(list, h.cuts[i])
	}
	return list
}

func (h *halver) join(a, b int32, e edge) {
	if e.slack < 1-whole {
		e.to = b
		h.edges[a] = append(h.edges[a], e)
		e.to = a
		h.edges[b] = append(h.edges[b], e)
	}
}

// row makes the edges of a row. Of variables beyond two, a bound takes the place.
func (h *halver) row(i int) {
	s := h.s
	e := edge{row: int32(i), slack: max(0, s.x[s.n+i]), odd: int32(s.b[i]) & 1}
	if e.slack >= 1-whole {
		return
	}
	var mixed []int32
	for _, at := range s.row(i) {
		if int32(at.val)&1 == 0 {
			continue
		}
		j := at.at
		if h.node[j] != none {
			mixed = append(mixed, h.node[j])
		} else if s.x[j] > 0.5 {
			e.odd ^= 1
		}
	}
	switch n := len(mixed); {
	case n == 0 && e.odd == 1:
		h.cut([]int32{int32(i)})
	case n == 1:
		h.join(groundLevel, mixed[0], e)
	case n <= mostMixed:
		for a := range n {
			for b := range a {
				h.drop(mixed, a, b, 0, e)
			}
		}
	}
}

// drop joins two of the mixed variables of a row, once the others from the k-th on have
// been replaced by a bound each.
func (h *halver) drop(mixed []int32, a, b, k int, e edge) {
	for k == a || k == b {
		k++
	}
	if k >= len(mixed) {
		h.join(mixed[a], mixed[b], e)
		return
	}
	x := h.s.x[h.mixed[mixed[k]]]
	low, high := e, e
	low.slack += x
	high.slack, high.odd = high.slack+1-x, 1-high.odd
	h.drop(mixed, a, b, k+1, low)
	h.drop(mixed, a, b, k+1, high)
}

// cycle finds the odd cycle through a node with the least slack (Dijkstra), over pairs
// of a node and whether the way there is odd.
func (h *halver) cycle(from int32) {
	start, goal := 2*from, 2*from+1
	for _, k := range h.reached {
		h.way[k] = way{dist: math.Inf(1)}
	}
	h.way[start].dist = 0
	h.reached, h.front = append(h.reached[:0], start), append(h.front[:0], start)
	for {
		least := none
		for k, at := range h.front {
			if least == none || h.way[at].dist < h.way[h.front[least]].dist {
				least = k
			}
		}
		if least == none {
			return
		}
		at := h.front[least]
		if at == goal {
			break
		}
		last := len(h.front) - 1
		h.front[least], h.front = h.front[last], h.front[:last]
		here := &h.way[at]
		here.done = true
		for _, e := range h.edges[at/2] {
			k := 2*e.to + (at&1 ^ e.odd)
			to, dist := &h.way[k], here.dist+e.slack
			if to.done || dist >= to.dist || dist >= 1-2*leastDepth {
				continue
			}
			if math.IsInf(to.dist, 1) {
				h.reached, h.front = append(h.reached, k), append(h.front, k)
			}
			*to = way{dist: dist, row: e.row, back: at}
		}
	}
	var rows []int32
	for at := goal; at != start; at = h.way[at].back {
		row := h.way[at].row
		switch k := slices.Index(rows, row); {
		case row == none:
		case k >= 0:
			rows = slices.Delete(rows, k, k+1) // twice is even
		default:
			rows = append(rows, row)
		}
	}
	slices.Sort(rows)
	h.cut(rows)
}

// cut adds up rows, makes what is odd even by the nearest bounds, and keeps half of it if
// it cuts deep enough.
func (h *halver) cut(rows []int32) {
	s := h.s
	most, slack := int32(0), 0.0
	var cols []int32
	for _, i := range rows {
		most += int32(s.b[i])
		slack += max(0, s.x[s.n+int(i)])
		for _, e := range s.row(int(i)) {
			cols = append(cols, e.at)
			h.sum[e.at] += int32(e.val)
		}
	}
	slices.Sort(cols)
	cols = slices.Compact(cols)
	turn, cost := int32(none), math.Inf(1)
	for _, j := range cols {
		if h.sum[j]&1 == 0 {
			continue
		}
		x := s.x[j]
		if more := math.Abs(1 - 2*x); more < cost {
			turn, cost = j, more
		}
		if x > 0.5 {
			h.sum[j]++
			most++
			slack += 1 - x
		} else {
			h.sum[j]--
			slack += x
		}
	}
	if most&1 == 0 && turn != none { // the other bound of one of them
		slack += cost
		if s.x[turn] > 0.5 {
			h.sum[turn] -= 2
			most--
		} else {
			h.sum[turn] += 2
			most++
		}
	}
	r, norm := row{most: float64((most - 1) / 2)}, 0.0
	for _, j := range cols {
		if a := float64(h.sum[j] / 2); a != 0 {
			r.entries = append(r.entries, entry{j, a})
			norm += a * a
		}
		h.sum[j] = 0
	}
	depth := (1 - slack) / 2 / math.Sqrt(max(norm, 1))
	if most&1 == 0 || depth < leastDepth || len(r.entries) > mostInCut {
		return
	}
	key := make([]byte, 0, 8*len(r.entries))
	for _, e := range r.entries {
		key = append(key, byte(e.at), byte(e.at>>8), byte(e.at>>16), byte(int8(e.val)))
	}
	if !h.known[string(key)] {
		h.known[string(key)] = true
		h.cuts, h.depth = append(h.cuts, r), append(h.depth, depth)
	}
}
