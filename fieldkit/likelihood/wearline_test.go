package likelihood

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

// Where the interval ends, the limit is what the line itself may just be there: on
// NIST StRD Norris, whose line and its uncertainty are certified (TestLineOfNorris).
func TestCrossingWithinOfNorris(t *testing.T) {
	s := readSeries(t).Norris
	l := line(t, s.X, s.Y)
	for _, p := range []float64{0.5, 0.9, 0.99} {
		for _, limit := range []float64{-100, 0, 448, 2500} {
			low, high, ok := l.CrossingWithin(p, limit)
			require.True(t, ok)
			_, atLow := meanWithin(l, p, low)
			atHigh, _ := meanWithin(l, p, high)
			assert.InDelta(t, limit, atLow, 1e-6, "%g %g", p, limit)
			assert.InDelta(t, limit, atHigh, 1e-6, "%g %g", p, limit)
			x, _ := l.Crossing(limit)
			assert.Less(t, low, x)
			assert.Greater(t, high, x)
		}
	}
}

// R's cars data: as sure as 90 %, its line meets 120; asked to be surer than its slope
// is, it gives no upper end.
func TestCrossingWithoutEnd(t *testing.T) {
	l := line(t, []float64{0, 1, 2, 3}, []float64{10, 9.9, 9.2, 9.6})
	low, high, ok := l.CrossingWithin(0.95, 5)
	require.True(t, ok)
	assert.True(t, math.IsInf(high, 1), "the slope is not sure")
	atLow, _ := meanWithin(l, 0.95, low)
	assert.InDelta(t, 5, atLow, 1e-9)
	assert.Greater(t, low, 3.0)
	_, _, ok = l.CrossingWithin(0.95, 9.7)
	assert.False(t, ok, "the limit lies within the readings and the slope is not sure")
	exact := line(t, []float64{0, 1, 2}, []float64{10, 8, 6})
	low, high, ok = exact.CrossingWithin(0.9, 0)
	require.True(t, ok)
	assert.InDelta(t, 5, low, 1e-9)
	assert.InDelta(t, 5, high, 1e-9)
	_, _, ok = line(t, []float64{0, 1}, []float64{10, 8}).CrossingWithin(0.9, 0)
	assert.False(t, ok)
}

// The pad series of testdata: its line meets the limit where the file says.
func TestWearAt(t *testing.T) {
	s := readSeries(t).PadWear
	mm := func(x float64) fieldkit.Value {
		return fieldkit.Value{Dim: fieldkit.DimLength, Base: int64(math.Round(x * float64(fieldkit.Millimetre)))}
	}
	cat := fieldkit.Catalog{PartKinds: []fieldkit.PartKind{{ID: "pads", Wear: &fieldkit.Wear{Name: "lining thickness", Limit: mm(s.Limit), Falling: true}}}}
	kit := fieldkit.Kit{
		Rigs: []fieldkit.Rig{{ID: "r", Odometer: fieldkit.Distance(s.Km[len(s.Km)-1]+1100) * fieldkit.Kilometre}}, Systems: []fieldkit.Assembly{{ID: "s", Rig: "r"}},
		Positions: fieldkit.ListOf([]fieldkit.Position{{ID: "p", System: "s", Kind: "pads", Quantity: 1}}),
	}
	_, ok := WearAt(kit, cat, kit.Positions.At(0))
	assert.False(t, ok, "no reading")
	for i := range s.Km {
		kit.Inspections = kit.Inspections.With(fieldkit.Inspection{ID: string(rune('a' + i)), Position: "p", Name: "Lining thickness", Odometer: fieldkit.Distance(s.Km[i]+1000) * fieldkit.Kilometre, Value: mm(s.Mm[i])})
	}
	w, ok := WearAt(kit, cat, kit.Positions.At(0))
	require.True(t, ok)
	require.True(t, w.Known, w.Why)
	assert.False(t, w.AtLimit())
	way, low, high, endless, sure := w.ToLimit()
	assert.True(t, sure)
	assert.False(t, endless)
	assert.InDelta(t, s.Expected.Crossing-s.Km[len(s.Km)-1]-100, float64(way), 0.01)
	assert.Less(t, low, way)
	assert.Greater(t, high, way)
	lo, at, hi := w.Band(w.Now + high)
	assert.InDelta(t, float64(w.Measure.Limit.Base), hi, 1e3, "at the far end even the upper edge is at the limit")
	assert.Less(t, lo, at)

	kit.Inspections = fieldkit.ListOf(kit.Inspections.Slice()[:2])
	w, ok = WearAt(kit, cat, kit.Positions.At(0))
	require.True(t, ok)
	assert.False(t, w.Known)
	assert.Contains(t, w.Why, "two readings")
	way, _, _, _, sure = w.ToLimit()
	assert.Zero(t, way)
	assert.False(t, sure)
}
