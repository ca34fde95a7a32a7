package spares

import (
	"fmt"
	"math"

	"trailfieldkit/fieldkit"
)

// Source says what a likelihood rests on.
type Source string

const (
	StartingGuess Source = "starting guess" // the part kind's rate, not measured
	OwnLog        Source = "own log"        // corrected by what the rig's own log says
)

// Likelihood says how likely a position is to fail on a trip, and how that is
// known.
type Likelihood struct {
	Expected    float64 // failures expected over the trip, no unit
	Probability float64 // that there is at least one: 1 − exp(−Expected)
	Source      Source
	// LogWeight is how much of the figure rests on the own log, 0 to 1: the rest is
	// still the starting guess.
	LogWeight float64
	Failures  int               // of this part kind on this rig, in the log
	Places    int               // positions of this part kind on this rig
	Driven    fieldkit.Distance // that the log covers
	Evidence  string            // the same in words, to show beside the figure
}

// MaxExpected bounds the failures expected at one position: a rig that breaks the
// same part more often does not move.
const MaxExpected = 20.0

// LikelihoodOf says how likely a position is to fail on a trip. The part kind's
// rate per 10 000 km of rough track is corrected by the rig's own log (see
// historyOf for which distance counts), then applied to the trip's distance,
// weighed by its terrain, and for the parts that carry the wheels' load by the tyre
// oversize.
//
// The correction is Gamma–Poisson. The kind's rate r is taken for as good as one
// failure seen (priorShape): a gamma prior of shape a = 1 and rate b = 1/r. With n
// failures at m like places in a weighed distance T the rate becomes
// (a + n)/(b + m·T), of which m·T/(b + m·T) rests on the log.
//
// Special cases: a kind that is not in the catalog or has no rate, a position on no
// rig, and a trip without distance give the zero Likelihood.
// Source: conjugate update, NIST/SEMATECH e-Handbook 8.4.6; one failure's worth of
// prior is common practice for a judgement nobody has measured.
func LikelihoodOf(kit fieldkit.Kit, cat fieldkit.Catalog, trip fieldkit.Trip, position fieldkit.Position) Likelihood {
	rig, ok := kit.RigOf(position)
	if !ok {
		return Likelihood{}
	}
	return newForecast(kit, cat, trip, rig).of(position)
}

// forecast holds what the likelihoods of one rig's positions have in common.
type forecast struct {
	cat     fieldkit.Catalog
	rig     fieldkit.Rig
	ahead   roughTrackKm // of the trip
	history history
	places  map[string]int // positions by part kind
}

func newForecast(kit fieldkit.Kit, cat fieldkit.Catalog, trip fieldkit.Trip, rig fieldkit.Rig) forecast {
	f := forecast{
		cat: cat, rig: rig, places: map[string]int{},
		ahead:   weigh(trip.Distance, trip.Terrain),
		history: historyOf(kit, rig.ID),
	}
	for _, p := range kit.PositionsOf(rig.ID) {
		f.places[p.Kind]++
	}
	return f
}

func (f forecast) of(position fieldkit.Position) Likelihood {
	kind, ok := f.cat.PartKind(position.Kind)
	if !ok || !(kind.Per10000 > 0) || math.IsInf(kind.Per10000, 0) || f.ahead <= 0 {
		return Likelihood{}
	}
	load := oversizeFactor(kind.System, f.rig.Oversize)
	places := max(f.places[kind.ID], 1)
	prior := priorShape / (kind.Per10000 / 10_000)
	seen := float64(f.history.weighed) * load * float64(places)
	l := Likelihood{
		Source:    StartingGuess,
		LogWeight: seen / (prior + seen),
		Places:    places,
		Driven:    f.history.driven,
	}
	if seen > 0 {
		l.Failures = f.history.failures[kind.ID]
	}
	if l.Failures > 0 || l.LogWeight >= leastLogWeight {
		l.Source = OwnLog
	}
	l.Expected = min(updatedRate(priorShape, prior, l.Failures, seen)*float64(f.ahead)*load, MaxExpected)
	l.Probability = -math.Expm1(-l.Expected)
	l.Evidence = l.evidence()
	return l
}

// leastLogWeight is the share of a figure below which a log without a failure is not
// worth naming.
const leastLogWeight = 0.05

// priorShape is how many failures a starting guess is worth.
const priorShape = 1.0

// updatedRate is the mean of a gamma(shape, exposure) prior updated by that many
// failures in a further exposure.
func updatedRate(shape, exposure float64, failures int, seen float64) float64 {
	return (shape + float64(failures)) / (exposure + seen)
}

// evidence puts the source in words. As long as the log carries less than half of
// the figure it says that the rest is a guess.
func (l Likelihood) evidence() string {
	if l.Source == StartingGuess {
		return string(StartingGuess)
	}
	count := fmt.Sprintf("%d failures", l.Failures)
	switch l.Failures {
	case 0:
		count = "no failure"
	case 1:
		count = "1 failure"
	}
	if l.Places > 1 {
		count += fmt.Sprintf(" at %d places", l.Places)
	}
	log := "your log: " + count + " in " + l.Driven.Both(fieldkit.Metric)
	if l.LogWeight < 0.5 {
		return "starting guess, corrected by " + log
	}
	return "from " + log
}

// wheelLoaded names the systems, as in the catalog's part kinds, whose parts carry
// the wheels' load or torque, so that a larger tyre shortens their life.
var wheelLoaded = map[string]bool{
	"steering": true, "front axle": true, "rear axle": true, "wheel ends": true,
	"driveline": true, "brakes": true, "suspension": true, "wheels and tyres": true,
}

// loadLifeExponent is the power at which life falls with load: 3 for ball bearings
// (ISO 281), taken for joints, shafts and rods as well. Starting guess for those.
const loadLifeExponent = 3

// oversizeFactor says how much faster parts of a system fail on tyres that many per
// cent over the size the axles were built for. Torque, side load and lever arm grow
// with the tyre's radius, and life falls with the third power of load. Undersize
// and absurd entries count as the nearest of 0 and 100 per cent.
func oversizeFactor(system string, percent int) float64 {
	if !wheelLoaded[system] {
		return 1
	}
	return math.Pow(1+float64(min(max(percent, 0), 100))/100, loadLifeExponent)
}
