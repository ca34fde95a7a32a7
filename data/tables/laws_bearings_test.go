package tables

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// boreOf reads the bore code at the end of a number by the rule of ISO 15: 00, 01,
// 02, 03 are 10, 12, 15, 17 mm, from 04 on it is a fifth of the bore, after a
// stroke it is the bore, and a single digit is the bore.
func boreOf(t *testing.T, number string) float64 {
	if _, bore, ok := strings.Cut(number, "/"); ok {
		return numberOf(t, bore)
	}
	if len(number) == 3 {
		return numberOf(t, number[2:])
	}
	code := number[len(number)-2:]
	if small, ok := map[string]float64{"00": 10, "01": 12, "02": 15, "03": 17}[code]; ok {
		return small
	}
	return 5 * numberOf(t, code)
}

func TestBoreCodes(t *testing.T) {
	for _, r := range records(t, "ball_bearings") {
		number, series := r.text("designation"), r.text("series")
		assert.Equal(t, boreOf(t, number), r.number("bore_mm"), r)
		assert.True(t, strings.HasPrefix(number, series) || isOld(r), "%s: series %s", r, series)
		// 68 and 69 are short for 618 and 619; inch markets write 52 and 53 for 32 and 33.
		longer := map[string]string{"68": "618", "69": "619", "52": "32", "53": "33"}[series]
		if alt := r.text("alt_designation"); alt != "" {
			assert.Equal(t, longer+strings.TrimPrefix(number, series), alt, r)
		}
	}
	for _, r := range records(t, "tapered_metric") {
		assert.Equal(t, boreOf(t, r.text("designation")), r.number("bore_mm"), r)
		assert.True(t, strings.HasPrefix(r.text("designation"), r.text("series")), r)
	}
	for _, r := range records(t, "cylindrical_rollers") {
		code := r.text("size_code")
		assert.Equal(t, boreOf(t, "x"+code), r.number("bore_mm"), r)
		assert.Equal(t, fmt.Sprintf("NU%s NJ%[1]s NUP%[1]s N%[1]s", code), r.text("designations"))
	}
}

// Within a dimension series outside diameter and width grow with the bore.
func TestBearingSeriesAreMonotone(t *testing.T) {
	for name, width := range map[string]string{"ball_bearings": "width_mm", "tapered_metric": "width_T_mm", "cylindrical_rollers": "width_mm"} {
		series := grouped(records(t, name), func(r record) string {
			switch {
			case name == "cylindrical_rollers":
				return r.text("size_code")[:1]
			case isOld(r):
				return "161"
			}
			return r.text("series")
		})
		require.Greater(t, len(series), 1)
		for s, rows := range series {
			assert.True(t, strictlyRising(column(rows, "bore_mm")), "%s series %s: bores", name, s)
			assert.True(t, rising(column(rows, "od_mm")), "%s series %s: outside diameters", name, s)
			if name == "tapered_metric" {
				assert.True(t, rising(known(rows, "cone_width_B_mm")), "series %s: cones", s)
				cups := known(rows, "cup_width_C_mm")
				for i := range cups[1:] {
					assert.GreaterOrEqual(t, cups[i+1], cups[i]-1, "series %s: cups", s) // a few are up to 1 mm narrower
				}
			}
			if s != "160" { // 16001 is narrower than the rest of its series
				assert.True(t, rising(column(rows, width)), "%s series %s: widths", name, s)
			}
		}
	}
	for _, name := range []string{"ball_bearings", "tapered_metric", "tapered_inch", "cylindrical_rollers"} {
		for _, r := range records(t, name) {
			assert.Greater(t, r.number("od_mm"), r.number("bore_mm"), r)
		}
	}
}

// isOld reports a bearing of series 160 that keeps an older outside diameter than
// the series: 16100 and 16101.
func isOld(r record) bool {
	number := r.text("designation")
	return number == "16100" || number == "16101"
}

// balls gives the ball bearings by series and bore.
func balls(t *testing.T) map[string]record {
	by := map[string]record{}
	for _, r := range records(t, "ball_bearings") {
		if !isOld(r) {
			by[r.text("series")+" "+r.text("bore_mm")] = r
		}
	}
	return by
}

// The diameter series of ISO 15 lie one inside the other: 8, 9, 0, 2, 3, 4. Series
// that differ in width alone share the outside diameter.
func TestBallSeriesLieInsideEachOther(t *testing.T) {
	by := balls(t)
	order := []string{"68", "69", "60", "62", "63", "64"}
	pairs := 0
	for key, r := range by {
		series, bore, _ := strings.Cut(key, " ")
		for i := range order[1:] {
			next, there := by[order[i+1]+" "+bore]
			if series == order[i] && there {
				pairs++
				assert.Less(t, r.number("od_mm"), next.number("od_mm"), "%s and %s", r, next)
			}
		}
		for wide, narrow := range map[string]string{"60": "160", "630": "60", "622": "62", "623": "63", "52": "62", "53": "63"} {
			same, there := by[narrow+" "+bore]
			if series == wide && there {
				pairs++
				assert.Equal(t, same.number("od_mm"), r.number("od_mm"), "%s and %s", r, same)
				assert.GreaterOrEqual(t, r.number("width_mm"), same.number("width_mm"), "%s and %s", r, same)
			}
		}
	}
	assert.Greater(t, pairs, 200)
}

// Roller bearings of a diameter series have the outside diameter of the ball
// bearings of that series; cylindrical ones of 02 and 03 the width too.
func TestRollersShareTheBoundaryPlan(t *testing.T) {
	by := balls(t)
	pairs := 0
	for _, r := range records(t, "cylindrical_rollers") {
		ball, there := by["6"+r.text("size_code")[:1]+" "+r.text("bore_mm")]
		if there {
			pairs++
			assert.Equal(t, ball.number("od_mm"), r.number("od_mm"), "%s and %s", r, ball)
			assert.Equal(t, ball.number("width_mm"), r.number("width_mm"), "%s and %s", r, ball)
		}
	}
	for _, r := range records(t, "tapered_metric") {
		series := map[string]string{"302": "62", "322": "62", "332": "62", "303": "63", "313": "63", "323": "63", "320": "60", "330": "60", "329": "69"}[r.text("series")]
		if ball, there := by[series+" "+r.text("bore_mm")]; there {
			pairs++
			assert.Equal(t, ball.number("od_mm"), r.number("od_mm"), "%s and %s", r, ball)
		}
	}
	assert.Greater(t, pairs, 200)
}

// Of a metric tapered bearing the whole is at least as wide as the cone, and the
// cone wider than the cup. The wider series of a diameter series are wider.
func TestTaperedWidths(t *testing.T) {
	width := map[string]float64{}
	for _, r := range records(t, "tapered_metric") {
		b, known := r.table.Number(r.row, "cone_width_B_mm")
		if known {
			assert.GreaterOrEqual(t, r.number("width_T_mm"), b, r)
		}
		if c, also := r.table.Number(r.row, "cup_width_C_mm"); also {
			assert.Greater(t, r.number("width_T_mm"), c, r)
			assert.True(t, !known || b > c, r)
		}
		width[r.text("series")+" "+r.text("bore_mm")] = r.number("width_T_mm")
	}
	for _, chain := range [][]string{{"302", "322", "332"}, {"303", "323"}, {"320", "330"}} {
		for i := range chain[1:] {
			for key, narrow := range width {
				series, bore, _ := strings.Cut(key, " ")
				if wide, there := width[chain[i+1]+" "+bore]; there && series == chain[i] {
					assert.Greater(t, wide, narrow, "%s beside %s, bore %s", chain[i+1], series, bore)
				}
			}
		}
	}
}

// A cone has one bore and width, a cup one outside diameter and width, whatever
// they are paired with (lists round the last of three decimals). J numbers are whole or half millimetres.
func TestInchConesAndCups(t *testing.T) {
	rows := records(t, "tapered_inch")
	for part, columns := range map[string][]string{"cone": {"bore_mm", "cone_width_B_mm"}, "cup": {"od_mm", "cup_width_C_mm"}} {
		for number, pairs := range grouped(rows, func(r record) string { return r.text(part) }) {
			for _, c := range columns {
				for _, r := range pairs[1:] {
					assert.InDelta(t, pairs[0].number(c), r.number(c), 0.006, "%s %s: %s in %s and %s", part, number, c, pairs[0], r)
				}
			}
		}
	}
	metric := 0
	for _, r := range rows {
		assert.Greater(t, r.number("width_T_mm"), r.number("cup_width_C_mm"), r)
		assert.Less(t, r.number("cone_width_B_mm"), r.number("width_T_mm")+3, r)
		if strings.HasPrefix(r.text("cone"), "J") {
			metric++
			for _, c := range []string{"bore_mm", "od_mm", "width_T_mm"} {
				assert.Equal(t, float64(int(2*r.number(c))), 2*r.number(c), "%s: %s", r, c)
			}
		}
	}
	assert.Greater(t, metric, 15)
}

// A needle cage's number is its three dimensions.
func TestNeedleCageNumbers(t *testing.T) {
	for _, r := range records(t, "needle_cages") {
		assert.Equal(t, fmt.Sprintf("K%sX%sX%s", r.text("inside_Fw_mm"), r.text("outside_Ew_mm"), r.text("width_Bc_mm")), r.text("designation"))
		assert.Greater(t, r.number("outside_Ew_mm"), r.number("inside_Fw_mm"), r)
	}
}

// Every short name a source uses is explained, and every one explained is used.
func TestShortNamesAreExplained(t *testing.T) {
	var said []string
	for _, table := range Tables() {
		if table.Name == "bearings_sources" {
			continue
		}
		for _, s := range table.Sources {
			said = append(said, s.Text)
		}
	}
	text := strings.Join(said, "\n")
	for _, r := range records(t, "bearings_sources") {
		assert.True(t, strings.Contains(text, r.text("short_name")), "%s is not used", r)
		text = strings.ReplaceAll(text, r.text("short_name"), "")
	}
	assert.False(t, strings.Contains(text, "Mar text") || strings.Contains(text, "O-ring list"), "a short name is not explained")
	for _, r := range records(t, "bearing_suffixes") {
		assert.Contains(t, []string{"prefix", "suffix"}, r.text("position"), r)
	}
}
