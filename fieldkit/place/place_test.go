package place_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/place"
)

// Published conversions; each row of the file names its source. Easting and northing
// agree to the last digit printed, the grid reference to the letter.
func TestGridsAgreeWithPublishedConversions(t *testing.T) {
	file, err := os.Open("testdata/grids.csv")
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 12)
	for _, row := range rows[1:] {
		t.Run(row[0]+" "+row[1], func(t *testing.T) {
			at := place.At{Lat: micro(t, row[0]), Lon: micro(t, row[1])}
			u, ok := at.UTM()
			require.True(t, ok)
			words := strings.Fields(row[2])
			assert.Equal(t, words[0], fmt.Sprintf("%02d%c", u.Zone, u.Band))
			for i, got := range []float64{u.Easting, u.Northing} {
				want, err := strconv.ParseFloat(words[i+1], 64)
				require.NoError(t, err)
				step := 1.0
				if _, digits, ok := strings.Cut(words[i+1], "."); ok {
					step = math.Pow10(-len(digits))
				}
				// one printed row is rounded to a centimetre, the others to their digit
				assert.InDelta(t, want, got, math.Max(step, 0.005)*1.0001)
			}
			if row[3] != "" {
				assert.Equal(t, row[3], u.MGRS())
			}
		})
	}
}

func micro(t *testing.T, degrees string) int64 {
	t.Helper()
	x, err := strconv.ParseFloat(degrees, 64)
	require.NoError(t, err)
	return int64(math.Round(x * 1e6))
}

// Zones that differ in Norway and Svalbard (DMA TM 8358.1; points of the same
// published examples).
func TestWideZones(t *testing.T) {
	for _, c := range []struct {
		lat, lon int64
		zone     int
	}{{60, 4, 32}, {75, 8, 31}, {75, 10, 33}, {75, 20, 33}, {75, 22, 35}, {75, 32, 35}, {75, 34, 37}, {0, 180, 1}, {0, -180, 1}, {60, 2, 31}} {
		u, ok := place.At{Lat: c.lat * 1e6, Lon: c.lon * 1e6}.UTM()
		require.True(t, ok)
		assert.Equal(t, c.zone, u.Zone, "%d %d", c.lat, c.lon)
	}
}

func TestNoGridNearThePoles(t *testing.T) {
	for _, at := range []place.At{{84_000_001, 0}, {-80_000_001, 0}, {91_000_000, 0}, {0, 181_000_000}} {
		_, ok := at.UTM()
		assert.False(t, ok, "%v", at)
	}
	for _, at := range []place.At{{84_000_000, 0}, {-80_000_000, 0}} {
		_, ok := at.UTM()
		assert.True(t, ok, "%v", at)
	}
}

// Conversions by the definition of the minute: a sixtieth of a degree.
func TestNotations(t *testing.T) {
	for _, c := range []struct {
		at               place.At
		degrees, minutes string
	}{
		{place.At{Lat: 41_852_704, Lon: -118_221_300}, "41.85270° N 118.22130° W", "41° 51.162′ N 118° 13.278′ W"},
		{place.At{Lat: -500_000, Lon: 59_999_999}, "0.50000° S 60.00000° E", "0° 30.000′ S 60° 00.000′ E"},
		{place.At{}, "0.00000° N 0.00000° E", "0° 00.000′ N 0° 00.000′ E"},
		{place.At{Lat: 90_000_000, Lon: -180_000_000}, "90.00000° N 180.00000° W", "90° 00.000′ N 180° 00.000′ W"},
	} {
		assert.Equal(t, c.degrees, c.at.Degrees())
		assert.Equal(t, c.minutes, c.at.Minutes())
	}
}

// Neighbours stay neighbours: a step of a ten-thousandth of a degree is 11.1 m north
// (the meridian is 10 002 km from equator to pole) and never moves the letters of a
// band backwards.
func TestGridIsSmooth(t *testing.T) {
	for lat := int64(-79_000_000); lat < 83_000_000; lat += 977_777 {
		for lon := int64(-179_000_000); lon < 180_000_000; lon += 13_333_333 {
			a, ok := place.At{Lat: lat, Lon: lon}.UTM()
			require.True(t, ok)
			b, ok := place.At{Lat: lat + 100, Lon: lon}.UTM()
			require.True(t, ok)
			if a.Zone == b.Zone && (lat < 0) == (lat+100 < 0) {
				assert.InDelta(t, 11.1, math.Hypot(b.Easting-a.Easting, b.Northing-a.Northing), 0.1)
			}
			assert.True(t, a.Easting > 100_000 && a.Easting < 900_000, "%v", a)
			assert.Len(t, strings.ReplaceAll(a.MGRS(), " ", ""), 15)
		}
	}
}

func TestCallText(t *testing.T) {
	at, err := time.Parse(time.RFC3339, "2026-05-03T18:42:00Z")
	require.NoError(t, err)
	c := place.Call{Who: "Oona, two people", What: "front axle broken, nobody hurt", Number: "555 0134",
		Place: fieldkit.Place{Lat: 38_897_700, Lon: -77_036_500, Accuracy: 8 * fieldkit.Metre, FixedAt: fieldkit.Moment{Time: at}}}
	// The grid reference is the published one of the same point (testdata/grids.csv).
	assert.Equal(t, strings.Join([]string{
		"NEED HELP.",
		"Position: 38° 53.862′ N 77° 02.190′ W",
		"= 38.89770° N 77.03650° W",
		"= MGRS 18S UJ 23394 07395 (UTM 18S 323394 4307396)",
		"WGS 84, within 8 m (26 ft), taken 3 May 2026 18:42 UTC.",
		"What: front axle broken, nobody hurt",
		"Who: Oona, two people",
		"Call back: 555 0134",
	}, "\n"), c.Text())

	without := place.Call{What: "stuck", Place: fieldkit.Place{Text: "second ford below the mine"}}
	assert.Equal(t, "NEED HELP.\nPlace: second ford below the mine\nWhat: stuck", without.Text())
}

// The spelling alphabet of ICAO Annex 10 and the ITU Radio Regulations, Appendix 14.
func TestSpoken(t *testing.T) {
	assert.Equal(t, "one eight Sierra Uniform Juliett two three", place.Spoken("18S UJ 23"))
	assert.Equal(t, "three eight degrees five three decimal eight six two minutes November", place.Spoken("38° 53.862′ N"))
}

// 1 ft = 0.3048 m exactly: 8 m are 26.2 ft, 100 m are 328.1 ft.
func TestMetres(t *testing.T) {
	assert.Equal(t, "8 m (26 ft)", place.Metres(8*fieldkit.Metre))
	assert.Equal(t, "100 m (328 ft)", place.Metres(100*fieldkit.Metre))
	assert.Equal(t, "0 m (0 ft)", place.Metres(0))
}
