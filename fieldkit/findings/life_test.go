package findings_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/findings"
)

const km = fieldkit.Kilometre

// NIST/SEMATECH e-Handbook 8.4.5.1, the worked example: 2 failures in 800 hours, 90 %
// interval 127 to 2251 by the factors 0.3177 and 5.6281; without a failure the lower
// bound is T/−ln α.
func TestBetweenByTheHandbook(t *testing.T) {
	mean, low, high := findings.Between(2, 800*km)
	assert.Equal(t, 400*km, mean)
	assert.InDelta(t, 400*0.3177, float64(low)/float64(km), 0.05)
	assert.InDelta(t, 400*5.6281, float64(high)/float64(km), 0.05)
	assert.InDelta(t, 127, float64(low)/float64(km), 0.5)
	assert.InDelta(t, 2251, float64(high)/float64(km), 0.5)

	mean, low, high = findings.Between(0, 800*km)
	assert.Zero(t, mean)
	assert.Zero(t, high)
	assert.InDelta(t, 800/-math.Log(0.05), float64(low)/float64(km), 1e-3)

	for _, bad := range []fieldkit.Distance{0, -5 * km} {
		mean, low, high = findings.Between(3, bad)
		assert.Zero(t, mean+low+high)
	}
}

// gonum's χ² law as the reference, over many counts.
func TestBetweenBesideGonum(t *testing.T) {
	for r := 1; r <= 40; r++ {
		way := fieldkit.Distance(r) * 7321 * km
		_, low, high := findings.Between(r, way)
		assert.InEpsilon(t, 2*float64(way)/distuv.ChiSquared{K: float64(2*r + 2)}.Quantile(0.95), float64(low), 1e-9)
		assert.InEpsilon(t, 2*float64(way)/distuv.ChiSquared{K: float64(2 * r)}.Quantile(0.05), float64(high), 1e-9)
	}
}

func day(text string) fieldkit.Date {
	d, err := fieldkit.ParseDate(text)
	if err != nil {
		panic(err)
	}
	return d
}

// twoPlaces is a rig with two places of one kind, one of which failed twice.
func twoPlaces() fieldkit.Kit {
	return fieldkit.Kit{
		Rigs:    []fieldkit.Rig{{ID: "r", Name: "Rig", Odometer: 11_000 * km, OdometerOn: day("2026-06-01")}, {ID: "other", Name: "Other"}},
		Systems: []fieldkit.Assembly{{ID: "s", Rig: "r", Name: "steering"}, {ID: "o", Rig: "other", Name: "steering"}},
		Positions: fieldkit.ListOf([]fieldkit.Position{
			{ID: "left", System: "s", Name: "tie rod end", Side: fieldkit.Left, Kind: "tre", Quantity: 1, FittedAt: 500 * km},
			{ID: "right", System: "s", Name: "tie rod end", Side: fieldkit.Right, Kind: "tre", Quantity: 1, FittedAt: 9_000 * km},
			{ID: "hose", System: "s", Name: "hose", Kind: "hose", Quantity: 1},
			{ID: "never", System: "o", Name: "hose", Kind: "hose", Quantity: 1},
		}),
		Inspections: fieldkit.ListOf([]fieldkit.Inspection{{ID: "i", Position: "hose", Odometer: 1_000 * km, On: day("2025-06-01")}}),
		Failures: fieldkit.ListOf([]fieldkit.Failure{
			{ID: "1", Rig: "r", Position: "right", Odometer: 4_000 * km, On: day("2025-09-01"), Lost: 60, Mode: fieldkit.WornOut},
			{ID: "2", Rig: "r", Position: "right", Odometer: 9_000 * km, On: day("2026-03-01"), Lost: 30},
			{ID: "3", Rig: "r", Position: "hose", On: day("2026-04-02"), Mode: fieldkit.Leaking},
			{ID: "4", Rig: "r", On: day("2026-04-03"), Lost: 200},
		}),
	}
}

// Parts that still live count by the way they have come, from when they were fitted if
// that was before the log began.
func TestByKindCountsTheLiving(t *testing.T) {
	lives := findings.ByKind(twoPlaces(), fieldkit.Catalog{PartKinds: []fieldkit.PartKind{{ID: "tre", Name: "tie rod end"}}}, "")
	require.Len(t, lives, 2)
	hose, ends := lives[0], lives[1]
	assert.Equal(t, "tie rod end", ends.Name)
	assert.Equal(t, 2, ends.Places)
	assert.Equal(t, 2, ends.Failures)
	assert.Equal(t, 20_500*km, ends.Way, "left since 500 km, right since the log began at 1000 km")
	assert.Equal(t, 10_250*km, ends.Mean)
	assert.Less(t, ends.Low, ends.Mean)
	assert.Greater(t, ends.High, ends.Mean)
	assert.Equal(t, "hose", hose.Name, "the shorter life first; a kind the catalog does not know goes by its ID")
	assert.Equal(t, 1, hose.Failures, "a failure that says no odometer counts")
	assert.Equal(t, 1, hose.Places, "the other rig's log says nothing")
	assert.Empty(t, findings.ByKind(twoPlaces(), fieldkit.Catalog{}, "other"))
}

func TestByPosition(t *testing.T) {
	kit := twoPlaces()
	lives := findings.ByPosition(kit, "r", "tre")
	require.Len(t, lives, 2)
	assert.Equal(t, "right", lives[0].Position, "what failed comes first")
	assert.Equal(t, 5_000*km, lives[0].Mean)
	assert.Zero(t, lives[1].Mean)
	assert.Positive(t, lives[1].Low)
	one, ok := findings.LifeAt(kit, kit.Positions.At(0))
	assert.True(t, ok)
	assert.Equal(t, lives[1], one)
	_, ok = findings.LifeAt(kit, kit.Positions.At(3))
	assert.False(t, ok)
}

// Every life of the demo holds together: the interval holds the mean, a kind's way and
// failures are those of its places.
func TestLivesOfTheDemo(t *testing.T) {
	kit, cat := data.DemoKit(), data.Catalog()
	places := map[string]fieldkit.Distance{}
	failures := map[string]int{}
	for _, l := range findings.ByPosition(kit, "", "") {
		places[l.Kind] += l.Way
		failures[l.Kind] += l.Failures
		if l.Failures > 0 {
			assert.Less(t, l.Low, l.Mean)
			assert.Greater(t, l.High, l.Mean)
		}
	}
	all := findings.ByKind(kit, cat, "")
	require.NotEmpty(t, all)
	for _, l := range all {
		assert.Equal(t, places[l.Kind], l.Way)
		assert.Equal(t, failures[l.Kind], l.Failures)
	}
}
