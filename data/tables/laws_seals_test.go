package tables

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sections are the cross-sections of the hundreds; AS568.
var sections = []struct {
	first, last int
	section     string
	tolerance   float64
}{
	{4, 50, "0.070", 0.003},
	{102, 178, "0.103", 0.003},
	{201, 284, "0.139", 0.004},
	{309, 395, "0.210", 0.005},
	{425, 475, "0.275", 0.006},
}

// belowNominal is how far inside diameters lie below the nominal size, which is a
// number of thirty-seconds of an inch; from memory. 001 to 005 are too small for it.
var belowNominal = []struct {
	first, last int
	inches      float64
}{
	{6, 50, 0.011},
	{102, 178, 0.013},
	{201, 281, 0.016}, {282, 284, 0.045},
	{309, 384, 0.025}, {385, 391, 0.045}, {392, 395, 0.060},
	{425, 460, 0.025}, {461, 471, 0.045}, {472, 475, 0.060},
}

func oring(t *testing.T, dash int) record {
	t.Helper()
	table, _ := TableNamed("orings_as568")
	row, ok := table.Row(fmt.Sprintf("%03d", dash))
	require.True(t, ok, "dash %03d is missing", dash)
	return record{t, table, row}
}

func TestORingRuns(t *testing.T) {
	inRuns := 0
	for _, run := range sections {
		before := 0.0
		for dash := run.first; dash <= run.last; dash++ {
			inRuns++
			r := oring(t, dash)
			assert.Equal(t, run.section, r.text("cs_in"), r)
			assert.Equal(t, run.tolerance, r.number("cs_tol_in"), r)
			assert.Greater(t, r.number("id_in"), before, r)
			before = r.number("id_in")
		}
	}
	for _, r := range records(t, "orings_as568") { // the standard's millimetres are rounded from its inches
		assert.InDelta(t, 25.4*r.number("id_in"), r.number("id_mm"), 0.0051, r)
		assert.InDelta(t, 25.4*r.number("cs_in"), r.number("cs_mm"), 0.0051, r)
	}
	// 001 to 003 have cross-sections of their own; 9xx are the boss gaskets.
	assert.Equal(t, len(records(t, "orings_as568")), inRuns+3+len(bossRings(t)))
}

func TestORingNominalSizes(t *testing.T) {
	checked := 0
	for _, run := range belowNominal {
		for dash := run.first; dash <= run.last; dash++ {
			checked++
			r := oring(t, dash)
			nominal := 32 * (r.number("id_in") + run.inches)
			assert.InDelta(t, math.Round(nominal), nominal, 32*0.0008, r)
		}
	}
	assert.Equal(t, 344, checked)
}

func bossRings(t *testing.T) []record {
	var list []record
	for _, r := range records(t, "orings_as568") {
		if strings.HasPrefix(r.text("dash"), "9") {
			list = append(list, r)
		}
	}
	return list
}

// Ring 9nn seals the SAE J1926 boss of dash nn: it is stretched over the thread's
// core. The list of pairs was read in delphi-fittings.com's guide to ORB fittings.
func TestBossRingsFitTheirThread(t *testing.T) {
	boss := map[string]record{}
	for _, r := range records(t, "fittings_fluid") {
		if strings.HasPrefix(r.text("kind"), "ORB") {
			boss[r.text("dash")] = r
		}
	}
	rings := bossRings(t)
	assert.True(t, strictlyRising(column(rings, "id_in")))
	assert.True(t, rising(column(rings, "cs_in")))
	pairs := 0
	for _, r := range rings {
		fitting, there := boss[strings.TrimLeft(r.text("dash")[1:], "0")]
		if !there {
			continue
		}
		pairs++
		core := fitting.number("thread_od_in") - 1.0825/fitting.number("tpi") // ISO 68-1: minor diameter d - 1.0825 P
		assert.Less(t, r.number("id_in"), core, "%s on %s", r, fitting)
		assert.Greater(t, r.number("id_in"), 0.88*core, "%s on %s", r, fitting)
	}
	assert.GreaterOrEqual(t, pairs, 12)
}

// DIN 3760 gives a shaft one width, 32 to 40 mm two (the foreword of the 1996
// edition says so); the bands are from memory.
func TestShaftSealWidths(t *testing.T) {
	for _, r := range records(t, "radial_shaft_seals") {
		shaft, bore, width := r.number("shaft_mm"), r.number("bore_mm"), r.number("width_mm")
		var allowed []float64
		switch {
		case shaft < 32:
			allowed = []float64{7}
		case shaft <= 40:
			allowed = []float64{7, 8}
		case shaft < 65:
			allowed = []float64{8}
		case shaft < 85:
			allowed = []float64{10}
		case shaft < 140:
			allowed = []float64{12}
		default:
			allowed = []float64{15}
		}
		assert.Contains(t, allowed, width, r)
		wall := (bore - shaft) / 2
		assert.True(t, wall >= 4.5 && wall <= 17.5, "%s: wall of %v mm", r, wall)
	}
	rows := records(t, "radial_shaft_seals")
	assert.True(t, rising(column(rows, "shaft_mm")), "in the order of shafts")
}

func TestCirclips(t *testing.T) {
	for kind, rows := range grouped(records(t, "circlips"), func(r record) string { return r.text("kind") }) {
		onShaft := strings.HasPrefix(kind, "external")
		assert.True(t, strictlyRising(column(rows, "nominal_mm")), kind)
		assert.True(t, rising(column(rows, "groove_diameter_mm")), "%s: grooves", kind)
		assert.True(t, rising(column(rows, "thickness_mm")), "%s: thickness", kind)
		assert.True(t, rising(column(rows, "ring_free_diameter_mm")), "%s: free diameters", kind)
		for _, r := range rows {
			d, groove, free := r.number("nominal_mm"), r.number("groove_diameter_mm"), r.number("ring_free_diameter_mm")
			depth := (d - groove) / 2
			if onShaft {
				assert.True(t, free < groove && groove < d, r)
				assert.Equal(t, "DIN 471", r.text("standard"))
			} else {
				assert.True(t, free > groove && groove > d, r)
				assert.Equal(t, "DIN 472", r.text("standard"))
				depth = -depth
			}
			assert.Less(t, depth, 0.06*d, "%s: a groove that deep weakens the part", r)
		}
	}
}

func TestERings(t *testing.T) {
	rows := records(t, "e_rings")
	for _, c := range []string{"groove_diameter_mm", "shaft_min_mm", "shaft_max_mm", "outside_fitted_mm", "opening_mm"} {
		assert.True(t, strictlyRising(column(rows, c)), c)
	}
	assert.True(t, rising(column(rows, "thickness_mm")))
	for _, r := range rows {
		assert.True(t, r.number("opening_mm") < r.number("groove_diameter_mm"), "%s: it would fall off", r)
		assert.True(t, r.number("groove_diameter_mm") < r.number("shaft_min_mm") && r.number("shaft_min_mm") < r.number("shaft_max_mm"), r)
		assert.Less(t, r.number("shaft_max_mm"), r.number("outside_fitted_mm"), r)
	}
}
