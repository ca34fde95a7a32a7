package likelihood

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/fieldkit"
)

// testCatalog has rates that make sums easy: on a trip of 1000 km of rough track a
// joint fails 0.1 times, a hose 0.2 times and a pump 0.05 times.
func testCatalog() fieldkit.Catalog {
	return fieldkit.Catalog{PartKinds: []fieldkit.PartKind{
		{ID: "joint", Name: "joint", System: "driveline", Per10000: 1},
		{ID: "hose", Name: "hose", System: "cooling", Per10000: 2},
		{ID: "pump", Name: "pump", System: "cooling", Per10000: 0.5},
		{ID: "frame", Name: "frame", System: "suspension"},
	}}
}

// testKit is one rig with two joints, a hose and a pump, and a second rig with
// nothing on it.
func testKit(testing.TB) fieldkit.Kit {
	return fieldkit.Kit{
		Rigs:    []fieldkit.Rig{{ID: "badger", Name: "Badger"}, {ID: "mule", Name: "Mule"}},
		Systems: []fieldkit.Assembly{{ID: "all", Rig: "badger"}, {ID: "all-mule", Rig: "mule"}},
		Positions: fieldkit.ListOf([]fieldkit.Position{
			{ID: "joint-l", System: "all", Kind: "joint", Part: "joint-a"},
			{ID: "joint-r", System: "all", Kind: "joint", Part: "joint-a"},
			{ID: "hose", System: "all", Kind: "hose"},
			{ID: "pump", System: "all", Kind: "pump"},
		}),
		Parts: fieldkit.ListOf([]fieldkit.Part{{ID: "joint-a", Kind: "joint"}}),
		Trips: []fieldkit.Trip{testTrip()},
	}
}

// testTrip is 1000 km of rough track.
func testTrip() fieldkit.Trip {
	return fieldkit.Trip{
		ID: "loop", Rigs: []string{"badger"}, Days: 5, Start: fieldkit.Date{Year: 2026, Month: 5, Day: 14},
		Distance: 1000 * fieldkit.Kilometre, Terrain: fieldkit.RoughTrack,
	}
}

// of looks at one position.
func of(kit fieldkit.Kit, cat fieldkit.Catalog, trip fieldkit.Trip, p fieldkit.Position) Likelihood {
	rig, _ := kit.RigOf(p)
	return Look(kit, cat, trip, rig).Of(p)
}

// A joint: 1 failure per 10 000 km of rough track.
func TestLikelihoodOfAStartingGuess(t *testing.T) {
	cases := []struct {
		name     string
		trip     func(*fieldkit.Trip)
		rig      func(*fieldkit.Rig)
		position string
		want     float64
	}{
		{"1000 km of rough track", nil, nil, "joint-l", 0.1},
		{"twice as far", func(t *fieldkit.Trip) { t.Distance *= 2 }, nil, "joint-l", 0.2},
		{"graded road", func(t *fieldkit.Trip) { t.Terrain = fieldkit.GradedRoad }, nil, "joint-l", 0.05},
		{"rock", func(t *fieldkit.Trip) { t.Terrain = fieldkit.Rock }, nil, "joint-l", 0.25},
		{"terrain not known", func(t *fieldkit.Trip) { t.Terrain = "moon" }, nil, "joint-l", 0.1},
		// 10 % more tyre: 1.1³ = 1.331 (load to the third power, ISO 281 ball bearings).
		{"larger tyres on the driveline", nil, func(r *fieldkit.Rig) { r.Oversize = 10 }, "joint-l", 0.1331},
		{"larger tyres do nothing to a hose", nil, func(r *fieldkit.Rig) { r.Oversize = 10 }, "hose", 0.2},
		{"smaller tyres", nil, func(r *fieldkit.Rig) { r.Oversize = -10 }, "joint-l", 0.1},
		{"no distance", func(t *fieldkit.Trip) { t.Distance = 0 }, nil, "joint-l", 0},
		{"distance below nothing", func(t *fieldkit.Trip) { t.Distance = -5 * fieldkit.Kilometre }, nil, "joint-l", 0},
		{"round the world and back", func(t *fieldkit.Trip) { t.Distance = math.MaxInt64 }, nil, "joint-l", MaxExpected},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			kit, trip := testKit(t), testTrip()
			if c.trip != nil {
				c.trip(&trip)
			}
			if c.rig != nil {
				c.rig(&kit.Rigs[0])
			}
			p, _ := kit.Position(c.position)
			l := of(kit, testCatalog(), trip, p)
			assert.InDelta(t, c.want, l.Expected, 1e-12)
			assert.InDelta(t, 1-math.Exp(-c.want), l.Probability, 1e-12)
			assert.LessOrEqual(t, l.Again, l.Probability)
			if c.want > 0 {
				assert.Equal(t, StartingGuess, l.Source)
				assert.Equal(t, "starting guess", l.Evidence)
				assert.Zero(t, l.LogWeight)
			}
		})
	}
	assert.Zero(t, of(testKit(t), testCatalog(), testTrip(), fieldkit.Position{ID: "odd", System: "all", Kind: "hatstand"}))
	assert.Zero(t, of(testKit(t), testCatalog(), testTrip(), fieldkit.Position{ID: "odd", System: "all", Kind: "frame"}), "a kind without a rate")
}

func doneTrip(id string, km fieldkit.Distance, terrain fieldkit.Terrain, month int) fieldkit.Trip {
	return fieldkit.Trip{ID: id, Rigs: []string{"badger"}, Done: true, Distance: km * fieldkit.Kilometre, Terrain: terrain,
		Days: 3, Start: fieldkit.Date{Year: 2025, Month: 4, Day: 10}.AddDays(30 * month)}
}

// 3000 km of rough track and 2000 km of rock weigh 3000 + 2.5·2000 = 8000 km; the
// two joints make 16 000. The prior, 1 in 10 000 km, is worth 10 000. With three
// failures the rate is 4/26 000, over 1000 km 0.1538; 16/26 of it rest on the log.
func TestLikelihoodFromOwnLog(t *testing.T) {
	kit := testKit(t)
	kit.Trips = append(kit.Trips, doneTrip("a", 3000, fieldkit.RoughTrack, 0), doneTrip("b", 2000, fieldkit.Rock, 2))
	begun := kit.Trips[2].Start
	kit.Failures = fieldkit.ListOf([]fieldkit.Failure{
		{ID: "1", Rig: "badger", Trip: "a", Position: "joint-l"},
		{ID: "2", Rig: "badger", On: begun.AddDays(2), Position: "joint-r"},    // last day of b, by date
		{ID: "3", Rig: "badger", Trip: "b", Part: "joint-a"},                   // position not known
		{ID: "4", Rig: "badger", On: begun.AddDays(3), Position: "joint-r"},    // the day after: on no trip
		{ID: "5", Rig: "badger", Trip: "loop", Position: "joint-r"},            // a trip that is not done
		{ID: "6", Rig: "mule", Trip: "b", Position: "joint-r"},                 // another rig
		{ID: "7", Rig: "badger", Trip: "b", Position: "hose"},                  // another kind
		{ID: "8", Rig: "badger", Trip: "b", Position: "gone", What: "a noise"}, // no telling what
	})
	joint, _ := kit.Position("joint-l")
	l := of(kit, testCatalog(), testTrip(), joint)
	assert.InDelta(t, 4.0/26, l.Expected, 1e-12)
	assert.InDelta(t, 16.0/26, l.LogWeight, 1e-12)
	assert.Equal(t, OwnLog, l.Source)
	assert.Equal(t, 3, l.Failures)
	assert.Equal(t, "from your log: 3 failures at 2 places in 5000 km (3107 mi)", l.Evidence)

	// The hose: prior 1 in 5000 km; one failure in 8000: 2/13 000.
	hose, _ := kit.Position("hose")
	l = of(kit, testCatalog(), testTrip(), hose)
	assert.InDelta(t, 2.0/13, l.Expected, 1e-12)
	assert.Equal(t, "from your log: 1 failure in 5000 km (3107 mi)", l.Evidence)

	// The pump: prior 1 in 20 000 km; none in 8000 km: 1/28 000, most of it still a guess.
	pump, _ := kit.Position("pump")
	l = of(kit, testCatalog(), testTrip(), pump)
	assert.InDelta(t, 1.0/28, l.Expected, 1e-12)
	assert.Equal(t, "starting guess, corrected by your log: no failure in 5000 km (3107 mi)", l.Evidence)
}

// Without a trip done the odometer counts: from the first record, which is not
// counted itself, to now, as graded road. 12 000 km weigh 6000; two joints make
// 12 000 beside the prior's 10 000; one failure: 2/22 000.
func TestLikelihoodFromTheOdometer(t *testing.T) {
	kit := testKit(t)
	kit.Rigs[0].Odometer = 92_000 * fieldkit.Kilometre
	kit.Failures = fieldkit.ListOf([]fieldkit.Failure{
		{ID: "1", Rig: "badger", Odometer: 80_000 * fieldkit.Kilometre, Position: "joint-l"}, // opens the span
		{ID: "2", Rig: "badger", Odometer: 85_000 * fieldkit.Kilometre, Position: "joint-l"},
		{ID: "3", Rig: "badger", Position: "joint-l"}, // no telling when
		{ID: "4", Rig: "mule", Odometer: 85_000 * fieldkit.Kilometre, Position: "joint-l"},
	})
	joint, _ := kit.Position("joint-l")
	l := of(kit, testCatalog(), testTrip(), joint)
	assert.InDelta(t, 2.0/22, l.Expected, 1e-12)
	assert.Equal(t, "from your log: 1 failure at 2 places in 12000 km (7456 mi)", l.Evidence)

	t.Run("an inspection opens the span earlier", func(t *testing.T) {
		kit.Inspections = fieldkit.ListOf([]fieldkit.Inspection{{ID: "i", Position: "joint-r", Odometer: 72_000 * fieldkit.Kilometre}})
		l := of(kit, testCatalog(), testTrip(), joint)
		assert.Equal(t, 20_000*fieldkit.Kilometre, l.Driven)
		assert.Equal(t, 2, l.Failures, "the failure at 80 000 km now counts")
	})
	t.Run("a short span without a failure is not worth naming", func(t *testing.T) {
		kit := testKit(t)
		kit.Rigs[0].Odometer = 92_000 * fieldkit.Kilometre
		kit.Inspections = fieldkit.ListOf([]fieldkit.Inspection{{ID: "i", Position: "joint-r", Odometer: 91_800 * fieldkit.Kilometre}})
		l := of(kit, testCatalog(), testTrip(), joint)
		// 200 km of road weigh 100, two joints 200 beside the prior's 10 000: 2 %.
		assert.InDelta(t, 200.0/10_200, l.LogWeight, 1e-12)
		assert.Equal(t, "starting guess", l.Evidence)
		assert.InDelta(t, 1000.0/10_200, l.Expected, 1e-12)
	})
	t.Run("one reading is no span", func(t *testing.T) {
		kit := testKit(t)
		kit.Rigs[0].Odometer = 92_000 * fieldkit.Kilometre
		assert.Equal(t, StartingGuess, of(kit, testCatalog(), testTrip(), joint).Source)
	})
}

// More failures never make a part look better, more distance without one never worse.
func TestLikelihoodLaws(t *testing.T) {
	kit := testKit(t)
	joint, _ := kit.Position("joint-l")
	last := of(kit, testCatalog(), testTrip(), joint).Expected
	kit.Trips = append(kit.Trips, fieldkit.Trip{})
	for km := fieldkit.Distance(100); km < 1_000_000; km *= 3 {
		kit.Trips[1] = doneTrip("a", km, fieldkit.RoughTrack, 0)
		now := of(kit, testCatalog(), testTrip(), joint).Expected
		assert.Less(t, now, last, "%d km", km)
		last = now
	}
	for n := range 10 {
		kit.Failures = kit.Failures.With(fieldkit.Failure{ID: fmt.Sprint(n), Rig: "badger", Trip: "a", Position: "joint-l"})
		now := of(kit, testCatalog(), testTrip(), joint).Expected
		assert.Greater(t, now, last, "%d failures", n+1)
		last = now
	}
}
