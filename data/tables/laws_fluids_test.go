package tables

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// threadDiameter reads the diameter in inches a male thread is named by; a pipe
// thread is named by the pipe.
func threadDiameter(t *testing.T, thread string) (diameter float64, named bool) {
	thread, _, _ = strings.Cut(thread, " ")
	if metric, ok := strings.CutPrefix(thread, "M"); ok {
		d, _, _ := strings.Cut(metric, "x")
		return numberOf(t, d) / 25.4, true
	}
	if strings.HasPrefix(thread, "G") || strings.HasPrefix(thread, "R") {
		return 0, false
	}
	size, _, ok := cutLast(thread, "-")
	require.True(t, ok, thread)
	return inches(t, size), true
}

func TestFittings(t *testing.T) {
	for _, r := range records(t, "fittings_fluid") {
		thread := r.text("male_thread")
		pipe := strings.Contains(thread, "NPT")
		if d, named := threadDiameter(t, thread); named && !pipe {
			assert.InDelta(t, d, r.number("thread_od_in"), 0.00006, r)
		}
		if tpi, inch := r.table.Number(r.row, "tpi"); inch {
			assert.InDelta(t, 25.4/tpi, r.number("pitch_mm"), 0.00006, r)
			assert.Contains(t, thread, "-"+r.text("tpi"), r)
		} else {
			assert.True(t, strings.HasSuffix(thread, "x"+r.text("pitch_mm")), r)
		}
		tube, hasTube := r.table.Number(r.row, "tube_od_in")
		if dash, ok := r.table.Number(r.row, "dash"); ok && hasTube {
			assert.InDelta(t, dash/16, tube, 1e-9, "%s: a dash is a sixteenth of an inch", r)
		}
		if hasTube {
			assert.Greater(t, r.number("thread_od_in"), tube, "%s: the tube goes through the nut", r)
		}
	}
	for kind, rows := range grouped(records(t, "fittings_fluid"), func(r record) string { return r.text("kind") }) {
		if rows[0].text("dash") != "" {
			assert.True(t, strictlyRising(column(rows, "dash")), kind)
			assert.True(t, rising(column(rows, "thread_od_in")), kind)
		}
	}
}

// J514 and J1926 share their threads, AN has J514's diameters and pitches, and the
// 37° and 45° flares of dash 2, 3, 4, 5, 8 and 10 screw together without sealing (read
// at instrumentationforum.com and in gageref.com's guide to ORB fittings).
func TestFittingsThatScrewTogether(t *testing.T) {
	thread := map[string]string{}
	for _, r := range records(t, "fittings_fluid") {
		short, _, _ := strings.Cut(r.text("kind"), " ")
		thread[short+" "+r.text("dash")] = r.text("thread_od_in") + "-" + r.text("tpi")
	}
	for key, jic := range thread {
		kind, dash, _ := strings.Cut(key, " ")
		if kind != "JIC" {
			continue
		}
		assert.Equal(t, jic, thread["ORB "+dash], "dash %s", dash)
		if an := thread["AN "+dash]; an != "" {
			assert.Equal(t, jic, an, "dash %s", dash)
		}
		if flare := thread["SAE "+dash]; flare != "" {
			same := strings.Contains(" 2 3 4 5 8 10 ", " "+dash+" ")
			assert.Equal(t, same, flare == jic, "dash %s: %s and %s", dash, jic, flare)
		}
	}
}

func TestHoses(t *testing.T) {
	for kind, rows := range grouped(records(t, "hose_dash"), func(r record) string { return r.text("kind") }) {
		assert.True(t, strictlyRising(column(rows, "nominal_bore_in")), kind)
		for _, r := range rows {
			dash, ok := r.table.Number(r.row, "dash")
			switch {
			case !ok:
			case strings.Contains(kind, "dash = ID"), strings.HasPrefix(kind, "power steering"):
				assert.Equal(t, dash/16, r.number("nominal_bore_in"), r)
			default: // the tube it goes with, or PTFE hose: the bore is smaller
				assert.Less(t, r.number("nominal_bore_in"), dash/16, r)
			}
		}
	}
}

// From size 12 on a clamp opens to 1 in and a sixteenth for each size above 8; the
// sizes overlap, so that every hose has one (common practice).
func TestHoseClamps(t *testing.T) {
	before := 0.0
	for i, r := range records(t, "hose_clamps") {
		for _, end := range []string{"min", "max"} {
			assert.InDelta(t, inches(t, r.text(end+"_dia_in_frac")), r.number(end+"_dia_in"), 0.00006, r)
		}
		n := r.number("sae_size")
		if n >= 12 {
			assert.Equal(t, 1+(n-8)/16, r.number("max_dia_in"), r)
		}
		assert.True(t, i == 0 || r.number("min_dia_in") < before && r.number("max_dia_in") > before, "%s: a gap below it", r)
		before = r.number("max_dia_in")
	}
}

func TestBrakeFluids(t *testing.T) {
	for _, r := range records(t, "brake_fluid") {
		for _, state := range []string{"dry", "wet"} {
			assert.InDelta(t, 1.8*r.number(state+"_boiling_min_C")+32, r.number(state+"_boiling_min_F"), 0.5, r)
		}
		assert.Less(t, r.number("wet_boiling_min_C"), r.number("dry_boiling_min_C"), r)
	}
	assert.True(t, rising(column(records(t, "brake_fluid"), "dry_boiling_min_C")))
	// 49 CFR 571.116, S5.1.14, read in NHTSA interpretation nht80-4.11.
	table, _ := TableNamed("brake_fluid")
	for grade, colour := range map[string]string{"DOT 3": "colourless to amber", "DOT 4": "colourless to amber", "DOT 5": "purple"} {
		row, ok := table.Row(grade)
		require.True(t, ok)
		assert.Equal(t, colour, table.Cell(row, "colour"))
	}
}

// Grades without W follow each other without a gap; winter grades get thicker as the
// temperature they are named for rises.
func TestGearOils(t *testing.T) {
	for edition, rows := range grouped(records(t, "gear_oil"), func(r record) string { return r.text("edition") }) {
		var winter, summer []record
		for _, r := range rows {
			if strings.HasSuffix(r.text("grade"), "W") {
				winter = append(winter, r)
			} else {
				summer = append(summer, r)
			}
		}
		assert.True(t, strictlyRising(column(winter, "max_temp_C_for_150000_cP")), edition)
		assert.True(t, rising(column(winter, "kv100C_min_cSt")), edition)
		for i, r := range summer {
			most, bounded := r.table.Number(r.row, "kv100C_max_cSt")
			require.Equal(t, i < len(summer)-1, bounded, "%s: only the thickest is open", r)
			if bounded {
				assert.Equal(t, most, summer[i+1].number("kv100C_min_cSt"), r)
			}
		}
	}
}

// NLGI numbers are 30 tenths of a millimetre wide, with 15 between them.
func TestGreases(t *testing.T) {
	before := 0.0
	numbers := []string{"000", "00", "0", "1", "2", "3", "4", "5", "6"}
	for i, r := range records(t, "grease_nlgi") {
		assert.Equal(t, numbers[i], r.text("nlgi"))
		low, high := r.number("worked_penetration_min_tenth_mm"), r.number("worked_penetration_max_tenth_mm")
		assert.Equal(t, 30.0, high-low, r)
		if i > 0 {
			assert.Equal(t, 15.0, before-high, r)
		}
		before = low
	}
}
