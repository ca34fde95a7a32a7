package counter

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

func storeDay(t *testing.T, text string) fieldkit.Date {
	t.Helper()
	d, err := fieldkit.ParseDate(text)
	require.NoError(t, err)
	return d
}

// The crew's own visits take the place of the starting guess: the mean of a Beta
// distribution after successes and failures (Gelman et al., Bayesian Data Analysis,
// 3rd edition, section 2.4; from memory).
func TestChanceOf(t *testing.T) {
	kind := fieldkit.PartKind{ID: "bearing", Stores: []string{"bearing-belt", "parts-chain"}}
	asked := func(store string, had ...bool) (list []fieldkit.Visit) {
		for i, h := range had {
			list = append(list, fieldkit.Visit{Store: store, Kind: "bearing", Had: h, On: storeDay(t, "2026-05-10").AddDays(i)})
		}
		return list
	}
	for _, c := range []struct {
		store  string
		visits []fieldkit.Visit
		likely float64
		from   string
	}{
		{"bearing-belt", nil, 0.8, "starting guess"},
		{"parts-chain", nil, 0.65, "starting guess"},
		{"hardware", nil, 0.05, "starting guess"},
		{"hardware", asked("hardware", true), (3*0.05 + 1) / 4, "from your visit on 10 May 2026"},
		{"bearing-belt", asked("bearing-belt", false, false, false, true), (3*0.8 + 1) / 7, "from your 4 visits, 1 of them with luck"},
		{"bearing-belt", asked("dealer", false, false), 0.8, "starting guess"},
		{"bearing-belt", []fieldkit.Visit{{Store: "bearing-belt", Kind: "belt"}}, 0.8, "starting guess"},
	} {
		got := ChanceOf(kind, c.store, c.visits)
		assert.InDelta(t, c.likely, got.Likely, 1e-12, c.store)
		assert.Equal(t, c.from, got.From(), c.store)
	}
}

// However the guess is off, many visits bring the chance to what the store really has;
// the order of the visits does not matter, and each one moves it the way it went.
func TestVisitsCorrectTheGuess(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	kind := fieldkit.PartKind{ID: "k", Stores: []string{"s"}}
	for range 50 {
		truth := r.Float64()
		var visits []fieldkit.Visit
		before := ChanceOf(kind, "s", nil)
		for range 1000 {
			visits = append(visits, fieldkit.Visit{Store: "s", Kind: "k", Had: r.Float64() < truth})
			after := ChanceOf(kind, "s", visits)
			require.Equal(t, visits[len(visits)-1].Had, after.Likely > before.Likely)
			require.True(t, after.Likely > 0 && after.Likely < 1)
			before = after
		}
		assert.Less(t, math.Abs(before.Likely-truth), 0.06)
		r.Shuffle(len(visits), func(i, j int) { visits[i], visits[j] = visits[j], visits[i] })
		assert.Equal(t, before.Likely, ChanceOf(kind, "s", visits).Likely)
	}
}
