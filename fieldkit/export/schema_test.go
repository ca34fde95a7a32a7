package export_test

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/jacoelho/xsd"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/export"
)

// schemaOfGPX is the published schema as a general-purpose validator holds it.
func schemaOfGPX(t testing.TB) *xsd.Schema {
	t.Helper()
	schema, err := xsd.LoadWithOptions(os.DirFS("testdata"), "gpx.xsd", xsd.NewLoadOptions())
	require.NoError(t, err)
	return schema
}

// What is written is valid by the published schema of GPX 1.1; what breaks it is
// refused, so that the check can fail.
func TestValidBySchemaOfGPX(t *testing.T) {
	schema := schemaOfGPX(t)
	file, err := os.ReadFile("testdata/failures.gpx")
	require.NoError(t, err)
	require.NoError(t, schema.Validate(bytes.NewReader(file)))
	require.NoError(t, schema.Validate(bytes.NewReader(export.LogGPX(fieldkit.Kit{}, "x"))), "an empty log")

	for name, change := range map[string][2]string{
		"order":      {"<sym>Car Repair</sym>\n    <type>failure</type>", "<type>failure</type>\n    <sym>Car Repair</sym>"},
		"latitude":   {`lat="41.6551"`, `lat="91"`},
		"longitude":  {`lon="-180"`, `lon="180"`},
		"no creator": {` creator="Trail Field Kit"`, ""},
		"version":    {`version="1.1" creator`, `version="1.0" creator`},
		"time":       {"2026-05-14T18:05:00Z", "14 May 2026"},
		"element":    {"<sym>", "<sign>x</sign>\n    <sym>"},
	} {
		broken := strings.Replace(string(file), change[0], change[1], 1)
		require.NotEqual(t, string(file), broken, name)
		require.Error(t, schema.Validate(strings.NewReader(broken)), name)
	}
}

// Whatever words a failure holds, its waypoint stays valid.
func FuzzGPX(f *testing.F) {
	schema := schemaOfGPX(f)
	f.Add("]]><wpt>", "\x00\ufffe&#0;", int64(1), int64(-180_000_000))
	f.Add("a\r\nb", "\"'<", int64(90_000_000), int64(180_000_000))
	f.Fuzz(func(t *testing.T, what, creator string, lat, lon int64) {
		kit := logKit()
		kit.Failures.Ref(0).What, kit.Failures.Ref(0).Why, kit.Name = what, creator, what
		kit.Failures.Ref(0).Place.Lat, kit.Failures.Ref(0).Place.Lon = lat, lon
		if err := schema.Validate(bytes.NewReader(export.LogGPX(kit, creator))); err != nil {
			t.Fatal(err)
		}
	})
}
