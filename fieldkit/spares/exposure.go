package spares

import (
	"math"
	"slices"

	"trailfieldkit/fieldkit"
)

// roughTrackKm is a distance weighed by how hard it was on the rig: kilometres of
// rough track on tyres of the size the axles were built for, which is what the
// part kinds' rates are given for.
type roughTrackKm float64

// terrainFactor says how many kilometres of rough track wear a rig as much as one
// kilometre of this terrain. Starting guess, not measured: graded road halves the
// shock loads; sand works the engine, the cooling and the driveline; mud and water
// get past seals; rock adds full-lock, low-range torque at each obstacle. The own
// log replaces the product of these and the kinds' rates as it grows.
var terrainFactor = map[fieldkit.Terrain]float64{
	fieldkit.GradedRoad: 0.5,
	fieldkit.RoughTrack: 1,
	fieldkit.Sand:       1.3,
	fieldkit.Mud:        1.6,
	fieldkit.Rock:       2.5,
}

// hardness returns the factor of a terrain; one that is not known counts as rough
// track.
func hardness(t fieldkit.Terrain) float64 {
	if f, ok := terrainFactor[t]; ok {
		return f
	}
	return 1
}

func weigh(d fieldkit.Distance, t fieldkit.Terrain) roughTrackKm {
	return roughTrackKm(math.Max(0, float64(d)/float64(fieldkit.Kilometre)) * hardness(t))
}

// history is what a rig's own log says about failures: how far it was driven and
// how often parts of each kind failed on the way.
type history struct {
	driven   fieldkit.Distance
	weighed  roughTrackKm
	failures map[string]int // by part kind
}

// historyOf reads a rig's log. Exposure is the distance of the trips that are
// done, each by its terrain, and the failures are those of these trips. Without a
// trip done it is the span of the odometer from the first record to now, taken as
// graded road, since most of it was the way to work; taking it for rough track
// would make the rig look better than it is. The record that opens the span is not
// counted: the span began because of it.
func historyOf(kit fieldkit.Kit, rig string) history {
	h := history{failures: map[string]int{}}
	var done []fieldkit.Trip
	for _, t := range kit.Trips {
		if t.Done && t.Distance > 0 && slices.Contains(t.Rigs, rig) {
			done = append(done, t)
			h.driven += t.Distance
			h.weighed += weigh(t.Distance, t.Terrain)
		}
	}
	from, to := fieldkit.Distance(0), fieldkit.Distance(0)
	if len(done) == 0 {
		from, to = odometerSpan(kit, rig)
		h.driven, h.weighed = to-from, weigh(to-from, fieldkit.GradedRoad)
	}
	for _, f := range kit.Failures {
		inSpan := len(done) == 0 && f.Odometer > from && f.Odometer <= to
		if f.Rig == rig && (inSpan || onTrips(f, done)) {
			if kind := kindOfFailure(kit, f); kind != "" {
				h.failures[kind]++
			}
		}
	}
	return h
}

// onTrips reports whether a failure belongs to one of the trips: by its trip, else
// by its date.
func onTrips(f fieldkit.Failure, trips []fieldkit.Trip) bool {
	for _, t := range trips {
		byDate := f.Trip == "" && !t.Start.IsZero() && !f.On.IsZero() &&
			!f.On.Before(t.Start) && f.On.Before(t.Start.AddDays(max(t.Days, 1)))
		if f.Trip == t.ID || byDate {
			return true
		}
	}
	return false
}

// odometerSpan returns the first and the last odometer reading the kit holds for a
// rig; both are zero where there are not two.
func odometerSpan(kit fieldkit.Kit, rig string) (from, to fieldkit.Distance) {
	see := func(d fieldkit.Distance) {
		if d <= 0 {
			return
		}
		if from == 0 || d < from {
			from = d
		}
		to = max(to, d)
	}
	onRig := map[string]bool{}
	for _, p := range kit.PositionsOf(rig) {
		onRig[p.ID] = true
		see(p.FittedAt)
	}
	for _, f := range kit.Failures {
		if f.Rig == rig {
			see(f.Odometer)
		}
	}
	for _, i := range kit.Inspections {
		if onRig[i.Position] {
			see(i.Odometer)
		}
	}
	if r, ok := kit.Rig(rig); ok {
		see(r.Odometer)
	}
	return from, to
}

func kindOfFailure(kit fieldkit.Kit, f fieldkit.Failure) string {
	if p, ok := kit.Position(f.Position); ok {
		return p.Kind
	}
	part, _ := kit.Part(f.Part)
	return part.Kind
}
