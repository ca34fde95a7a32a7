package optimum

import (
	"fmt"
	"math"

	"trailfieldkit/fieldkit"
)

// Problem is a choice of columns: each is taken or not. A choice is allowed if no
// limit is exceeded, no two columns of one group are taken, and every column taken
// has what it needs. The value of a choice is the sum of the gains of its columns.
type Problem struct {
	Limits  []int64 // 0 or more each
	Columns []Column
}

// Column is one thing to decide: so many pieces of a spare, a tool, or a gain that is
// made once what it needs is taken.
type Column struct {
	Gain    float64 // finite; below 0 for what costs something by itself
	Amounts []int64 // by limit, 0 or more; a missing amount is 0
	// Needs lists clauses: of each at least one column must be taken. A clause without
	// columns cannot be met. What columns need of each other must not run in a circle.
	Needs [][]int
	Group int // at most one column of a group above 0 is taken
}

// Options say how long to search. The zero Options search until the proof.
type Options struct {
	// KeepGoing is asked several thousand times a second; the search ends soon after it
	// says no. nil never ends it.
	KeepGoing func() bool
	MaxNodes  int          // 0 is no limit
	Start     []bool       // a choice to begin with, by column; ignored if not allowed
	Found     func(Answer) // told of every better choice, and of every better bound now and then
}

// Answer is the best choice found.
type Answer struct {
	Value  float64
	Bound  float64 // no allowed choice is worth more, but for rounding (see Tolerance)
	Proved bool    // Value is the optimum within Tolerance
	Taken  []bool  // by column
	Used   []int64 // by limit
	Nodes  int     // of the search tree
}

// Tolerance is the share of the value within which an optimum counts as proven:
// gains are sums of floating-point numbers.
const Tolerance = 1e-9

// Gap is how far the optimum can lie above the value, as a share of the bound.
func (a Answer) Gap() float64 {
	if a.Bound <= a.Value || a.Bound <= 0 {
		return 0
	}
	return (a.Bound - a.Value) / a.Bound
}

// maxSum bounds what the amounts of one limit add up to, so that no sum overflows.
const maxSum = math.MaxInt64 / 4

// Check says what is wrong with a problem; Solve panics on one that fails it.
func (p *Problem) Check() error {
	wrong := func(what string, args ...any) error {
		return &fieldkit.Error{Kind: fieldkit.BadInput, What: fmt.Sprintf(what, args...), Do: "correct the problem"}
	}
	for l, most := range p.Limits {
		if most < 0 || most > maxSum {
			return wrong("limit %d is %d", l, most)
		}
		sum := int64(0)
		for j, c := range p.Columns {
			if len(c.Amounts) <= l {
				continue
			}
			if c.Amounts[l] < 0 || c.Amounts[l] > maxSum-sum {
				return wrong("the amounts of column %d for limit %d are below nothing or too large together", j, l)
			}
			sum += c.Amounts[l]
		}
	}
	for j, c := range p.Columns {
		switch {
		case math.IsNaN(c.Gain) || math.IsInf(c.Gain, 0):
			return wrong("the gain of column %d is no number", j)
		case len(c.Amounts) > len(p.Limits):
			return wrong("column %d has %d amounts for %d limits", j, len(c.Amounts), len(p.Limits))
		case c.Group < 0 || c.Group > len(p.Columns):
			return wrong("column %d is in group %d", j, c.Group)
		}
		for _, clause := range c.Needs {
			for _, k := range clause {
				if k < 0 || k >= len(p.Columns) || k == j {
					return wrong("column %d needs column %d", j, k)
				}
			}
		}
	}
	if _, ok := p.inOrder(); !ok {
		return wrong("what columns need of each other runs in a circle")
	}
	return nil
}

// inOrder lists the columns so that each comes after what it needs.
func (p *Problem) inOrder() (order []int, ok bool) {
	state := make([]byte, len(p.Columns))
	var visit func(int) bool
	visit = func(j int) bool {
		switch state[j] {
		case 1:
			return false
		case 2:
			return true
		}
		state[j] = 1
		for _, clause := range p.Columns[j].Needs {
			for _, k := range clause {
				if !visit(k) {
					return false
				}
			}
		}
		state[j] = 2
		order = append(order, j)
		return true
	}
	for j := range p.Columns {
		if !visit(j) {
			return nil, false
		}
	}
	return order, true
}

// Allowed reports whether a choice keeps to everything, and what it is worth and uses.
func (p *Problem) Allowed(taken []bool) (value float64, used []int64, ok bool) {
	used = make([]int64, len(p.Limits))
	if len(taken) != len(p.Columns) {
		return 0, used, false
	}
	inGroup := make([]bool, len(p.Columns)+1)
	ok = true
	for j, on := range taken {
		if !on {
			continue
		}
		c := p.Columns[j]
		value += c.Gain
		for l, a := range c.Amounts {
			used[l] += a
		}
		ok = ok && !(c.Group > 0 && inGroup[c.Group])
		inGroup[c.Group] = true
		for _, clause := range c.Needs {
			met := false
			for _, k := range clause {
				met = met || taken[k]
			}
			ok = ok && met
		}
	}
	for l, u := range used {
		ok = ok && u <= p.Limits[l]
	}
	return value, used, ok
}
