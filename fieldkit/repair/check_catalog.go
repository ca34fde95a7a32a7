package repair

import (
	"fmt"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// CheckCatalog lists the tools, consumables, part kinds and traits that a guide
// names and the catalog does not have, and the options its traits do not have.
// Pointers are into the guide.
func CheckCatalog(g Guide, cat fieldkit.Catalog) []kitfile.Problem {
	c := &catalogChecker{cat: cat}
	for i, kind := range g.PartKinds {
		c.part(at("/partKinds", i), kind)
	}
	for i, n := range g.Tools {
		if _, ok := cat.Tool(n.Kind); !ok {
			c.add(at("/tools", i)+"/kind", "tool", n.Kind)
		}
	}
	for i, n := range g.Consumables {
		if _, ok := cat.Consumable(n.Kind); !ok {
			c.add(at("/consumables", i)+"/kind", "consumable", n.Kind)
		}
	}
	for i, n := range g.Parts {
		c.part(at("/parts", i)+"/kind", n.Kind)
	}
	c.condition("/suits", g.Suits)
	c.rulings("/roll", g.Roll)
	c.rulings("/drive", g.Drive)
	c.rulings("/afterFieldFix", g.AfterFieldFix)
	for i, s := range g.Steps {
		c.condition(at("/steps", i)+"/only", s.Only)
		for j, o := range s.Options {
			c.condition(at(at("/steps", i)+"/options", j)+"/when", o.When)
		}
	}
	return c.problems
}

type catalogChecker struct {
	cat      fieldkit.Catalog
	problems []kitfile.Problem
}

func (c *catalogChecker) add(pointer, one, id string) {
	c.problems = append(c.problems, kitfile.Problem{Kind: fieldkit.NotFound, Pointer: pointer, What: fmt.Sprintf("the catalog has no %s %q", one, id), Do: "name one it has, or add it there"})
}

func (c *catalogChecker) part(pointer, id string) {
	if _, ok := c.cat.PartKind(id); !ok {
		c.add(pointer, "part kind", id)
	}
}

func (c *catalogChecker) rulings(pointer string, list []Ruling) {
	for i, r := range list {
		c.condition(at(pointer, i)+"/when", r.When)
	}
}

func (c *catalogChecker) condition(pointer string, when Condition) {
	for _, id := range when.Traits() {
		t, ok := c.cat.Trait(id)
		if !ok {
			c.add(pointer, "trait", id)
			continue
		}
		for _, option := range when[id] {
			if !slices.Contains(t.Options, option) {
				c.add(pointer+"/"+id, "option of the trait "+id, option)
			}
		}
	}
}
