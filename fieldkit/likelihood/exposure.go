package likelihood

import (
	"math"

	"trailfieldkit/fieldkit"
)

// roughTrackKm is a distance weighed by how hard it was on parts of a kind:
// kilometres of rough track on tyres and under a load that the axles were built for,
// which is what rates and lives are given for.
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

func km(d fieldkit.Distance) float64 { return math.Max(0, float64(d)/float64(fieldkit.Kilometre)) }

func hundredths(n int) float64 { return float64(n) / 100 }

// over is a share above what the axles were built for, as a factor; less than that
// and absurd entries count as the nearest of 0 and 100 per cent.
func over(percent int) float64 { return 1 + float64(min(max(percent, 0), 100))/100 }

// tyreFactor says how much faster parts of a kind fail on tyres over the size the
// axles were built for. Torque, side load and lever arm grow with the tyre's radius,
// and life falls with a power of load: the third for ball bearings (ISO 281), taken
// for joints, shafts and rods as well.
func tyreFactor(p fieldkit.Prior, rig fieldkit.Rig) float64 {
	return math.Pow(over(rig.Oversize), hundredths(p.Tyre))
}

// exposure is what a distance of a terrain is to parts of a kind on a rig.
func exposure(p fieldkit.Prior, rig fieldkit.Rig, d fieldkit.Distance, t fieldkit.Terrain) roughTrackKm {
	return roughTrackKm(km(d) * math.Pow(hardness(t), hundredths(p.Terrain)) * tyreFactor(p, rig))
}

// onTrip is what a whole trip is to them: its distance with load and dust, and its
// crossings.
func onTrip(p fieldkit.Prior, rig fieldkit.Rig, t fieldkit.Trip) roughTrackKm {
	way := exposure(p, rig, t.Distance, t.Terrain)
	way *= roughTrackKm(math.Pow(over(t.Overload), hundredths(p.Load)))
	switch t.Dust {
	case fieldkit.SomeDust:
		way *= roughTrackKm(1 + hundredths(p.Dust)/2)
	case fieldkit.HeavyDust:
		way *= roughTrackKm(1 + hundredths(p.Dust))
	}
	if way == 0 {
		return 0 // a trip of no distance crosses nothing
	}
	return way + roughTrackKm(float64(max(t.Crossings, 0))*km(p.Water))
}
