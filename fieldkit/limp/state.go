package limp

import (
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// Fault is one thing that is broken, as a person ticks it off.
type Fault string

const (
	FrontShaft     Fault = "front drive shaft out"
	RearShaft      Fault = "rear drive shaft out"
	FrontAxleShaft Fault = "front axle shaft broken"
	RearAxleShaft  Fault = "rear axle shaft broken"
	FrontCircuit   Fault = "front brakes shut off"
	RearCircuit    Fault = "rear brakes shut off"
	OneBrakeLine   Fault = "one wheel's brake line shut off"
	ParkingBrake   Fault = "parking brake does not hold"
	SteeringLoose  Fault = "steering loose or a joint worn out"
	NoAssist       Fault = "no steering assist"
	TieRodBent     Fault = "tie rod bent, straightened"
	TyreFlat       Fault = "a tyre is flat and there is no spare"
	SpareFitted    Fault = "a spare of another size is fitted"
	CoolantLow     Fault = "coolant low or hot"
	EngineOilLow   Fault = "engine oil low"
	GearOilLow     Fault = "gear oil low or full of water"
	BrakeFluidLow  Fault = "brake fluid low"
	FuelSmell      Fault = "smell of fuel"
)

// Faults lists all of them in the order in which they are asked: what makes a rig
// unsafe to move first.
func Faults() []Fault {
	return []Fault{FuelSmell, SteeringLoose, FrontCircuit, RearCircuit, OneBrakeLine, BrakeFluidLow, ParkingBrake,
		FrontShaft, RearShaft, FrontAxleShaft, RearAxleShaft, TyreFlat, SpareFitted, NoAssist, TieRodBent, CoolantLow, EngineOilLow, GearOilLow}
}

// Facts are what the answer rests on. What is 0 is not known.
type Facts struct {
	Traits map[string]string // by trait ID, as on the rig
	First  fieldkit.System   // the system of units read first

	Weight     fieldkit.Mass   // as it stands, loaded
	FrontShare int             // of the weight on the front axle, per cent; 0 takes 55, a starting guess
	Wheelbase  fieldkit.Length // 0 leaves out how the load shifts under braking
	CGHeight   fieldkit.Length // of the centre of gravity; 0 takes 0.28 of the wheelbase, a starting guess

	Tyre, Spare fieldkit.Length // diameters
	Track       fieldkit.Length // from wheel to wheel
	SpareAxle   Axle            // where the spare is fitted
	SpareLoad   fieldkit.Mass   // what the spare carries, from its load index

	FuelLeft fieldkit.Volume
	Driven   fieldkit.Distance // on Burnt of fuel: its consumption
	Burnt    fieldkit.Volume
}

// Axle is one of the two.
type Axle string

const (
	FrontAxle Axle = "front"
	RearAxle  Axle = "rear"
)

// Damage is what is broken.
type Damage struct{ Broken []Fault }

// has reports whether one of the faults is among them.
func (d Damage) has(any ...Fault) bool {
	for _, f := range d.Broken {
		for _, a := range any {
			if f == a {
				return true
			}
		}
	}
	return false
}

// Basis says what a line rests on.
type Basis string

const (
	Computed Basis = "computed"
	Practice Basis = "common practice"
)

// Line is one thing said, with what it rests on.
type Line struct {
	Text  string
	Basis Basis
}

// Answer is the verdict with its limits. A limit of 0 is none.
type Answer struct {
	Verdict repair.Verdict
	Why     string            // of the verdict, one sentence
	Axles   string            // which axles drive: "front only", "none"
	PerHour fieldkit.Distance // speed: distance in one hour
	Within  fieldkit.Distance // how far
	Grade   int               // steepest climb and descent, per cent
	Lines   []Line            // what to do and why
	Watch   []string          // while driving
	Ask     []string          // traits that are not known and were taken at their worst
}
