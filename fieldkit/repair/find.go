package repair

import (
	"cmp"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// Group is the repairs of one system.
type Group struct {
	System string
	Guides []Guide
}

// BySystem groups the repairs by system; systems and titles are in the order of
// the alphabet.
func BySystem(guides []Guide) []Group {
	sorted := slices.Clone(guides)
	order.By(sorted, func(a, b Guide) int {
		return cmp.Or(strings.Compare(a.System, b.System), strings.Compare(a.Title, b.Title))
	})
	var groups []Group
	for _, g := range sorted {
		if n := len(groups); n == 0 || groups[n-1].System != g.System {
			groups = append(groups, Group{System: g.System})
		}
		last := &groups[len(groups)-1]
		last.Guides = append(last.Guides, g)
	}
	return groups
}

// ForPosition lists the repairs that replace what sits at a position: those written
// for such a rig first, those written for other rigs last; among them those that
// are mainly for that kind of part first.
func ForPosition(guides []Guide, kit fieldkit.Kit, position string) []Guide {
	p, ok := kit.Position(position)
	if !ok {
		return nil
	}
	rig, _ := kit.RigOf(p)
	var found []Guide
	for _, g := range guides {
		if slices.Contains(g.PartKinds, p.Kind) {
			found = append(found, g)
		}
	}
	wanted := []Answered{Holds, NotKnown, Fails}
	order.By(found, func(a, b Guide) int {
		return cmp.Or(
			slices.Index(wanted, a.Suits.On(rig))-slices.Index(wanted, b.Suits.On(rig)),
			slices.Index(a.PartKinds, p.Kind)-slices.Index(b.PartKinds, p.Kind),
			strings.Compare(a.ID, b.ID))
	})
	return found
}
