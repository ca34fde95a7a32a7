package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/data/tables"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/lookup"
	"trailfieldkit/fieldkit/standards"
	"trailfieldkit/fieldkit/standards/measure"
)

// Page by page all rows of every table are shown once, in both systems where a length
// is one.
func TestTablePages(t *testing.T) {
	for _, name := range tables.Names() {
		table, _ := tables.TableNamed(name)
		seen := 0
		for page := 1; ; page++ {
			v := tableRows(name, "", page, fieldkit.Metric)
			require.True(t, v.found)
			seen += len(v.rows)
			for _, r := range v.rows {
				assert.NotEmpty(t, r.title, name)
				path, _, _ := strings.Cut(r.address, "?")
				assert.Contains(t, routes, path)
			}
			if page == v.pages {
				break
			}
		}
		assert.Equal(t, len(table.Rows), seen, name)
	}
	assert.False(t, tableRows("none", "", 1, fieldkit.Metric).found)
}

func TestTableFilter(t *testing.T) {
	v := tableRows("ball_bearings", "35 72", 1, fieldkit.Metric)
	require.NotEmpty(t, v.rows)
	assert.Equal(t, "6207", v.rows[0].title, "35 and 72 are whole cells: bore and outside diameter")
	assert.Contains(t, v.rows[0].figures, "bore 35 mm (1.378 in)") // ISO 15: 6207 is 35 × 72 × 17 mm
	assert.Equal(t, "/counter/designation?kind=ball+bearing&q=6207", v.rows[0].address)
	assert.Zero(t, tableRows("ball_bearings", "zebra", 1, fieldkit.Metric).matching)
	beyond := tableRows("ball_bearings", "", 999, fieldkit.Metric)
	assert.Equal(t, beyond.pages, beyond.page)
}

// A row tells its figures once, though its table has them in several units.
func TestRowFacts(t *testing.T) {
	table, _ := tables.TableNamed("load_index")
	row, ok := table.Row("121")
	require.True(t, ok)
	var said []string
	for _, f := range rowFacts(table, row, fieldkit.Metric) {
		said = append(said, f.name+" "+f.value)
	}
	assert.Equal(t, []string{"Load index 121", "Load 1450 kg (3197 lb)"}, said) // ISO 4000-1: 121 is 1450 kg
}

func TestExplain(t *testing.T) {
	book := data.Handbook()
	index := lookup.New(data.DemoKit(), data.Catalog(), data.Shelf())
	v := explain(book, index, standards.KindBall, "6208-2RS", fieldkit.Metric)
	require.NotNil(t, v.d)
	assert.Contains(t, v.pieces, fact{"2RS", "Rubber contact seal on both sides"})
	assert.Contains(t, v.sizes, fact{"Outside diameter", "80 mm (3.15 in)"})
	assert.Equal(t, []string{"axle-bearing-6208", "axle-bearing-6208zz"}, v.hit.Parts, "whatever its seals")
	assert.Len(t, v.hit.Positions, 2)
	assert.Equal(t, "/counter/table/row?designation=6208&name=ball_bearings", v.row)

	v = explain(book, index, "", "1310", fieldkit.Metric)
	require.NotNil(t, v.d, "the likeliest kind if none is asked for")
	assert.Equal(t, standards.KindUJoint, v.d.Kind())

	v = explain(book, index, standards.KindBall, "35x12.50R17", fieldkit.Metric)
	assert.Nil(t, v.d)
	require.NotEmpty(t, v.others, "it is no ball bearing, but a tyre")
	assert.Equal(t, standards.KindTyre, v.others[0].Kind())

	v = explain(book, index, "", "35x12.50R99", fieldkit.Metric)
	require.NotNil(t, v.misled)
	assert.Contains(t, v.misled.Why, "99")
	assert.NotEmpty(t, v.misled.Nearest)
}

// The form reads as the desk command does: fractions, other units, the tool in hand,
// a worn part.
func TestMeasuredAnswer(t *testing.T) {
	kind, _ := measure.KindNamed("tapered")
	typed := map[string]string{"bore": "1-5/8", "od": "2.891 in", wornField: "yes", toolField: "steel rule"}
	q := measureQuery(kind, func(name string) string { return typed[name] })
	require.True(t, q.Worn)
	require.Equal(t, "steel rule", q.Tool.Name)
	m, err := measuredAnswer(kind, q, fieldkit.Inch)
	require.NoError(t, err)
	assert.True(t, m.fits)
	assert.Equal(t, "LM501349/LM501310", m.candidates[0].designation.String()) // ABMA 19.2
	assert.Equal(t, fact{"Bore", "1-5/8 in (41.28 mm) ±0.02 in"}, m.readings[0])
	assert.Equal(t, "bore 1-5/8 in (41.28 mm), as read", m.candidates[0].misfits[0])
	assert.NotEmpty(t, m.next.why)

	joint, _ := measure.KindNamed("u-joint")
	m, err = measuredAnswer(joint, measure.Query{Given: []measure.Given{{Name: "cap", Text: "40 mm"}, {Name: "span", Text: "110 mm"}}}, fieldkit.Metric)
	require.NoError(t, err)
	assert.False(t, m.fits)
	assert.Equal(t, "does not fit", m.candidates[0].chance, "the nearest is said, and that it is not it")

	_, err = measuredAnswer(kind, measure.Query{}, fieldkit.Metric)
	require.Error(t, err)
	_, err = measuredAnswer(kind, measure.Query{Given: []measure.Given{{Name: "bore", Text: "1,234"}}}, fieldkit.Metric)
	var e *fieldkit.Error
	require.ErrorAs(t, err, &e)
	assert.Equal(t, "bore", e.Where, "said beside its field")
}
