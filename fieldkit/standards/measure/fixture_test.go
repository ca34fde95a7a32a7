package measure_test

import (
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/data/tables"
	"trailfieldkit/fieldkit/standards"
	"trailfieldkit/fieldkit/standards/measure"
)

var opened = sync.OnceValues(func() (*standards.Handbook, error) {
	return standards.Open(func(name string) (standards.Table, bool) {
		t, ok := tables.TableNamed(name)
		columns := make([]string, len(t.Columns))
		for i, c := range t.Columns {
			columns[i] = c.Name
		}
		return standards.Table{Columns: columns, Rows: t.Rows}, ok
	})
})

func handbook(t testing.TB) *standards.Handbook {
	t.Helper()
	h, err := opened()
	require.NoError(t, err)
	return h
}

// find measures what is written as on the command line: "bearing bore=35 od=72 -worn".
func find(t testing.TB, line string) measure.Result {
	t.Helper()
	kind, query := parseLine(t, line)
	r, err := kind.Find(handbook(t), query)
	require.NoError(t, err, line)
	return r
}

func parseLine(t testing.TB, line string) (measure.Kind, measure.Query) {
	t.Helper()
	words := strings.Fields(line)
	kind, ok := measure.KindNamed(words[0])
	require.True(t, ok, words[0])
	var q measure.Query
	for _, w := range words[1:] {
		if w == "-worn" {
			q.Worn = true
			continue
		}
		name, value, ok := strings.Cut(w, "=")
		require.True(t, ok, w)
		if name == "-tool" {
			tool, ok := measure.ToolNamed(value)
			require.True(t, ok, value)
			q.Tool = &tool
			continue
		}
		q.Given = append(q.Given, measure.Given{Name: name, Text: strings.ReplaceAll(value, "_", " ")})
	}
	return kind, q
}

func first(r measure.Result) string { return r.Candidates[0].Designation.String() }

// fitting lists the candidates that fit.
func fitting(r measure.Result) (names []string) {
	for _, c := range r.Candidates {
		if c.Fits {
			names = append(names, c.Designation.String())
		}
	}
	return names
}
