package export_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/export"
)

func TestGoldenGPX(t *testing.T) {
	golden(t, "failures.gpx", export.LogGPX(logKit(), "Trail Field Kit"))
}

type gpx struct {
	XMLName  xml.Name `xml:"http://www.topografix.com/GPX/1/1 gpx"`
	Version  string   `xml:"version,attr"`
	Creator  string   `xml:"creator,attr"`
	Metadata struct {
		Name string `xml:"name"`
	} `xml:"metadata"`
	Waypoints []struct {
		Lat  string `xml:"lat,attr"`
		Lon  string `xml:"lon,attr"`
		Time string `xml:"time"`
		Name string `xml:"name"`
		Cmt  string `xml:"cmt"`
		Desc string `xml:"desc"`
		Sym  string `xml:"sym"`
		Type string `xml:"type"`
	} `xml:"wpt"`
}

func readGPX(t testing.TB, data []byte) gpx {
	t.Helper()
	var g gpx
	d := xml.NewDecoder(bytes.NewReader(data))
	d.Strict = true
	require.NoError(t, d.Decode(&g))
	return g
}

func TestLogGPX(t *testing.T) {
	g := readGPX(t, export.LogGPX(logKit(), "Trail Field Kit"))
	require.Equal(t, "1.1", g.Version)
	require.Equal(t, "Trail Field Kit", g.Creator)
	require.Equal(t, "Dry Fork <crew> & co", g.Metadata.Name)
	require.Len(t, g.Waypoints, 2, "only failures with a fix")
	w := g.Waypoints[0]
	require.Equal(t, "41.6551", w.Lat)
	require.Equal(t, "-118.433801", w.Lon)
	require.Equal(t, "2026-05-14T18:05:00Z", w.Time)
	require.Equal(t, `cross snapped "clean"`, w.Name)
	require.Equal(t, "2026-05-14, Bramble, axle U-joint, left", w.Cmt)
	require.Contains(t, w.Desc, "under load\nwhy: =dry since the build\nfix: new joint <on the tailgate> & grease\nused: 1 × cross")
	require.Equal(t, "Car Repair", w.Sym)
	require.Equal(t, "failure", w.Type)
	require.Equal(t, "2026-05-14T03:05:00Z", g.Waypoints[1].Time, "without a note's moment, when the place was fixed")
}

// Element order and ranges of the GPX 1.1 schema,
// http://www.topografix.com/GPX/1/1/gpx.xsd: sequences of gpxType, metadataType
// and wptType; latitudeType is -90 to 90, longitudeType is -180 to below 180.
func TestFollowsTheSchema(t *testing.T) {
	sequences := map[string][]string{
		"gpx":      {"metadata", "wpt", "rte", "trk", "extensions"},
		"metadata": {"name", "desc", "author", "copyright", "link", "time", "keywords", "bounds", "extensions"},
		"wpt": {"ele", "time", "magvar", "geoidheight", "name", "cmt", "desc", "src", "link", "sym", "type",
			"fix", "sat", "hdop", "vdop", "pdop", "ageofdgpsdata", "dgpsid", "extensions"},
	}
	repeated := []string{"wpt"}
	data := export.LogGPX(logKit(), "x")
	d := xml.NewDecoder(bytes.NewReader(data))
	var open []string
	last := map[int]int{}
	elements := 0
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			elements++
			require.Equal(t, "http://www.topografix.com/GPX/1/1", token.Name.Space)
			if len(open) > 0 {
				parent := open[len(open)-1]
				place := slices.Index(sequences[parent], token.Name.Local)
				require.GreaterOrEqual(t, place, 0, "%s in %s", token.Name.Local, parent)
				if place == last[len(open)] {
					require.Contains(t, repeated, token.Name.Local, "%s twice in %s", token.Name.Local, parent)
				}
				require.GreaterOrEqual(t, place, last[len(open)], "%s out of order in %s", token.Name.Local, parent)
				last[len(open)] = place
			}
			open = append(open, token.Name.Local)
			last[len(open)] = -1
		case xml.EndElement:
			open = open[:len(open)-1]
		}
	}
	require.Greater(t, elements, 10)
	g := readGPX(t, data)
	require.Equal(t, "-180", g.Waypoints[1].Lon, "180 is beyond the schema's longitude and the same meridian")
}

func TestPlacesOffTheGlobe(t *testing.T) {
	for _, p := range []fieldkit.Place{
		{Lat: 90_000_001}, {Lat: -90_000_001}, {Lon: 180_000_001}, {Lon: -180_000_001}, {Lat: -1 << 63}, {Lon: 1<<63 - 1},
	} {
		kit := logKit()
		p.FixedAt = moment(1)
		kit.Failures = fieldkit.ListOf(kit.Failures.Slice()[:1])
		kit.Failures.Ref(0).Place = p
		require.Empty(t, readGPX(t, export.LogGPX(kit, "x")).Waypoints)
		require.Empty(t, read(t, export.LogCSV(kit, fieldkit.Metric))[0]["latitude"])
	}
}

func TestNothingLogged(t *testing.T) {
	g := readGPX(t, export.LogGPX(fieldkit.Kit{}, "x"))
	require.Empty(t, g.Waypoints)
	require.Empty(t, read(t, export.LogCSV(fieldkit.Kit{}, fieldkit.Metric)))
	require.Empty(t, read(t, export.ReadingsCSV(fieldkit.Kit{}, fieldkit.Metric)))
}
