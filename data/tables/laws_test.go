package tables

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// record is a row of a table under test.
type record struct {
	t     *testing.T
	table Table
	row   int
}

// records gives the rows of a table.
func records(t *testing.T, name string) []record {
	t.Helper()
	table, ok := TableNamed(name)
	require.True(t, ok, name)
	list := make([]record, len(table.Rows))
	for i := range list {
		list[i] = record{t, table, i}
	}
	return list
}

func (r record) text(column string) string { return r.table.Cell(r.row, column) }

// number gives a figure that must be there.
func (r record) number(column string) float64 {
	x, ok := r.table.Number(r.row, column)
	require.True(r.t, ok, "%s: no %s", r, column)
	return x
}

// String names the row by its key.
func (r record) String() string {
	var key []string
	for _, name := range r.table.Key {
		key = append(key, r.text(name))
	}
	return r.table.Name + " " + strings.Join(key, " | ")
}

// halfStep is half of the last place of a written figure: what rounding may hide.
func halfStep(written string) float64 {
	_, decimals, _ := strings.Cut(written, ".")
	return math.Pow10(-len(decimals)) / 2
}

// numberOf reads a number a test knows to be one.
func numberOf(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err, s)
	return x
}

// inches reads 1-3/8, 5/16 or 2.
func inches(t *testing.T, s string) float64 {
	t.Helper()
	whole, fraction, both := strings.Cut(s, "-")
	if !both {
		if !strings.Contains(s, "/") {
			return numberOf(t, s)
		}
		whole, fraction = "0", s
	}
	top, bottom, ok := strings.Cut(fraction, "/")
	require.True(t, ok, s)
	return numberOf(t, whole) + numberOf(t, top)/numberOf(t, bottom)
}

// Where a table gives the same dimension in both systems, the millimetres are the
// inches times 25.4 within the rounding of both.
func TestBothSystemsAgree(t *testing.T) {
	pairs := 0
	for _, table := range Tables() {
		for _, c := range table.Columns {
			stem, inch := strings.CutSuffix(c.Name, "_in")
			if !inch || table.Column(stem+"_mm") < 0 {
				continue
			}
			pairs++
			for _, r := range records(t, table.Name) {
				in, mm := r.text(c.Name), r.text(stem+"_mm")
				require.Equal(t, in == "", mm == "", "%s: %s in one system only", r, stem)
				if in == "" {
					continue
				}
				slack := 25.4*halfStep(in) + halfStep(mm) + 1e-9
				if table.Name == "batteries_bci" {
					slack += 25.4 / 32 // the groups' list rounds inches to sixteenths and millimetres apart
				}
				assert.InDelta(t, 25.4*r.number(c.Name), r.number(stem+"_mm"), slack, "%s: %s", r, stem)
			}
		}
	}
	assert.GreaterOrEqual(t, pairs, 17)
}

// Figures from elsewhere than the tables were taken from; each row of the file
// names its source.
func TestFiguresFromElsewhere(t *testing.T) {
	f, err := os.Open("testdata/figures.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"table", "key", "column", "value", "tolerance", "source"}, rows[0])
	checked := map[string]bool{}
	for i, row := range rows[1:] {
		table, ok := TableNamed(row[0])
		require.True(t, ok, "line %d", i+2)
		r, ok := table.Row(strings.Split(row[1], " | ")...)
		require.True(t, ok, "line %d: %s has no row %q", i+2, row[0], row[1])
		got, ok := table.Number(r, row[2])
		require.True(t, ok, "line %d", i+2)
		assert.InDelta(t, numberOf(t, row[3]), got, numberOf(t, row[4])+1e-9, "line %d: %s %s %s", i+2, row[0], row[1], row[2])
		require.NotEmpty(t, row[5], "line %d has no source", i+2)
		checked[row[0]] = true
	}
	assert.GreaterOrEqual(t, len(checked), 18, "tables with a figure from elsewhere")
}

// rising reports that the figures never fall from one to the next.
func rising(list []float64) bool {
	for i := 1; i < len(list); i++ {
		if list[i] < list[i-1] {
			return false
		}
	}
	return true
}

// strictlyRising reports that each figure is larger than the one before.
func strictlyRising(list []float64) bool {
	for i := 1; i < len(list); i++ {
		if list[i] <= list[i-1] {
			return false
		}
	}
	return true
}

// column collects a column of some rows.
func column(rows []record, name string) []float64 {
	var list []float64
	for _, r := range rows {
		list = append(list, r.number(name))
	}
	return list
}

// known collects a column of some rows without its blanks.
func known(rows []record, name string) []float64 {
	var list []float64
	for _, r := range rows {
		if x, ok := r.table.Number(r.row, name); ok {
			list = append(list, x)
		}
	}
	return list
}

// grouped collects rows by what a function says of them.
func grouped(rows []record, by func(record) string) map[string][]record {
	groups := map[string][]record{}
	for _, r := range rows {
		groups[by(r)] = append(groups[by(r)], r)
	}
	return groups
}
