package kitfile

import (
	"fmt"
	"reflect"
	"sync"

	"trailfieldkit/fieldkit"
)

// follow is called with each reference of a record: where it stands, the
// collection it leads to and the ID it names.
type follow func(at *trail, collection, id string)

// references visits the references that are given of the record r points to.
func references(r fieldkit.Record, at *trail, visit follow) {
	to := func(field, collection, id string) {
		if id != "" {
			visit(at.field(field), collection, id)
		}
	}
	switch r := r.(type) {
	case *fieldkit.Assembly:
		to("rig", "rigs", r.Rig)
	case *fieldkit.Position:
		to("system", "systems", r.System)
		to("parent", "positions", r.Parent)
		to("part", "parts", r.Part)
	case *fieldkit.Part:
		to("donor", "donors", r.Donor)
		for i, alike := range r.LookAlikes {
			if alike.Part != "" {
				visit(at.field("lookAlikes").entry(i).field("part"), "parts", alike.Part)
			}
		}
	case *fieldkit.Link:
		to("for", "parts", r.For)
		to("with", "parts", r.With)
	case *fieldkit.Bin:
		to("rig", "rigs", r.Rig)
	case *fieldkit.Spare:
		to("part", "parts", r.Part)
		to("bin", "bins", r.Bin)
	case *fieldkit.Consumable:
		to("bin", "bins", r.Bin)
	case *fieldkit.Tool:
		to("bin", "bins", r.Bin)
	case *fieldkit.Trip:
		for i, rig := range r.Rigs {
			visit(at.field("rigs").entry(i), "rigs", rig)
		}
		for i, cost := range r.Costs {
			visit(at.field("costs").entry(i).field("position"), "positions", cost.Position)
		}
		for i, c := range r.Carries {
			visit(at.field("carries").entry(i).field("rig"), "rigs", c.Rig)
		}
		for i, l := range r.Friends {
			item(at.field("friends").entry(i), l.Type, l.Item, visit)
		}
	case *fieldkit.Pack:
		to("trip", "trips", r.Trip)
		for i, line := range r.Lines {
			entry := at.field("lines").entry(i)
			item(entry, line.Type, line.Item, visit)
			if line.Bin != "" {
				visit(entry.field("bin"), "bins", line.Bin)
			}
			if line.Rig != "" {
				visit(entry.field("rig"), "rigs", line.Rig)
			}
		}
		items(at.field("never"), r.Never, visit)
	case *fieldkit.Run:
		to("rig", "rigs", r.Rig)
		to("position", "positions", r.Position)
		to("failure", "failures", r.Failure)
		items(at.field("used"), r.Used, visit)
	case *fieldkit.Failure:
		to("rig", "rigs", r.Rig)
		to("trip", "trips", r.Trip)
		to("position", "positions", r.Position)
		to("part", "parts", r.Part)
		to("run", "runs", r.Run)
		items(at.field("used"), r.Used, visit)
	case *fieldkit.Inspection:
		to("position", "positions", r.Position)
	}
}

func items(at *trail, list []fieldkit.Item, visit follow) {
	for i, one := range list {
		item(at.entry(i), one.Type, one.Item, visit)
	}
}

// itemCollections says where an item of each type is looked up; a spare is named
// by its part.
var itemCollections = map[fieldkit.ItemType]string{
	fieldkit.SpareItem: "parts", fieldkit.ConsumableItem: "consumables", fieldkit.ToolItem: "tools",
}

func item(at *trail, typ fieldkit.ItemType, id string, visit follow) {
	if collection := itemCollections[typ]; collection != "" && id != "" {
		visit(at.field("item"), collection, id)
	}
}

// reference notes an ID that names nothing.
func (c *checker) reference(at *trail, collection, id string) {
	if c.unsure[collection] {
		return
	}
	if c.knows(collection, id) {
		return
	}
	do := fmt.Sprintf("correct it, or add that %s", singular(collection))
	if near := c.nearestID(collection, id); near != "" {
		do = fmt.Sprintf("did you mean %q?", near)
	}
	c.note(at, fmt.Sprintf("the kit has no %s %s", singular(collection), quoted(id)), do)
}

// nearestID looks for the ID that was meant.
func (c *checker) nearestID(collection, id string) string {
	col, _ := fieldkit.CollectionNamed(collection)
	if c.hints == 0 || col.Len(*c.kit) > maxHintIDs || len(id) > fieldkit.MaxID {
		return ""
	}
	c.hints--
	var known []string
	for _, r := range col.All(*c.kit) {
		known = append(known, r.Key())
	}
	return nearest(id, known)
}

// parents notes positions that lie under themselves.
func (c *checker) parents() {
	const (
		unseen = iota
		open   // on the way up from the position looked at
		done
	)
	ids := c.idsOf("positions")
	state := make([]int, c.kit.Positions.Len())
	for i := range c.kit.Positions.All() {
		var way []int
		for at := i; state[at] == unseen; {
			state[at] = open
			way = append(way, at)
			parent := c.kit.Positions.At(at).Parent
			next, ok := ids[parent]
			if parent == "" || !ok {
				break
			}
			if state[next] == open {
				c.note((*trail)(nil).field("positions").entry(at).field("parent"),
					fmt.Sprintf("position %s lies under itself", quoted(parent)), "choose a parent that does not lie under it")
			}
			at = next
		}
		for _, at := range way {
			state[at] = done
		}
	}
}

// underItself notes that the way up from a position leads back to it.
func (c *checker) underItself(p fieldkit.Position) {
	parent := p.Parent
	for range c.kit.Positions.Len() + 1 {
		if parent == "" {
			return
		}
		if parent == p.ID {
			c.note((*trail)(nil).field("parent"), fmt.Sprintf("position %s lies under itself", quoted(p.Parent)), "choose a parent that does not lie under it")
			return
		}
		up, _ := c.kit.Position(parent)
		parent = up.Parent
	}
}

// ReferringTo lists the records that name the given one, in file order: what
// would lead nowhere if it were removed.
func ReferringTo(k fieldkit.Kit, collection, id string) []fieldkit.Record {
	var found []fieldkit.Record
	leads := leadsTo()
	named := false
	look := func(_ *trail, to, toID string) { named = named || to == collection && toID == id }
	for _, col := range fieldkit.Collections {
		if !leads[col.Name][collection] {
			continue
		}
		for r := range col.Refs(k) {
			named = false
			if references(r, noTrail, look); named {
				found = append(found, col.Value(r))
			}
		}
	}
	return found
}

// leadsTo says which collections the records of a collection may refer to, found by
// asking records in which everything is given.
var leadsTo = sync.OnceValue(func() map[string]map[string]bool {
	leads := map[string]map[string]bool{}
	for _, col := range fieldkit.Collections {
		leads[col.Name] = map[string]bool{}
		for typ := range itemCollections {
			r := col.New()
			fill(reflect.ValueOf(r).Elem(), string(typ))
			references(r.(fieldkit.Record), noTrail, func(_ *trail, to, _ string) { leads[col.Name][to] = true })
		}
	}
	return leads
})

// fill gives every text in v, at any depth.
func fill(v reflect.Value, text string) {
	switch v.Kind() {
	case reflect.String:
		v.SetString(text)
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		fill(v.Index(0), text)
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				fill(v.Field(i), text)
			}
		}
	}
}
