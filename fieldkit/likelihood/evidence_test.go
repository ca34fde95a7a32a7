package likelihood

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

func value(t testing.TB, s string) fieldkit.Value {
	v, err := fieldkit.ParseValue(s)
	require.NoError(t, err)
	return v
}

// padCatalog has brake pads that wear 2 mm in 10 000 km of rough track, and a belt
// that only ages. Neither feels terrain or tyres, so that sums stay easy.
func padCatalog(t testing.TB) fieldkit.Catalog {
	return fieldkit.Catalog{PartKinds: []fieldkit.PartKind{
		{ID: "pads", Name: "pads", Wear: &fieldkit.Wear{Name: "lining thickness", Limit: value(t, "3 mm"), Falling: true},
			Prior: fieldkit.Prior{ID: "pads", Rate: 10, Shape: 100, Life: 100_000 * fieldkit.Kilometre, Wear: value(t, "2 mm"), Sudden: 20}},
		{ID: "joint", Name: "joint", Wear: &fieldkit.Wear{Name: "play", Limit: value(t, "1 mm")},
			Prior: fieldkit.Prior{ID: "joint", Rate: 10, Wear: value(t, "1 mm")}},
		{ID: "brushes", Name: "brushes", Wear: &fieldkit.Wear{Name: "brush length", Limit: value(t, "3 mm"), Falling: true, ByHours: true},
			Prior: fieldkit.Prior{ID: "brushes", Rate: 10, Wear: value(t, "2 mm"), Terrain: 100}},
		{ID: "belt", Name: "belt", Prior: fieldkit.Prior{ID: "belt", Rate: 20, Shape: 200, Life: 1000 * fieldkit.Kilometre, Terrain: 0}},
		{ID: "bearing", Name: "bearing", Prior: fieldkit.Prior{ID: "bearing", Rate: 100, Terrain: 100, Tyre: 300, Load: 200, Water: 50 * fieldkit.Kilometre, Dust: 40}},
	}}
}

func padKit(t testing.TB, readings ...[2]string) fieldkit.Kit {
	kit := fieldkit.Kit{
		Rigs:    []fieldkit.Rig{{ID: "badger"}},
		Systems: []fieldkit.Assembly{{ID: "all", Rig: "badger"}},
		Positions: fieldkit.ListOf([]fieldkit.Position{
			{ID: "pads", System: "all", Kind: "pads"}, {ID: "joint", System: "all", Kind: "joint"},
			{ID: "belt", System: "all", Kind: "belt"}, {ID: "brushes", System: "all", Kind: "brushes"}, {ID: "bearing", System: "all", Kind: "bearing"},
		}),
	}
	for i, r := range readings {
		odo, err := fieldkit.ParseDistance(r[0], fieldkit.Metric)
		require.NoError(t, err)
		kit.Inspections = kit.Inspections.With(fieldkit.Inspection{ID: fmt.Sprint(i), Position: "pads", Odometer: odo,
			On: fieldkit.Date{Year: 2025, Month: 1, Day: 1}.AddDays(i * 30), Name: "Lining thickness", Value: value(t, r[1])})
		kit.Rigs[0].Odometer = max(kit.Rigs[0].Odometer, odo)
	}
	return kit
}

func padTrip(km fieldkit.Distance) fieldkit.Trip {
	return fieldkit.Trip{ID: "t", Rigs: []string{"badger"}, Distance: km * fieldkit.Kilometre, Terrain: fieldkit.GradedRoad, Days: 3}
}

func at(t testing.TB, kit fieldkit.Kit, id string, trip fieldkit.Trip) Likelihood {
	p, ok := kit.Position(id)
	require.True(t, ok)
	return of(kit, padCatalog(t), trip, p)
}

// The series of planning check L6: at 36 000 km the probability of a reading at the
// limit or past it is 0.03592512009. A fifth of the kind's own failures is sudden.
func TestByWearReadings(t *testing.T) {
	s := readSeries(t).PadWear
	kit := padKit(t)
	for i, x := range s.Km {
		kit.Inspections = kit.Inspections.With(fieldkit.Inspection{ID: fmt.Sprint(i), Position: "pads", Odometer: fieldkit.Distance(1000+x) * fieldkit.Kilometre,
			On: fieldkit.Date{Year: 2024, Month: 1, Day: 1}.AddDays(i * 60), Name: "lining thickness", Value: value(t, fmt.Sprintf("%g mm", s.Mm[i]))})
	}
	kit.Rigs[0].Odometer = 20_900 * fieldkit.Kilometre
	l := at(t, kit, "pads", padTrip(36_000-19_900))
	assert.Equal(t, ByWear, l.Source)
	assert.Equal(t, 5, l.Readings)
	assert.InEpsilon(t, 0.03592512009, l.wear.past(), 1e-8)
	sudden := 0.2 * l.base * l.rate.Mean()
	assert.InDelta(t, 1-(1-0.03592512009)*(1-FailedWith(sudden)), l.Probability, 1e-10)
	assert.Equal(t, "wear readings: 5 readings in 19900 km (12365 mi)", l.Evidence)
	assert.Less(t, l.Interval[0], l.Probability)
	assert.Greater(t, l.Interval[1], l.Probability)
	assert.False(t, l.Guessed())
	assert.False(t, l.Due)
	assert.True(t, at(t, kit, "pads", padTrip(20_000)).Due, "past the crossing at 37 239 km")
}

func TestWearFallsBack(t *testing.T) {
	cases := []struct {
		name     string
		readings [][2]string
		km       fieldkit.Distance
		words    string  // in the detail
		least    float64 // probability of wearing out
		most     float64
	}{
		// 9 mm left, 1 mm taken: a gamma law of mean 1 and shape 4 passes 9 once in 10¹¹.
		{"one reading, far from the limit", [][2]string{{"1000 km", "12 mm"}}, 5000, "one reading makes no line", 0, 1e-9},
		// 1 mm left, 1 mm taken: P(slope ≥ mean) of shape 4 is 0.4335 (gamma tables).
		{"one reading, near it", [][2]string{{"1000 km", "4 mm"}}, 5000, "one reading makes no line", 0.4334, 0.4336},
		{"one reading past it", [][2]string{{"1000 km", "2.9 mm"}}, 100, "at its limit, or past it", 1, 1},
		// The line says 1 mm, the guess 2 mm in 10 000 km: 1.5 mm taken of 1.5 mm.
		{"two readings", [][2]string{{"1000 km", "5.5 mm"}, {"11000 km", "4.5 mm"}}, 10_000, "say nothing of how sure", 0.4334, 0.4336},
		{"all of one odometer", [][2]string{{"1000 km", "4 mm"}, {"1000 km", "4.1 mm"}, {"1000 km", "4 mm"}}, 5000, "the meter was the same", 0.43, 0.44},
		{"the wrong way", [][2]string{{"1000 km", "6 mm"}, {"3000 km", "6.1 mm"}, {"5000 km", "6.2 mm"}}, 5000, "do not go towards the limit", 0, 0.01},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			l := at(t, padKit(t, c.readings...), "pads", padTrip(c.km))
			require.Equal(t, ByWear, l.Source)
			assert.Contains(t, fmt.Sprint(l.Detail), c.words)
			assert.GreaterOrEqual(t, l.wear.past(), c.least)
			assert.LessOrEqual(t, l.wear.past(), c.most)
			assert.True(t, l.Guessed())
			assert.LessOrEqual(t, l.Interval[0], l.Probability)
			assert.GreaterOrEqual(t, l.Interval[1], l.Probability)
		})
	}
}

func TestSeriesBegins(t *testing.T) {
	names := func(kit fieldkit.Kit) string {
		kind := padCatalog(t).PartKinds[0]
		s := ""
		for _, r := range seriesOf(kit, *kind.Wear, kit.Positions.At(0), odometerOf) {
			s += r.ID
		}
		return s
	}
	worn := [][2]string{{"1000 km", "12 mm"}, {"9000 km", "8 mm"}, {"15000 km", "5 mm"}, {"16000 km", "11.8 mm"}, {"20000 km", "10 mm"}}
	kit := padKit(t, worn...)
	assert.Equal(t, "34", names(kit), "what is nearly new again is another part")
	kit.Positions.Ref(0).FittedAt = 18_000 * fieldkit.Kilometre
	assert.Equal(t, "4", names(kit), "fitted later by the odometer")
	kit = padKit(t, worn[:3]...)
	kit.Positions.Ref(0).Fitted = kit.Inspections.At(1).On
	assert.Equal(t, "12", names(kit), "fitted later by the day; that day's reading is the new part's")
	kit = padKit(t, [2]string{"1000 km", "8.3 mm"}, [2]string{"2000 km", "8.4 mm"}, [2]string{"3000 km", "8.1 mm"})
	assert.Equal(t, "012", names(kit), "a reading a hair up is the same part's")
	kit.Inspections.Ref(1).Name = "thickness of the plate"
	assert.Equal(t, "02", names(kit), "another measure")
	kit.Inspections.Ref(0).Odometer = 0
	assert.Equal(t, "2", names(kit), "no odometer")
	kit.Inspections.Ref(2).Value = value(t, "8 A")
	assert.Equal(t, "", names(kit), "another dimension")
}

// Play grows towards its limit.
func TestWearThatRises(t *testing.T) {
	kit := padKit(t)
	for i, play := range []string{"0.2 mm", "0.41 mm", "0.59 mm", "0.8 mm"} {
		kit.Inspections = kit.Inspections.With(fieldkit.Inspection{ID: fmt.Sprint(i), Position: "joint", Odometer: fieldkit.Distance(1000+2000*i) * fieldkit.Kilometre,
			On: fieldkit.Date{Year: 2024, Month: 1, Day: 1}.AddDays(i * 60), Name: "play", Value: value(t, play)})
	}
	kit.Rigs[0].Odometer = 7000 * fieldkit.Kilometre
	soon, late := at(t, kit, "joint", padTrip(500)), at(t, kit, "joint", padTrip(4000))
	assert.Less(t, soon.Probability, 0.01)
	assert.Greater(t, late.Probability, 0.95)
	assert.True(t, late.Due)
	assert.Less(t, late.Expected, 1.01, "one part wears out but once")
	kit.Inspections.Ref(3).Value = value(t, "0.1 mm")
	assert.Equal(t, 1, at(t, kit, "joint", padTrip(500)).Readings, "play that is gone is a new joint's")
}

// W9 of the planning checks: shape 2, life 1000; 900 km old, 100 km further.
func TestByAge(t *testing.T) {
	kit := padKit(t)
	kit.Rigs[0].Odometer = 1900 * fieldkit.Kilometre
	kit.Positions.Ref(2).FittedAt = 1000 * fieldkit.Kilometre
	l := at(t, kit, "belt", padTrip(100))
	assert.Equal(t, ByAge, l.Source)
	// The log is one of no failure in 900 km: 0.018 were expected.
	factor := 1 / (1 + 0.018)
	assert.InDelta(t, 0.1730408661, FailedWith(l.Expected/factor), 1e-9)
	assert.Equal(t, "age: 900 km since it was fitted; starting guess", l.Evidence)

	kit.Positions.Ref(2).FittedAt = 0
	assert.Equal(t, StartingGuess, at(t, kit, "belt", padTrip(100)).Source, "age not known")
	kit.Positions.Ref(2).FittedAt = 5000 * fieldkit.Kilometre
	kit.Rigs[0].Odometer = 0
	assert.InDelta(t, 0.009950166251, FailedWith(at(t, kit, "belt", padTrip(100)).Expected), 1e-9, "fitted at the last odometer known: new")
}

// FailedWith is the probability of at least one of so many failures expected.
func FailedWith(expected float64) float64 { return Weibull{1, 1}.FailedBy(expected) }

func TestExposure(t *testing.T) {
	cases := []struct {
		name string
		trip func(*fieldkit.Trip)
		rig  func(*fieldkit.Rig)
		want float64
	}{
		{"graded road halves it", nil, nil, 0.05},
		{"rock", func(t *fieldkit.Trip) { t.Terrain = fieldkit.Rock }, nil, 0.25},
		{"tyres of 10 % more, third power", nil, func(r *fieldkit.Rig) { r.Oversize = 10 }, 0.05 * 1.331},
		{"20 % of load too much, second power", func(t *fieldkit.Trip) { t.Overload = 20 }, nil, 0.05 * 1.44},
		{"less load than built for", func(t *fieldkit.Trip) { t.Overload = -20 }, nil, 0.05},
		{"some dust", func(t *fieldkit.Trip) { t.Dust = fieldkit.SomeDust }, nil, 0.05 * 1.2},
		{"heavy dust", func(t *fieldkit.Trip) { t.Dust = fieldkit.HeavyDust }, nil, 0.05 * 1.4},
		{"four crossings of 50 km each", func(t *fieldkit.Trip) { t.Crossings = 4 }, nil, 0.05 + 0.02},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			kit, trip := padKit(t), padTrip(1000)
			if c.trip != nil {
				c.trip(&trip)
			}
			if c.rig != nil {
				c.rig(&kit.Rigs[0])
			}
			assert.InDelta(t, c.want, at(t, kit, "bearing", trip).Expected, 1e-12)
		})
	}
}

// The other rigs of the crew count with their own way: 1000 km of rough track on each
// of two rigs, one failure on the other: (1 + 1)/(1 + 0.1 + 0.1) times the guess.
func TestCrewsLog(t *testing.T) {
	kit := padKit(t)
	kit.Rigs = append(kit.Rigs, fieldkit.Rig{ID: "mule"})
	kit.Systems = append(kit.Systems, fieldkit.Assembly{ID: "mule", Rig: "mule"})
	kit.Positions = kit.Positions.With(fieldkit.Position{ID: "mule-bearing", System: "mule", Kind: "bearing"})
	past := padTrip(1000)
	past.ID, past.Done, past.Terrain, past.Rigs = "past", true, fieldkit.RoughTrack, []string{"badger", "mule"}
	kit.Trips = []fieldkit.Trip{past}
	kit.Failures = fieldkit.ListOf([]fieldkit.Failure{{ID: "f", Rig: "mule", Trip: "past", Position: "mule-bearing"}})
	l := at(t, kit, "bearing", padTrip(1000))
	assert.InDelta(t, 0.05*2/1.2, l.Expected, 1e-12)
	assert.Equal(t, OwnLog, l.Source)
	assert.Equal(t, "starting guess, corrected by your log: 1 failure at 2 places in 2000 km (1243 mi)", l.Evidence)
}

// A failure between the trips changes no figure, and that is said.
func TestFailureOnNoTrip(t *testing.T) {
	kit := padKit(t)
	past := padTrip(1000)
	past.ID, past.Done = "past", true
	kit.Trips = []fieldkit.Trip{past}
	before := at(t, kit, "bearing", padTrip(1000))
	assert.NotContains(t, strings.Join(before.Detail, "\n"), "not counted")
	kit.Failures = fieldkit.ListOf([]fieldkit.Failure{{ID: "f", Rig: "badger", Position: "bearing", On: fieldkit.Date{Year: 2031, Month: 1, Day: 1}}})
	after := at(t, kit, "bearing", padTrip(1000))
	assert.Equal(t, before.Expected, after.Expected)
	assert.Contains(t, strings.Join(after.Detail, "\n"), "1 failure in the log on no trip that is done: not counted")
}

// One reading makes no line: however much the log says of the rate, how fast the part
// wears is a guess, and most of the figure is that.
func TestGuessedByWear(t *testing.T) {
	l := at(t, padKit(t, [2]string{"1000 km", "4 mm"}), "pads", padTrip(5000))
	l.LogWeight = 0.9
	assert.True(t, l.Guessed())
	far := at(t, padKit(t, [2]string{"1000 km", "12 mm"}), "pads", padTrip(5000))
	far.LogWeight = 0.9
	assert.False(t, far.Guessed(), "what comes without wear is most of it")
}

// The kit's own figures stand instead of the catalog's and say so.
func TestOwnFigures(t *testing.T) {
	kit := padKit(t)
	kit.Priors = []fieldkit.Prior{{ID: "bearing", Rate: 300}}
	l := at(t, kit, "bearing", padTrip(1000))
	assert.InDelta(t, 0.3, l.Expected, 1e-12, "own figures feel no terrain unless they say so")
	assert.Equal(t, OwnFigure, l.Source)
	assert.Equal(t, "own figure", l.Evidence)
	assert.False(t, l.Guessed())

	kit.Priors = []fieldkit.Prior{{ID: "pads", Rate: 300, Shape: 200, Life: 40_000 * fieldkit.Kilometre}}
	p, _ := kit.Position("pads")
	p.FittedAt = 900 * fieldkit.Kilometre
	kit.Positions = fieldkit.ListOf([]fieldkit.Position{p})
	l = at(t, kit, "pads", padTrip(1000))
	assert.Equal(t, ByAge, l.Source)
	assert.False(t, l.Guessed(), "by age, of lives that a person gave")
}

// Drawn at the quantiles of the interval gives its ends, and on average over the
// rate's law the figure itself.
func TestDrawn(t *testing.T) {
	l := at(t, padKit(t), "bearing", padTrip(1000))
	sum, n := 0.0, 20_000
	for i := range n {
		sum += l.Drawn(l.Factor((float64(i)+0.5)/float64(n)), 0.5)
	}
	assert.InEpsilon(t, l.Expected, sum/float64(n), 1e-3)
	assert.InDelta(t, l.Interval[0], FailedWith(l.Drawn(l.Factor(lowEnd), 0.5)), 1e-12)
	assert.InDelta(t, l.Interval[1], FailedWith(l.Drawn(l.Factor(highEnd), 0.5)), 1e-12)
	assert.Zero(t, Likelihood{}.Drawn(Likelihood{}.Factor(0.3), 0.7))
}
