package fit

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
)

// ReadTell reads one line on how a look-alike differs, as TellLine writes it:
//
//	splines: 30, not 35, by count      our part shows 30, the look-alike 35
//	ring gear: not 8.5 in              the look-alike shows 8.5 in
//
// The error is of kind BadInput.
func ReadTell(line string, first fieldkit.System) (t fieldkit.Tell, err error) {
	refuse := func(what string) (fieldkit.Tell, error) {
		return fieldkit.Tell{}, &fieldkit.Error{Kind: fieldkit.BadInput, What: what, Do: "write splines: 30, not 35, by count"}
	}
	what, rest, found := strings.Cut(strings.TrimSpace(line), ":")
	if t.What = strings.TrimSpace(what); !found || t.What == "" {
		return refuse(fmt.Sprintf("%q does not say what to look at", strings.TrimSpace(line)))
	}
	rest = " " + strings.TrimSpace(rest)
	wanted, other, found := strings.Cut(rest, " not ")
	if !found {
		return refuse(fmt.Sprintf("%q does not say what the look-alike shows", strings.TrimSpace(line)))
	}
	if i := strings.LastIndex(other, ", by "); i >= 0 {
		t.By = strings.TrimSpace(other[i+len(", by "):])
		other = other[:i]
		way, ok := WayOf(t.By)
		if !ok {
			return refuse(fmt.Sprintf("%q is no way to check", t.By))
		}
		t.By = string(way)
	}
	if other = strings.Trim(other, ", "); other == "" {
		return refuse("it does not say what the look-alike shows")
	}
	if t.Other, err = fieldkit.ParseValue(other); err != nil {
		return fieldkit.Tell{}, err
	}
	if wanted = strings.Trim(wanted, ", "); wanted != "" {
		if t.Wanted, err = fieldkit.ParseValue(wanted); err != nil {
			return fieldkit.Tell{}, err
		}
		if t.Wanted.Dim != t.Other.Dim {
			return refuse(fmt.Sprintf("%q and %q cannot be compared", wanted, other))
		}
	}
	return t, nil
}
