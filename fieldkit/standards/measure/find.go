package measure

import (
	"cmp"
	"math"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// Candidate is one thing the part may be.
type Candidate struct {
	Designation standards.Designation
	Likelihood  float64 // against the others and against nothing standard
	Misfits     []Misfit
	Fits        bool // tool, tolerance and wear explain all readings

	place int // among all candidates
}

// Result is what the readings say.
type Result struct {
	// Candidates that fit come first, by likelihood; then the others, and if none fits
	// all by how near they are. None is left out: the last are far from likely.
	Candidates []Candidate
	// Fits reports whether anything standard fits; if not, the first candidates are
	// the nearest.
	Fits bool
	Next Next
	// Readings are what was understood, in the order given.
	Readings []Reading
}

// Reading is one reading as it was understood.
type Reading struct {
	Name   string
	Value  fieldkit.Value
	Within fieldkit.Length // ± of a length
	Guess  bool            // no unit was given, and inches made more sense
}

// nothingStandard is how likely a part is to be in no table before anything is
// measured (common practice: most of what turns is a standard part).
const nothingStandard = 0.05

// Find ranks what a part may be by what was measured on it, and says what to measure
// next. Errors are of kind BadInput or NotFound and name the attribute.
func (k Kind) Find(h *standards.Handbook, q Query) (Result, error) {
	list, err := k.readings(q)
	if err != nil {
		return Result{}, err
	}
	first := k.rank(h, q, list)
	if first.Fits {
		return first, nil
	}
	best := first
	for _, other := range inInches(list) {
		if r := k.rank(h, q, other); r.better(best) {
			best = r
		}
	}
	return best, nil
}

// inInches gives the readings with numbers without a unit taken as inches: first all
// of them, then each by itself.
func inInches(list []reading) (ways [][]reading) {
	var open []int
	for i, r := range list {
		if r.other != nil {
			open = append(open, i)
		}
	}
	if len(open) == 0 {
		return nil
	}
	all := slices.Clone(list)
	for _, i := range open {
		all[i] = all[i].inInches()
	}
	ways = append(ways, all)
	for _, i := range open {
		if len(open) > 1 {
			one := slices.Clone(list)
			one[i] = one[i].inInches()
			ways = append(ways, one)
		}
	}
	return ways
}

// better reports whether a way to understand the readings makes more sense.
func (r Result) better(than Result) bool {
	if r.Fits != than.Fits {
		return r.Fits
	}
	return r.standard() > 2*than.standard()
}

// standard gives how likely the part is anything standard.
func (r Result) standard() (p float64) {
	for _, c := range r.Candidates {
		p += c.Likelihood
	}
	return p
}

// rank weighs the candidates by the readings.
func (k Kind) rank(h *standards.Handbook, q Query, list []reading) Result {
	candidates := k.candidates(h, list)
	models := make([]model, len(list))
	for i, r := range list {
		models[i] = newModel(r.attribute, r.within, r.worn, candidates)
	}
	var result Result
	prior, total := k.priors(candidates), 0.0
	none := nothingStandard
	for i := range list {
		none *= models[i].none()
	}
	for i, d := range candidates {
		c := Candidate{Designation: d, place: i, Likelihood: (1 - nothingStandard) * prior[i], Fits: true}
		for j, r := range list {
			c.Likelihood *= models[j].likelihood(r.value, i)
			misfit := models[j].compare(r.value, i)
			c.Fits = c.Fits && misfit.Within
			c.Misfits = append(c.Misfits, misfit)
		}
		total += c.Likelihood
		result.Candidates = append(result.Candidates, c)
	}
	total += none
	for i := range result.Candidates {
		if total > 0 {
			result.Candidates[i].Likelihood /= total
		}
		result.Fits = result.Fits || result.Candidates[i].Fits
	}
	slices.SortStableFunc(result.Candidates, func(a, b Candidate) int {
		switch {
		case a.Fits != b.Fits && a.Fits:
			return -1
		case a.Fits != b.Fits:
			return 1
		case !result.Fits:
			return cmp.Compare(a.far(), b.far())
		}
		return cmp.Compare(b.Likelihood, a.Likelihood)
	})
	for _, r := range list {
		result.Readings = append(result.Readings, Reading{r.attribute.Name, r.value, r.within, r.turned})
	}
	result.Next = k.next(result, candidates, q, list)
	return result
}

// far gives how far a candidate is from the readings: the sum of what they are off, as
// shares of its figures. A wrong word or count is like a quarter.
func (c Candidate) far() (sum float64) {
	for _, f := range c.Misfits {
		switch {
		case !f.Known || f.Within:
		case f.Figure.Dim != fieldkit.DimLength || f.Figure.Base == 0:
			sum += 0.25
		default:
			sum += math.Abs(float64(f.Off.Base) / float64(f.Figure.Base))
		}
	}
	return sum
}

// priors gives how likely each candidate is before anything is measured.
func (k Kind) priors(candidates []standards.Designation) []float64 {
	weights, sum := make([]float64, len(candidates)), 0.0
	for i, d := range candidates {
		weights[i] = 1
		if k.weight != nil {
			weights[i] = k.weight(d)
		}
		sum += weights[i]
	}
	for i := range weights {
		weights[i] /= sum
	}
	return weights
}
