package counter_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/counter"
)

func TestDemoKitHasACardForEverything(t *testing.T) {
	k, cat := data.DemoKit(), data.Catalog()
	g := graphOf(k)
	check := func(part, position string) {
		c, err := counter.CardFor(k, cat, g, part, position)
		require.NoError(t, err)
		require.NotEmpty(t, c.Title)
		require.NotEmpty(t, c.Ask)
		for _, first := range []fieldkit.System{fieldkit.Inch, fieldkit.Metric} {
			for _, line := range strings.Split(c.Text(first), "\n") {
				require.LessOrEqual(t, utf8.RuneCountInString(line), counter.TextWidth, line)
			}
		}
	}
	for _, p := range k.Parts.All() {
		check(p.ID, "")
	}
	for _, p := range k.Positions.All() {
		check("", p.ID)
	}
}

func TestDemoKitReadiness(t *testing.T) {
	k, cat := data.DemoKit(), data.Catalog()
	for _, rig := range k.Rigs {
		states := counter.Ready(k, cat, rig.ID)
		require.Len(t, states, len(k.PositionsOf(rig.ID)))
		for _, r := range states {
			require.Equal(t, r.State == counter.StateReady, len(r.Gaps) == 0, r.Position)
		}
		last := 0.0
		for i, g := range counter.GapsWorthClosing(states) {
			assert.NotEmpty(t, g.What)
			assert.NotEmpty(t, g.Why)
			if i > 0 {
				assert.LessOrEqual(t, g.Worth, last)
			}
			last = g.Worth
		}
	}
}

func BenchmarkReady(b *testing.B) {
	k, cat := data.DemoKit(), data.Catalog()
	for b.Loop() {
		counter.Ready(k, cat, k.Rigs[0].ID)
	}
}

func BenchmarkCardFor(b *testing.B) {
	k, cat := data.DemoKit(), data.Catalog()
	g := graphOf(k)
	for b.Loop() {
		_, _ = counter.CardFor(k, cat, g, "", k.Positions.At(0).ID)
	}
}
