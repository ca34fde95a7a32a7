package tables

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A bolt circle is a round figure in the unit it is defined in: whole millimetres, or
// quarters of an inch.
func TestWheelPatterns(t *testing.T) {
	threads := map[string]bool{}
	for _, r := range records(t, "lug_threads") {
		threads[r.text("thread")] = true
	}
	for _, r := range records(t, "wheel_patterns") {
		if r.text("defined_in") == "in" {
			quarters := 4 * r.number("bolt_circle_in")
			assert.Equal(t, math.Round(quarters), quarters, r)
			assert.InDelta(t, 25.4*r.number("bolt_circle_in"), r.number("bolt_circle_mm"), 1e-9, r)
		} else {
			assert.Equal(t, "mm", r.text("defined_in"), r)
			assert.Equal(t, math.Round(r.number("bolt_circle_mm")), r.number("bolt_circle_mm"), r)
		}
		for thread := range strings.SplitSeq(r.text("usual_stud_threads"), "; ") {
			assert.True(t, threads[strings.TrimSuffix(thread, " bolt")], "%s: %s", r, thread)
		}
	}
}

// The distance between neighbouring studs is the circle times sin(180°/studs). The
// distances are published on bolt circle gauges; from memory.
func TestNeighbouringStuds(t *testing.T) {
	for _, c := range []struct {
		lugs, circle string
		inches       float64
	}{
		{"4", "101.6", 2.828}, {"5", "114.3", 2.645}, {"5", "127", 2.939}, {"5", "139.7", 3.233},
		{"6", "139.7", 2.750}, {"8", "165.1", 2.487}, {"8", "170", 2.561},
	} {
		table, _ := TableNamed("wheel_patterns")
		row, ok := table.Row(c.lugs, c.circle)
		require.True(t, ok, "%s on %s", c.lugs, c.circle)
		r := record{t, table, row}
		assert.InDelta(t, c.inches, r.number("bolt_circle_in")*math.Sin(math.Pi/r.number("lugs")), 0.002, r)
	}
}

// Stud threads are threads of the standards.
func TestLugThreadsAreStandard(t *testing.T) {
	for _, r := range records(t, "lug_threads") {
		assert.InDelta(t, 25.4, r.number("tpi")*r.number("pitch_mm"), 0.01, r)
		if r.text("system") == "metric" {
			table, _ := TableNamed("threads_metric")
			row, ok := table.Row(r.text("thread"))
			require.True(t, ok, r)
			assert.Equal(t, record{t, table, row}.number("pitch_mm"), r.number("pitch_mm"), r)
			continue
		}
		table, _ := TableNamed("threads_inch")
		row, ok := table.Row(r.text("thread") + " UNF")
		require.True(t, ok, r)
		assert.Equal(t, record{t, table, row}.number("tpi"), r.number("tpi"), r)
	}
}

// Loads follow the preferred numbers R 80 of ISO 3: each index carries 10^(1/80) times
// the one before, starting from 45 kg. Published pairs round that to even figures.
func TestLoadIndices(t *testing.T) {
	rows := records(t, "load_index")
	assert.True(t, strictlyRising(column(rows, "load_kg")))
	for i, r := range rows {
		assert.Equal(t, float64(60+i), r.number("load_index"), "no gap")
		assert.InEpsilon(t, 45*math.Pow(10, r.number("load_index")/80), r.number("load_kg"), 0.018, r)
		assert.InDelta(t, r.number("load_kg")/0.45359237, r.number("load_lb"), 1, r)
	}
}

// Symbols go up with the alphabet, but for H between U and V; I, O and X are not used.
func TestSpeedSymbols(t *testing.T) {
	rows := records(t, "speed_symbols")
	assert.True(t, strictlyRising(column(rows, "max_speed_km_h")))
	var letters string
	for _, r := range rows {
		assert.InDelta(t, r.number("max_speed_km_h")/1.609344, r.number("max_speed_mph"), 0.7, r)
		if s := r.text("symbol"); len(s) == 1 {
			letters += s
		} else {
			assert.Equal(t, 5*numberOf(t, s[1:]), r.number("max_speed_km_h"), r) // A1 to A8 go by 5 km/h
		}
	}
	assert.Equal(t, "BCDEFGJKLMNPQRSTUHVWY", letters)
}

func TestLoadRanges(t *testing.T) {
	for i, r := range records(t, "load_range") {
		assert.Equal(t, float64(2*(i+1)), r.number("ply_rating"), r)
	}
}

// The bands of friction follow each other without a gap.
func TestFrictionCodes(t *testing.T) {
	before := 0.0
	for i, r := range records(t, "friction_edge_code") {
		over, lower := r.table.Number(r.row, "friction_over")
		upTo, upper := r.table.Number(r.row, "friction_up_to")
		switch r.text("letter") {
		case "C":
			assert.Zero(t, i)
		case "Z":
			assert.False(t, lower || upper, "unclassified")
			continue
		default:
			require.True(t, lower, r)
			assert.Equal(t, before, over, r)
		}
		if r.text("letter") != "H" {
			require.True(t, upper, r)
			assert.Greater(t, upTo, over, r)
		}
		before = upTo
	}
	// SAE J2975: N has the least copper, B the next, A any (read at tnlab.org).
	marks := records(t, "friction_env_code")
	require.Len(t, marks, 3)
	assert.Empty(t, marks[0].text("copper_up_to_percent"))
	assert.Equal(t, marks[2].number("copper_up_to_percent"), marks[1].number("copper_over_percent"))
}
