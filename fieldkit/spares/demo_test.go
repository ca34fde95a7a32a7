package spares

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
)

// The demo kit's next trip, as a whole: everything on the list earns its place,
// fits its limits, and can really be used with what else is on the list.
func TestPlanOfTheDemoKit(t *testing.T) {
	kit, cat := data.DemoKit(), data.Catalog()
	for _, trip := range kit.Trips {
		if trip.Done {
			continue
		}
		p := Plan(kit, cat, data.Guides(), trip, nil)
		assertSaidAlike(t, p, Explain(kit, cat, data.Guides(), trip, p.Pack), trip.Name)
		require.NotEmpty(t, p.Lines, trip.Name)
		assert.Empty(t, p.Sheet.Totals.Over)
		assert.Greater(t, float64(p.Value), 0.2*float64(p.Bare), "the list saves a good part of what failures cost")
		for _, l := range p.Lines {
			assert.GreaterOrEqual(t, float64(l.Saves), leastGain-1e-9, "%s earns its place", l.Name)
			assert.NotEqual(t, len(l.Covers) > 0, len(l.Repairs) > 0, "%s is a spare, or a tool for some repair", l.Name)
			for _, c := range l.Covers {
				assert.NotEqual(t, fieldkit.DoesNotFit, c.Grade, l.Name)
			}
		}
		for _, l := range p.LeftOut {
			assert.NotEmpty(t, l.Text(fieldkit.Inch), l.Name)
		}
	}
}

func BenchmarkPlanDemo(b *testing.B) {
	kit, cat, guides := data.DemoKit(), data.Catalog(), data.Guides()
	trip := kit.Trips[len(kit.Trips)-1]
	for b.Loop() {
		Plan(kit, cat, guides, trip, nil)
	}
}

func BenchmarkExplainDemo(b *testing.B) {
	kit, cat, guides := data.DemoKit(), data.Catalog(), data.Guides()
	trip := kit.Trips[len(kit.Trips)-1]
	pack := Plan(kit, cat, guides, trip, nil).Pack
	for b.Loop() {
		Explain(kit, cat, guides, trip, pack)
	}
}
