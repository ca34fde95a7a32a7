package problemfile

import (
	"cmp"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit/spares"
	"trailfieldkit/fieldkit/spares/optimum"
)

func readData(t testing.TB, name string, into any) {
	text, err := os.ReadFile(filepath.Join("testdata", name))
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, into))
}

func taskOf(t testing.TB, problem any) *Task {
	text, err := json.Marshal(problem)
	require.NoError(t, err)
	task, err := Read(text)
	require.NoError(t, err)
	return task
}

type obj = map[string]any

// knapsack puts a knapsack with any number of limits into the linear form: each item
// fits one position of its own that is sure to fail.
func knapsack(values []float64, weights [][]float64, most []float64) obj {
	limits, positions, items := obj{}, []obj{}, []obj{}
	for l, m := range most {
		limits[fmt.Sprintf("limit %d", l)] = m
	}
	for j, v := range values {
		item := obj{"id": fmt.Sprint(j), "copies": 1, "fits": []string{fmt.Sprint(j)}}
		for l := range most {
			item[fmt.Sprintf("limit %d", l)] = weights[l][j]
		}
		items = append(items, item)
		positions = append(positions, obj{"id": fmt.Sprint(j), "p": 1, "loss": v})
	}
	return obj{"limits": limits, "positions": positions, "items": items}
}

func proves(t *testing.T, task *Task, optimum float64, a Answer) {
	assert.InDelta(t, optimum, a.Value, 1e-8*max(1, optimum))
	assert.True(t, a.Proved)
	assert.GreaterOrEqual(t, a.Bound, a.Value)
	assert.InDelta(t, a.Value, a.Bound, 1e-8*max(1, optimum))
}

// byDensity is what taking items by value for weight comes to, whatever fits.
func byDensity(values, weights []float64, room float64) (sum float64) {
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(values[b]/weights[b], values[a]/weights[a]) })
	for _, i := range order {
		if weights[i] <= room {
			room, sum = room-weights[i], sum+values[i]
		}
	}
	return sum
}

// Source: J. Burkardt, dataset collection KNAPSACK_01 (Florida State University),
// P01 … P07, as stored on GitHub; optima confirmed by enumeration. What the plain greedy
// rule comes to, computed: less than the optimum in all but the first.
func TestKnapsack01(t *testing.T) {
	var file struct {
		Problems []struct {
			Name     string
			Capacity float64
			Weights  []float64
			Profits  []float64
			Optimum  float64
		}
	}
	readData(t, "knapsack01_p01_p07.json", &file)
	require.Len(t, file.Problems, 7)
	greedy := []float64{309, 47, 146, 102, 858, 1478, 1441}
	for i, p := range file.Problems {
		assert.Equal(t, greedy[i], byDensity(p.Profits, p.Weights, p.Capacity), p.Name)
		assert.Equal(t, i > 0, greedy[i] < p.Optimum, p.Name)
		t.Run(p.Name, func(t *testing.T) {
			task := taskOf(t, knapsack(p.Profits, [][]float64{p.Weights}, []float64{p.Capacity}))
			proves(t, task, p.Optimum, task.Solve(optimum.Options{}))
		})
	}
}

// Source: Rosetta Code, Knapsack problem/0-1 and /Bounded; best values 1030 and 1010
// from memory, confirmed by dynamic programming.
func TestTouristsKnapsack(t *testing.T) {
	var file struct {
		Capacity float64
		Items    []struct {
			Name         string
			Weight       float64
			ValueZeroOne float64 `json:"value_zero_one"`
			ValueBounded float64 `json:"value_bounded"`
			Pieces       int
		}
	}
	readData(t, "rosetta_0-1_and_bounded.json", &file)
	require.Len(t, file.Items, 22)
	var values, weights []float64
	groups := []obj{}
	for _, it := range file.Items {
		values, weights = append(values, it.ValueZeroOne), append(weights, it.Weight)
		groups = append(groups, obj{"id": it.Name, "lambda": 1000, "loss": it.ValueBounded, "copies": it.Pieces, "weight": it.Weight})
	}
	t.Run("one of each", func(t *testing.T) {
		task := taskOf(t, knapsack(values, [][]float64{weights}, []float64{file.Capacity}))
		a := task.Solve(optimum.Options{})
		proves(t, task, 1030, a)
		assert.Equal(t, json.Number("396"), a.Used["limit 0"])
	})
	t.Run("bounded", func(t *testing.T) {
		task := taskOf(t, obj{"limits": obj{"weight": file.Capacity}, "groups": groups})
		a := task.Solve(optimum.Options{})
		proves(t, task, 1010, a)
		assert.Equal(t, json.Number("396"), a.Used["weight"])
	})
}

// Source: OR-Library mknap1 (J. E. Beasley): C. C. Petersen, Management Science 13(9),
// 1967, 736–750. Values and amounts need not be whole.
func TestSeveralLimits(t *testing.T) {
	var file struct {
		Problems []struct {
			Name    string
			Optimum float64
			P       []float64
			R       [][]float64
			B       []float64
		}
	}
	readData(t, "mknap1_1_5.json", &file)
	require.Len(t, file.Problems, 5)
	for _, p := range file.Problems {
		t.Run(p.Name, func(t *testing.T) {
			task := taskOf(t, knapsack(p.P, p.R, p.B))
			proves(t, task, p.Optimum, task.Solve(optimum.Options{}))
		})
	}
}

// Source: constructed problems of the planning checks, proven by enumeration of all
// sets and by a mixed-integer solver (HiGHS, gap 0), which agree.
func TestSharedTools(t *testing.T) {
	var file struct {
		Linear []json.RawMessage `json:"instances"`
		Pooled []json.RawMessage `json:"pooled_instances"`
	}
	readData(t, "shared_tools_examples.json", &file)
	require.Len(t, file.Linear, 3)
	require.Len(t, file.Pooled, 1)
	for _, raw := range append(file.Linear, file.Pooled...) {
		var want struct {
			Name    string
			Greedy  float64 `json:"greedy_reference"`
			Optimum struct {
				Value  float64
				Items  []string
				Copies map[string]int
				Tools  []string
				Used   map[string]json.Number
			}
		}
		require.NoError(t, json.Unmarshal(raw, &want))
		t.Run(want.Name, func(t *testing.T) {
			task, err := Read(raw)
			require.NoError(t, err)
			a := task.Solve(optimum.Options{})
			proves(t, task, want.Optimum.Value, a)
			assert.Positive(t, want.Greedy)
			assert.GreaterOrEqual(t, a.Value, want.Greedy, "what one bundle after the other comes to")
			copies := map[string]int{}
			for _, it := range a.Items {
				copies[it.ID] = it.Copies
			}
			expected := map[string]int{}
			for _, id := range want.Optimum.Items {
				expected[id] = 1
			}
			for id, n := range want.Optimum.Copies {
				if n > 0 {
					expected[id] = n
				}
			}
			assert.Equal(t, expected, copies)
			assert.Equal(t, want.Optimum.Tools, a.Tools)
			assert.Equal(t, want.Optimum.Used, a.Used)
		})
	}
}

// unionKnapsack is the set-union knapsack of He, Xie, Wong and Wang as a planning
// problem: an item is a position whose spare weighs nothing, an element a tool.
//
// Source: Y. He, H. Xie, T.-L. Wong, X. Wang, Future Generation Computer Systems 78
// (2018), instance sukp_85_100_0.10_0.75; best value 12045 from memory, proven by HiGHS.
func unionKnapsack(t testing.TB) (problem obj, best float64) {
	var file struct {
		Capacity, Optimum float64
		ElementWeights    []float64 `json:"element_weights"`
		Items             []struct {
			Profit   float64
			Elements []int
		}
	}
	readData(t, "sukp_85_100_0.10_0.75.json", &file)
	require.Len(t, file.Items, 85)
	require.Len(t, file.ElementWeights, 100)
	tools, positions, items := []obj{}, []obj{}, []obj{}
	for e, w := range file.ElementWeights {
		tools = append(tools, obj{"id": e, "weight": w})
	}
	for j, it := range file.Items {
		positions = append(positions, obj{"id": j, "p": 1, "loss": it.Profit, "tools": it.Elements})
		items = append(items, obj{"id": j, "fits": []int{j}})
	}
	return obj{"limits": obj{"weight": file.Capacity}, "positions": positions, "items": items, "tools": tools}, file.Optimum
}

func TestSetUnionKnapsack(t *testing.T) {
	problem, best := unionKnapsack(t)
	a := taskOf(t, problem).Solve(optimum.Options{MaxNodes: 40})
	assert.LessOrEqual(t, a.Value, best)
	assert.GreaterOrEqual(t, a.Value, 0.95*best)
	assert.GreaterOrEqual(t, a.Bound, best)
	assert.Equal(t, a.Bound <= a.Value*(1+1e-9), a.Proved)
	t.Logf("value %v, bound %v, nodes %d", a.Value, a.Bound, a.Nodes)
}

// Source: C. C. Sherbrooke, Optimal Inventory Modeling of Systems, ch. 2 (method, from
// memory); figures by full enumeration. Least total expected shortage of two kinds, A
// of mean 1 and cost 5, B of mean 4 and cost 1. On the path of marginal analysis that
// is optimal; with a budget of 10, between two of its points, it is not.
func TestMarginalAnalysis(t *testing.T) {
	for budget, want := range map[int]struct {
		a, b     int
		shortage float64
	}{
		0: {0, 0, 5.0}, 1: {0, 1, 4.01831563889}, 6: {0, 6, 1.19543458146}, 11: {1, 6, 0.563314022634},
		12: {1, 7, 0.452640044232}, 17: {2, 7, 0.188398926575}, 18: {2, 8, 0.137265310782}, 10: {1, 5, 0.778183635604},
	} {
		t.Run(fmt.Sprint("budget ", budget), func(t *testing.T) {
			task := taskOf(t, obj{"limits": obj{"cost": budget}, "groups": []obj{
				{"id": "A", "lambda": 1, "loss": 1, "cost": 5, "copies": 20}, {"id": "B", "lambda": 4, "loss": 1, "cost": 1, "copies": 20},
			}})
			a := task.Solve(optimum.Options{})
			assert.InDelta(t, want.shortage, 5-a.Value, 1e-9)
			assert.True(t, a.Proved)
			copies := map[string]int{}
			for _, it := range a.Items {
				copies[it.ID] = it.Copies
			}
			assert.Equal(t, want.a, copies["A"])
			assert.Equal(t, want.b, copies["B"])
		})
	}
	// Marginal analysis that skips what does not fit ends, with a budget of 10, at ten of B.
	left := 5.0
	for n := 1; n <= 10; n++ {
		left -= spares.AtLeast(n, 4)
	}
	assert.InDelta(t, 1.00413130998, left, 1e-9)
}
