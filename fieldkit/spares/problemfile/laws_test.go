package problemfile

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit/spares"
	"trailfieldkit/fieldkit/spares/optimum"
	"trailfieldkit/fieldkit/spares/problemfile/generatedtest"
)

// enumerate tries every set of tools with every load of the pieces.
func enumerate(task *Task) (best float64) {
	carried, onBoard := make([]int, len(task.pieces)), make([]bool, len(task.tools))
	var pieces func(i int, left []int64)
	value := func() (sum float64) {
		has := func(tools []int) bool {
			for _, t := range tools {
				if !onBoard[t] {
					return false
				}
			}
			return true
		}
		if task.pooled {
			for i, g := range task.pieces {
				if has(g.tools) {
					for k := 1; k <= carried[i]; k++ {
						sum += g.loss * spares.AtLeast(k, g.mean)
					}
				}
			}
			return sum
		}
		covered := map[int]bool{}
		for i, p := range task.pieces {
			if carried[i] > 0 {
				for _, pos := range p.fits {
					covered[pos] = true
				}
			}
		}
		for pos := range covered {
			if has(task.positions[pos].tools) {
				sum += task.positions[pos].gain
			}
		}
		return sum
	}
	less := func(left, amounts []int64) ([]int64, bool) {
		rest, ok := make([]int64, len(left)), true
		for l := range left {
			rest[l] = left[l] - amounts[l]
			ok = ok && rest[l] >= 0
		}
		return rest, ok
	}
	pieces = func(i int, left []int64) {
		if i == len(task.pieces) {
			best = max(best, value())
			return
		}
		pieces(i+1, left)
		most := task.pieces[i].copies
		if !task.pooled {
			most = min(most, 1)
		}
		for k := 1; k <= most; k++ {
			var ok bool
			if left, ok = less(left, task.pieces[i].amounts); !ok {
				break
			}
			carried[i] = k
			pieces(i+1, left)
		}
		carried[i] = 0
	}
	for set := range 1 << len(task.tools) {
		left, ok := task.limits, true
		for t := range task.tools {
			if onBoard[t] = set>>t&1 == 1; onBoard[t] && ok {
				left, ok = less(left, task.tools[t].amounts)
			}
		}
		if ok {
			pieces(0, left)
		}
	}
	return best
}

func TestLaws(t *testing.T) {
	for name, make := range map[string]func(generatedtest.Size, uint64) []byte{"linear": generatedtest.Linear, "pooled": generatedtest.Pooled} {
		for seed := range uint64(25) {
			t.Run(fmt.Sprint(name, " ", seed), func(t *testing.T) {
				src := rand.New(rand.NewPCG(seed, 3))
				size := generatedtest.Size{Spares: 3 + src.IntN(8), Tools: 1 + src.IntN(5)}
				if name == "pooled" {
					size.Spares = 3 + src.IntN(4)
				}
				text := make(size, seed)
				task, err := Read(text)
				require.NoError(t, err)
				a := task.Solve(optimum.Options{})
				best := enumerate(task)
				assert.InDelta(t, best, a.Value, 1e-9*max(1, best))
				assert.True(t, a.Proved)
				for l, limit := range task.limits {
					used, _ := parseDecimal(json.RawMessage(a.Used[task.names[l]]))
					assert.LessOrEqual(t, used.steps(0, true).Int64(), limit)
				}

				var o obj
				require.NoError(t, json.Unmarshal(text, &o))
				// Order never matters.
				for _, list := range []string{"positions", "items", "groups", "tools"} {
					if of, ok := o[list].([]any); ok {
						src.Shuffle(len(of), func(i, j int) { of[i], of[j] = of[j], of[i] })
					}
				}
				mixed := taskOf(t, o).Solve(optimum.Options{})
				assert.Equal(t, a, mixed)
				// More of a limit never lowers the value.
				limits := o["limits"].(obj)
				limits["cost"] = limits["cost"].(float64) * 1.2
				assert.GreaterOrEqual(t, taskOf(t, o).Solve(optimum.Options{}).Value, a.Value-1e-9)
			})
		}
	}
}

// Stopped at any moment, the value is below the optimum and the bound above it.
func TestStopped(t *testing.T) {
	task, err := Read(generatedtest.Linear(generatedtest.Size{Spares: 60, Tools: 20}, 1))
	require.NoError(t, err)
	best := task.Solve(optimum.Options{})
	require.True(t, best.Proved)
	for _, asked := range []int{0, 1, 10, 100, 300, 1000} {
		n := 0
		a := task.Solve(optimum.Options{KeepGoing: func() bool { n++; return n <= asked }})
		assert.LessOrEqual(t, a.Value, best.Value+1e-9)
		assert.GreaterOrEqual(t, a.Bound, best.Value-1e-9)
		assert.Equal(t, a.Proved, a.Bound-a.Value <= 1e-9*a.Value)
		again := 0
		assert.Equal(t, a, task.Solve(optimum.Options{KeepGoing: func() bool { again++; return again <= asked }}))
	}
}
