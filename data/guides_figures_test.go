package data

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// The proof stress in MPa of the fasteners that repairs give torques for:
// SAE J429 grades 5 and 8 up to 1 in, ISO 898-1 classes 8.8 up to M16 and 10.9.
var proofStress = map[string]float64{"grade 5": 586, "grade 8": 827, "class 8.8": 580, "class 10.9": 830}

// boltTorque is T = K·D·F in newton metres at 75 % of the proof load; the stress
// area is that of ASME B1.1 and ISO 898-1.
func boltTorque(t *testing.T, thread, grade string, k float64) float64 {
	t.Helper()
	const inch = 25.4
	var d, area float64 // mm, mm²
	if metric, ok := strings.CutPrefix(thread, "M"); ok {
		size, pitch, _ := strings.Cut(metric, "x")
		d = number(t, size)
		area = math.Pi / 4 * math.Pow(d-0.9382*number(t, pitch), 2)
	} else {
		size, perInch, _ := strings.Cut(thread, "-")
		d = number(t, size) * inch
		area = math.Pi / 4 * math.Pow(d-0.9743*inch/number(t, perInch), 2)
	}
	proof, ok := proofStress[grade]
	require.True(t, ok, "grade %q", grade)
	return k * d / 1000 * 0.75 * proof * area
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	if num, den, ok := strings.Cut(text, "/"); ok {
		return number(t, num) / number(t, den)
	}
	n, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return n
}

// The formula above is held against a published tightening table first: grade 5
// and 8 bolts at 75 % of the proof load, K = 0.20 plain and 0.15 plated, in lb-ft
// (table after Industrial Fasteners Institute, technical data N-12).
func TestBoltTorqueAgainstPublishedTable(t *testing.T) {
	for _, row := range []struct {
		thread, grade string
		k, lbft       float64
	}{
		{"3/8-16", "grade 5", 0.20, 31}, {"3/8-16", "grade 5", 0.15, 23},
		{"3/8-24", "grade 5", 0.20, 35}, {"1/2-20", "grade 5", 0.20, 85},
		{"7/16-14", "grade 8", 0.20, 70}, {"1/2-20", "grade 8", 0.20, 120},
		{"1/2-20", "grade 8", 0.15, 90}, {"5/8-18", "grade 8", 0.20, 240},
	} {
		assert.InEpsilon(t, row.lbft, boltTorque(t, row.thread, row.grade, row.k)/1.3558179, 0.03, "%s %s K %.2f", row.thread, row.grade, row.k)
	}
}

func TestComputedTorques(t *testing.T) {
	computed := 0
	eachGuide(t, func(t *testing.T, g repair.Guide) {
		for _, s := range g.Steps {
			for _, q := range s.Torques {
				if q.Source != repair.FromFastener {
					assert.Empty(t, q.Grade, "%s: a figure of practice claims a grade", s.ID)
					continue
				}
				computed++
				for k, given := range map[float64]fieldkit.Torque{0.15: q.Low, 0.20: q.High} {
					want := boltTorque(t, q.Thread, q.Grade, k)
					// Figures are rounded to a whole lb-ft or N·m, at most 0.7 N·m away.
					assert.InDelta(t, want, float64(given)/float64(fieldkit.NewtonMetre), max(0.7, want*0.01), "%s: %s %s K %.2f", s.ID, q.Thread, q.Grade, k)
				}
			}
		}
	})
	assert.GreaterOrEqual(t, computed, 20)
}

// Tapered bearings are set with 0.001 to 0.005 in of end play (0.03 to 0.13 mm):
// common practice of the trade for hubs with a spindle nut.
func TestTaperedBearingEndPlay(t *testing.T) {
	g, _ := repair.Named(Guides(), "wheel-bearing")
	s, ok := g.Step("set")
	require.True(t, ok)
	require.Len(t, s.Figures, 1)
	assert.Contains(t, s.Figures[0].Text(fieldkit.Inch), "0.001 to 0.005 in (0.03 to 0.13 mm); common practice")
}
