package lookuptest

import (
	_ "embed"
	"encoding/csv"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/lookup"
	"trailfieldkit/fieldkit/standards"
)

//go:embed queries.csv
var file string

// Query is a query and what it asks for. Any of what it asks for among the first hits
// is an answer.
type Query struct {
	Text  string
	Group string
	// Expect holds IDs of the demo kit and of kinds of part; "=6207" is a designation of
	// the tables, "@ball bearing bore=35 mm" any designation with that figure.
	Expect []string
	Held   bool // held back
}

// Queries gives the graded queries. It panics if the file is broken.
func Queries() (list []Query) {
	rows, err := csv.NewReader(strings.NewReader(file)).ReadAll()
	if err != nil {
		panic("lookuptest: " + err.Error())
	}
	for _, r := range rows[1:] {
		list = append(list, Query{Text: r[0], Group: r[2], Expect: strings.Split(r[1], ";"), Held: r[3] != ""})
	}
	return list
}

// Place says where among the hits the first answer is, from 0; -1 if there is none.
func (q Query) Place(hits []lookup.Hit) int {
	return slices.IndexFunc(hits, func(h lookup.Hit) bool {
		if h.Designation != nil {
			return q.MeansDesignation(h.Designation)
		}
		return q.MeansRecord(h.ID)
	})
}

// MeansRecord reports whether a record of the kit, or a kind of part, is an answer.
func (q Query) MeansRecord(id string) bool { return slices.Contains(q.Expect, id) }

// MeansDesignation reports whether a designation is an answer; suffixes, load and
// speed behind its size do not matter.
func (q Query) MeansDesignation(d standards.Designation) bool {
	return slices.ContainsFunc(q.Expect, func(want string) bool {
		switch {
		case strings.HasPrefix(want, "="):
			return d.String() == want[1:] || standards.Stem(d) == want[1:]
		case strings.HasPrefix(want, "@"):
			return hasFigure(d, want[1:])
		}
		return false
	})
}

// alike is how far two figures may be apart that are the same in inches and
// millimetres.
const alike = fieldkit.Millimetre / 100

// hasFigure reports whether a designation is "KIND NAME=VALUE".
func hasFigure(d standards.Designation, what string) bool {
	what, is := strings.CutPrefix(what, string(d.Kind())+" ")
	if !is {
		return false
	}
	name, text, _ := strings.Cut(what, "=")
	v, ok := standards.DimNamed(d, name)
	want, err := fieldkit.ParseValueAs(text, v.Dim, fieldkit.Metric)
	off := fieldkit.Length(v.Base - want.Base)
	return ok && err == nil && off < alike && -off < alike
}
