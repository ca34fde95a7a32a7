package likelihood

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Line is a straight line through readings by least squares: reading = Intercept +
// Slope·at. What at and the readings are measured in is the caller's matter.
type Line struct {
	N                int
	Intercept, Slope float64
	Spread           float64 // s, of the readings about the line: √(SSE/(N−2)); 0 for two readings
	meanAt, sxx      float64
}

// FitLine lays a line through readings y at x. ok is false if there is none: fewer
// than two readings, or all at one place.
// Source: least squares; checked with NIST StRD Norris.
func FitLine(x, y []float64) (l Line, ok bool) {
	l.N = len(x)
	if l.N < 2 || l.N != len(y) {
		return Line{}, false
	}
	n := float64(l.N)
	meanY := 0.0
	for i := range x {
		l.meanAt += x[i] / n
		meanY += y[i] / n
	}
	sxy := 0.0
	for i := range x {
		dx := x[i] - l.meanAt
		l.sxx += dx * dx
		sxy += dx * (y[i] - meanY)
	}
	if l.sxx == 0 {
		return Line{}, false
	}
	l.Slope = sxy / l.sxx
	l.Intercept = meanY - l.Slope*l.meanAt
	if l.N > 2 {
		sse := 0.0
		for i := range x {
			r := y[i] - l.At(x[i])
			sse += r * r
		}
		// Readings on an exact line leave only what rounding leaves.
		if s := math.Sqrt(sse / (n - 2)); s > 1e-12*(math.Abs(meanY)+math.Abs(l.Slope)*math.Sqrt(l.sxx)) {
			l.Spread = s
		}
	}
	return l, true
}

// At is the line's reading at x.
func (l Line) At(x float64) float64 { return l.Intercept + l.Slope*x }

// Freedom is the degrees of freedom of the spread. With none, as for two readings,
// the line says nothing of how sure it is.
func (l Line) Freedom() int { return l.N - 2 }

// Uncertainty is how far the line itself (mean) and one new reading (one) may be off
// at x, as standard deviations.
func (l Line) Uncertainty(x float64) (mean, one float64) {
	h := 1/float64(l.N) + (x-l.meanAt)*(x-l.meanAt)/l.sxx
	return l.Spread * math.Sqrt(h), l.Spread * math.Sqrt(1+h)
}

// Within is the interval that a new reading at x falls into with that probability,
// 0 < p < 1. ok is false without degrees of freedom: there is no interval then,
// rather than one of no width.
func (l Line) Within(p, x float64) (low, high float64, ok bool) {
	if l.Freedom() < 1 {
		return 0, 0, false
	}
	_, one := l.Uncertainty(x)
	half := StudentQuantile((1+p)/2, float64(l.Freedom())) * one
	return l.At(x) - half, l.At(x) + half, true
}

// AtOrBelow is the probability that a new reading at x is at the limit or below it,
// T((limit − ŷ)/s), by Student's t with N−2 degrees of freedom. Readings on an exact
// line give 0 or 1. ok is false without degrees of freedom.
func (l Line) AtOrBelow(limit, x float64) (p float64, ok bool) {
	if l.Freedom() < 1 {
		return 0, false
	}
	_, one := l.Uncertainty(x)
	return l.below(limit-l.At(x), one), true
}

func (l Line) below(margin, spread float64) float64 {
	if spread == 0 {
		if margin >= 0 {
			return 1
		}
		return 0
	}
	return StudentAtMost(margin/spread, float64(l.Freedom()))
}

// belowAt is the probability that a new reading at x is at the limit or below it, if the
// line and the scatter σ about it, which the readings leave open, turned out at quantile u
// of what they may be; over all u it comes to AtOrBelow. Given the readings (s/σ)²·ν is
// chi-squared, and the line lies about its own reading as σ·√h; the probability is
// Φ(margin/σ + √h·Z). Its quantile takes the two as independent and adds their ways from
// the middle by squares: the ends shown are within a few hundredths of those drawn.
// Source: Bayesian linear regression without prior knowledge, any textbook.
func (l Line) belowAt(u, limit, x float64) float64 {
	margin := limit - l.At(x)
	if l.Spread == 0 {
		return l.below(margin, 0)
	}
	half := float64(l.Freedom()) / 2
	narrow := func(q float64) float64 { return math.Sqrt(mathext.GammaIncRegInv(half, q) / half) } // s/σ
	m, middle, q, side := margin/l.Spread, narrow(0.5), u, 1.0
	if m < 0 {
		q = 1 - u
	}
	if u < 0.5 {
		side = -1
	}
	mean, _ := l.Uncertainty(x)
	return normalAtMost(m*middle + side*math.Hypot(m*(narrow(q)-middle), mean/l.Spread*mathext.NormalQuantile(u)))
}

// CrossingWithin is the interval in which the line itself meets the limit with that
// probability, 0 < p < 1: every x at which the limit lies within what the line may be.
// high is +∞ where the readings do not say that it ever does. ok is false without
// degrees of freedom, or where they say nothing at all.
// Source: Fieller's theorem, as for calibration lines.
func (l Line) CrossingWithin(p, limit float64) (low, high float64, ok bool) {
	if l.Freedom() < 1 || l.Slope == 0 {
		return 0, 0, false
	}
	ts := StudentQuantile((1+p)/2, float64(l.Freedom())) * l.Spread
	// (d + b·u)² = ts²·(1/n + u²/sxx), with u from the mean of the readings.
	d, b := l.At(l.meanAt)-limit, l.Slope
	square, free := b*b-ts*ts/l.sxx, d*d-ts*ts/float64(l.N)
	root := d*d*b*b - square*free
	switch {
	case root < 0:
		return 0, 0, false
	case square <= 0: // the slope may be nothing
		if free <= 0 || d*b >= 0 {
			return 0, 0, false
		}
		return l.meanAt + free/(-d*b+math.Sqrt(root)), math.Inf(1), true
	}
	u1, u2 := (-d*b-math.Sqrt(root))/square, (-d*b+math.Sqrt(root))/square
	return l.meanAt + u1, l.meanAt + u2, true
}

// Crossing is where the line itself meets the limit. ok is false for a line that
// never does: one that is level.
func (l Line) Crossing(limit float64) (x float64, ok bool) {
	if l.Slope == 0 {
		return 0, false
	}
	return (limit - l.Intercept) / l.Slope, true
}
