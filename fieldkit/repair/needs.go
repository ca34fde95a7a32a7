package repair

import (
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/interchange"
)

// Needs is what a repair asks for beside what the crew has of it.
type Needs struct {
	Tools       []ToolCheck
	Consumables []ConsumableCheck
	Parts       []PartCheck
}

// ToolCheck is one tool asked for.
type ToolCheck struct {
	ToolNeed
	Name    string
	Have    []fieldkit.Tool // owned, of that kind
	Instead []fieldkit.Tool // owned, of a kind that does the job too
	Others  []string        // names of what else does the job and is not owned
}

// Ready reports whether the crew has the tool or something that does its job.
func (t ToolCheck) Ready() bool { return t.Optional || len(t.Have)+len(t.Instead) > 0 }

// ConsumableCheck is one consumable asked for.
type ConsumableCheck struct {
	ConsumableNeed
	Name, Grade string
	Have        []fieldkit.Consumable // in stock, of that kind
	Enough      bool                  // what is in stock covers the amount, as far as the packs can be compared
}

// Ready reports whether there is enough of it.
func (c ConsumableCheck) Ready() bool { return c.Optional || c.Enough }

// PartCheck is one part asked for: where the repair is known to be at a position,
// one for each different part fitted there.
type PartCheck struct {
	PartNeed
	Name   string
	Where  string // title of the first position it is for
	Wanted string // ID of the part fitted there, if that is known
	Have   []Stocked
}

// Stocked is a spare that fits, or may fit when the part fitted is not known.
type Stocked struct {
	Part  fieldkit.Part
	Count int
	// Grade says how it stands in for what is fitted; drop-in for the same part,
	// none when nothing is known to be fitted.
	Grade   fieldkit.Grade
	Changes []string
}

// Ready reports whether spares known to fit cover the count.
func (p PartCheck) Ready() bool {
	n := 0
	for _, s := range p.Have {
		if s.Grade != "" {
			n += s.Count
		}
	}
	return p.Optional || n >= p.Count
}

// CheckNeeds compares what a repair may need on this rig with the crew's tools,
// consumables and spares. position may be empty; then all that any rig may need is
// listed, and any spare of the kind, ungraded.
func CheckNeeds(g Guide, kit fieldkit.Kit, cat fieldkit.Catalog, position string) Needs {
	at, _ := kit.Position(position)
	rig, _ := kit.RigOf(at)
	g = g.For(rig)
	var n Needs
	for _, need := range g.Tools {
		n.Tools = append(n.Tools, checkTool(need, kit, cat))
	}
	for _, need := range g.Consumables {
		n.Consumables = append(n.Consumables, checkConsumable(need, kit, cat))
	}
	for _, need := range g.Parts {
		n.Parts = append(n.Parts, checkParts(need, kit, cat, at)...)
	}
	return n
}

func checkTool(need ToolNeed, kit fieldkit.Kit, cat fieldkit.Catalog) ToolCheck {
	kind, _ := cat.Tool(need.Kind)
	t := ToolCheck{ToolNeed: need, Name: named(kind.Name, need.Kind), Have: owned(kit, need.Kind)}
	for _, other := range kind.Alternatives {
		has := owned(kit, other)
		t.Instead = append(t.Instead, has...)
		if len(has) == 0 {
			k, _ := cat.Tool(other)
			t.Others = append(t.Others, named(k.Name, other))
		}
	}
	return t
}

func owned(kit fieldkit.Kit, kind string) (tools []fieldkit.Tool) {
	for _, t := range kit.Tools {
		if t.Kind == kind && t.Owned {
			tools = append(tools, t)
		}
	}
	return tools
}

func checkConsumable(need ConsumableNeed, kit fieldkit.Kit, cat fieldkit.Catalog) ConsumableCheck {
	kind, _ := cat.Consumable(need.Kind)
	c := ConsumableCheck{ConsumableNeed: need, Name: named(kind.Name, need.Kind), Grade: kind.Grade}
	left := need.Amount.Base
	for _, has := range kit.Consumables {
		if has.Kind != need.Kind || has.Count < 1 {
			continue
		}
		c.Have = append(c.Have, has)
		if has.Size.Dim != need.Amount.Dim || has.Size.Base <= 0 {
			c.Enough = true // one pack, for want of anything to compare
		} else if missing := (left + has.Size.Base - 1) / has.Size.Base; int64(has.Count) >= missing {
			c.Enough = true
		} else {
			left -= has.Size.Base * int64(has.Count)
		}
	}
	return c
}

// checkParts splits a need by the parts that are fitted where the repair is: an
// inner and an outer bearing are two parts of one kind.
func checkParts(need PartNeed, kit fieldkit.Kit, cat fieldkit.Catalog, at fieldkit.Position) []PartCheck {
	kind, _ := cat.PartKind(need.Kind)
	whole := PartCheck{PartNeed: need, Name: named(kind.Name, need.Kind)}
	var checks []PartCheck
	for _, where := range near(kit, at, need) {
		i := slices.IndexFunc(checks, func(c PartCheck) bool { return c.Wanted == where.Part })
		if i < 0 {
			one := whole
			one.Count, one.Where, one.Wanted = 0, where.Title(), where.Part
			checks, i = append(checks, one), len(checks)
		}
		checks[i].Count += max(where.Quantity, 1)
	}
	if len(checks) == 0 {
		checks = []PartCheck{whole}
	}
	if len(checks) == 1 {
		checks[0].Count = max(checks[0].Count, need.Count)
	}
	for i := range checks {
		checks[i].look(kit)
	}
	return checks
}

// look lists the spares that may serve.
func (p *PartCheck) look(kit fieldkit.Kit) {
	if p.Wanted == "" {
		for _, part := range kit.Parts.All() {
			if part.Kind == p.Kind {
				p.add(kit, part, "", nil)
			}
		}
		return
	}
	if part, ok := kit.Part(p.Wanted); ok {
		p.add(kit, part, fieldkit.DropIn, nil)
	}
	for _, s := range interchange.Of(kit.Parts, kit.Links).StandIns(p.Wanted) {
		if part, ok := kit.Part(s.Part); ok {
			p.add(kit, part, s.Grade, s.Changes)
		}
	}
}

func (p *PartCheck) add(kit fieldkit.Kit, part fieldkit.Part, grade fieldkit.Grade, changes []string) {
	if n := kit.Stock(part.ID); n > 0 {
		p.Have = append(p.Have, Stocked{Part: part, Count: n, Grade: grade, Changes: slices.Clone(changes)})
	}
}

// named is a catalog name, or the ID in plain words where the catalog has none.
func named(name, id string) string {
	if name == "" {
		return words(id)
	}
	return name
}
