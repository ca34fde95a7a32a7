package fastener

import (
	"fmt"
	"math"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// UsualPercent is the share of the proof load to which a bolt that is to be taken out
// again is usually tightened (SAE J429 and ISO 898-1 torque tables; Shigley,
// Mechanical Engineering Design, from memory).
const UsualPercent = 75

// Limits of the share of the proof load.
const (
	LeastPercent = 10
	MostPercent  = 100
)

// metre is a length of one metre.
const metre = 1000 * fieldkit.Millimetre

// Ask is a bolt and how it is tightened.
type Ask struct {
	Bolt     standards.Bolt
	Friction Friction
	// Percent of the proof load that is wanted as preload, 10 to 100; 0 is
	// UsualPercent.
	Percent float64
}

// Answer is how tight.
type Answer struct {
	Torque fieldkit.Torque
	// Low and High are the torques that give the same preload if the friction is at
	// the lower or upper end of its range.
	Low, High fieldkit.Torque
	PreloadN  float64 // newtons
	K         float64 // no unit
	AreaMM2   float64 // stress area, mm²
	ProofMPa  float64
	// Stretches says that Torque takes the bolt beyond its proof load if the friction
	// is at the lower end of its range: stay lower, or find the maker's figure.
	Stretches bool
	Sources   []string
}

// Tighten computes T = K·D·F with F = percent × proof strength × stress area. The
// stress area is the table's, or where no table holds the thread that of ASME B1.1
// or ISO 898-1. Errors of kind BadInput: a share of the proof load out of range, an
// inch bolt smaller than SAE J429 grades.
func Tighten(a Ask) (Answer, error) {
	percent := a.Percent
	if percent == 0 {
		percent = UsualPercent
	}
	if !(percent >= LeastPercent && percent <= MostPercent) {
		return Answer{}, &fieldkit.Error{Kind: fieldkit.BadInput, Where: "share of the proof load",
			What: fmt.Sprintf("%g %% is out of range", percent), Do: fmt.Sprintf("give one from %d to %d; %d is usual", LeastPercent, MostPercent, UsualPercent)}
	}
	t := threadOf(a.Bolt.Thread)
	if t.inch && t.nominal < fieldkit.Inches/4 {
		return Answer{}, &fieldkit.Error{Kind: fieldkit.BadInput, Where: a.Bolt.Thread.String(),
			What: "SAE J429 has no grades below 1/4 in", Do: "tighten small screws by feel, or by the maker's figure"}
	}
	proof := a.Bolt.Grade.ProofMPa * t.areaMM2 // N/mm² × mm²
	preload := percent / 100 * proof
	at := func(k float64) fieldkit.Torque {
		metres := float64(t.nominal) / float64(metre)
		return fieldkit.Torque(math.Round(k * metres * preload * float64(fieldkit.NewtonMetre)))
	}
	f := a.Friction
	return Answer{
		Torque: at(f.K), Low: at(f.Low), High: at(f.High), PreloadN: preload, K: f.K,
		AreaMM2: t.areaMM2, ProofMPa: a.Bolt.Grade.ProofMPa,
		Stretches: preload*f.K/f.Low > proof,
		Sources:   []string{"T = K·D·F, F = " + fmt.Sprintf("%g", percent) + " % of proof strength × stress area (common practice)", t.source, a.Bolt.Source(), f.Source},
	}, nil
}

// thread is what a torque needs of a thread.
type thread struct {
	nominal, pitch fieldkit.Length
	areaMM2        float64
	inch           bool
	source         string
}

// threadOf takes the figures out of the two kinds of thread a bolt may have.
func threadOf(d standards.Designation) thread {
	switch t := d.(type) {
	case standards.InchThread:
		return thread{t.Nominal, t.Pitch(), t.AreaMM2, true, t.Source()}.orByRule(0.9743, "ASME B1.1")
	case standards.MetricThread:
		return thread{t.Nominal, t.Pitch, t.AreaMM2, false, t.Source()}.orByRule(0.9382, "ISO 898-1")
	}
	panic("fastener: a bolt with a thread that is neither unified nor metric") // standards.Bolt has no other
}

// orByRule fills in the stress area where no table gives it: π/4·(d − c·P)², with
// c = 0.9743 in ASME B1.1 and 0.9382 in ISO 898-1.
func (t thread) orByRule(c float64, standard string) thread {
	if t.areaMM2 == 0 {
		mm := func(q fieldkit.Length) float64 { return float64(q) / float64(fieldkit.Millimetre) }
		core := mm(t.nominal) - c*mm(t.pitch)
		t.areaMM2 = math.Pi / 4 * core * core
		t.source = "stress area by the formula of " + standard
	}
	return t
}
