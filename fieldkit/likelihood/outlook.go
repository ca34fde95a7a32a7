package likelihood

import (
	"fmt"
	"math"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/driveline"
)

// Source says what a likelihood rests on.
type Source string

const (
	StartingGuess Source = "starting guess" // the part kind's figures, not measured
	OwnFigure     Source = "own figure"     // the kit's figures for the kind, set by hand
	OwnLog        Source = "own log"        // corrected by what the crew's log says
	ByAge         Source = "age"            // how far the part has come
	ByWear        Source = "wear readings"  // how far it is from its limit
)

// Likelihood says how likely a position is to fail on a trip, and how that is
// known.
type Likelihood struct {
	Expected    float64    // failures expected over the trip, no unit
	Probability float64    // that there is at least one: 1 − exp(−Expected), but for wear, which comes once
	Interval    [2]float64 // Probability, 9 times in 10 between these: how sure it is
	Again       float64    // that there are two or more
	Source      Source
	// LogWeight is how much of the rate rests on the own log, 0 to 1: the rest is
	// still a guess.
	LogWeight float64
	Failures  int               // of this part kind on the crew's rigs, in the log
	Places    int               // positions of this part kind on the rigs that the log covers
	Driven    fieldkit.Distance // that the log covers
	Readings  int               // of wear, of the part that is fitted now
	Evidence  string            // what it rests on, in a few words to show beside the figure
	Detail    []string          // how it was reckoned, a sentence each
	Due       bool              // by its readings more likely than not at its limit by the trip's end: change it before leaving

	rate   Rate    // what is known of the factor by which the kind fails here
	base   float64 // failures expected where that factor is 1
	wear   wear
	sudden float64 // share of base that wear does not announce; 1 without wear readings
	own    bool    // the kind's figures are this kit's own
}

// MaxExpected bounds the failures expected at one position: a rig that breaks the
// same part more often does not move.
const MaxExpected = 20.0

// priorShape is how many failures a starting guess is worth: one is common practice
// for a judgement nobody has measured.
const priorShape = 1.0

// leastLogWeight is the share of a figure below which a log without a failure is not
// worth naming.
const leastLogWeight = 0.05

// The ends of the interval shown.
const (
	lowEnd  = 0.05
	highEnd = 0.95
)

// Outlook holds what the likelihoods of one rig's positions have in common.
type Outlook struct {
	kit  fieldkit.Kit
	cat  fieldkit.Catalog
	trip fieldkit.Trip
	Rig  fieldkit.Rig
	crew []history // of all rigs of the kit
	own  history
	line driveline.Report   // none where the rig says nothing of its driveline
	logs map[string]kindLog // by part kind, as far as asked
}

// kindLog is what all rigs' logs say of a part kind.
type kindLog struct {
	expected float64 // failures that the kind's figures had let expect
	failures int
	places   int
	driven   fieldkit.Distance
	between  int // failures between the trips, not among these
}

// Look prepares the outlook of a rig on a trip.
func Look(kit fieldkit.Kit, cat fieldkit.Catalog, trip fieldkit.Trip, rig fieldkit.Rig) *Outlook {
	o := &Outlook{kit: kit, cat: cat, trip: trip, Rig: rig, logs: map[string]kindLog{}}
	if rig.Driveline != nil {
		o.line = driveline.Check(kit, rig)
	}
	for _, r := range kit.Rigs {
		h := historyOf(kit, r)
		o.crew = append(o.crew, h)
		if r.ID == rig.ID {
			o.own = h
		}
	}
	return o
}

// Of says how likely a position of the rig is to fail on the trip.
//
// Special cases: a kind that is not in the catalog or has no rate, and a trip without
// distance give the zero Likelihood.
func (o *Outlook) Of(position fieldkit.Position) Likelihood {
	kind, known := o.cat.PartKind(position.Kind)
	prior, own, rated := priorOf(o.kit, kind)
	each := perKm(prior, kind, rated)
	ahead := float64(onTrip(prior, o.Rig, o.trip))
	if !known || each == 0 || ahead <= 0 {
		return Likelihood{}
	}
	log := o.logOf(prior, each)
	l := Likelihood{
		Source: StartingGuess, Failures: log.failures, Places: log.places, Driven: log.driven,
		LogWeight: log.expected / (priorShape + log.expected),
		rate:      Rate{priorShape, priorShape}.Seen(float64(log.failures), log.expected),
		base:      each * ahead, sudden: 1,
	}
	if l.own = own; own {
		l.Source = OwnFigure
	}
	guess := string(l.Source)
	if l.Failures > 0 || l.LogWeight >= leastLogWeight {
		l.Source = OwnLog
	}
	l.Detail = append(l.Detail, fmt.Sprintf("the trip is as hard on it as %.0f km of rough track", ahead))
	logged := l.logWords(guess)
	l.Evidence = logged
	if age, ok := o.ageOf(position, prior); ok {
		law := Weibull{hundredths(prior.Shape), km(prior.Life)}
		l.base = law.Ahead(age, ahead)
		l.Source = ByAge
		l.Evidence = "age: " + distance(age) + " since it was fitted; " + logged
		l.Detail = append(l.Detail, fmt.Sprintf("it has come as far as %.0f km of rough track; 63 in 100 fail by %.0f km, shape %.1f", age, law.Life, law.Shape))
	}
	if link, ok := o.line.At(position.ID); ok && link.Factor > 0 {
		// The margin holds the tyres' part already.
		harder := link.Factor / tyreFactor(prior, o.Rig)
		l.base *= harder
		l.Detail = append(l.Detail, fmt.Sprintf("its strength is %.2f times the torque that can reach it: it fails %.1f times as often as on this rig's tyres alone", link.Margin, harder))
	}
	if w, ok := wearOf(o.kit, kind, position, prior, o.own, o.trip); ok {
		rest := l.Source
		l.wear, l.sudden = w, hundredths(prior.Sudden)
		l.Source, l.Readings = ByWear, w.readings
		l.Evidence = "wear readings: " + plural(w.readings, "reading")
		switch {
		case w.hours > 0:
			l.Evidence += " in " + plural(w.hours, "engine hour")
		case w.span > 0:
			l.Evidence += " in " + w.span.Both(fieldkit.Metric)
		}
		if !w.byLine {
			l.Evidence += "; " + guess
		}
		l.Detail = append(l.Detail, w.detail...)
		if l.sudden > 0 {
			l.Detail = append(l.Detail, fmt.Sprintf("%d in 100 failures come without wear: added by what its %s says", prior.Sudden, map[bool]string{true: "age", false: "rate"}[rest == ByAge]))
		}
	}
	if l.Failures > 0 || l.LogWeight >= leastLogWeight {
		l.Detail = append(l.Detail, fmt.Sprintf("%s on the crew's rigs where %.1f were to be expected: %.2f times as often", plural(l.Failures, "failure"), log.expected, l.rate.Mean()))
	}
	if log.between > 0 {
		l.Detail = append(l.Detail, plural(log.between, "failure")+" in the log on no trip that is done: not counted, since it is not known how far was driven for it")
	}
	l.settle()
	return l
}

// settle works the figures out of what is known.
func (l *Likelihood) settle() {
	worn := 0.0
	if l.Readings > 0 {
		worn = l.wear.past()
	}
	l.Expected, l.Probability = l.figures(l.rate.Mean(), worn)
	_, l.Interval[0] = l.figures(l.rate.Quantile(lowEnd), l.wear.quantile(lowEnd))
	_, l.Interval[1] = l.figures(l.rate.Quantile(highEnd), l.wear.quantile(highEnd))
	// A mean may lie outside the middle of a very skew law.
	l.Interval[0], l.Interval[1] = math.Min(l.Interval[0], l.Probability), math.Max(l.Interval[1], l.Probability)
	sudden := l.base * l.sudden
	none, once := l.rate.Count(0, sudden), l.rate.Count(1, sudden)
	// Neither none nor one of either; where failures are cut off at MaxExpected, no surer than one.
	l.Again = math.Min(math.Max(0, 1-(1-worn)*(none+once)-worn*none), l.Probability)
	l.Due = l.Readings > 0 && worn >= 0.5
}

// figures are the failures expected and the probability of one, for a factor on the
// kind's figures and a probability of wearing out.
func (l Likelihood) figures(factor, worn float64) (expected, probability float64) {
	sudden := math.Min(l.base*l.sudden*factor, MaxExpected)
	probability = -math.Expm1(-sudden + math.Log1p(-worn))
	expected = math.Min(sudden+worn, MaxExpected) // one part wears out but once
	return expected, probability
}

// Factor is by how much parts of the kind fail more often than its figures say, at
// quantile u of what is known of that, above 0 and below 1. All positions of a kind
// share it. The zero Likelihood gives 0.
func (l Likelihood) Factor(u float64) float64 {
	if l.base == 0 {
		return 0
	}
	return l.rate.Quantile(u)
}

// Drawn is the failures expected for such a factor, and with wear at quantile worn of
// what is known of it: to show how sure what follows from the likelihoods is.
func (l Likelihood) Drawn(factor, worn float64) float64 {
	if l.base == 0 {
		return 0
	}
	expected, _ := l.figures(factor, l.wear.quantile(worn))
	return expected
}

// Guessed reports a figure most of which nobody has measured: of wear it is measured
// where the readings make a line, of what comes without wear where the log outweighs the
// kind's figures. Figures a person gave are no guess of ours.
func (l Likelihood) Guessed() bool {
	switch {
	case l.own:
		return false
	case l.Readings > 0 && 2*l.wear.past() >= l.Probability:
		return !l.wear.byLine
	}
	return l.LogWeight < 0.5
}

// quantile is the probability of wearing out at that quantile, 0 without readings.
func (w wear) quantile(u float64) float64 {
	if w.readings == 0 {
		return 0
	}
	return w.pastAt(u)
}

// logOf adds up what the logs of all rigs say of a kind.
func (o *Outlook) logOf(prior fieldkit.Prior, each float64) kindLog {
	if log, ok := o.logs[prior.ID]; ok {
		return log
	}
	var log kindLog
	for _, h := range o.crew {
		way := float64(h.seen(prior))
		log.between += h.between[prior.ID]
		if h.places[prior.ID] == 0 || way == 0 {
			continue
		}
		log.expected += each * way
		log.failures += h.failures[prior.ID]
		log.places += h.places[prior.ID]
		log.driven += h.driven
	}
	o.logs[prior.ID] = log
	return log
}

// ageOf is how far the part at a position has come, in km of rough track. ok is false
// if its kind has no law of lives or it is not known when it was fitted.
func (o *Outlook) ageOf(p fieldkit.Position, prior fieldkit.Prior) (age float64, ok bool) {
	if prior.Shape <= 0 || prior.Life <= 0 || p.FittedAt <= 0 || o.own.now < p.FittedAt {
		return 0, false
	}
	return float64(o.own.lived(prior, p.FittedAt, p.Fitted)), true
}

// logWords puts what the log says in words. As long as it carries less than half of
// the figure they say that the rest is a guess.
func (l Likelihood) logWords(guess string) string {
	if l.Source != OwnLog {
		return guess
	}
	count := "no failure"
	if l.Failures > 0 {
		count = plural(l.Failures, "failure")
	}
	if l.Places > 1 {
		count += fmt.Sprintf(" at %d places", l.Places)
	}
	log := "your log: " + count + " in " + l.Driven.Both(fieldkit.Metric)
	if l.LogWeight < 0.5 {
		return guess + ", corrected by " + log
	}
	return "from " + log
}

func plural(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}

// distance prints km of rough track, which are no odometer's.
func distance(km float64) string { return fmt.Sprintf("%.0f km", km) }
