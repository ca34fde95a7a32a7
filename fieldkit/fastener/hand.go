package fastener

import (
	"math"

	"trailfieldkit/fieldkit"
)

// What is left of certainty without a torque wrench: by feel a practised hand is
// within about a third of the preload it wants (Bickford, Introduction to the Design
// and Behavior of Bolted Joints, from memory).
const FeelPercent = 35

// Pull is the force at the end of a lever that gives a torque, pulled square to it:
// F = T / L. lever is measured from the middle of the bolt to the middle of the hand;
// a lever of no length gives no force.
func Pull(t fieldkit.Torque, lever fieldkit.Length) (newtons float64) {
	if lever <= 0 {
		return 0
	}
	metres := float64(lever) / float64(metre)
	return float64(t) / float64(fieldkit.NewtonMetre) / metres
}

// Newtons to what a spring balance shows.
const (
	kilogramForceN = 9.80665         // exact: standard gravity, ISO 80000-4
	poundForceN    = 4.4482216152605 // exact: pound × standard gravity
	steelMPa       = 205_000         // Young's modulus of steel, 200 to 210 GPa (handbook value)
	stiffJoint     = 1 + 1.0/6       // parts six times as stiff as the bolt
	softJoint      = 1 + 1.0/2       // parts twice as stiff
	usualJoint     = (stiffJoint + softJoint) / 2
)

// KilogramForce and PoundForce say a force as a spring balance does.
func KilogramForce(newtons float64) float64 { return newtons / kilogramForceN }
func PoundForce(newtons float64) float64    { return newtons / poundForceN }

// Turn is an angle by which a nut is turned beyond snug, in degrees, with the range
// that the stiffness of the parts gives.
type Turn struct{ Low, Degrees, High float64 }

// TurnFromSnug says how far the nut is turned after the parts touch all round (the
// full pull of one hand on a short wrench) to reach the preload of an answer. grip is
// what the bolt holds together, from under the head to under the nut.
//
// The stretch of the bolt over the grip is F·l/(E·A); the parts give way too, from a
// sixth to a half of that (common practice for steel and iron parts without a
// gasket). With a gasket, a bush or a long stack there is no telling: ok is false for
// a grip shorter than the bolt's diameter or longer than twelve of them.
func (a Ask) TurnFromSnug(grip fieldkit.Length) (turn Turn, ok bool) {
	answer, err := Tighten(a)
	t := threadOf(a.Bolt.Thread)
	if err != nil || grip < t.nominal || grip > 12*t.nominal {
		return Turn{}, false
	}
	mm := func(q fieldkit.Length) float64 { return float64(q) / float64(fieldkit.Millimetre) }
	stretch := answer.PreloadN * mm(grip) / (steelMPa * answer.AreaMM2)
	degrees := func(joint float64) float64 { return math.Round(360 * stretch * joint / mm(t.pitch)) }
	return Turn{degrees(stiffJoint), degrees(usualJoint), degrees(softJoint)}, true
}
