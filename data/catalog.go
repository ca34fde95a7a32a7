package data

import (
	"embed"
	"io/fs"
	"sync"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

//go:embed catalog/*.json
var catalogFiles embed.FS

// Catalog gives the kinds of part, tool, consumable and store, and the traits. It
// panics only when the embedded files are broken.
var Catalog = sync.OnceValue(func() fieldkit.Catalog {
	cat, err := LoadCatalog(catalogFiles)
	if err != nil {
		panic("data: the embedded catalog is broken: " + err.Error())
	}
	return cat
})

// Each file of the catalog says what its entries rest on.
type (
	storesFile struct {
		Source string               `json:"source"`
		Stores []fieldkit.StoreKind `json:"stores"`
	}
	traitsFile struct {
		Source string           `json:"source"`
		Traits []fieldkit.Trait `json:"traits"`
	}
	toolsFile struct {
		Source    string              `json:"source"`
		ToolKinds []fieldkit.ToolKind `json:"toolKinds"`
	}
	consumablesFile struct {
		Source      string                    `json:"source"`
		Consumables []fieldkit.ConsumableKind `json:"consumables"`
	}
	partKindsFile struct {
		Source    string              `json:"source"`
		PartKinds []fieldkit.PartKind `json:"partKinds"`
	}
)

// LoadCatalog reads and checks the five files of a catalog. The error is a
// *kitfile.Problems that lists all that is wrong with the first bad file; the
// catalog is empty then.
//
// The rules: IDs are lower-case words joined by dashes and stand once; stores and
// alternatives named exist; what a part is measured by is named once and says how;
// every mass, volume, rate and time is within what one carries and drives.
func LoadCatalog(files fs.FS) (fieldkit.Catalog, error) {
	var (
		stores      storesFile
		traits      traitsFile
		tools       toolsFile
		consumables consumablesFile
		parts       partKindsFile
	)
	for _, f := range []struct {
		name  string
		into  any
		check func(*checker)
	}{
		{"catalog/stores.json", &stores, func(c *checker) { c.stores(stores) }},
		{"catalog/traits.json", &traits, func(c *checker) { c.traits(traits) }},
		{"catalog/tool_kinds.json", &tools, func(c *checker) { c.tools(tools) }},
		{"catalog/consumables.json", &consumables, func(c *checker) { c.consumables(consumables, stores) }},
		{"catalog/part_kinds.json", &parts, func(c *checker) { c.partKinds(parts, stores) }},
	} {
		raw, err := fs.ReadFile(files, f.name)
		if err != nil {
			return fieldkit.Catalog{}, &fieldkit.Error{Kind: fieldkit.NotFound, Where: f.name, What: "the file cannot be read", Do: "put it back", Cause: err}
		}
		if err := kitfile.Decode(f.name, raw, f.into); err != nil {
			return fieldkit.Catalog{}, err
		}
		c := &checker{}
		f.check(c)
		if err := kitfile.Place(f.name, raw, c.problems); err != nil {
			return fieldkit.Catalog{}, err
		}
	}
	return fieldkit.Catalog{
		PartKinds: parts.PartKinds, ToolKinds: tools.ToolKinds, Consumables: consumables.Consumables,
		Stores: stores.Stores, Traits: traits.Traits,
	}, nil
}
