package likelihood

import (
	"fmt"
	"math"

	"trailfieldkit/fieldkit"
)

// The meters that readings can be followed by: in base units of distance, in hours.
func odometerOf(r fieldkit.Inspection) int64  { return int64(r.Odometer) }
func hourMeterOf(r fieldkit.Inspection) int64 { return int64(r.EngineHours) }

func towardsLimit(measure fieldkit.Wear) float64 {
	if measure.Falling {
		return 1
	}
	return -1
}

// wearByHours follows the readings of what turns with the engine by the hour meter. ok
// is false, and the odometer stands, for other kinds, where the readings with hours make
// no line, and where nothing says how many hours the trip is.
func wearByHours(kit fieldkit.Kit, kind fieldkit.PartKind, p fieldkit.Position, prior fieldkit.Prior, h history, trip fieldkit.Trip) (w wear, ok bool) {
	if !kind.Wear.ByHours {
		return w, false
	}
	series := seriesOf(kit, *kind.Wear, p, hourMeterOf)
	sign := towardsLimit(*kind.Wear)
	var x, y []float64
	for _, r := range series {
		x, y = append(x, float64(r.EngineHours)), append(y, sign*float64(r.Value.Base))
	}
	line, fits := FitLine(x, y)
	if whyNoLine(len(series), fits, line, true) != "" {
		return w, false
	}
	ahead, detail := hoursAhead(series, prior, h, trip)
	if ahead <= 0 {
		return w, false
	}
	first, last := series[0], series[len(series)-1]
	w = wear{
		readings: len(series), hours: last.EngineHours - first.EngineHours, limit: sign * float64(kind.Wear.Limit.Base),
		at: math.Max(float64(h.rig.EngineHours), float64(last.EngineHours)) + ahead, line: line, byLine: true, detail: []string{detail},
	}
	w.say(kind, sign, "100 engine hours", 100, func(x float64) string { return fmt.Sprintf("%.0f engine hours", x) })
	return w, true
}

// hoursAhead is how many hours the engine runs on the trip: as the trip says, else by the
// rig's own hours and distance between the first and the last reading that have both, of
// the way as the trip is to it. None of that gives 0.
func hoursAhead(series []fieldkit.Inspection, prior fieldkit.Prior, h history, trip fieldkit.Trip) (hours float64, detail string) {
	if trip.EngineHours > 0 {
		return float64(trip.EngineHours), fmt.Sprintf("the engine runs %s on the trip", plural(trip.EngineHours, "hour"))
	}
	var first, last fieldkit.Inspection
	for _, r := range series {
		if r.Odometer > 0 {
			if first.Odometer == 0 {
				first = r
			}
			last = r
		}
	}
	way, ran := km(last.Odometer-first.Odometer), float64(last.EngineHours-first.EngineHours)
	if way < 1 || ran <= 0 {
		return 0, ""
	}
	hours = ran / way * usualAhead(prior, h, first, trip)
	return hours, fmt.Sprintf("the engine is taken to run %.0f hours on the trip, by %.1f hours in 100 km so far", hours, ran/way*100)
}
