package likelihood

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat/distuv"
)

// density is the derivative of the share failed, hazard rate × survival.
func density(w Weibull, t float64) float64 {
	return w.Shape / w.Life * math.Pow(t/w.Life, w.Shape-1) * (1 - w.FailedBy(t))
}

// Kececioglu's six units: hours to failure.
var sixUnits = []float64{16, 34, 53, 75, 93, 120}

func TestWeibull(t *testing.T) {
	cases := []struct {
		name             string
		w                Weibull
		age, want, close float64
	}{
		// W1. NIST/SEMATECH e-Handbook 8.1.6.2 prints 0.08556 (from memory); digits computed.
		{"W1", Weibull{1.5, 5000}, 1000, 0.0855593563928, 1e-12},
		// W2, W3. gonum, stat/distuv/weibull_test.go.
		{"W2, 1", Weibull{0.5, 1.5}, 1, 0.558022622759326, 1e-14},
		{"W2, 20", Weibull{0.5, 1.5}, 20, 0.974047406098605, 1e-14},
		{"W3", Weibull{0.7, 33}, 33, 0.632120558828558, 1e-14},
		{"W3, another shape", Weibull{4, 33}, 33, 0.632120558828558, 1e-14},
		// W4. Kececioglu's six units fitted by median ranks; printed to six digits.
		{"W4, 16", Weibull{1.4, 76.318}, 16, 0.106157, 5e-7},
		{"W4, 34", Weibull{1.4, 76.318}, 34, 0.27559, 5e-6},
		{"W4, 53", Weibull{1.4, 76.318}, 53, 0.451308, 5e-7},
		{"W4, 75", Weibull{1.4, 76.318}, 75, 0.623149, 5e-7},
		{"W4, 93", Weibull{1.4, 76.318}, 93, 0.73256, 5e-6},
		{"W4, 120", Weibull{1.4, 76.318}, 120, 0.848082, 5e-7},
		{"new", Weibull{2, 10}, 0, 0, 0},
		{"before it was made", Weibull{2, 10}, -3, 0, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { assert.InDelta(t, c.want, c.w.FailedBy(c.age), c.close) })
	}
	near(t, 0.00012268508643, density(Weibull{1.5, 5000}, 1000), "W1, density")
}

func TestWeibullGivenThatItLasted(t *testing.T) {
	// W5. The law of W4 at 34, 19 further: ReliaWiki, conditional reliability.
	w := Weibull{1.4, 76.318}
	assert.InDelta(t, 1-(1-0.451308)/(1-0.27559), w.FailsWithin(34, 19), 5e-6)
	near(t, 0.242566046055, w.FailsWithin(34, 19), "W5")
	// W8. Shape 1 has no memory.
	for _, age := range []float64{0, 10, 5000, 1e6} {
		near(t, 0.095162581964, Weibull{1, 5000}.FailsWithin(age, 500), "W8")
	}
	// W9. Computed with 60 digits.
	for age, want := range map[float64]float64{0: 0.009950166251, 500: 0.1041658647, 900: 0.1730408661} {
		near(t, want, Weibull{2, 1000}.FailsWithin(age, 100), "W9")
	}
	// Small values keep their digits: H = 2·500·1e-9/1e6.
	assert.InEpsilon(t, 1e-12, Weibull{2, 1000}.FailsWithin(500, 1e-9), 1e-4)
	// The product of surviving two stretches is that of surviving both.
	both := (1 - w.FailsWithin(20, 15)) * (1 - w.FailsWithin(35, 40))
	near(t, both, 1-w.FailsWithin(20, 55), "two stretches")
}

// W6. The same thread fits the six units by maximum likelihood: shape 1.93268, life
// 73.5261, log-likelihood -29.5849. There the law's log-likelihood is highest.
func TestWeibullOfGreatestLikelihood(t *testing.T) {
	log := func(w Weibull) (sum float64) {
		for _, x := range sixUnits {
			sum += math.Log(density(w, x))
		}
		return sum
	}
	best := log(Weibull{1.93268, 73.5261})
	assert.InDelta(t, -29.5849, best, 5e-5)
	for _, w := range []Weibull{{1.92, 73.5261}, {1.945, 73.5261}, {1.93268, 73.3}, {1.93268, 73.8}} {
		assert.Less(t, log(w), best)
	}
}

// W7. ReliaWiki's rank regression of the six units: shape 1.4301, life 76.318. The
// line through ln(−ln(1−F)) against ln t has the shape for its slope.
func TestWeibullByRankRegression(t *testing.T) {
	ranks := []float64{0.109101, 0.26445, 0.421407, 0.578593, 0.73555, 0.890899} // median ranks of six
	var x, y []float64
	for i, hours := range sixUnits {
		x, y = append(x, math.Log(hours)), append(y, math.Log(-math.Log1p(-ranks[i])))
	}
	l := line(t, x, y)
	assert.InDelta(t, 1.43018, l.Slope, 5e-6)
	life := math.Exp(-l.Intercept / l.Slope)
	assert.InDelta(t, 76.3170, life, 5e-5)
	// The law so found is median at its median.
	assert.InDelta(t, 0.5, Weibull{l.Slope, life}.FailedBy(life*math.Pow(math.Ln2, 1/l.Slope)), 1e-12)
}

// gonum, stat/distuv, as the reference library.
func TestWeibullBesideGonum(t *testing.T) {
	for _, w := range []Weibull{{0.5, 3}, {1, 20}, {1.7, 90}, {3.5, 1000}} {
		ref := distuv.Weibull{K: w.Shape, Lambda: w.Life}
		near(t, ref.Mean(), w.Mean(), "mean")
		for _, part := range []float64{0.01, 0.3, 1, 2} {
			near(t, ref.CDF(part*w.Life), w.FailedBy(part*w.Life), "share failed")
		}
	}
}
