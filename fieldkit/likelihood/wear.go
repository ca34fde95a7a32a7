package likelihood

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
)

// wear is what the readings at one place say of its limit. Readings are turned so
// that they fall towards the limit, in base units of their dimension; distances are
// in km.
type wear struct {
	readings int
	span     fieldkit.Distance // from the first reading of the series to the last
	hours    int               // likewise, where the line goes by the hour meter
	line     Line              // of three readings or more
	byLine   bool
	// Otherwise from the last reading on the kind's starting guess: how much is left,
	// and how much the trip takes on average.
	left, takes float64
	limit, at   float64 // of the line, and where on it the trip ends
	fallback    string  // why the line was not used
	detail      []string
}

// wearSpread is the shape of the gamma law of slopes about a kind's starting guess:
// 4, so that one rig in twenty wears its parts twice as fast. Starting guess.
const wearSpread = 4.0

// newPartShare is the share of what can wear away that a reading must win back to be
// taken for a new part's: readings of the same part differ by less.
const newPartShare = 0.25

// wearOf reads the series at a position. ok is false without one reading of the kind's
// wear measure with an odometer, taken since the part was fitted.
func wearOf(kit fieldkit.Kit, kind fieldkit.PartKind, p fieldkit.Position, prior fieldkit.Prior, h history, trip fieldkit.Trip) (w wear, ok bool) {
	if kind.Wear == nil {
		return w, false
	}
	if w, ok = wearByHours(kit, kind, p, prior, h, trip); ok {
		return w, true
	}
	series := seriesOf(kit, *kind.Wear, p, odometerOf)
	if len(series) == 0 {
		return w, false
	}
	sign := towardsLimit(*kind.Wear)
	var x, y []float64
	for _, r := range series {
		x, y = append(x, km(r.Odometer)), append(y, sign*float64(r.Value.Base))
	}
	first, last := series[0], series[len(series)-1]
	w = wear{readings: len(series), span: last.Odometer - first.Odometer, limit: sign * float64(kind.Wear.Limit.Base)}
	perTrip := usualAhead(prior, h, first, trip)
	w.at = math.Max(km(h.now), km(last.Odometer)) + perTrip
	line, fits := FitLine(x, y)
	if w.fallback = whyNoLine(len(series), fits, line, true); w.fallback == "" {
		w.line, w.byLine = line, true
		w.say(kind, sign, "1000 km", 1000, func(x float64) string {
			return "odometer " + fieldkit.Distance(x*float64(fieldkit.Kilometre)).Both(fieldkit.Metric)
		})
		return w, true
	}
	// How fast: the kind's guess; with two readings that wear, the mean of the two.
	perKm := float64(prior.Wear.Base) / 10_000
	slope := perKm * float64(onTrip(prior, h.rig, trip)) / math.Max(perTrip, 1e-9) // per km of the usual way
	if fits && len(series) == 2 && line.Slope < 0 {
		slope = (slope - line.Slope) / 2
	}
	w.left = y[len(y)-1] - w.limit
	w.takes = slope * (w.at - km(last.Odometer))
	w.sayGuess(kind)
	return w, w.takes > 0 || w.left <= 0
}

// seriesOf lists the readings of the part that is fitted now, oldest first: of the
// kind's measure, with that meter, taken since it was fitted, and from the last
// reading on that can only be a new part's.
func seriesOf(kit fieldkit.Kit, measure fieldkit.Wear, p fieldkit.Position, meter func(fieldkit.Inspection) int64) (series []fieldkit.Inspection) {
	for _, r := range kit.ReadingsAt(p.ID) {
		before := r.Odometer > 0 && r.Odometer < p.FittedAt || !p.Fitted.IsZero() && r.On.Before(p.Fitted)
		if meter(*r) > 0 && !before && r.Value.Dim == measure.Limit.Dim && strings.EqualFold(r.Name, measure.Name) {
			series = append(series, *r)
		}
	}
	slices.SortStableFunc(series, func(a, b fieldkit.Inspection) int {
		return cmp.Or(cmp.Compare(meter(a), meter(b)), a.On.Compare(b.On))
	})
	begins, most := 0, int64(math.MinInt64)
	for i, r := range series {
		left := r.Value.Base - measure.Limit.Base
		if !measure.Falling {
			left = -left
		}
		if i > begins {
			before := series[i-1].Value.Base - measure.Limit.Base
			if !measure.Falling {
				before = -before
			}
			// What wears away is what a new part has above its limit: the most seen.
			if whole := max(most, left); float64(left-before) > newPartShare*float64(whole) {
				begins, most = i, left
			}
		}
		most = max(most, left)
	}
	return series[begins:]
}

// usualAhead is the trip as so many km of the way the readings were taken on: rock
// wears more than the road that most of the odometer is. The factor is held between
// a half and five.
func usualAhead(prior fieldkit.Prior, h history, first fieldkit.Inspection, trip fieldkit.Trip) float64 {
	way := km(h.now - first.Odometer)
	from, since := first.Odometer, first.On
	if way < 1 { // nothing driven since: all that is known of the rig
		if way = km(h.driven); way < 1 {
			return km(trip.Distance)
		}
		from, since = h.now-h.driven, fieldkit.Date{}
	}
	usual := float64(h.lived(prior, from, since)) / way
	if usual <= 0 || km(trip.Distance) == 0 {
		return km(trip.Distance)
	}
	factor := float64(onTrip(prior, h.rig, trip)) / km(trip.Distance) / usual
	return km(trip.Distance) * math.Min(math.Max(factor, 0.5), 5)
}

// past is the probability that the limit is reached by the trip's end: by Student's t
// from the line, else from the gamma law of slopes.
func (w wear) past() float64 {
	if w.byLine {
		p, _ := w.line.AtOrBelow(w.limit, w.at)
		return p
	}
	return w.pastWith(1)
}

// pastWith is that probability if the kind wore its parts by such a factor.
func (w wear) pastWith(factor float64) float64 {
	switch {
	case w.left <= 0:
		return 1
	case w.takes <= 0:
		return 0
	}
	return 1 - Rate{wearSpread, wearSpread}.AtMost(w.left/(w.takes*factor))
}

// pastAt is that probability if what is not known turned out at quantile u, 0 < u < 1:
// where the line itself lies and how far readings scatter about it; without a line the
// kind's guess from half to twice as much.
func (w wear) pastAt(u float64) float64 {
	if !w.byLine {
		return w.pastWith(math.Exp2(2*u - 1))
	}
	return w.line.belowAt(u, w.limit, w.at)
}

// say puts the line in words: how fast, in so much of the meter it goes by, where it is
// at the trip's end, where the limit is met.
func (w *wear) say(kind fieldkit.PartKind, sign float64, per string, each float64, meter func(x float64) string) {
	show := func(base float64) string {
		return fieldkit.Value{Dim: kind.Wear.Limit.Dim, Base: int64(math.Round(base))}.Show(fieldkit.Metric)
	}
	w.detail = append(w.detail, fmt.Sprintf("%s moves %s in %s, by the line of %d readings", kind.Wear.Name, show(math.Abs(w.line.Slope)*each), per, w.readings))
	low, high, _ := w.line.Within(0.9, w.at)
	if sign < 0 {
		low, high = -high, -low
	}
	w.detail = append(w.detail, fmt.Sprintf("at the trip's end %s, 9 times in 10 between %s and %s; the limit is %s",
		show(sign*w.line.At(w.at)), show(low), show(high), show(sign*w.limit)))
	if x, ok := w.line.Crossing(w.limit); ok && x > 0 {
		w.detail = append(w.detail, "the line meets the limit at "+meter(x))
	}
}

func (w *wear) sayGuess(kind fieldkit.PartKind) {
	show := func(base float64) string {
		return fieldkit.Value{Dim: kind.Wear.Limit.Dim, Base: int64(math.Round(base))}.Show(fieldkit.Metric)
	}
	if w.left <= 0 {
		w.detail = append(w.detail, fmt.Sprintf("the last %s is at its limit, or past it", kind.Wear.Name))
		return
	}
	w.detail = append(w.detail, fmt.Sprintf("%s: it is taken to move %s until the trip's end, and %s are left; a starting guess", w.fallback, show(w.takes), show(w.left)))
}
