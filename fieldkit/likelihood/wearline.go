package likelihood

import (
	"math"

	"trailfieldkit/fieldkit"
)

// Run is how far a meter has run: km of the odometer, or hours of the engine where the
// line goes by the hour meter.
type Run float64

// WearLine is what the readings of the part that is fitted at a position say of its
// limit, as the rig has been driven so far: an odometer's kilometre counts the same
// whatever it went over, an hour of the engine whatever it pulled.
type WearLine struct {
	Measure  fieldkit.Wear
	Readings []fieldkit.Inspection // oldest first
	ByHours  bool                  // over the hours of the engine, not over distance
	Now      Run                   // meter of the rig, at least that of the last reading
	Line     Line                  // reading in base units against the meter, where Known
	Known    bool                  // three readings or more that go towards the limit
	Why      string                // why there is no line, where not Known
}

// WearLineShare is the probability of the intervals of a wear line.
const WearLineShare = 0.9

// WearAt reads the series at a position: of what turns with the engine by the hour meter,
// if that makes a line or no reading has an odometer, else by the odometer. ok is false
// for a kind that has no wear measure, and without a reading of it that has a meter.
func WearAt(kit fieldkit.Kit, cat fieldkit.Catalog, p fieldkit.Position) (w WearLine, ok bool) {
	kind, _ := cat.PartKind(p.Kind)
	if kind.Wear == nil {
		return w, false
	}
	rig, _ := kit.RigOf(p)
	w = wearLineOf(WearLine{Measure: *kind.Wear, Readings: seriesOf(kit, *kind.Wear, p, odometerOf), Now: Run(km(rig.Odometer))})
	if kind.Wear.ByHours {
		hours := wearLineOf(WearLine{Measure: *kind.Wear, Readings: seriesOf(kit, *kind.Wear, p, hourMeterOf), Now: Run(rig.EngineHours), ByHours: true})
		if hours.Known || len(w.Readings) == 0 {
			w = hours
		}
	}
	return w, len(w.Readings) > 0
}

// wearLineOf puts the line through the readings of a series, if they make one.
func wearLineOf(w WearLine) WearLine {
	var x, y []float64
	for _, r := range w.Readings {
		w.Now = max(w.Now, w.RunAt(r))
		x, y = append(x, float64(w.RunAt(r))), append(y, float64(r.Value.Base))
	}
	line, fits := FitLine(x, y)
	if w.Why = whyNoLine(len(x), fits, line, w.Measure.Falling); w.Why == "" {
		w.Line, w.Known = line, true
	}
	return w
}

// RunAt is the meter at a reading.
func (w WearLine) RunAt(r fieldkit.Inspection) Run {
	if w.ByHours {
		return Run(r.EngineHours)
	}
	return Run(km(r.Odometer))
}

// Distance is a run of the odometer, of a line that goes by it.
func (r Run) Distance() fieldkit.Distance {
	return fieldkit.Distance(math.Round(float64(r) * float64(fieldkit.Kilometre)))
}

// whyNoLine says why readings are not followed to the limit, nothing if they are.
func whyNoLine(readings int, fits bool, line Line, falling bool) string {
	switch {
	case !fits && readings == 1:
		return "one reading makes no line"
	case !fits:
		return "the meter was the same at all readings"
	case readings == 2:
		return "two readings make a line and say nothing of how sure it is"
	case falling == (line.Slope >= 0) || line.Slope == 0:
		return "the readings do not go towards the limit"
	}
	return ""
}

// AtLimit reports a last reading at the limit or past it.
func (w WearLine) AtLimit() bool {
	last, limit := w.Readings[len(w.Readings)-1].Value.Base, w.Measure.Limit.Base
	return w.Measure.Falling && last <= limit || !w.Measure.Falling && last >= limit
}

// ToLimit is the way from Now until the line meets the limit, nine times in ten
// between low and high; none is below nothing. endless reports that the readings give
// no upper end, sure that they give an interval at all. All are nothing where the line
// is not Known.
func (w WearLine) ToLimit() (way, low, high Run, endless, sure bool) {
	if !w.Known {
		return 0, 0, 0, false, false
	}
	limit := float64(w.Measure.Limit.Base)
	left := func(x float64) Run { return max(0, Run(math.Min(x, 1e7))-w.Now) }
	x, _ := w.Line.Crossing(limit)
	lo, hi, sure := w.Line.CrossingWithin(WearLineShare, limit)
	if !sure {
		return left(x), 0, 0, false, false
	}
	return left(x), left(lo), left(hi), math.IsInf(hi, 1) || hi > 1e7, true
}

// Band is what the line itself may be at a meter reading, nine times in ten, in base
// units; at is the line's own reading there.
func (w WearLine) Band(at Run) (low, line, high float64) {
	x := float64(at)
	mean, _ := w.Line.Uncertainty(x)
	half := StudentQuantile((1+WearLineShare)/2, float64(w.Line.Freedom())) * mean
	return w.Line.At(x) - half, w.Line.At(x), w.Line.At(x) + half
}
