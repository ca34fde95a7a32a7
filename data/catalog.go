package data

import (
	"embed"
	"io/fs"
	"sync"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

//go:embed catalog/*.json catalog/priors.csv
var catalogFiles embed.FS

// Catalog gives the kinds of part, tool, consumable and store, and the traits. It
// panics only when the embedded files are broken. That they keep the rules of
// LoadCatalog is for the tests to say, not for every start on a phone.
var Catalog = sync.OnceValue(func() fieldkit.Catalog {
	f, err := readCatalog(catalogFiles)
	if err != nil {
		panic("data: the embedded catalog is broken: " + err.Error())
	}
	return f.catalog()
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

// catalogSource is the five files as they are read.
type catalogSource struct {
	text        map[string][]byte // by file name
	stores      storesFile
	traits      traitsFile
	tools       toolsFile
	consumables consumablesFile
	parts       partKindsFile
	priors      []priorRow
}

const (
	storesName      = "catalog/stores.json"
	traitsName      = "catalog/traits.json"
	toolsName       = "catalog/tool_kinds.json"
	consumablesName = "catalog/consumables.json"
	partKindsName   = "catalog/part_kinds.json"
)

func readCatalog(files fs.FS) (*catalogSource, error) {
	s := &catalogSource{text: map[string][]byte{}}
	for _, f := range []struct {
		name string
		into any
	}{
		{storesName, &s.stores}, {traitsName, &s.traits}, {toolsName, &s.tools},
		{consumablesName, &s.consumables}, {partKindsName, &s.parts},
	} {
		text, err := fs.ReadFile(files, f.name)
		if err != nil {
			return nil, &fieldkit.Error{Kind: fieldkit.NotFound, Where: f.name, What: "the file cannot be read", Do: "put it back", Cause: err}
		}
		if err := kitfile.Decode(f.name, text, f.into); err != nil {
			return nil, err
		}
		s.text[f.name] = text
	}
	var err error
	s.priors, err = readPriors(files)
	return s, err
}

func (s *catalogSource) catalog() fieldkit.Catalog {
	return fieldkit.Catalog{
		PartKinds: guessed(s.parts.PartKinds, s.priors), ToolKinds: s.tools.ToolKinds, Consumables: s.consumables.Consumables,
		Stores: s.stores.Stores, Traits: s.traits.Traits,
	}
}

// LoadCatalog reads and checks the five files of a catalog and the table of starting
// guesses. The error is a *kitfile.Problems that lists all that is wrong with the
// first bad file, or a *fieldkit.Error for the table; the catalog is empty then.
//
// The rules: IDs are lower-case words joined by dashes and stand once; stores and
// alternatives named exist; what a part is measured by is named once and says how;
// every mass, volume, rate and time is within what one carries and drives.
func LoadCatalog(files fs.FS) (fieldkit.Catalog, error) {
	s, err := readCatalog(files)
	if err != nil {
		return fieldkit.Catalog{}, err
	}
	for _, f := range []struct {
		name  string
		check func(*checker)
	}{
		{storesName, func(c *checker) { c.stores(s.stores) }},
		{traitsName, func(c *checker) { c.traits(s.traits) }},
		{toolsName, func(c *checker) { c.tools(s.tools) }},
		{consumablesName, func(c *checker) { c.consumables(s.consumables, s.stores) }},
		{partKindsName, func(c *checker) { c.partKinds(s.parts, s.stores) }},
	} {
		c := &checker{}
		f.check(c)
		if err := kitfile.Place(f.name, s.text[f.name], c.problems); err != nil {
			return fieldkit.Catalog{}, err
		}
	}
	if err := checkPriors(s.priors, s.parts.PartKinds); err != nil {
		return fieldkit.Catalog{}, err
	}
	return s.catalog(), nil
}
