package limp

import (
	"math"

	"trailfieldkit/fieldkit"
)

// Unequal is what a tyre of another size does to the differential of its axle and to
// the ground clearance under it.
type Unequal struct {
	Percent float64 // smaller over larger: how much faster the smaller one turns
	// Radius of the circle in which the differential would work as hard with equal
	// tyres: the track over the difference. 0 without a track.
	Radius    fieldkit.Length
	Clearance fieldkit.Length // change under the axle at that wheel; negative is lower
}

// Compare says what a spare does beside a tyre; ok is false if a diameter is missing.
//
// The wheels of an axle turn as 1/diameter. Driving straight with a difference of p
// turns the differential like driving equal tyres round a circle of track/p. The axle
// comes down by half the difference of diameters at that end (both geometry).
func Compare(tyre, spare, track fieldkit.Length) (u Unequal, ok bool) {
	if tyre <= 0 || spare <= 0 {
		return Unequal{}, false
	}
	large, small := float64(max(tyre, spare)), float64(min(tyre, spare))
	u.Percent = 100 * (large/small - 1)
	u.Clearance = (spare - tyre) / 2
	if track > 0 && large != small {
		u.Radius = fieldkit.Length(math.Round(float64(track) / (large/small - 1)))
	}
	return u, true
}

// Range says how far the fuel goes, from a little to a lot: a tenth stays in the tank,
// and off the road the same rig drinks from a fifth less to a half more than its
// average (starting guess, not measured). ok is false if a figure is missing.
func (f Facts) Range() (low, high fieldkit.Distance, ok bool) {
	if f.FuelLeft <= 0 || f.Burnt <= 0 || f.Driven <= 0 {
		return 0, 0, false
	}
	usable := float64(f.FuelLeft) * 0.9 / float64(f.Burnt) * float64(f.Driven)
	return fieldkit.Distance(usable / 1.5), fieldkit.Distance(usable / 0.8), true
}
