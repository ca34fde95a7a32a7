package spares

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAtMost(t *testing.T) {
	cases := []struct {
		name   string
		n      int
		mean   float64
		want   float64
		within float64
	}{
		// gonum, stat/distuv/poisson_test.go.
		{"mean 1, none", 0, 1, 0.367879441171442, 1e-12},
		{"mean 1, at most 5", 5, 1, 0.999405815182418, 1e-12},
		{"mean 2.5, at most 3", 3, 2.5, 0.757576133133066, 1e-12},
		{"mean 2.5, at most 9", 9, 2.5, 0.999722647905379, 1e-12},
		// Printed cumulative Poisson table, four decimals.
		{"table, mean 0.5", 3, 0.5, 0.9982, 5e-5},
		{"table, mean 1.5", 3, 1.5, 0.9344, 5e-5},
		{"table, mean 3", 3, 3, 0.6472, 5e-5},
		{"table, mean 5", 3, 5, 0.2650, 5e-5},
		// MIL-HDBK-338B, control-panel lamps: rate 0.001/h, 500 h, at most two failures.
		{"lamps", 2, 0.5, 0.986, 5e-4},
		// Alion/RAC worked example: 0.04 failures per million hours, 55 million hours.
		{"fleet", 2, 2.2, 0.6227, 5e-5},
		// Definition.
		{"nothing can fail", 0, 0, 1, 0},
		{"fewer than none", -1, 2, 0, 0},
		{"mean of hundreds", 2000, 700, 1, 1e-9},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			assert.InDelta(t, c.want, AtMost(c.n, c.mean), c.within)
			assert.InDelta(t, 1-c.want, AtLeast(c.n+1, c.mean), c.within+1e-15)
		})
	}
}

// Spares needed for 95 %, from the printed cumulative tables.
func TestAtMostGivesTheSparesNeeded(t *testing.T) {
	for mean, want := range map[float64]int{0.1: 1, 0.5: 2, 1: 3, 2: 5, 3: 6, 5: 9} {
		n := 0
		for AtMost(n, mean) < 0.95 {
			n++
		}
		assert.Equal(t, want, n, "mean %g", mean)
	}
}

func TestAtLeastOneKeepsItsDigits(t *testing.T) {
	assert.InEpsilon(t, 1e-15, AtLeast(1, 1e-15), 1e-9)
	assert.Equal(t, 1.0, AtLeast(0, 3))
}

func TestTails(t *testing.T) {
	for _, mean := range []float64{0, 1e-9, 0.3, 4, 700} {
		tail := Tails(mean)
		for k := 1; k <= 30; k++ {
			assert.Equal(t, AtLeast(k, mean), tail(), "mean %g, at least %d", mean, k)
		}
	}
}

// expectedUses returns E[min(N, copies)]: how many of the copies carried a Poisson
// demand of that mean uses on average. Each further copy adds less, as
// E[min(N, k)] = P(N ≥ 1) + … + P(N ≥ k).
// What a plan says a number of copies saves must come to this times their worth.
// Source: marginal analysis of spares (Sherbrooke, Optimal Inventory Modeling of
// Systems, ch. 2).
func expectedUses(mean float64, copies int) float64 {
	uses := 0.0
	for n := 1; n <= copies; n++ {
		p := AtLeast(n, mean)
		if p <= 0 {
			break
		}
		uses += p
	}
	return uses
}

func TestExpectedUses(t *testing.T) {
	// Expected shortage for mean 1 is mean − E[min(N, s)]: Sherbrooke, Optimal
	// Inventory Modeling of Systems, ch. 2 (.368, .104, .023, .004; from memory).
	for s, shortage := range []float64{1, 0.367879441171, 0.103638323514, 0.0233369264429, 0.00434876956678} {
		assert.InDelta(t, 1-shortage, expectedUses(1, s), 1e-11, "%d spares", s)
	}
	assert.Zero(t, expectedUses(0, 5))
	assert.Zero(t, expectedUses(2, 0))
}

// E[min(N, k)] by its definition, the sum over n of min(n, k)·P(N = n).
func TestExpectedUsesIsTheSumOfTheDefinition(t *testing.T) {
	for _, mean := range []float64{0.001, 0.05, 0.4, 1.3, 4, 17} {
		for k := 0; k <= 8; k++ {
			want, p := 0.0, math.Exp(-mean)
			for n := 1; n < 120; n++ {
				p *= mean / float64(n)
				want += math.Min(float64(n), float64(k)) * p
			}
			assert.InDelta(t, want, expectedUses(mean, k), 1e-12, "mean %g, %d copies", mean, k)
		}
	}
}

func TestHours(t *testing.T) {
	for h, want := range map[Hours]string{
		0: "0 min", 0.001: "0 min", 0.0167: "1 min", 0.5: "30 min", 0.99: "59 min",
		1: "1.0 h", 1.44: "1.4 h", 12.34: "12.3 h", 123.4: "123 h", -0.5: "-30 min",
	} {
		assert.Equal(t, want, h.String())
	}
}
