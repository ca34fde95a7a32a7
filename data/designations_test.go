package data

import (
	"encoding/csv"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

// figure is a row of testdata/demo_designations.csv: what a designation says about
// one dimension, with its source.
type figure struct {
	value     fieldkit.Value
	tolerance int64 // base units
	used      bool
}

type designation struct{ kind, name string }

func readFigures(t *testing.T) map[designation]map[string]*figure {
	t.Helper()
	f, err := os.Open("testdata/demo_designations.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"kind", "designation", "attribute", "value", "tolerance", "source"}, rows[0])
	figures := map[designation]map[string]*figure{}
	for i, r := range rows[1:] {
		value, err := fieldkit.ParseValue(r[3])
		require.NoError(t, err, "row %d", i+2)
		tolerance, err := fieldkit.ParseValueAs(r[4], value.Dim, fieldkit.Metric)
		require.NoError(t, err, "row %d", i+2)
		require.NotEmpty(t, r[5], "row %d has no source", i+2)
		d := designation{r[0], r[1]}
		if figures[d] == nil {
			figures[d] = map[string]*figure{}
		}
		figures[d][r[2]] = &figure{value: value, tolerance: tolerance.Base}
	}
	return figures
}

// What the demo measures on a part that bears a standard designation is what the
// standard gives. Sources stand in the table, row by row.
func TestDemoAgreesWithStandards(t *testing.T) {
	figures := readFigures(t)
	for _, p := range DemoKit().Parts.All() {
		for _, n := range p.Numbers {
			if n.Issuer != fieldkit.StandardNumber {
				continue
			}
			rows := figures[designation{p.Kind, n.Value}]
			require.NotEmpty(t, rows, "%s bears %s, which the table does not hold", p.ID, n.Value)
			for _, m := range p.Measurements {
				row, ok := rows[m.Name]
				if !ok {
					continue
				}
				row.used = true
				assert.Equal(t, row.value.Dim, m.Value.Dim, "%s %s", p.ID, m.Name)
				assert.InDelta(t, float64(row.value.Base), float64(m.Value.Base), float64(row.tolerance),
					"%s %s: measured %s, %s has %s", p.ID, m.Name, m.Value, n.Value, row.value)
			}
		}
	}
	for d, rows := range figures {
		for attribute, row := range rows {
			if d.kind != "thread" && d.kind != "studs" {
				assert.True(t, row.used, "the demo measures no %s of %s", attribute, d.name)
			}
		}
	}
}

// thread matches a thread as it is written: M14x1.5, 9/16-18, 1-5/8-16.
var thread = regexp.MustCompile(`\bM\d+x\d+(?:\.\d+)?\b|\b(?:\d+-)?\d+/\d+-\d+\b|\b1-\d{2}\b`)

func TestDemoThreadsAreStandard(t *testing.T) {
	figures := readFigures(t)
	seen := map[string]bool{}
	for _, p := range DemoKit().Parts.All() {
		for _, m := range p.Measurements {
			if m.Value.Dim != fieldkit.DimText {
				continue
			}
			for _, written := range thread.FindAllString(m.Value.Text, -1) {
				row := figures[designation{"thread", written}]
				require.NotEmpty(t, row, "%s %s: %s is in no table", p.ID, m.Name, written)
				seen[written] = true
				// The first figure of a thread is its nominal diameter.
				size := strings.TrimPrefix(written, "M")
				size = size[:strings.LastIndexAny(size, "x-")]
				unit := " in"
				if strings.HasPrefix(written, "M") {
					unit = " mm"
				}
				nominal, err := fieldkit.ParseValue(size + unit)
				require.NoError(t, err)
				assert.Equal(t, row["nominal diameter"].value, nominal, written)
			}
		}
	}
	for d := range figures {
		if d.kind == "thread" {
			assert.True(t, seen[d.name], "the demo has no thread %s", d.name)
		}
	}
}

func TestDemoStudCirclesAreStandard(t *testing.T) {
	figures := readFigures(t)
	checked := 0
	for _, p := range DemoKit().Parts.All() {
		at := map[string]fieldkit.Value{}
		for _, m := range p.Measurements {
			at[m.Name] = m.Value
		}
		circle, ok := at["stud circle"]
		if !ok {
			continue
		}
		checked++
		row := figures[designation{"studs", at["studs"].String()}]
		require.NotEmpty(t, row, p.ID)
		assert.Equal(t, row["stud circle"].value, circle, p.ID)
	}
	assert.GreaterOrEqual(t, checked, 2)
}
