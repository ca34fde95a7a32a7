package likelihood

import (
	"math"

	"trailfieldkit/fieldkit"
)

// WearLine is what the readings of the part that is fitted at a position say of its
// limit, as the rig has been driven so far: an odometer's kilometre counts the same
// whatever it went over.
type WearLine struct {
	Measure  fieldkit.Wear
	Readings []fieldkit.Inspection // oldest first
	Now      fieldkit.Distance     // odometer of the rig, at least that of the last reading
	Line     Line                  // reading in base units against km, where Known
	Known    bool                  // three readings or more that go towards the limit
	Why      string                // why there is no line, where not Known
}

// WearLineShare is the probability of the intervals of a wear line.
const WearLineShare = 0.9

// WearAt reads the series at a position. ok is false for a kind that has no wear
// measure, and without a reading of it that has an odometer.
func WearAt(kit fieldkit.Kit, cat fieldkit.Catalog, p fieldkit.Position) (w WearLine, ok bool) {
	kind, _ := cat.PartKind(p.Kind)
	if kind.Wear == nil {
		return w, false
	}
	w.Measure, w.Readings = *kind.Wear, seriesOf(kit, *kind.Wear, p, odometerOf)
	if len(w.Readings) == 0 {
		return w, false
	}
	rig, _ := kit.RigOf(p)
	w.Now = max(rig.Odometer, w.Readings[len(w.Readings)-1].Odometer)
	var x, y []float64
	for _, r := range w.Readings {
		x, y = append(x, km(r.Odometer)), append(y, float64(r.Value.Base))
	}
	line, fits := FitLine(x, y)
	w.Why = whyNoLine(len(x), fits, line, w.Measure.Falling)
	if w.Why == "" {
		w.Line, w.Known = line, true
	}
	return w, true
}

// whyNoLine says why readings are not followed to the limit, nothing if they are.
func whyNoLine(readings int, fits bool, line Line, falling bool) string {
	switch {
	case !fits && readings == 1:
		return "one reading makes no line"
	case !fits:
		return "all readings are of one odometer"
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
func (w WearLine) ToLimit() (way, low, high fieldkit.Distance, endless, sure bool) {
	if !w.Known {
		return 0, 0, 0, false, false
	}
	limit := float64(w.Measure.Limit.Base)
	left := func(x float64) fieldkit.Distance {
		return max(0, fieldkit.Distance(math.Round(math.Min(x, 1e7)*float64(fieldkit.Kilometre)))-w.Now)
	}
	x, _ := w.Line.Crossing(limit)
	lo, hi, sure := w.Line.CrossingWithin(WearLineShare, limit)
	if !sure {
		return left(x), 0, 0, false, false
	}
	return left(x), left(lo), left(hi), math.IsInf(hi, 1) || hi > 1e7, true
}

// Band is what the line itself may be at an odometer, nine times in ten, in base
// units; at is the line's own reading there.
func (w WearLine) Band(at fieldkit.Distance) (low, line, high float64) {
	x := km(at)
	mean, _ := w.Line.Uncertainty(x)
	half := StudentQuantile((1+WearLineShare)/2, float64(w.Line.Freedom())) * mean
	return w.Line.At(x) - half, w.Line.At(x), w.Line.At(x) + half
}
