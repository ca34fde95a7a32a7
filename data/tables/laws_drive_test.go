package tables

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ANSI B92.1, 24/48 pitch: pitch diameter N/24 in, major diameter (N+1)/24 in. Torsion
// of a solid round shaft: modulus π d³/16 (textbook mechanics; from memory).
func TestSplines(t *testing.T) {
	for _, r := range records(t, "splines") {
		n := r.number("splines")
		major := (n + 1) / 24
		assert.InDelta(t, n/24, r.number("pitch_diameter_in"), 0.00006, r)
		assert.InDelta(t, major, r.number("major_diameter_in"), 0.0006, r)
		modulus := math.Pi / 16 * major * major * major
		assert.InEpsilon(t, modulus, r.number("torsion_section_modulus_in3"), 0.001, r)
		assert.InDelta(t, modulus*1000/12, r.number("torque_lbf_ft_per_ksi_shear"), 0.06, r)
		assert.InEpsilon(t, math.Pow((n+1)/31, 3), r.number("strength_ratio_to_30_spline"), 0.002, r)
		for part := range strings.SplitSeq(r.text("trade_diameter_in"), "-") {
			if part != "" {
				assert.InDelta(t, major, numberOf(t, part), 0.05, "%s: trade diameter", r)
			}
		}
	}
	for _, check := range readChecks(t, "splines_checks.csv") {
		if n, ok := strings.CutSuffix(check["check"], " spline major diameter"); ok {
			table, _ := TableNamed("splines")
			row, ok := table.Row(n, "24/48")
			require.True(t, ok, n)
			assert.Equal(t, check["value"], table.Cell(row, "major_diameter_in"))
		}
	}
}

// The trade builds series up by turns: a larger cross, then larger caps.
func TestUJointSeries(t *testing.T) {
	for _, same := range []struct{ a, b, column string }{
		{"1310", "1330", "cap_diameter_in"}, {"1330", "1350", "span_in"}, {"1350", "1410", "cap_diameter_in"},
		{"1410", "1480", "span_in"}, {"1480", "1550", "cap_diameter_in"},
	} {
		table, _ := TableNamed("ujoints")
		a, _ := table.Row(same.a)
		b, _ := table.Row(same.b)
		assert.Equal(t, table.Cell(a, same.column), table.Cell(b, same.column), "%s and %s", same.a, same.b)
	}
	for _, r := range records(t, "ujoints") {
		assert.Greater(t, r.number("span_in"), 2*r.number("cap_diameter_in"), r)
		assert.Empty(t, r.text("torque_rating_lbf_ft"), "%s: makers differ", r)
	}
}

var (
	metricBelt = regexp.MustCompile(`^(\d+)PK(\d*)\b`)
	inchBelt   = regexp.MustCompile(`^K?(\d\d?)K?(\d{3,4})\b`)
)

// The rules at the head of the table give the figures worked out elsewhere, and the
// profiles' pitches grow from PH to PM.
func TestRibbedBelts(t *testing.T) {
	rule := func(item string) float64 {
		for _, r := range records(t, "belts_ribbed") {
			if r.text("kind") == "rule" && strings.HasPrefix(r.text("item"), item) {
				return r.number("value")
			}
		}
		require.Fail(t, "no rule", item)
		return 0
	}
	pitch, perInch := rule("PK profile rib pitch"), rule("PK belt width per rib")
	assert.InDelta(t, pitch, 25.4*perInch, 0.01)
	assert.True(t, strictlyRising([]float64{rule("PH"), rule("PJ"), pitch, rule("PL"), rule("PM")}))
	checked := 0
	for _, r := range records(t, "belts_ribbed") {
		if r.text("kind") != "check" {
			continue
		}
		item, got := r.text("item"), r.number("value")
		var want, slack float64 // in mm, or ribs
		switch metric, inch := metricBelt.FindStringSubmatch(item), inchBelt.FindStringSubmatch(item); {
		case metric != nil && strings.HasSuffix(item, "width"):
			want = numberOf(t, metric[1]) * pitch
		case metric != nil && strings.HasSuffix(item, "ribs"):
			want = numberOf(t, metric[1])
		case metric != nil && strings.HasSuffix(item, "effective length"):
			want = numberOf(t, metric[2])
		case metric != nil && strings.HasSuffix(item, "outside circumference"):
			want, slack = numberOf(t, metric[2])+rule("outside circumference minus"), 0.3
		case strings.HasPrefix(item, "6 rib"):
			want, slack = 6*pitch, 0.05
		case inch != nil:
			// The digits after the ribs are tenths of an inch: 0955 is 95.5 in.
			digits := inch[2]
			want = 25.4 * rule("inch code K0nllll") * numberOf(t, digits)
		default:
			require.Fail(t, "no rule for", item)
		}
		if r.text("unit") == "in" {
			got *= 25.4
			slack = max(slack, 0.2)
		}
		checked++
		assert.InDelta(t, want, got, slack+0.01, r)
	}
	assert.Equal(t, 15, checked)
}
