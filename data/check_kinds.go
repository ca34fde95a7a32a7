package data

import (
	"fmt"

	"trailfieldkit/fieldkit"
)

func (c *checker) partKinds(f partKindsFile, stores storesFile) {
	c.text(f.Source, "/source")
	c.ids("/partKinds", idsOf(f.PartKinds, func(k fieldkit.PartKind) string { return k.ID }))
	known := storeIDs(stores)
	for i, k := range f.PartKinds {
		at := fmt.Sprintf("/partKinds/%d", i)
		c.text(k.Name, at+"/name")
		c.text(k.System, at+"/system")
		c.words(k.Synonyms, at+"/synonyms")
		c.words(k.BuyWith, at+"/buyWith")
		if k.Caution != "" {
			c.text(k.Caution, at+"/caution")
		}
		c.known(k.Stores, known, "store", at+"/stores")
		if len(k.Stores) == 0 {
			c.note(at, fmt.Sprintf("%q is sold nowhere", k.ID), "name the stores, the likeliest first")
		}
		c.deciding(k, at)
		c.wear(k, at)
		c.carried(k.Mass, k.Volume, at)
		c.odds(k, at)
		c.formOfIDs(k.Repairs, at+"/repairs")
	}
}

// deciding checks what a part is told apart by: at least one measure without which
// a stranger cannot pick it.
func (c *checker) deciding(k fieldkit.PartKind, at string) {
	must := false
	seen := map[string]bool{}
	for i, a := range k.Deciding {
		here := fmt.Sprintf("%s/deciding/%d", at, i)
		c.text(a.Name, here+"/name")
		c.text(a.How, here+"/how")
		if seen[a.Name] {
			c.note(here+"/name", fmt.Sprintf("%q is there twice", a.Name), "remove one")
		}
		seen[a.Name] = true
		must = must || a.Must
	}
	if !must {
		c.note(at, fmt.Sprintf("nothing decides whether a part is %q", k.ID), "mark the measures a stranger must take")
	}
}

func (c *checker) wear(k fieldkit.PartKind, at string) {
	if k.Wear == nil {
		return
	}
	c.text(k.Wear.Name, at+"/wear/name")
	c.text(k.Wear.How, at+"/wear/how")
	if k.Wear.Limit.Base <= 0 || k.Wear.Limit.Dim == fieldkit.DimText {
		c.note(at+"/wear/limit", fmt.Sprintf("%q is not a limit", k.Wear.Limit), "write a size above nothing with its unit")
	}
}

func (c *checker) odds(k fieldkit.PartKind, at string) {
	for _, t := range []struct {
		field string
		span  fieldkit.Minutes
	}{{"hoursIfCarried", k.IfCarried}, {"hoursIfNotCarried", k.IfLeft}} {
		if t.span <= 0 || t.span > maxFixing {
			c.note(at+"/"+t.field, fmt.Sprintf("%q is out of range", t.span), "write a span up to three days")
		}
	}
}

// formOfIDs checks the form of IDs that lead out of the catalog.
func (c *checker) formOfIDs(list []string, pointer string) {
	c.words(list, pointer)
	for i, id := range list {
		if !isID(id) {
			c.note(fmt.Sprintf("%s/%d", pointer, i), fmt.Sprintf("%q is not an id", id), "write lower-case words joined by dashes")
		}
	}
}
