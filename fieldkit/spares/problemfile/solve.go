package problemfile

import (
	"encoding/json"
	"math"
	"slices"
	"strings"

	"trailfieldkit/fieldkit/spares"
	"trailfieldkit/fieldkit/spares/optimum"
)

// Answer is what is printed.
type Answer struct {
	Value  float64                `json:"value"`
	Bound  float64                `json:"bound"`
	Proved bool                   `json:"proved"`
	Items  []Carried              `json:"items"`
	Tools  []string               `json:"tools"`
	Used   map[string]json.Number `json:"used"`
	Nodes  int                    `json:"nodes"`
	// Seconds is filled by whoever has a clock.
	Seconds float64 `json:"seconds"`
}

// Carried is an item, or the spare of a group, with its copies.
type Carried struct {
	ID     string `json:"id"`
	Copies int    `json:"copies"`
}

// column says what a column of the problem stands for.
type column struct {
	tool, piece int // −1 for neither
	copies      int
}

// problem lays the task out for the solver. Everything goes by ID, so that the order of
// the file never matters.
func (t *Task) problem() (*optimum.Problem, []column) {
	p := &optimum.Problem{Limits: t.limits}
	var means []column
	toolAt := make([]int, len(t.tools))
	for _, i := range byID(len(t.tools), func(i int) string { return t.tools[i].id }) {
		toolAt[i] = len(p.Columns)
		p.Columns = append(p.Columns, optimum.Column{Amounts: t.tools[i].amounts})
		means = append(means, column{tool: i, piece: -1})
	}
	needs := func(tools []int) (list [][]int) {
		for _, i := range tools {
			list = append(list, []int{toolAt[i]})
		}
		return list
	}
	pieces := byID(len(t.pieces), func(i int) string { return t.pieces[i].id })
	if t.pooled {
		group := 0
		for _, i := range pieces {
			loads := t.pieces[i].loads
			if len(loads) > 0 {
				group++
			}
			for _, o := range loads {
				o.Needs, o.Group = needs(t.pieces[i].tools), group
				means = append(means, column{tool: -1, piece: i, copies: int(o.Amounts[len(t.limits)])})
				o.Amounts = o.Amounts[:len(t.limits):len(t.limits)]
				p.Columns = append(p.Columns, o)
			}
		}
		return p, means
	}
	fitting := make([][]int, len(t.positions))
	for _, i := range pieces {
		piece := t.pieces[i]
		if piece.copies == 0 {
			continue
		}
		for _, pos := range piece.fits {
			fitting[pos] = append(fitting[pos], len(p.Columns))
		}
		p.Columns = append(p.Columns, optimum.Column{Amounts: piece.amounts})
		means = append(means, column{tool: -1, piece: i, copies: 1})
	}
	for _, i := range byID(len(t.positions), func(i int) string { return t.positions[i].id }) {
		pos := t.positions[i]
		p.Columns = append(p.Columns, optimum.Column{Gain: pos.gain, Needs: append([][]int{fitting[i]}, needs(pos.tools)...)})
		means = append(means, column{tool: -1, piece: -1})
	}
	return p, means
}

// loadsOf lists the numbers of copies of a group that may be carried, each with its gain;
// the number stands behind the amounts. Copies that add nothing within rounding are
// left out, as is any number that weighs no less than a better one. ok is false if that
// takes more than most steps; left is what remains of them.
func loadsOf(g piece, limits []int64, most int) (list []optimum.Column, left int, ok bool) {
	free := !slices.ContainsFunc(g.amounts, func(a int64) bool { return a > 0 })
	total, tail := 0.0, spares.Tails(g.mean)
	for k := 1; k <= g.copies; k++ {
		step := g.loss * tail()
		if step <= 1e-14*total || step == 0 {
			break
		}
		amounts := make([]int64, 0, len(g.amounts)+1)
		for l, a := range g.amounts {
			if a > 0 && a > limits[l]/int64(k) {
				return list, most, true
			}
			amounts = append(amounts, a*int64(k))
		}
		if most == 0 {
			return nil, 0, false
		}
		most--
		total += step
		if free {
			list = list[:0]
		}
		list = append(list, optimum.Column{Gain: total, Amounts: append(amounts, int64(k))})
	}
	return list, most, true
}

func byID(n int, id func(int) string) []int {
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return strings.Compare(id(a), id(b)) })
	return order
}

// Solve solves the task.
func (t *Task) Solve(o optimum.Options) Answer {
	p, means := t.problem()
	return t.lay(optimum.Solve(p, o), means)
}

func (t *Task) lay(a optimum.Answer, means []column) Answer {
	out := Answer{
		Value: a.Value, Bound: a.Bound, Proved: a.Proved, Nodes: a.Nodes,
		Items: []Carried{}, Tools: []string{}, Used: map[string]json.Number{},
	}
	for j, m := range means {
		switch {
		case !a.Taken[j]:
		case m.tool >= 0:
			out.Tools = append(out.Tools, t.tools[m.tool].id)
		case m.piece >= 0:
			out.Items = append(out.Items, Carried{t.pieces[m.piece].id, m.copies})
		}
	}
	for l, name := range t.names {
		out.Used[name] = inUnits(a.Used[l], t.scales[l])
	}
	if math.IsInf(out.Bound, 0) {
		out.Bound = math.MaxFloat64
	}
	return out
}
