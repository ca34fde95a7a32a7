package spares

import (
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// CurvePoint is what the best list saves within one limit of weight.
type CurvePoint struct {
	Limit   fieldkit.Mass // of the list
	Mass    fieldkit.Mass // that it weighs
	Typical bool          // the weight of something on it is that of its kind
	Value   Hours         // that it saves on average
	Bound   Hours         // the most that any list within the limit saves
	Proved  bool
}

// curvePoints is how many limits a curve is computed for.
const curvePoints = 10

// WeightCurve plans a trip for a row of weight limits, its other limits as they are, from
// nothing to what a list without a limit of weight weighs, and twice the trip's own limit
// at most. It ends early, with what it has, when keepGoing says no; nil never ends it.
// keep is as in Plan.
func WeightCurve(kit fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip, keep *fieldkit.Pack, keepGoing func() bool) (curve []CurvePoint) {
	m := newModel(kit, cat, guides, trip, keep, keepGoing)
	friends := m.worthOfFriends()
	at := func(limit fieldkit.Mass) CurvePoint {
		m.limits.Mass = limit
		s := m.exact(keepGoing, nil)
		return CurvePoint{limit, m.load(s.counts).mass, m.typical(s.counts).Mass, Hours(s.value - friends), Hours(s.bound - friends), s.proved}
	}
	most := at(0)
	top := most.Mass
	if own := trip.Limits.Mass; own > 0 {
		top = min(top, 2*own)
	}
	least := fieldkit.Mass(1) // a limit of 0 is none
	for i := range curvePoints {
		if keepGoing != nil && !keepGoing() {
			return curve
		}
		limit := top * fieldkit.Mass(i) / (curvePoints - 1)
		if i < curvePoints-1 {
			limit -= limit % fieldkit.Kilogram
		}
		p := at(max(limit, least))
		if n := len(curve); n > 0 && p.Value < curve[n-1].Value {
			p.Value, p.Mass, p.Typical = curve[n-1].Value, curve[n-1].Mass, curve[n-1].Typical // stopped early: the lighter list fits as well
		}
		curve = append(curve, p)
	}
	return curve
}
