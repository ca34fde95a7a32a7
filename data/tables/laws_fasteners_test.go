package tables

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Tensile stress areas: ASME B1.1 gives 0.7854 (D - 0.9743/n)², ISO 898-1
// 0.7854 (d - 0.9382 P)². Tables print three figures.
func TestStressAreas(t *testing.T) {
	for _, r := range records(t, "threads_inch") {
		d := r.number("nominal_in") - 0.9743/r.number("tpi")
		assert.InEpsilon(t, math.Pi/4*d*d, r.number("stress_area_in2"), 0.006, r)
	}
	for _, r := range records(t, "threads_metric") {
		d := r.number("nominal_mm") - 0.9382*r.number("pitch_mm")
		assert.InEpsilon(t, math.Pi/4*d*d, r.number("stress_area_mm2"), 0.006, r)
	}
}

func TestInchThreads(t *testing.T) {
	bySize := map[string]map[string]float64{}
	for _, r := range records(t, "threads_inch") {
		size, rest, _ := cutLast(strings.TrimSuffix(r.text("designation"), " "+r.text("series")), "-")
		assert.Equal(t, r.text("tpi"), rest, r)
		nominal := 0.0
		if number, ok := strings.CutPrefix(size, "#"); ok {
			nominal = 0.060 + 0.013*numberOf(t, number) // ASME B1.1: numbered sizes go by 0.013 in from 0.060
		} else {
			nominal = inches(t, size)
		}
		assert.InDelta(t, nominal, r.number("nominal_in"), 1e-9, r)
		if drill, ok := r.table.Number(r.row, "tap_drill_in"); ok {
			assert.InDelta(t, nominal-1/r.number("tpi"), drill, 0.013, "%s: drill", r) // common practice: diameter less pitch
			if written := r.text("tap_drill"); strings.Contains(written, "/") {
				assert.InDelta(t, inches(t, written), drill, 0.000051, "%s: drill", r)
			}
		}
		if bySize[size] == nil {
			bySize[size] = map[string]float64{}
		}
		bySize[size][r.text("series")] = r.number("tpi")
	}
	for size, tpi := range bySize {
		for _, finer := range [][2]string{{"UNC", "UNF"}, {"UNF", "UNEF"}, {"UNC", "UNEF"}} {
			if tpi[finer[0]] > 0 && tpi[finer[1]] > 0 {
				assert.Less(t, tpi[finer[0]], tpi[finer[1]], "%s: %s is finer than %s", size, finer[1], finer[0])
			}
		}
	}
}

func TestMetricThreads(t *testing.T) {
	for size, rows := range grouped(records(t, "threads_metric"), func(r record) string { return r.text("nominal_mm") }) {
		coarse := 0.0
		for _, r := range rows {
			assert.Equal(t, fmt.Sprintf("M%sx%s", r.text("nominal_mm"), r.text("pitch_mm")), r.text("designation"))
			assert.InDelta(t, r.number("nominal_mm")-r.number("pitch_mm"), r.number("tap_drill_mm"), 0.06, "%s: drill", r) // common practice
			if r.text("series") == "coarse" {
				assert.Zero(t, coarse, "M%s has two coarse pitches", size)
				coarse = r.number("pitch_mm")
			}
		}
		for _, r := range rows {
			if r.text("series") == "fine" {
				assert.Less(t, r.number("pitch_mm"), coarse, r)
			}
		}
	}
}

func TestBoltGrades(t *testing.T) {
	for grade, rows := range grouped(records(t, "bolt_grades"), func(r record) string { return r.text("standard") + " " + r.text("grade") }) {
		upTo := 0.0
		for _, r := range rows {
			assert.Equal(t, upTo, r.number("dia_over_mm"), "%s: a gap between sizes", grade)
			if metric, ok := strings.CutPrefix(r.text("size_to"), "M"); ok {
				assert.Equal(t, numberOf(t, metric), r.number("dia_up_to_mm"), r)
			} else {
				assert.InDelta(t, 25.4*inches(t, r.text("size_to")), r.number("dia_up_to_mm"), 1e-9, r)
			}
			upTo = r.number("dia_up_to_mm")
			assert.True(t, r.number("proof_strength_MPa") < r.number("yield_strength_MPa") && r.number("yield_strength_MPa") < r.number("tensile_strength_MPa"), r)
			for _, strength := range []string{"proof", "tensile", "yield"} {
				// 1 MPa = 145.0377 psi (NIST SP 811); psi figures are rounded to hundreds.
				assert.InDelta(t, 145.0377*r.number(strength+"_strength_MPa"), r.number(strength+"_strength_psi"), 125, "%s: %s", r, strength)
			}
			// ISO 898-1: the class names a hundredth of the nominal tensile strength
			// and ten times the yield ratio; least strengths are not below nominal.
			if hundredth, ratio, ok := strings.Cut(r.text("grade"), "."); ok {
				tensile := 100 * numberOf(t, hundredth)
				yield := tensile * numberOf(t, ratio) / 10
				assert.True(t, r.number("tensile_strength_MPa") >= tensile && r.number("tensile_strength_MPa") <= 1.06*tensile, r)
				assert.True(t, r.number("yield_strength_MPa") >= yield && r.number("yield_strength_MPa") <= 1.07*yield, r)
				assert.Equal(t, r.text("grade"), r.text("head_marking"))
			}
		}
	}
}

// Published torques follow T = K·D·F with F the stated share of proof strength times
// stress area. Sources stand in the file, row by row; they round to whole lb-ft.
func TestPublishedTorques(t *testing.T) {
	rows := readChecks(t, "torque_checks.csv")
	grades := grouped(records(t, "bolt_grades"), func(r record) string { return r.text("grade") })
	for i, row := range rows {
		force, diameter := 0.0, 0.0 // N, m
		for _, name := range []string{"threads_inch", "threads_metric"} {
			table, _ := TableNamed(name)
			at, ok := table.Row(row["thread"])
			if !ok {
				continue
			}
			r := record{t, table, at}
			diameter = r.number("nominal_mm") / 1000
			area := 0.0 // mm²
			if name == "threads_inch" {
				area = r.number("stress_area_in2") * 25.4 * 25.4
			} else {
				area = r.number("stress_area_mm2")
			}
			for _, grade := range grades[row["grade"]] {
				if d := 1000 * diameter; d > grade.number("dia_over_mm") && d <= grade.number("dia_up_to_mm") {
					force = area * grade.number("proof_strength_MPa") * numberOf(t, row["preload_percent_of_proof"]) / 100
				}
			}
		}
		require.NotZero(t, force, "line %d: no thread %s or no grade %s", i+2, row["thread"], row["grade"])
		assert.InEpsilon(t, numberOf(t, row["torque_Nm"]), numberOf(t, row["K"])*diameter*force, 0.016, "line %d: grade %s %s %s", i+2, row["grade"], row["thread"], row["condition"])
	}
	assert.GreaterOrEqual(t, len(rows), 50)
}

// readChecks reads a file of figures published elsewhere, shared by the tests of the
// data.
func readChecks(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("../testdata/" + name)
	require.NoError(t, err)
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var rows []map[string]string
	for i, line := range lines[1:] {
		row := map[string]string{}
		for c, cell := range line {
			row[lines[0][c]] = cell
		}
		require.NotEmpty(t, row["source"], "%s line %d has no source", name, i+2)
		rows = append(rows, row)
	}
	return rows
}

func cutLast(s, sep string) (before, after string, found bool) {
	i := strings.LastIndex(s, sep)
	if i < 0 {
		return s, "", false
	}
	return s[:i], s[i+len(sep):], true
}
