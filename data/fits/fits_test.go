package fits

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/data/tables"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/fit"
)

// Every kind of the catalog has a schema, and every schema keeps the rules: each
// attribute with a rule, a tolerance where it needs one, and a source.
func TestEveryKindHasASchema(t *testing.T) {
	specs, err := load(files)
	require.NoError(t, err)
	kinds := data.Catalog().PartKinds
	assert.Len(t, specs, len(kinds))
	for _, kind := range kinds {
		schema, err := fit.SchemaOf(kind, specs[kind.ID].Attributes, specs[kind.ID].Designated...)
		if assert.NoError(t, err, kind.ID) {
			assert.Len(t, schema.Attributes, len(kind.Deciding), kind.ID)
		}
	}
}

// A designation defines whatever the attribute it stands in settles, and never what no
// standard writes into it: the load range of a tyre, the rubber of an O-ring, the length
// of a stud.
func TestDesignationsDefineTheirSizes(t *testing.T) {
	specs, err := load(files)
	require.NoError(t, err)
	for kind, e := range specs {
		for _, a := range e.Attributes {
			if len(a.Settles) > 0 {
				assert.Subset(t, e.Designated, append(a.Settles, a.Name), kind)
			}
		}
	}
	for kind, attribute := range map[string]string{
		"tyre": "load range", "o-ring": "material", "wheel-stud": "length under head", "lug-nut": "seat", "wheel-seal": "lip", "axle-u-joint": "holding", "brake-pads": "pad length",
	} {
		assert.NotContains(t, specs[kind].Designated, attribute, kind)
	}
}

// The kinds a builder needs a fit check for, by name.
func TestWearPartsOfARig(t *testing.T) {
	for _, id := range strings.Fields(`steering-pump steering-box steering-ram steering-hose tie-rod-end ball-joint king-pin-kit unit-bearing
		wheel-bearing wheel-seal locking-hub front-axle-shaft rear-axle-shaft stub-shaft axle-u-joint drive-shaft-u-joint drive-shaft yoke
		ring-and-pinion brake-pads brake-rotor brake-caliper brake-hose wheel-cylinder parking-brake-shoes wheel-stud lug-nut tone-ring
		wheel-speed-sensor coolant-hose thermostat water-pump ribbed-belt belt-tensioner alternator starter battery fuel-pump oil-filter
		air-filter fuel-filter ignition-coil spark-plug relay leaf-spring-bush link-joint shock-absorber tyre sealant`) {
		kind, known := data.Catalog().PartKind(id)
		require.True(t, known, id)
		_, ok := For(kind)
		assert.True(t, ok, id)
	}
	_, ok := For(fieldkit.PartKind{ID: "no-such-kind"})
	assert.False(t, ok)
}

// A tolerance must tell the nearest published neighbours apart: two sizes that stand
// side by side in a table are never both "the same".
func TestTolerancesTellNeighboursApart(t *testing.T) {
	for _, c := range []struct {
		kind, attribute, table, column, unit string
		least                                fieldkit.Length // sizes nearer than this are not told apart by any hand tool
	}{
		{"wheel-bearing", "bore", "tapered_inch", "bore_mm", "mm", 90_000},
		{"axle-bearing", "bore", "ball_bearings", "bore_mm", "mm", 90_000},
		{"axle-u-joint", "cap diameter", "ujoints", "cap_diameter_mm", "mm", 200_000},
		{"axle-u-joint", "span", "ujoints", "span_mm", "mm", 700_000},
		{"wheel-seal", "shaft diameter", "radial_shaft_seals", "shaft_mm", "mm", 500_000},
		{"o-ring", "cross-section", "orings_as568", "cs_mm", "mm", 500_000},
	} {
		sizes := column(t, c.table, c.column, c.unit)
		kind, _ := data.Catalog().PartKind(c.kind)
		schema, _ := For(kind)
		a, known := schema.Named(c.attribute)
		require.True(t, known, c.attribute)
		for _, one := range sizes {
			for _, other := range sizes {
				if gap := other - one; gap < c.least {
					continue
				}
				wanted, hand := fit.Readings{}, fit.Readings{}
				wanted.Set(c.attribute, exactly(one))
				hand.Set(c.attribute, exactly(other))
				r := fit.Compare(fit.Schema{Attributes: []fit.Attribute{a}}, fit.Part{Readings: wanted}, fit.Hand{Readings: hand})
				require.Equal(t, fit.Differs, r.Lines[0].Outcome, "%s %s: %v and %v", c.kind, c.attribute, one.Both(fieldkit.Metric), other.Both(fieldkit.Metric))
			}
		}
	}
}

func exactly(q fieldkit.Length) fit.Reading {
	return fit.Reading{Value: fieldkit.Value{Dim: fieldkit.DimLength, Base: int64(q)}, How: fieldkit.PublishedStandard}
}

func column(t *testing.T, table, column, unit string) (sizes []fieldkit.Length) {
	t.Helper()
	found, ok := tables.TableNamed(table)
	require.True(t, ok, table)
	at := -1
	for i, c := range found.Columns {
		if c.Name == column {
			at = i
		}
	}
	if at < 0 {
		t.Fatalf("table %s has no column %s: %v", table, column, found.Columns)
	}
	seen := map[fieldkit.Length]bool{}
	for _, row := range found.Rows {
		q, err := fieldkit.ParseLength(row[at]+" "+unit, fieldkit.Metric)
		if err == nil && !seen[q] {
			seen[q] = true
			sizes = append(sizes, q)
		}
	}
	require.Greater(t, len(sizes), 3)
	return sizes
}

// What breaks a rule is refused with its place.
func TestBrokenSchemasAreRefused(t *testing.T) {
	kind, _ := data.Catalog().PartKind("wheel-stud")
	text, err := os.ReadFile("wheels.json")
	require.NoError(t, err)
	for name, c := range map[string]struct{ old, new, what string }{
		"no rule":               {`"rule": "equal"`, `"rule": "about"`, "is no rule"},
		"no source":             {`"source": "ISO 68-1 and ASME B1.1: diameter and pitch must both agree"`, `"source": " "`, "says no source"},
		"tolerance in kilogram": {`"below": "0.1 mm", "above": "0.25 mm"`, `"below": "0.1 kg", "above": "0.25 mm"`, "an allowance is a mass"},
		"half a tolerance":      {`"below": "0.1 mm", "above": "0.25 mm"`, `"below": "0.1 mm"`, "tolerance is missing"},
		"unknown designated":    {`"designated": ["thread"]`, `"designated": ["pitch"]`, "a designation defines it"},
		"unknown attribute":     {`"name": "shoulder"`, `"name": "collar"`, "no such attribute"},
		"words with tolerance":  {`"name": "thread", "rule": "equal"`, `"name": "thread", "rule": "within tolerance"`, "words have no tolerance"},
		"amount with words":     {`"name": "shoulder", "rule": "within tolerance"`, `"name": "shoulder", "rule": "one of a list"`, "compared by its size"},
	} {
		t.Run(name, func(t *testing.T) {
			broken := strings.Replace(string(text), c.old, c.new, 1)
			require.NotEqual(t, string(text), broken)
			specs, err := load(fstest.MapFS{"wheels.json": {Data: []byte(broken)}})
			require.NoError(t, err)
			_, err = fit.SchemaOf(kind, specs["wheel-stud"].Attributes, specs["wheel-stud"].Designated...)
			assert.ErrorContains(t, err, c.what)
		})
	}
	for name, c := range map[string]struct{ old, new, what string }{
		"allowance that is none": {`"0.25 mm"`, `"wide"`, "is not an allowance"},
		"share below nothing":    {`"0.25 mm"`, `"-3 %"`, "is not a share"},
		"kind twice":             {`"kind": "lug-nut"`, `"kind": "wheel-stud"`, "stands twice"},
		"unknown field":          {`"source": "common practice"`, `"sauce": "common practice"`, "sauce"},
	} {
		t.Run(name, func(t *testing.T) {
			broken := strings.Replace(string(text), c.old, c.new, 1)
			_, err := load(fstest.MapFS{"wheels.json": {Data: []byte(broken)}})
			assert.ErrorContains(t, err, c.what)
		})
	}
}
