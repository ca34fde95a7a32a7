package app

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/spares"
)

func TestViewCosts(t *testing.T) {
	k, cat := data.DemoKit(), data.Catalog()
	v := viewCosts(k, cat, demoTrip)
	require.True(t, v.found)
	require.Greater(t, len(v.losses), 60)
	for i := 1; i < len(v.losses); i++ {
		assert.LessOrEqual(t, v.losses[i].Avoids, v.losses[i-1].Avoids)
	}
	words := lossWords(v.losses[0])
	assert.Contains(t, words, " likely, by ")
	assert.NotContains(t, words, "by hand")
	assert.False(t, viewCosts(k, cat, "moon").found)
}

func TestReadCost(t *testing.T) {
	k := data.DemoKit()
	trip, _ := k.Trip(demoTrip)
	fields := costFields(trip, "hobnail-starter")
	same, ok := readCost(onForm(fields, nil), trip, "hobnail-starter")
	require.True(t, ok)
	assert.Empty(t, same.Costs, "nothing typed, nothing kept")

	typed, ok := readCost(onForm(fields, map[string]string{"move": "stays", "recovered": "20 h", "shelf": "40"}), trip, "hobnail-starter")
	require.True(t, ok)
	assert.Equal(t, []fieldkit.Cost{{Position: "hobnail-starter", Move: fieldkit.Walk, Recovered: 20 * 60, Shelf: 40}}, typed.Costs)
	p, _ := k.Position("hobnail-starter")
	cost := spares.CostOf(data.Catalog(), data.Guides(), typed, k.Rigs[0], p)
	assert.Equal(t, fieldkit.Walk, cost.Move)
	assert.Equal(t, fieldkit.Minutes(20*60), cost.Recovered)
	assert.InDelta(t, 0.4, cost.Run.Stock, 1e-12, "a town of the trip sells starters")

	cleared, ok := readCost(onForm(costFields(typed, "hobnail-starter"), map[string]string{"move": "", "recovered": "", "shelf": ""}), typed, "hobnail-starter")
	require.True(t, ok)
	assert.Empty(t, cleared.Costs)
	for field, text := range map[string]string{"town": "soon", "shelf": "often"} {
		_, ok = readCost(onForm(fields, map[string]string{field: text}), trip, "hobnail-starter")
		assert.False(t, ok, field)
	}
}

func TestRunWords(t *testing.T) {
	c := spares.Cost{Run: spares.TownRun{Town: "Copperhat", Stores: []string{"farm-ranch", "bearing-belt"}, Drive: 60, Found: 45, Else: 300}}
	assert.Equal(t, "1 h there and back, then 45 min if the part is there, else 5 h: ordered in, or given up. In Copperhat ask at the farm and ranch supply, bearing and belt supply", runWords(c))
	c.Own.Town = 30
	assert.Empty(t, runWords(c), "a person gave the whole")
	assert.Empty(t, runWords(spares.Cost{}))
}

func TestWorthWords(t *testing.T) {
	for worth, says := range map[float64]string{0.5: "changes cost time and may not work out", 0.25: ", and it was only said or seen to fit"} {
		assert.Contains(t, worthWords(spares.Cover{Worth: worth, Grade: fieldkit.WithChanges}), says)
	}
	assert.Contains(t, worthWords(spares.Cover{Worth: 0.5, Grade: fieldkit.DropIn}), "50 % (guess) of what a drop-in saves: it was only said or seen to fit")
}

func TestReadCounting(t *testing.T) {
	k := data.DemoKit()
	trip, _ := k.Trip(demoTrip)
	fields := countingFields(trip)
	same, ok := readCounting(onForm(fields, nil), trip, k.Currency)
	require.True(t, ok)
	assert.Equal(t, trip, same, "what is not touched stays as it is")

	typed, ok := readCounting(onForm(fields, map[string]string{"yardstick": "home", "dust": "heavy", "crossings": "4", "overload": "15",
		"hourWorth": "40", townField(0, "closed"): "sat, Sundays", townField(0, "order"): "2 days"}), trip, k.Currency)
	require.True(t, ok)
	assert.Equal(t, fieldkit.ByHome, typed.Yardstick)
	assert.Equal(t, []fieldkit.Weekday{fieldkit.Saturday, fieldkit.Sunday}, typed.Towns[0].Closed)
	assert.Equal(t, fieldkit.Minutes(48*60), typed.Towns[0].Order)
	assert.NotEqual(t, typed.Towns[0], trip.Towns[0], "the kit's own is not written to")
	for field, bad := range map[string]string{"crossings": "-1", "overload": "900", "hourWorth": "lots", townField(0, "closed"): "someday", townField(1, "order"): "soon"} {
		_, ok := readCounting(onForm(fields, map[string]string{field: bad}), trip, k.Currency)
		assert.False(t, ok, "%s: %s", field, bad)
	}
}

func TestHomeWords(t *testing.T) {
	k := packed(t)
	trip, _ := k.Trip(demoTrip)
	v := viewCosts(k, data.Catalog(), trip.ID)
	words, done := homeWords(k, v, nil)
	require.True(t, done)
	require.Len(t, words, 2)
	assert.Contains(t, words[0], "With nothing on board: every rig drives home by itself ≈")
	_, done = homeWords(k, v, func() bool { return false })
	assert.False(t, done)
	assert.NotEqual(t, words[0], words[1])
}

// A position takes what trips say of its costs with it.
func TestCostsGoWithThePosition(t *testing.T) {
	k := data.DemoKit()
	k.Trips = slices.Clone(k.Trips)
	k.Trips[0].Costs = []fieldkit.Cost{{Position: "hobnail-starter", Move: fieldkit.Tow}, {Position: "hobnail-battery", Move: fieldkit.Tow}}
	starter, _ := k.Position("hobnail-starter")
	assert.Empty(t, positionUses(k, starter.ID))
	after, err := edited(t, k, func(e *journal.Edit) error { return deletePosition(e, starter) })
	require.NoError(t, err)
	assert.Equal(t, []fieldkit.Cost{{Position: "hobnail-battery", Move: fieldkit.Tow}}, after.Trips[0].Costs)
	assert.Len(t, k.Trips[0].Costs, 2)
}
