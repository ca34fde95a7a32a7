package repair

import (
	"fmt"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// Format names the format of a file of repairs and Version the version this
// program reads; a file of another is refused.
const (
	Format  = "trail-field-kit repairs"
	Version = "1.0"
)

// file is a file of repairs.
type file struct {
	Format  string  `json:"format"`
	Version string  `json:"version"`
	Source  string  `json:"source"` // what the repairs rest on
	Repairs []Guide `json:"repairs"`
}

// LoadGuides reads and checks a file of repairs; name is what messages call it.
// The error is a *kitfile.Problems that lists every rule broken with its line and
// pointer, and no guide is returned then.
//
// The rules: every step a step leads to exists and stands later in the list, so
// that every way ends; every step can be reached; no text is longer than
// MaxStepText; every hazard marked has its caution in front; every question has
// exactly one answer for who cannot tell; the tools, consumables and parts used
// are those listed; every figure names its source. Whether the kinds and traits
// exist is asked with CheckCatalog.
func LoadGuides(name string, data []byte) ([]Guide, error) {
	guides, err := ReadGuides(name, data)
	if err != nil {
		return nil, err
	}
	if problems := checkAll(guides); len(problems) > 0 {
		return nil, kitfile.Place(name, data, problems)
	}
	return guides, nil
}

// ReadGuides is LoadGuides for a file known to keep the rules: they are not
// checked again. Every field is, and a file of another format or version is
// refused. The error is a *kitfile.Problems.
func ReadGuides(name string, data []byte) ([]Guide, error) {
	var f file
	if err := kitfile.Decode(name, data, &f); err != nil {
		return nil, err
	}
	if p, ok := f.refuse(); !ok {
		return nil, kitfile.Place(name, data, []kitfile.Problem{p})
	}
	return f.Repairs, nil
}

// refuse says what is wrong with the format or the version; ok is true if nothing
// is.
func (f file) refuse() (p kitfile.Problem, ok bool) {
	switch {
	case f.Format != Format:
		return kitfile.Problem{Pointer: "/format", What: fmt.Sprintf("%q is not the format of repairs", f.Format), Do: fmt.Sprintf("choose a file whose format is %q", Format)}, false
	case f.Version != Version:
		return kitfile.Problem{Kind: fieldkit.TooNew, Pointer: "/version", What: fmt.Sprintf("the repairs are of version %q, this program reads %s", f.Version, Version), Do: "update this program"}, false
	}
	return p, true
}

func checkAll(guides []Guide) (problems []kitfile.Problem) {
	seen := map[string]bool{}
	for i, g := range guides {
		base := at("/repairs", i)
		if seen[g.ID] {
			problems = append(problems, kitfile.Problem{Pointer: base + "/id", What: fmt.Sprintf("the repair %q is there twice", g.ID), Do: "give each its own ID"})
		}
		seen[g.ID] = true
		problems = append(problems, check(g, base)...)
	}
	return problems
}
