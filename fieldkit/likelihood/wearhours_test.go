package likelihood

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

// The series of planning check L6 with hours where it has kilometres: the line and its
// Student t know nothing of what x counts. At 36 000 the probability is 0.03592512009.
func hourKit(t *testing.T) fieldkit.Kit {
	s := readSeries(t).PadWear
	kit := padKit(t)
	for i, x := range s.Km {
		kit.Inspections = kit.Inspections.With(fieldkit.Inspection{ID: fmt.Sprint(i), Position: "brushes", EngineHours: 1000 + int(x),
			On: fieldkit.Date{Year: 2024, Month: 1, Day: 1}.AddDays(i * 60), Name: "Brush length", Value: value(t, fmt.Sprintf("%g mm", s.Mm[i]))})
	}
	kit.Rigs[0].EngineHours = 20_900
	return kit
}

func TestWearByHours(t *testing.T) {
	kit, trip := hourKit(t), padTrip(500)
	trip.EngineHours = 36_000 - 19_900
	l := at(t, kit, "brushes", trip)
	require.Equal(t, ByWear, l.Source)
	assert.InEpsilon(t, 0.03592512009, l.wear.past(), 1e-8)
	assert.Equal(t, "wear readings: 5 readings in 19900 engine hours", l.Evidence)
	assert.Contains(t, fmt.Sprint(l.Detail), "the engine runs 16100 hours on the trip")
	assert.False(t, l.Guessed())

	trip.EngineHours = 0
	assert.NotEqual(t, ByWear, at(t, kit, "brushes", trip).Source, "nothing says how many hours the trip is, and no reading has an odometer")
	assert.Zero(t, at(t, kit, "brushes", padTrip(0)).Expected)
}

// Where readings have both meters, the trip's hours follow from its way; other kinds go
// by the odometer, whatever hours their readings have.
func TestHoursOfTheTrip(t *testing.T) {
	kit := hourKit(t)
	for i := range kit.Inspections.Len() {
		r := kit.Inspections.Ref(i)
		r.Odometer = fieldkit.Distance(5000+25*(r.EngineHours-1000)) * fieldkit.Kilometre // 4 h in 100 km
		kit.Rigs[0].Odometer = max(kit.Rigs[0].Odometer, r.Odometer)
	}
	l := at(t, kit, "brushes", padTrip(500))
	assert.Contains(t, l.Evidence, "engine hours")
	assert.Contains(t, fmt.Sprint(l.Detail), "by 4.0 hours in 100 km so far")
	assert.InDelta(t, 20_900+20, l.wear.at, 1, "graded road, as it has been so far")
	rock := padTrip(500)
	rock.Terrain = fieldkit.Rock
	assert.Greater(t, at(t, kit, "brushes", rock).wear.at, l.wear.at)

	for i := range kit.Inspections.Len() {
		kit.Inspections.Ref(i).Position, kit.Inspections.Ref(i).Name = "pads", "lining thickness"
	}
	assert.Contains(t, at(t, kit, "pads", padTrip(500)).Evidence, " km")
}

// Two readings with hours make no line: the odometer's fall-back stands.
func TestFewHoursFallBack(t *testing.T) {
	kit := hourKit(t)
	for i := range kit.Inspections.Len() {
		r := kit.Inspections.Ref(i)
		if r.Odometer = fieldkit.Distance(1000+r.EngineHours) * fieldkit.Kilometre; i > 1 {
			r.EngineHours = 0
		}
	}
	kit.Rigs[0].Odometer = 22_000 * fieldkit.Kilometre
	trip := padTrip(500)
	trip.EngineHours = 20
	l := at(t, kit, "brushes", trip)
	assert.Equal(t, ByWear, l.Source)
	assert.Contains(t, l.Evidence, " km")
}

// The line of what turns with the engine is drawn over its hours, wherever they make one;
// without, over distance, or it says why there is none.
func TestWearLineByHours(t *testing.T) {
	kit := hourKit(t)
	cat := padCatalog(t)
	brushes, _ := kit.Position("brushes")
	w, ok := WearAt(kit, cat, brushes)
	require.True(t, ok)
	require.True(t, w.ByHours && w.Known, w.Why)
	assert.EqualValues(t, 20_900, w.Now)
	s := readSeries(t).PadWear
	way, low, high, _, sure := w.ToLimit()
	assert.True(t, sure)
	assert.InDelta(t, s.Expected.Crossing+1000-20_900, float64(way), 0.01, "the crossing of planning check L6, in hours")
	assert.Less(t, low, way)
	assert.Less(t, way, high)

	for i := range kit.Inspections.Len() {
		r := kit.Inspections.Ref(i)
		r.Odometer = fieldkit.Distance(100_000+7*r.EngineHours) * fieldkit.Kilometre
	}
	both, _ := WearAt(kit, cat, brushes)
	assert.True(t, both.ByHours, "hours first where there are both")
	for i := range kit.Inspections.Len() {
		if i > 1 {
			kit.Inspections.Ref(i).EngineHours = 0
		}
	}
	far, _ := WearAt(kit, cat, brushes)
	assert.True(t, far.Known && !far.ByHours, "two readings with hours are no line; five with an odometer are")
	for i := range kit.Inspections.Len() {
		kit.Inspections.Ref(i).Odometer = 0
	}
	few, ok := WearAt(kit, cat, brushes)
	require.True(t, ok)
	assert.True(t, few.ByHours)
	assert.Contains(t, few.Why, "two readings")
}
