package likelihood

import (
	"math"

	"trailfieldkit/fieldkit"
)

// wheelLoaded names the systems, as in the catalog's part kinds, whose parts carry
// the wheels' load or torque, so that a larger tyre shortens their life.
var wheelLoaded = map[string]bool{
	"steering": true, "front axle": true, "rear axle": true, "wheel ends": true,
	"driveline": true, "brakes": true, "suspension": true, "wheels and tyres": true,
}

// priorOf returns what is taken for parts of a kind; own reports the kit's own
// figures. A kind with a rate and no row of its own feels the terrain in full, and
// tyres with the third power where its system carries the wheels. ok is false for a
// kind of which nothing is known.
func priorOf(kit fieldkit.Kit, kind fieldkit.PartKind) (p fieldkit.Prior, own, ok bool) {
	if p, own, ok = kit.PriorOf(kind); ok {
		return p, own, p.Rate > 0
	}
	p = fieldkit.Prior{ID: kind.ID, Terrain: 100}
	if wheelLoaded[kind.System] {
		p.Tyre, p.Load = 300, 300
	}
	return p, false, false
}

// perKm is the failures in a kilometre of rough track at one place.
func perKm(p fieldkit.Prior, kind fieldkit.PartKind, ok bool) float64 {
	rate := kind.Per10000 / 10_000
	if ok {
		rate = float64(p.Rate) / 1e6
	}
	if !(rate > 0) || math.IsInf(rate, 0) {
		return 0
	}
	return rate
}
