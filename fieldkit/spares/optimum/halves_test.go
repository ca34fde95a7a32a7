package optimum

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// relax solves the relaxation of a problem.
func relax(p *Problem) *simplex {
	full := &Problem{Limits: p.Limits, Columns: slices.Clone(p.Columns)}
	for j, c := range full.Columns {
		full.Columns[j].Amounts = make([]int64, len(p.Limits))
		copy(full.Columns[j].Amounts, c.Amounts)
		full.Columns[j].Needs = tidy(c.Needs)
	}
	lp, _ := newProgram(full)
	s := newSimplex(lp, func() bool { return true })
	s.run(math.Inf(-1), math.MaxInt)
	return s
}

// Source: the odd cycle is the smallest example of A. Caprara, M. Fischetti, {0,
// ½}-Chvátal–Gomory cuts (1996), from memory: three gains, each made by two of three
// spares, of which half of each would be enough for all.
func TestOddCycle(t *testing.T) {
	p := &Problem{Limits: []int64{15}, Columns: []Column{
		{Amounts: []int64{10}}, {Amounts: []int64{10}}, {Amounts: []int64{10}},
		{Gain: 1, Needs: [][]int{{0, 1}}}, {Gain: 1, Needs: [][]int{{1, 2}}}, {Gain: 1, Needs: [][]int{{0, 2}}},
	}}
	s := relax(p)
	require.InDelta(t, 3, s.bound(), 1e-9)
	cuts := s.halves(1)
	require.Len(t, cuts, 1)
	assert.Equal(t, row{entries: []entry{{0, -1}, {1, -1}, {2, -1}, {3, 1}, {4, 1}, {5, 1}}, most: 1}, cuts[0])
	next := s.extended(s.m, cuts)
	require.Equal(t, solved, next.run(math.Inf(-1), math.MaxInt))
	assert.InDelta(t, 2.5, next.bound(), 1e-9)
	assert.InDelta(t, 2, Solve(p, Options{}).Value, 1e-12)
}

// No allowed choice breaks a cut, and every cut cuts off the point it was made for.
func TestCutsHold(t *testing.T) {
	made := 0
	for seed := range uint64(400) {
		p := randomProblem(rand.New(rand.NewPCG(seed, 11)))
		s := relax(p)
		for range 4 {
			cuts := s.halves(len(p.Limits))
			if len(cuts) == 0 {
				break
			}
			made += len(cuts)
			for _, c := range cuts {
				at := 0.0
				for _, e := range c.entries {
					at += e.val * s.x[e.at]
				}
				require.Greater(t, at, c.most+1e-6)
			}
			allowedChoices(p, func(taken []bool) {
				for _, c := range cuts {
					sum := 0.0
					for _, e := range c.entries {
						if taken[e.at] {
							sum += e.val
						}
					}
					require.LessOrEqual(t, sum, c.most, fmt.Sprint("seed ", seed))
				}
			})
			s = s.extended(s.m, cuts)
			s.run(math.Inf(-1), math.MaxInt)
		}
	}
	assert.Greater(t, made, 20)
}

// What probing fixes is so in every choice worth the cutoff.
func TestProbe(t *testing.T) {
	fixed := 0
	for seed := range uint64(200) {
		src := rand.New(rand.NewPCG(seed, 12))
		p := randomProblem(src)
		s := relax(p)
		bound := s.bound()
		cut := bound * (0.5 + 0.5*src.Float64())
		d := newDomain(p)
		left := d.probe(s.r, bound, cut)
		allowedChoices(p, func(taken []bool) {
			if value, _, _ := p.Allowed(taken); value < cut+1e-9 {
				return
			}
			require.True(t, left, fmt.Sprint("seed ", seed))
			for j, on := range taken {
				if d.lo[j] == d.hi[j] {
					fixed++
					require.Equal(t, d.lo[j] == 1, on, fmt.Sprint("seed ", seed, " column ", j))
				}
			}
		})
	}
	assert.Greater(t, fixed, 100)
}
