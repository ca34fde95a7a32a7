package likelihood

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Rate is what is known of a failure rate: a gamma law of that shape, whose rate
// parameter is an exposure. Its mean is Shape/Exposure failures in one unit of
// exposure.
type Rate struct{ Shape, Exposure float64 }

// Seen is the rate after that many failures in a further exposure.
// Source: conjugate update, NIST/SEMATECH e-Handbook 8.4.6.
func (r Rate) Seen(failures, exposure float64) Rate {
	return Rate{r.Shape + failures, r.Exposure + exposure}
}

// Mean is the rate expected.
func (r Rate) Mean() float64 { return r.Shape / r.Exposure }

// AtMost is the probability that the true rate is at most x.
func (r Rate) AtMost(x float64) float64 {
	if x <= 0 {
		return 0
	}
	return mathext.GammaIncReg(r.Shape, r.Exposure*x)
}

// Quantile is the rate that the true one is below with probability p, 0 < p < 1.
func (r Rate) Quantile(p float64) float64 {
	return mathext.GammaIncRegInv(r.Shape, p) / r.Exposure
}

// Count is the probability of exactly n failures in a further exposure: the negative
// binomial law that averages Poisson demands over what is known of the rate.
// Source: NIST/SEMATECH e-Handbook 8.4.6; Albert, Bayesian Computation with R, 3.3.
func (r Rate) Count(n int, exposure float64) float64 {
	if n < 0 {
		return 0
	}
	k, a := float64(n), r.Shape
	if exposure == 0 {
		return map[bool]float64{true: 1, false: 0}[n == 0]
	}
	top, _ := math.Lgamma(a + k)
	left, _ := math.Lgamma(a)
	right, _ := math.Lgamma(k + 1)
	return math.Exp(top - left - right - a*math.Log1p(exposure/r.Exposure) - k*math.Log1p(r.Exposure/exposure))
}
