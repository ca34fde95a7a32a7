package standards

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// apart is the distance written down as it is defined, every edit tried: what slips
// must come to without trying them.
func apart(typed, listed string) float64 {
	tail := costMissing
	if len(typed) >= minBegun {
		tail = costUnread
	}
	known := map[[2]int]float64{}
	var from func(i, j int) float64
	from = func(i, j int) float64 {
		if i == len(typed) {
			return min(tail, costMissing) * float64(len(listed)-j)
		}
		if cost, seen := known[[2]int{i, j}]; seen {
			return cost
		}
		cost := costMissing + from(i+1, j)
		if j < len(listed) {
			a, b := rune(typed[i]), rune(listed[j])
			step := costWrong
			if a == b {
				step = 0
			} else if LookAlike(a, b) {
				step = costLookAlike
			}
			cost = min(cost, costMissing+from(i, j+1), step+from(i+1, j+1))
			if i+1 < len(typed) && j+1 < len(listed) && typed[i] == listed[j+1] && typed[i+1] == listed[j] && a != b {
				cost = min(cost, costMissing+from(i+2, j+2))
			}
		}
		known[[2]int{i, j}] = cost
		return cost
	}
	return from(0, 0)
}

// What names share is compared once, and a name is given up when nothing can save it:
// what is found is what comparing each in full finds.
func TestSlips(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	text := func(longest int) string {
		letters := make([]byte, rng.IntN(longest+1))
		for i := range letters {
			letters[i] = "01O5SAB"[rng.IntN(7)]
		}
		return string(letters)
	}
	for round := range 200 {
		var all names
		for i := range 1 + rng.IntN(60) {
			all = append(all, name{text(9), i})
		}
		sorted := sortedNames(all)
		typed, limit := text(9), []float64{0, 0.4, 1.3, dearest, 9}[rng.IntN(5)]
		t.Run(fmt.Sprint(round), func(t *testing.T) {
			found := map[int]float64{}
			for i, s := range sorted.slips(typed, limit) {
				found[s.at] = s.cost
				require.Equal(t, i+1, len(found), "each once")
			}
			for _, n := range all {
				want := apart(typed, n.folded)
				if math.Abs(want-limit) < 1e-9 { // the order of adding decides
					continue
				}
				got, is := found[n.at]
				require.Equal(t, want < limit, is, "%q for %q: %g of %g", typed, n.folded, want, limit)
				if is {
					require.InDelta(t, want, got, 1e-9, "%q for %q", typed, n.folded)
				}
			}
		})
	}
}
