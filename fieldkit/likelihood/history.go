package likelihood

import (
	"slices"

	"trailfieldkit/fieldkit"
)

// history is what one rig's own log says about failures: how far it was driven and
// how often parts of each kind failed on the way.
type history struct {
	rig      fieldkit.Rig
	now      fieldkit.Distance // odometer, 0 if not known
	trips    []fieldkit.Trip   // done, with this rig
	driven   fieldkit.Distance
	road     fieldkit.Distance // driven, where no trip says how
	failures map[string]int    // by part kind
	between  map[string]int    // failures between the trips, by part kind: nobody knows of how far a way
	places   map[string]int    // positions by part kind
}

// historyOf reads a rig's log. Exposure is the distance of the trips that are
// done, each by its terrain, and the failures are those of these trips. Without a
// trip done it is the span of the odometer from the first record to now, taken as
// graded road, since most of it was the way to work; taking it for rough track
// would make the rig look better than it is. The record that opens the span is not
// counted: the span began because of it.
func historyOf(kit fieldkit.Kit, rig fieldkit.Rig) history {
	h := history{rig: rig, failures: map[string]int{}, between: map[string]int{}, places: map[string]int{}}
	for _, t := range kit.Trips {
		if t.Done && t.Distance > 0 && slices.Contains(t.Rigs, rig.ID) {
			h.trips = append(h.trips, t)
			h.driven += t.Distance
		}
	}
	positions := kit.PositionsOf(rig.ID)
	from, to := odometerSpan(kit, rig, positions)
	h.now = to
	if len(h.trips) == 0 {
		h.driven, h.road = to-from, to-from
	}
	for _, f := range kit.FailuresOn(rig.ID) {
		inSpan := len(h.trips) == 0 && f.Odometer > from && f.Odometer <= to
		kind := kindOfFailure(kit, *f)
		switch {
		case kind == "":
		case inSpan || onTrips(*f, h.trips):
			h.failures[kind]++
		case len(h.trips) > 0:
			h.between[kind]++
		}
	}
	for _, p := range positions {
		h.places[p.Kind]++
	}
	return h
}

// seen is what the rig's log covers of places of a kind, one after the other.
func (h history) seen(p fieldkit.Prior) (way roughTrackKm) {
	for _, t := range h.trips {
		way += onTrip(p, h.rig, t)
	}
	way += exposure(p, h.rig, h.road, fieldkit.GradedRoad)
	return way * roughTrackKm(max(h.places[p.ID], 1))
}

// lived is what the rig's way was to parts of a kind from a reading of the odometer,
// of a day if it is known, up to now: the trips since then by what they were, the rest
// as graded road. Trips are taken from the last back as far as the distance goes.
func (h history) lived(p fieldkit.Prior, from fieldkit.Distance, since fieldkit.Date) roughTrackKm {
	left := max(h.now-from, 0)
	var way roughTrackKm
	for _, t := range slices.Backward(inOrder(h.trips)) {
		if !since.IsZero() && t.Start.Before(since) || t.Distance > left {
			continue
		}
		way += onTrip(p, h.rig, t)
		left -= t.Distance
	}
	return way + exposure(p, h.rig, left, fieldkit.GradedRoad)
}

func inOrder(trips []fieldkit.Trip) []fieldkit.Trip {
	sorted := slices.Clone(trips)
	slices.SortStableFunc(sorted, func(a, b fieldkit.Trip) int { return a.Start.Compare(b.Start) })
	return sorted
}

// onTrips reports whether a failure belongs to one of the trips: by its trip, else
// by its date.
func onTrips(f fieldkit.Failure, trips []fieldkit.Trip) bool {
	return slices.ContainsFunc(trips, func(t fieldkit.Trip) bool { return t.Holds(f) })
}

// odometerSpan returns the first and the last odometer reading the kit holds for a
// rig; both are zero where there are not two.
func odometerSpan(kit fieldkit.Kit, rig fieldkit.Rig, positions []fieldkit.Position) (from, to fieldkit.Distance) {
	see := func(d fieldkit.Distance) {
		if d <= 0 {
			return
		}
		if from == 0 || d < from {
			from = d
		}
		to = max(to, d)
	}
	for _, p := range positions {
		see(p.FittedAt)
		for _, r := range kit.ReadingsAt(p.ID) {
			see(r.Odometer)
		}
	}
	for _, f := range kit.FailuresOn(rig.ID) {
		see(f.Odometer)
	}
	see(rig.Odometer)
	return from, to
}

func kindOfFailure(kit fieldkit.Kit, f fieldkit.Failure) string {
	if p, ok := kit.Position(f.Position); ok {
		return p.Kind
	}
	part, _ := kit.Part(f.Part)
	return part.Kind
}
