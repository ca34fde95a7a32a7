package kitfile

import (
	"fmt"
	"maps"
	"slices"

	"trailfieldkit/fieldkit"
)

// CheckAgainst lists what a kit says that the catalog does not know: kinds of
// part, tool, consumable and store, traits and their options, and readings that
// are not of the dimension their part kind measures. A kit with such problems
// still loads: its kinds may be of a later catalog.
func CheckAgainst(k fieldkit.Kit, cat fieldkit.Catalog) []Problem {
	c := newChecker(&k, &faults{})
	root := (*trail)(nil)
	parts := namesOf(cat.PartKinds, func(p fieldkit.PartKind) string { return p.ID })
	tools := namesOf(cat.ToolKinds, func(t fieldkit.ToolKind) string { return t.ID })
	consumables := namesOf(cat.Consumables, func(t fieldkit.ConsumableKind) string { return t.ID })
	stores := namesOf(cat.Stores, func(s fieldkit.StoreKind) string { return s.ID })
	for i, rig := range k.Rigs {
		c.traits(rig, cat, root.field("rigs").entry(i).field("traits"))
	}
	for i, p := range k.Positions.All() {
		c.known("part kind", p.Kind, parts, root.field("positions").entry(i).field("kind"))
	}
	for i, p := range k.Parts.All() {
		at := root.field("parts").entry(i)
		c.known("part kind", p.Kind, parts, at.field("kind"))
		kind, _ := cat.PartKind(p.Kind)
		for j, m := range p.Measurements {
			for _, a := range kind.Deciding {
				if a.Name == m.Name {
					c.dimension(m.Value, a.Dim, at.field("measurements").entry(j).field("value"))
				}
			}
		}
	}
	for i, t := range k.Tools {
		c.known("tool kind", t.Kind, tools, root.field("tools").entry(i).field("kind"))
	}
	for i, m := range k.Consumables {
		c.known("kind of consumable", m.Kind, consumables, root.field("consumables").entry(i).field("kind"))
	}
	for i, t := range k.Trips {
		for j, town := range t.Towns {
			for n, s := range town.Stores {
				c.known("kind of store", s, stores, root.field("trips").entry(i).field("towns").entry(j).field("stores").entry(n))
			}
		}
	}
	for i, v := range k.Visits {
		at := root.field("visits").entry(i)
		c.known("part kind", v.Kind, parts, at.field("kind"))
		c.known("kind of store", v.Store, stores, at.field("store"))
	}
	c.wear(cat)
	return inKit(k, c.found)
}

func namesOf[T any](list []T, id func(T) string) []string {
	names := make([]string, len(list))
	for i, one := range list {
		names[i] = id(one)
	}
	return names
}

func (c *checker) known(noun, id string, names []string, at *trail) {
	if slices.Contains(names, id) {
		return
	}
	do := "choose one of the catalog"
	if near := nearest(id, names); near != "" {
		do = fmt.Sprintf("did you mean %q?", near)
	}
	c.note(at, fmt.Sprintf("the catalog has no %s %s", noun, quoted(id)), do)
}

func (c *checker) traits(rig fieldkit.Rig, cat fieldkit.Catalog, at *trail) {
	ids := namesOf(cat.Traits, func(t fieldkit.Trait) string { return t.ID })
	for _, id := range slices.Sorted(maps.Keys(rig.Traits)) {
		option := rig.Traits[id]
		c.known("trait", id, ids, at.field(id))
		if t, ok := cat.Trait(id); ok && !slices.Contains(t.Options, option) {
			c.note(at.field(id), fmt.Sprintf("%s is not an answer to %s", quoted(option), quoted(t.Ask)), "write "+listed(t.Options))
		}
	}
}

// dimension notes a reading that measures something else than it should: most
// often a figure without its unit.
func (c *checker) dimension(v fieldkit.Value, dim fieldkit.Dimension, at *trail) {
	if v.Dim == dim || dim == "" || v.IsZero() || dim == fieldkit.DimText {
		return
	}
	_, err := fieldkit.ParseValueAs(v.String(), dim, "")
	what, do := refusal(err)
	if what == "" {
		what = fmt.Sprintf("%s is a %s, not a %s", quoted(v.String()), v.Dim, dim)
	}
	c.note(at, what, do)
}

// wear notes inspections whose reading is not of the dimension of the wear limit.
func (c *checker) wear(cat fieldkit.Catalog) {
	positions := c.idsOf("positions")
	for i, in := range c.kit.Inspections.All() {
		p, ok := positions[in.Position]
		if !ok {
			continue
		}
		kind, _ := cat.PartKind(c.kit.Positions.At(p).Kind)
		if kind.Wear != nil && kind.Wear.Name == in.Name {
			c.dimension(in.Value, kind.Wear.Limit.Dim, (*trail)(nil).field("inspections").entry(i).field("value"))
		}
	}
}
