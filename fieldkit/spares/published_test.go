package spares

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat/distuv"
)

// Published figures of Poisson demand, one row an example. Where a source prints few
// digits they come first and more, computed with 60 digits, follow in the same row.
func TestPublishedPoissonDemand(t *testing.T) {
	cases := []struct {
		name   string
		mean   float64
		atMost []float64 // from none on
		close  float64
	}{
		{"P1, gonum stat/distuv/poisson_test.go", 1, []float64{0.367879441171442, 0.735758882342885, 0.919698602928606, 0.981011843123846, 0.996340153172656, 0.999405815182418}, 1e-14},
		{"P2, same", 2.5, []float64{0.082084998623899, 0.287297495183646, 0.543813115883329, 0.757576133133066, 0.891178018914151, 0.957978961804694, 0.985812688009087, 0.995753304510655, 0.998859747167396, 0.999722647905379}, 1e-14},
		{"P4, MIL-HDBK-338B, control-panel lamps: 0.001/h, 500 h; printed 0.986 for two", 0.001 * 500, []float64{0.606530659713, 0.909795989569, 0.985612322033}, 1e-12},
		{"P5, MIL-HDBK-338B, ten like parts, 0.001/h each, 50 h; printed 0.607 for none (from memory)", 10 * 0.001 * 50, []float64{0.606530659713, 0.606530659713 + 0.303265329856, 0.606530659713 + 0.303265329856 + 0.0758163324641}, 2e-12},
		{"P6, Alion/RAC calculator: 0.04 in a million hours, 55 million; printed 0.6227", 0.04 * 55, []float64{0.110803158362, 0.354570106759, 0.622713749996}, 1e-12},
		{"P7, Quanterion: MTBF 8760 h over 26 280 h; three spares", 26280.0 / 8760, []float64{0.049787068368, 0.199148273471, 0.423190081127, 0.647231888782, 0.815263244524, 0.916082057968, 0.966491464692}, 1e-12},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			ref := distuv.Poisson{Lambda: c.mean}
			for n, want := range c.atMost {
				assert.InDelta(t, want, AtMost(n, c.mean), c.close, "at most %d", n)
				assert.InDelta(t, ref.CDF(float64(n)), AtMost(n, c.mean), 1e-12, "gonum, at most %d", n)
			}
		})
	}
	// P3. A printed table of the cumulative Poisson law, four decimals, at most three.
	for mean, want := range map[float64]float64{0.5: 0.9982, 1: 0.9810, 1.5: 0.9344, 2: 0.8571, 3: 0.6472, 5: 0.2650} {
		assert.InDelta(t, want, AtMost(3, mean), 5e-5, "P3, mean %g", mean)
	}
	// P6. Exactly two, and more than two; printed 0.2681 and 0.3773.
	assert.InDelta(t, 0.268143643237, AtMost(2, 2.2)-AtMost(1, 2.2), 1e-12)
	assert.InDelta(t, 0.37728625, AtLeast(3, 2.2), 1e-8)
	// P11. Edges, by definition.
	assert.Equal(t, 1.0, AtMost(0, 0))
	assert.Zero(t, AtMost(-1, 3))
	assert.InDelta(t, 1, AtMost(2000, 700), 1e-9)
	assert.InDelta(t, 0.51, AtMost(700, 700), 0.01)
}

// needed is the fewest spares that meet a demand with that probability.
func needed(sure, mean float64) (n int) {
	for AtMost(n, mean) < sure {
		n++
	}
	return n
}

func TestPublishedNumberOfSpares(t *testing.T) {
	// P7. Quanterion, 'System spares: what's the right answer': six for 95 %.
	assert.Equal(t, 6, needed(0.95, 3))
	assert.InDelta(t, 0.9665, AtMost(6, 3), 5e-5)
	assert.InDelta(t, 0.9161, AtMost(5, 3), 5e-5)
	// P9. wiki.tcl-lang.org: 45 drives, 90 days, 95 %. The page says 3, 2, 2 by a normal
	// approximation; the exact law needs 3, 2, 1.
	for mtbf, want := range map[float64]struct {
		spares int
		sure   float64
	}{100_000: {3, 0.98268}, 200_000: {2, 0.98665}, 300_000: {1, 0.95758}} {
		mean := 45 * 90 * 24 / mtbf
		assert.Equal(t, want.spares, needed(0.95, mean), "MTBF %g", mtbf)
		assert.InDelta(t, want.sure, AtMost(want.spares, mean), 5e-6, "MTBF %g", mtbf)
	}
}

// Sufficiency of a kit, pooling and k of n.
func TestPublishedSufficiency(t *testing.T) {
	// S1. Three kinds: printed 0.9098, 0.9197 and 0.9473; no kind runs out.
	assert.InDelta(t, 0.792681314836, AtMost(1, 0.5)*AtMost(2, 1)*AtMost(4, 2), 1e-12)
	// S2. One spare pooled over two positions beats none of each running out of its own
	// only in weight: printed .9098 against .9825 · .9631.
	assert.InDelta(t, 0.909795989569, AtMost(1, 0.2+0.3), 1e-12)
	assert.InDelta(t, 0.946187829152, AtMost(1, 0.2)*AtMost(1, 0.3), 1e-12)
	// S5. Positions that fail at most once, one chance in n each: the binomial law tends
	// to the Poisson law that plans are made with.
	last := 1.0
	for n, want := range map[float64]float64{10: 0.7360989291, 100: 0.7357619789, 1000: 0.735758913} {
		assert.InDelta(t, want, distuv.Binomial{N: n, P: 1 / n}.CDF(1), 1e-9, "n %g", n)
	}
	for _, n := range []float64{10, 100, 1000} {
		apart := distuv.Binomial{N: n, P: 1 / n}.CDF(1) - AtMost(1, 1)
		assert.Less(t, apart, last)
		last = apart
	}
	assert.InDelta(t, 0.735758882343, AtMost(1, 1), 1e-12)
}

// S3, S4, S6: positions that fail at most once. The Poisson law of a plan expects as
// many failures, and never makes a kit look better than that: it is on the safe side.
func TestPoissonBesideAtMostOnce(t *testing.T) {
	cases := []struct {
		name  string
		each  []float64
		exact []float64 // P(at most n failures), from none on
	}{
		// MIL-HDBK-338B, k of n: four displays, each works with 0.9.
		{"S3", []float64{0.1, 0.1, 0.1, 0.1}, []float64{0.6561, 0.9477, 0.9963, 0.9999}},
		{"S4, binomial of five", []float64{0.1, 0.1, 0.1, 0.1, 0.1}, []float64{0.59049, 0.91854, 0.99144}},
		{"S6, unequal positions", []float64{0.1, 0.3}, []float64{0.63, 0.97, 1}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			law, mean := []float64{1}, 0.0 // P(n failures), position by position
			for _, p := range c.each {
				next := make([]float64, len(law)+1)
				for n, q := range law {
					next[n] += q * (1 - p)
					next[n+1] += q * p
				}
				law, mean = next, mean+p
			}
			sum := 0.0
			for n, want := range c.exact {
				sum += law[n]
				assert.InDelta(t, want, sum, 1e-12, "at most %d", n)
				if n >= 1 {
					assert.Less(t, AtMost(n, mean), want, "spares %d", n)
				}
			}
		})
	}
}
