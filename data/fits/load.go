package fits

import (
	"embed"
	"io/fs"
	"sync"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/fit"
	"trailfieldkit/fieldkit/kitfile"
)

//go:embed *.json
var files embed.FS

// file is one file of schemas; it says what its entries rest on.
type file struct {
	Source  string  `json:"source"`
	Schemas []entry `json:"schemas"`
}

type entry struct {
	Kind       string     `json:"kind"`
	Attributes []fit.Spec `json:"attributes"`
	// Designated are the attributes that a standard designation of such a part defines.
	Designated []string `json:"designated,omitempty"`
}

// all holds the specs of each kind.
var all = sync.OnceValue(func() map[string]entry {
	specs, err := load(files)
	if err != nil {
		panic("fits: the embedded schemas are broken: " + err.Error())
	}
	return specs
})

// For gives the schema of a kind of the catalog; ok is false for a kind that is not
// in it.
func For(kind fieldkit.PartKind) (s fit.Schema, ok bool) {
	e, ok := all()[kind.ID]
	if !ok {
		return fit.Schema{}, false
	}
	s, err := fit.SchemaOf(kind, e.Attributes, e.Designated...)
	if err != nil {
		panic("fits: the embedded schemas are broken: " + err.Error())
	}
	return s, true
}

// load reads the files of a folder. The error names the first that cannot be read, or
// a kind that stands twice.
func load(files fs.FS) (map[string]entry, error) {
	names, err := fs.Glob(files, "*.json")
	if err != nil {
		return nil, err
	}
	specs := map[string]entry{}
	for _, name := range names {
		text, err := fs.ReadFile(files, name)
		if err != nil {
			return nil, err
		}
		var f file
		if err := kitfile.Decode(name, text, &f); err != nil {
			return nil, err
		}
		for _, e := range f.Schemas {
			if _, twice := specs[e.Kind]; twice {
				return nil, &fieldkit.Error{Kind: fieldkit.BadInput, Where: name + ", " + e.Kind, What: "the kind stands twice", Do: "keep one of the two"}
			}
			specs[e.Kind] = e
		}
	}
	return specs, nil
}
