package tables

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// AWG by ASTM B258: diameter 0.127 · 92^((36-n)/39) mm; n/0 is 1-n. Resistance of
// annealed copper at 20 °C: 17.241 Ω·mm²/km (IEC 60028).
func TestWireGauges(t *testing.T) {
	rows := records(t, "wire_awg")
	for _, r := range rows {
		n := 0.0
		if noughts, ok := strings.CutSuffix(r.text("awg"), "/0"); ok {
			n = 1 - numberOf(t, noughts)
		} else {
			n = numberOf(t, r.text("awg"))
		}
		d := 0.127 * math.Pow(92, (36-n)/39)
		assert.InDelta(t, d, r.number("diameter_mm"), 0.0011, r)
		assert.InEpsilon(t, math.Pi/4*d*d, r.number("area_mm2"), 0.003, r) // the standard takes areas from rounded inches
		assert.InEpsilon(t, 17.241/(math.Pi/4*d*d), r.number("ohm_per_km"), 0.002, r)
	}
}

// Sizes of ISO 6722; from memory.
var wireSizes = []float64{0.13, 0.22, 0.35, 0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 50, 60, 70, 95, 120}

// The metric size to replace a gauge with is the next one that is not thinner.
func TestWireMetricSizes(t *testing.T) {
	for _, r := range records(t, "wire_awg") {
		area := r.number("area_mm2")
		nearest, above := wireSizes[0], 0.0
		for _, size := range wireSizes {
			if math.Abs(math.Log(size/area)) < math.Abs(math.Log(nearest/area)) { // by ratio, as the sizes are stepped
				nearest = size
			}
			if above == 0 && size >= area {
				above = size
			}
		}
		assert.Equal(t, nearest, r.number("iso6722_nearest_mm2"), r)
		assert.Equal(t, above, r.number("iso6722_at_or_above_mm2"), r)
		for trade := range strings.SplitSeq(r.text("trade_equivalent_mm2"), "-") {
			if trade != "" {
				assert.True(t, numberOf(t, trade) > 0.7*area && numberOf(t, trade) < 1.1*area, "%s: %s mm² for %v mm²", r, trade, area)
			}
		}
		if sae, ok := r.table.Number(r.row, "sae_metric_mm2"); ok {
			assert.True(t, sae > 0.75*area && sae < 1.1*area, "%s: %v mm² for %v mm²", r, sae, area)
		}
	}
}

// A group whose posts are the other way round is there, and has nearly the same case.
func TestBatteryGroups(t *testing.T) {
	groups := map[string]record{}
	for _, r := range records(t, "batteries_bci") {
		groups[r.text("group")] = r
	}
	pairs := 0
	for _, r := range groups {
		assert.GreaterOrEqual(t, r.number("max_length_mm"), r.number("max_width_mm"), r)
		assert.Equal(t, "12", r.text("volts"), r)
		other := r.text("same_case_opposite_polarity")
		if other == "" || strings.Contains(other, " ") {
			continue
		}
		partner, ok := groups[other]
		require.True(t, ok, "%s: no group %s", r, other)
		pairs++
		assert.NotEmpty(t, partner.text("same_case_opposite_polarity"), partner)
		for _, c := range []string{"max_length_mm", "max_width_mm", "max_height_mm"} {
			assert.InDelta(t, partner.number(c), r.number(c), 13, "%s and %s: %s", r, partner, c)
		}
	}
	assert.GreaterOrEqual(t, pairs, 16)
}

// All ratings of a body have its size.
func TestFuseBodies(t *testing.T) {
	for body, rows := range grouped(records(t, "fuses"), func(r record) string { return r.text("body") }) {
		for _, r := range rows {
			for _, c := range []string{"width_mm", "depth_mm", "height_mm", "volts_max"} {
				assert.Equal(t, rows[0].text(c), r.text(c), "%s: %s", body, c)
			}
			assert.Equal(t, "32", r.text("volts_max"), r)
		}
	}
}

// Blade fuses of up to 30 A have one colour per rating, whatever their body.
func TestFuseColours(t *testing.T) {
	colours := map[string]string{}
	for body, rows := range grouped(records(t, "fuses"), func(r record) string { return r.text("body") }) {
		assert.True(t, strictlyRising(column(rows, "rating_A")), body)
		seen := map[string]bool{}
		for _, r := range rows {
			assert.False(t, seen[r.text("colour")], "%s: two ratings of one colour", r)
			seen[r.text("colour")] = true
			if strings.HasPrefix(body, "maxi") || strings.HasPrefix(body, "JCASE") {
				continue // larger bodies have colours of their own
			}
			rating := r.text("rating_A")
			assert.True(t, colours[rating] == "" || colours[rating] == r.text("colour"), "%s: %s and %s", r, r.text("colour"), colours[rating])
			colours[rating] = r.text("colour")
		}
	}
	assert.Equal(t, "tan", colours["5"])
	assert.Equal(t, "green", colours["30"])
}

var amperes = regexp.MustCompile(`([\d.]+)(?:/([\d.]+))? A$`)

// Where the list of miniature lamps gives the current, power is voltage times current,
// for each filament.
func TestLampPower(t *testing.T) {
	checked := 0
	for _, r := range records(t, "bulbs") {
		current := amperes.FindStringSubmatch(r.text("function"))
		if current == nil {
			continue
		}
		volts, watts := strings.Split(r.text("volts"), "/"), strings.Split(r.text("watts"), "/")
		require.Len(t, watts, len(volts), r)
		for i, v := range volts {
			require.NotEmpty(t, current[i+1], r)
			checked++
			assert.InDelta(t, numberOf(t, v)*numberOf(t, current[i+1]), numberOf(t, watts[i]), 0.06+0.006*numberOf(t, v), r)
		}
	}
	assert.GreaterOrEqual(t, checked, 30)
}

// A European lamp's name carries its power: P21/5W, W16W.
func TestLampNames(t *testing.T) {
	named := regexp.MustCompile(`^[A-Z]+([\d/]+)W$`)
	checked := 0
	for _, r := range records(t, "bulbs") {
		for _, name := range []string{r.text("trade_number"), r.text("also_known_as")} {
			if m := named.FindStringSubmatch(name); m != nil {
				checked++
				assert.Equal(t, m[1], r.text("watts"), r)
			}
		}
		_, err := strconv.Atoi(r.text("trade_number"))
		if err == nil {
			assert.NotEmpty(t, r.text("volts"), r)
		}
	}
	assert.GreaterOrEqual(t, checked, 9)
}
