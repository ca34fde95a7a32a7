package likelihood

import "math"

// Weibull is a law of lives: Shape below 1 for parts that fail young, 1 for those
// that do not age, above 1 for those that wear out. Life is the age by which 63.2 %
// have failed, in whatever ages are given in.
type Weibull struct{ Shape, Life float64 }

// Hazard is the failures expected up to an age, H = (age/life)^shape; the share
// failed by then is 1 − exp(−H).
func (w Weibull) Hazard(age float64) float64 {
	if age <= 0 {
		return 0
	}
	return math.Pow(age/w.Life, w.Shape)
}

// FailedBy is the share of parts failed by an age.
func (w Weibull) FailedBy(age float64) float64 { return -math.Expm1(-w.Hazard(age)) }

// Ahead is the failures expected of a part that has lasted to an age, over that much
// more.
func (w Weibull) Ahead(age, more float64) float64 {
	return w.Hazard(math.Max(age, 0)+more) - w.Hazard(age)
}

// FailsWithin is the probability that a part that has lasted to an age fails within
// that much more: 1 − exp((T/η)^β − ((T+t)/η)^β), small values with all their digits.
func (w Weibull) FailsWithin(age, more float64) float64 { return -math.Expm1(-w.Ahead(age, more)) }

// Mean is the average life, η·Γ(1 + 1/β).
func (w Weibull) Mean() float64 { return w.Life * math.Gamma(1+1/w.Shape) }
