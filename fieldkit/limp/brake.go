package limp

import "trailfieldkit/fieldkit"

// Starting guesses for a loaded rig on off-road tyres, not measured.
const (
	guessFrontShare = 55   // per cent of the weight on the front axle
	guessCGRatio    = 0.28 // height of the centre of gravity over the wheelbase
	dirtFriction    = 0.6  // tyre on dry dirt and gravel: 0.55 to 0.7 (handbook value, Wong, Theory of Ground Vehicles, from memory)
)

// Stopping is what the brakes of one axle, or of both, can do before the wheels lock.
type Stopping struct {
	G     float64 // deceleration in units of gravity
	Share float64 // of what both axles together can do, 0 to 1
}

// OneAxle gives what is left with the brakes of one axle only. share is the part of
// the weight on the axle that still brakes, ratio the height of the centre of gravity
// over the wheelbase, friction that of tyre on ground; all without unit.
//
// Front alone: a/g = μ·share/(1 − μ·ratio), for the load shifts onto it; rear alone:
// a/g = μ·share/(1 + μ·ratio). Both: μ (Gillespie, Fundamentals of Vehicle Dynamics,
// chapter on braking, from memory; the same by taking moments about a contact point).
func OneAxle(axle Axle, share, ratio, friction float64) Stopping {
	shift := 1 - friction*ratio
	if axle == RearAxle {
		shift = 1 + friction*ratio
	}
	g := friction * share / shift
	return Stopping{G: min(g, friction), Share: min(g/friction, 1)}
}

// StopWithin is the distance to stand still from a speed (distance in one hour) on the
// level: v²/(2·a·g), without the time to react.
func (s Stopping) StopWithin(perHour fieldkit.Distance) fieldkit.Distance {
	if s.G <= 0 {
		return 0
	}
	v := float64(perHour) / float64(fieldkit.Metre) / 3600
	return fieldkit.Distance(v * v / (2 * s.G * gravity) * float64(fieldkit.Metre))
}

// gravity in m/s² (ISO 80000-4).
const gravity = 9.80665

// HoldsGrade is the steepest slope, in per cent, that the brakes hold at half of what
// they can do: the other half is for loose ground and a foot that comes late.
func (s Stopping) HoldsGrade() int { return int(100 * s.G / 2) }

// oneCircuit is what is left of this rig's brakes.
func (f Facts) oneCircuit(axle Axle) Stopping {
	front := f.FrontShare
	if front <= 0 || front >= 100 {
		front = guessFrontShare
	}
	ratio := guessCGRatio
	if f.Wheelbase > 0 && f.CGHeight > 0 {
		ratio = float64(f.CGHeight) / float64(f.Wheelbase)
	}
	share := float64(front) / 100
	if axle == RearAxle {
		share = 1 - share
	}
	return OneAxle(axle, share, ratio, dirtFriction)
}

// guessedBrakes reports whether a starting guess stands in for a figure of this rig.
func (f Facts) guessedBrakes() bool { return f.FrontShare == 0 || f.Wheelbase == 0 || f.CGHeight == 0 }
