package likelihood

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat/distuv"
)

// G1, G2. NIST/SEMATECH e-Handbook 8.2.5, R script: median MTBF 600, 5 % chance of
// one below 250.
func TestRateFromJudgement(t *testing.T) {
	r := Rate{2.863055, 1522.506}
	assert.InDelta(t, 0.5, r.AtMost(1.0/600), 1e-6)
	assert.InDelta(t, 0.95, r.AtMost(1.0/250), 1e-6)
	r = Rate{2.863, 1522.46}
	assert.InDelta(t, 0.5001232, r.AtMost(0.001667), 5e-8)
	assert.InDelta(t, 0.9499963, r.AtMost(0.004), 5e-8)
}

// G3, G4. NIST/SEMATECH e-Handbook 8.4.6: prior gamma(2, 1400), 2 failures in 1909
// hours. It prints 901, 600, 495 and 427 (from memory); digits computed.
func TestRateSeen(t *testing.T) {
	r := Rate{2, 1400}.Seen(2, 1909)
	assert.Equal(t, Rate{4, 3309}, r)
	for p, mtbf := range map[float64]float64{0.5: 901.128882749, 0.8: 599.995026498, 0.9: 495.301219362, 0.95: 426.766389262,
		0.975: 377.426364353, 0.025: 3036.15481331} {
		near(t, mtbf, 1/r.Quantile(p), "MTBF")
	}
	near(t, 0.896016547914, r.AtMost(1.0/500), "G4")
}

// G5. Bayes Rules!, ch. 5: gamma(10, 2), counts 6, 2, 2, 1 in four periods.
func TestRateOfFourPeriods(t *testing.T) {
	r := Rate{10, 2}.Seen(6+2+2+1, 4)
	assert.Equal(t, Rate{21, 6}, r)
	assert.Equal(t, 3.5, r.Mean())
	near(t, 2.16655516401, r.Quantile(0.025), "low")
	near(t, 5.14806298378, r.Quantile(0.975), "high")
	// G7. The count of a fifth period, computed with 60 digits.
	for n, want := range []float64{0.0392751106955, 0.117825332086, 0.185154093279, 0.202787816448} {
		near(t, want, r.Count(n, 1), "G7")
	}
}

// G6. Albert, Bayesian Computation with R, 3.3: gamma(16, 15174), exposure 66;
// printed 0.933, 0.065, 0.002 (from memory); digits computed.
func TestRateCount(t *testing.T) {
	for n, want := range []float64{0.932914414847, 0.0646428885878, 0.0023795708988} {
		near(t, want, Rate{16, 15174}.Count(n, 66), "G6")
	}
}

// G8. Limits, by definition.
func TestRateLimits(t *testing.T) {
	sure := Rate{2e6, 1e6}
	poisson := distuv.Poisson{Lambda: 2 * 1.5}
	for n := range 8 {
		assert.InDelta(t, poisson.Prob(float64(n)), sure.Count(n, 1.5), 1e-5)
	}
	assert.Equal(t, Rate{3, 7}, Rate{3, 7}.Seen(0, 0))
	assert.Equal(t, 1.0, Rate{3, 7}.Count(0, 0))
	assert.Zero(t, Rate{3, 7}.Count(2, 0))
	assert.Zero(t, Rate{3, 7}.Count(-1, 2))
	assert.Zero(t, Rate{3, 7}.AtMost(-1))
	sum := 0.0
	for n := range 400 {
		sum += Rate{3, 7}.Count(n, 50)
	}
	assert.InDelta(t, 1, sum, 1e-9)
}

// gonum, stat/distuv, as the reference library.
func TestRateBesideGonum(t *testing.T) {
	for _, r := range []Rate{{1, 10}, {2.5, 0.3}, {31, 4}} {
		ref := distuv.Gamma{Alpha: r.Shape, Beta: r.Exposure}
		near(t, ref.Mean(), r.Mean(), "mean")
		for p := 0.02; p < 1; p += 0.08 {
			x := r.Quantile(p)
			near(t, p, ref.CDF(x), "quantile")
			near(t, p, r.AtMost(x), "distribution")
		}
	}
	assert.False(t, math.IsNaN(Rate{1, 1}.Quantile(1e-9)))
}
