package likelihood

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// StudentAtMost is P(T ≤ t) of Student's t with that many degrees of freedom, more
// than 0.
// Source: by the regularised incomplete beta function, Abramowitz and Stegun 26.7.1.
func StudentAtMost(t, freedom float64) float64 {
	if math.IsInf(t, 0) {
		return map[bool]float64{true: 1, false: 0}[t > 0]
	}
	tail := mathext.RegIncBeta(freedom/2, 0.5, freedom/(freedom+t*t)) / 2
	if t > 0 {
		return 1 - tail
	}
	return tail
}

// StudentQuantile is the t that P(T ≤ t) = p, 0 < p < 1.
func StudentQuantile(p, freedom float64) float64 {
	if p > 0.5 {
		return -StudentQuantile(1-p, freedom)
	}
	if p == 0.5 {
		return 0
	}
	x := mathext.InvRegIncBeta(freedom/2, 0.5, 2*p)
	return -math.Sqrt(freedom * (1 - x) / x)
}

// normalAtMost is P(Z ≤ z) of the standard normal law.
func normalAtMost(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
