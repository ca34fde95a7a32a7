package spares

import "math"

// AtMost returns P(N ≤ n), the probability that a Poisson demand of that mean is
// met by n spares. The mean has no unit, range [0, +∞).
// Special cases: n < 0 gives 0; mean 0 gives 1.
// Source: definition of the Poisson distribution.
func AtMost(n int, mean float64) float64 {
	if n < 0 {
		return 0
	}
	if mean == 0 {
		return 1
	}
	sum, logMean := 0.0, math.Log(mean)
	for j := 0; j <= n; j++ {
		sum += exactly(j, mean, logMean)
	}
	return min(sum, 1)
}

// exactly is P(N = j), in logarithms, so that a mean of several hundred does not
// overflow.
func exactly(j int, mean, logMean float64) float64 {
	logFactorial, _ := math.Lgamma(float64(j) + 1)
	return math.Exp(float64(j)*logMean - mean - logFactorial)
}

// Tails returns what gives P(N ≥ 1), P(N ≥ 2) … of a Poisson demand of that mean, one
// at each call and each in the same time.
func Tails(mean float64) func() float64 {
	below, n, logMean := 0.0, 0, math.Log(mean)
	return func() float64 {
		if mean == 0 {
			return 0
		}
		below += exactly(n, mean, logMean) // P(N ≤ n)
		if n++; n == 1 {
			return AtLeast(1, mean)
		}
		return 1 - min(below, 1)
	}
}

// AtLeast returns P(N ≥ n) of a Poisson demand of that mean; n ≤ 0 gives 1.
func AtLeast(n int, mean float64) float64 {
	switch {
	case n <= 0:
		return 1
	case n == 1: // keeps its digits where the mean is small
		return -math.Expm1(-mean)
	}
	return 1 - AtMost(n-1, mean)
}
