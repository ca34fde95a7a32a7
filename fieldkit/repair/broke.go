package repair

import (
	"cmp"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// Broke drafts the log entry of somebody who says only where something broke and how:
// the rest is what the kit knows (the part that is fitted there, its last reading, the
// odometer, the trip under way) and is completed later. now is in the zone the person
// is in, so that the day is theirs. A position that is not in the kit is left open.
func Broke(kit fieldkit.Kit, rig, position string, mode fieldkit.Mode, now fieldkit.Moment, id string) fieldkit.Failure {
	f := fieldkit.Failure{ID: id, Rig: rig, On: fieldkit.DateOf(now.Time), At: whole(now), Mode: mode, What: string(mode)}
	if p, ok := kit.Position(position); ok {
		if on, found := kit.RigOf(p); found {
			f.Rig = on.ID
		}
		f.Position, f.Part, f.What = p.ID, p.Part, p.Title()+": "+string(mode)
		f.Before = lastReading(kit, p)
	}
	if r, ok := kit.Rig(f.Rig); ok {
		f.Odometer = r.Odometer
	}
	if trip, ok := kit.TripOn(f.Rig, f.On); ok {
		f.Trip = trip.ID
	}
	return f
}

// lastReading is the latest reading taken at a position since its part was fitted.
func lastReading(kit fieldkit.Kit, p fieldkit.Position) (last fieldkit.Value) {
	var on fieldkit.Date
	for _, r := range kit.ReadingsAt(p.ID) {
		if !r.On.Before(p.Fitted) && !r.On.Before(on) {
			last, on = r.Value, r.On
		}
	}
	return last
}

// Suspects lists the positions of a rig, the likeliest to have broken first: those in
// the rig's log, the latest first, then by how often their kind of part fails.
func Suspects(kit fieldkit.Kit, cat fieldkit.Catalog, rig string) []fieldkit.Position {
	latest := map[string]int{} // place in the log, from 1
	for i, f := range kit.Failures.Refs() {
		if f.Position != "" {
			latest[f.Position] = i + 1
		}
	}
	often := map[string]float64{} // by kind
	for _, k := range cat.PartKinds {
		often[k.ID] = k.Per10000
	}
	list := slices.Clone(kit.PositionsOf(rig))
	order.By(list, func(a, b fieldkit.Position) int {
		if later := cmp.Compare(latest[b.ID], latest[a.ID]); later != 0 {
			return later
		}
		return cmp.Compare(often[b.Kind], often[a.Kind])
	})
	return list
}
