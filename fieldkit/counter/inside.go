package counter

import (
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/interchange"
)

// Shared says that two assemblies interchange at a part inside them: the hubs of two
// axles at the bearing whose designation both bear.
type Shared struct {
	Part     string // ID of the part inside this one
	At       string // where it sits here: "wheel bearing, outer, left"
	Other    string // ID of the position of the other assembly
	OtherAt  string // that position, with its rig and system
	Standard string // the designation both bear; "" if it is the very same part
	Grade    fieldkit.Grade
}

// SharedInside lists with what other assemblies of the crew's rigs the one at a
// position interchanges at a part inside it: at a part of one designation and class,
// or at the same part. What sits inside a position are the positions under it.
func SharedInside(kit fieldkit.Kit, cat fieldkit.Catalog, graph *interchange.Graph, position string) (list []Shared) {
	l := openLedger(kit, cat)
	seen := map[string]bool{}
	for _, inner := range kit.PositionsUnder(position) {
		part, known := l.kit.Part(inner.Part)
		if !known {
			continue
		}
		for _, other := range kit.Positions.Refs() {
			if other.Parent == "" || other.Parent == position || other.Part == "" {
				continue
			}
			hub, inside := l.kit.Position(other.Parent)
			key := part.ID + "\x00" + hub.ID
			if !inside || seen[key] {
				continue
			}
			s := Shared{Part: part.ID, At: inner.Title(), Other: hub.ID, OtherAt: l.rigOf(hub).Name + ", " + l.placeTitle(hub, nil), Grade: fieldkit.DropIn}
			if other.Part != part.ID {
				in, fits := graph.Between(part.ID, other.Part)
				tied := slices.IndexFunc(in.Chain, func(step interchange.Step) bool { return step.Standard == "" }) < 0
				if !fits || !tied || len(in.Contested) > 0 {
					continue
				}
				s.Standard = in.Chain[0].Standard
			}
			seen[key] = true
			list = append(list, s)
		}
	}
	return list
}
