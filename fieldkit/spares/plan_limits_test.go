package spares

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

func TestPlanLimits(t *testing.T) {
	cases := []struct {
		name   string
		limits fieldkit.Limits
		stock  []fieldkit.Spare
		want   map[Ref]int
	}{
		{
			// A hose (0.5 kg, coolant 2.2 kg, spanners 2 kg) makes 4.7 kg for 0.725 h; a
			// joint (0.5 kg, grease 0.45 kg, press 3 kg, spanners 2 kg) 5.95 kg for
			// 1.088 h; a pump 4 kg for 0.390 h. Per kilogram the joint is best (0.183 h), then
			// the hose (0.154 h), then the pump (0.098 h). 6 kg takes the joint alone.
			"weight for the joint and no second one", fieldkit.Limits{Mass: 6 * fieldkit.Kilogram}, nil,
			map[Ref]int{spare("joint-a"): 1, consumable("grease"): 1, tool("press"): 1, tool("spanners"): 1},
		},
		{
			"weight for the hose", fieldkit.Limits{Mass: 4800 * fieldkit.Gram}, nil,
			map[Ref]int{spare("hose-a"): 1, consumable("coolant"): 2, tool("spanners"): 1},
		},
		{
			// 30 USD buys the joint (20.00) or the hose (15.00 + a bottle 6.00), not both.
			// The joint: 1.088 h for 20.00 = 0.054 h a dollar; the hose 0.725 h for 21.00 = 0.035.
			"money", fieldkit.Limits{Money: usd(3000)}, nil,
			map[Ref]int{spare("joint-a"): 1, consumable("grease"): 1, tool("press"): 1, tool("spanners"): 1},
		},
		{
			"what is owned costs nothing", fieldkit.Limits{Money: usd(600)},
			[]fieldkit.Spare{{ID: "s", Part: "hose-a", Count: 3}},
			map[Ref]int{spare("hose-a"): 2, consumable("coolant"): 2, tool("spanners"): 1},
		},
		{
			"no money at all", fieldkit.Limits{Money: usd(0)},
			[]fieldkit.Spare{{ID: "s", Part: "pump-a", Count: 1}},
			map[Ref]int{spare("pump-a"): 1},
		},
		{
			// Space for one joint (0.3 L) only; a hose takes 1 L and its coolant 2 L.
			"space", fieldkit.Limits{Volume: 500 * fieldkit.Millilitre}, nil,
			map[Ref]int{spare("joint-a"): 1, consumable("grease"): 1, tool("press"): 1, tool("spanners"): 1},
		},
		{"nothing fits", fieldkit.Limits{Mass: fieldkit.Gram}, nil, map[Ref]int{}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			kit, trip := testKit(t), testTrip()
			kit.Spares, trip.Limits = fieldkit.ListOf(c.stock), c.limits
			kit.Trips = []fieldkit.Trip{trip}
			p := Plan(kit, testCatalog(), testGuides(t), trip, nil)
			assert.Equal(t, c.want, counts(p.Pack))
			assert.Empty(t, p.Sheet.Totals.Over)
			assert.NotEmpty(t, p.LeftOut)
		})
	}
}

// With 6 kg the joint is on board (see the case above). A hose would add 4·(1 −
// e^−0.2) = 0.725 h and needs its two bottles, 0.5 + 2.2 kg, beside the 5.95 kg.
func TestPlanSaysWhatIsLeftOut(t *testing.T) {
	kit, trip := testKit(t), testTrip()
	trip.Limits.Mass = 6 * fieldkit.Kilogram
	kit.Trips = []fieldkit.Trip{trip}
	p := Plan(kit, testCatalog(), testGuides(t), trip, nil)
	require.Len(t, p.LeftOut, 2)
	hose := p.LeftOut[0]
	assert.Equal(t, "hose A", hose.Name)
	assert.InDelta(t, 4*(1-math.Exp(-0.2)), float64(hose.Adds), 1e-12)
	assert.Equal(t, []Ref{consumable("coolant")}, hose.Needed)
	assert.Equal(t, []Over{{Mass: 2650 * fieldkit.Gram, Typical: true}}, hose.Over)
	assert.Equal(t, "≈ 2.65 kg (5.8 lb) (guess) over the weight limit of the trip", hose.Text(fieldkit.Metric))

	// On a list changed by hand there may be room.
	p = Explain(kit, testCatalog(), testGuides(t), trip, Remove(p.Pack, spare("joint-a")))
	require.NotEmpty(t, p.LeftOut)
	assert.Equal(t, "joint A", p.LeftOut[0].Name)
	assert.Equal(t, "there is room for it: add it by hand, or plan again", p.LeftOut[0].Text(fieldkit.Metric))
	assert.Equal(t, "nothing on this trip is known to need it", lineOf(t, p, tool("press")).Line.Why)
}

func TestPlanLeavesOutWhatHasNoPriceUnderAMoneyLimit(t *testing.T) {
	kit, trip := testKit(t), testTrip()
	trip.Limits.Money = usd(100000)
	kit.Parts.Ref(2).Price = nil
	kit.Parts.Ref(1).Price = &fieldkit.Money{Cents: 100, Currency: "EUR"}
	p := Plan(kit, testCatalog(), testGuides(t), trip, nil)
	has := counts(p.Pack)
	assert.Equal(t, 2, has[spare("joint-a")])
	assert.Zero(t, has[spare("pump-a")])
	assert.Zero(t, has[spare("hose-a")])
	require.Len(t, p.LeftOut, 2)
	for _, l := range p.LeftOut {
		assert.Equal(t, "its price is not known, and the trip's money is limited", l.Why)
	}
}
