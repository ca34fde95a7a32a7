package fieldkit

import (
	"iter"
	"slices"
	"strings"
)

// Rig, Position, Part, Donor and Trip return the record of that ID.
func (k Kit) Rig(id string) (Rig, bool)           { return Find(k.Rigs, id) }
func (k Kit) Position(id string) (Position, bool) { return k.Positions.Find(id) }
func (k Kit) Part(id string) (Part, bool)         { return k.Parts.Find(id) }
func (k Kit) Donor(id string) (Donor, bool)       { return Find(k.Donors, id) }
func (k Kit) Trip(id string) (Trip, bool)         { return Find(k.Trips, id) }
func (k Kit) System(id string) (Assembly, bool)   { return Find(k.Systems, id) }

// ItemName is the name of something that can be packed or used; ok is false if the kit
// does not hold it.
func (k Kit) ItemName(typ ItemType, id string) (name string, ok bool) {
	switch typ {
	case SpareItem:
		p, ok := k.Part(id)
		return p.Name, ok
	case ConsumableItem:
		c, ok := Find(k.Consumables, id)
		return c.Name, ok
	case ToolItem:
		t, ok := Find(k.Tools, id)
		return t.Name, ok
	}
	return "", false
}

// RigOf returns the rig a position sits on.
func (k Kit) RigOf(p Position) (Rig, bool) {
	s, ok := k.System(p.System)
	if !ok {
		return Rig{}, false
	}
	return k.Rig(s.Rig)
}

var (
	inSystem   = GroupedBy(func(p *Position, under func(string)) { under(p.System) })
	below      = GroupedBy(func(p *Position, under func(string)) { under(p.Parent) })
	withPart   = GroupedBy(func(p *Position, under func(string)) { under(p.Part) })
	sparesOf   = GroupedBy(func(s *Spare, under func(string)) { under(s.Part) })
	failedAt   = GroupedBy(func(f *Failure, under func(string)) { under(f.Position) })
	failedOn   = GroupedBy(func(f *Failure, under func(string)) { under(f.Rig) })
	readingsAt = GroupedBy(func(r *Inspection, under func(string)) { under(r.Position) })
)

// PositionsIn goes through the positions of a system, PositionsUnder through those right
// under another, SparesOf through the spares of a part; FailuresAt and ReadingsAt through
// what the log says of a position, FailuresOn of a rig. All are in file order, with their
// places in the list; the records are shared and not to be changed.
func (k Kit) PositionsIn(system string) iter.Seq2[int, *Position] {
	return inSystem.All(k.Positions, system)
}
func (k Kit) PositionsUnder(parent string) iter.Seq2[int, *Position] {
	return below.All(k.Positions, parent)
}
func (k Kit) SparesOf(part string) iter.Seq2[int, *Spare] { return sparesOf.All(k.Spares, part) }
func (k Kit) FailuresAt(position string) iter.Seq2[int, *Failure] {
	return failedAt.All(k.Failures, position)
}
func (k Kit) ReadingsAt(position string) iter.Seq2[int, *Inspection] {
	return readingsAt.All(k.Inspections, position)
}
func (k Kit) FailuresOn(rig string) iter.Seq2[int, *Failure] { return failedOn.All(k.Failures, rig) }

// PositionsOf returns the positions of a rig in file order.
func (k Kit) PositionsOf(rig string) []Position {
	var places []int
	for _, s := range k.Systems {
		if s.Rig == rig {
			for i := range k.PositionsIn(s.ID) {
				places = append(places, i)
			}
		}
	}
	slices.Sort(places)
	var found []Position
	for _, i := range places {
		found = append(found, k.Positions.At(i))
	}
	return found
}

// FittedAt returns the positions at which a part is fitted.
func (k Kit) FittedAt(part string) []Position {
	var found []Position
	for _, p := range withPart.All(k.Positions, part) {
		found = append(found, *p)
	}
	return found
}

// Stock counts the pieces of a part that are owned as spares.
func (k Kit) Stock(part string) int {
	n := 0
	for _, s := range k.SparesOf(part) {
		n += s.Count
	}
	return n
}

// Mirror returns the position on the other side of the same rig: same system,
// name and parent's name, opposite side.
func (k Kit) Mirror(p Position) (Position, bool) {
	if p.Side.Opposite() == NoSide {
		return Position{}, false
	}
	for _, q := range k.PositionsIn(p.System) {
		if q.Name == p.Name && q.Side == p.Side.Opposite() && k.parentName(*q) == k.parentName(p) {
			return *q, true
		}
	}
	return Position{}, false
}

func (k Kit) parentName(p Position) string {
	parent, _ := k.Position(p.Parent)
	return parent.Name
}

// Title names a position with its side: "wheel bearing, outer, left".
func (p Position) Title() string {
	if p.Side == NoSide {
		return p.Name
	}
	return p.Name + ", " + string(p.Side)
}

// Title names a donor as one says it at a counter: years, make, model and what
// tells its variants apart.
func (d Donor) Title() string {
	words := []string{d.Years(), d.Make, d.Model, d.Drive}
	if d.RearWheels != "" {
		words = append(words, d.RearWheels+" rear wheels")
	}
	if d.Engine != "" {
		words = append(words, d.Engine)
	}
	return strings.Join(strings.Fields(strings.Join(words, " ")), " ")
}

// PartKind, Store, Tool, Consumable and Trait find an entry of the catalog by ID.
func (c Catalog) PartKind(id string) (PartKind, bool) { return find(c.PartKinds, id) }
func (c Catalog) Store(id string) (StoreKind, bool)   { return find(c.Stores, id) }
func (c Catalog) Tool(id string) (ToolKind, bool)     { return find(c.ToolKinds, id) }
func (c Catalog) Trait(id string) (Trait, bool)       { return find(c.Traits, id) }

// Consumable finds a kind of consumable by ID.
func (c Catalog) Consumable(id string) (ConsumableKind, bool) { return find(c.Consumables, id) }

func (k PartKind) key() string       { return k.ID }
func (k StoreKind) key() string      { return k.ID }
func (k ToolKind) key() string       { return k.ID }
func (k ConsumableKind) key() string { return k.ID }
func (t Trait) key() string          { return t.ID }

func find[T interface{ key() string }](list []T, id string) (t T, ok bool) {
	for _, entry := range list {
		if entry.key() == id {
			return entry, true
		}
	}
	return t, false
}
