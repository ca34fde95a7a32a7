package optimum

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// randomProblem has up to 16 columns that decide something, and gains that need them.
func randomProblem(src *rand.Rand) *Problem {
	p := &Problem{}
	limits := 1 + src.IntN(4)
	sum := make([]int64, limits)
	decide := 3 + src.IntN(14)
	for j := range decide {
		c := Column{Amounts: make([]int64, limits)}
		for l := range limits {
			if src.IntN(6) > 0 {
				c.Amounts[l] = int64(src.IntN(50))
				sum[l] += c.Amounts[l]
			}
		}
		if src.IntN(3) > 0 {
			c.Gain = float64(src.IntN(400))/8 - 5
		}
		if src.IntN(3) == 0 {
			c.Group = 1 + src.IntN(3)
		}
		if j > 2 && src.IntN(4) == 0 {
			c.Needs = randomNeeds(src, j)
		}
		p.Columns = append(p.Columns, c)
	}
	for range src.IntN(16) {
		p.Columns = append(p.Columns, Column{Gain: src.Float64() * 30, Needs: randomNeeds(src, decide)})
	}
	for l := range limits {
		p.Limits = append(p.Limits, int64(float64(sum[l])*(0.1+0.6*src.Float64())))
	}
	return p
}

func randomNeeds(src *rand.Rand, n int) (needs [][]int) {
	for range 1 + src.IntN(3) {
		needs = append(needs, src.Perm(n)[:1+src.IntN(min(3, n))])
	}
	return needs
}

// allowedChoices gives every allowed choice of the columns that decide something, with
// all gains that follow.
func allowedChoices(p *Problem, give func(taken []bool)) {
	decide := 0
	for decide < len(p.Columns) && p.Columns[decide].Amounts != nil {
		decide++
	}
	taken := make([]bool, len(p.Columns))
	for set := range 1 << decide {
		for j := range p.Columns {
			taken[j] = j < decide && set>>j&1 == 1
		}
		for j := decide; j < len(p.Columns); j++ {
			taken[j] = true
			for _, clause := range p.Columns[j].Needs {
				taken[j] = taken[j] && slices.ContainsFunc(clause, func(k int) bool { return taken[k] })
			}
		}
		if _, _, ok := p.Allowed(taken); ok {
			give(taken)
		}
	}
}

// enumerate tries them all.
func enumerate(p *Problem) (best float64) {
	allowedChoices(p, func(taken []bool) {
		value, _, _ := p.Allowed(taken)
		best = max(best, value)
	})
	return best
}

func TestEqualsEnumeration(t *testing.T) {
	for seed := range uint64(250) {
		p := randomProblem(rand.New(rand.NewPCG(seed, 7)))
		a := Solve(p, Options{})
		where := fmt.Sprint("seed ", seed)
		require.InDelta(t, enumerate(p), a.Value, 1e-9, where)
		require.True(t, a.Proved, where)
		value, used, ok := p.Allowed(a.Taken)
		require.True(t, ok, where)
		require.InDelta(t, value, a.Value, 1e-12, where)
		require.Equal(t, used, a.Used, where)
		assert.GreaterOrEqual(t, a.Bound, a.Value, where)
	}
}

// Parts of the search are problems of their own here from two columns on: what follows
// from that, and from being stopped in the midst of it, holds all the same.
func TestPartsOfTheSearch(t *testing.T) {
	parts := 0
	for seed := range uint64(300) {
		p := randomProblem(rand.New(rand.NewPCG(seed, 21)))
		best := enumerate(p)
		for _, most := range []int{0, 1, 2, 3, 5, 8, 13} {
			s := newSearch(p, Options{MaxNodes: most})
			s.worthOwn = 2
			a := s.run()
			parts += s.parts
			where := fmt.Sprint("seed ", seed, ", at most ", most, " nodes")
			require.GreaterOrEqual(t, a.Bound, best-1e-9, where)
			require.LessOrEqual(t, a.Value, best+1e-9, where)
			if most > 0 {
				require.LessOrEqual(t, a.Nodes, most, where)
			} else {
				require.True(t, a.Proved, where)
				require.InDelta(t, best, a.Value, 1e-9, where)
			}
		}
	}
	assert.Greater(t, parts, 100)
}
