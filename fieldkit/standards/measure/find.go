package measure

import (
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
}

// Result is what the readings say.
type Result struct {
	// Candidates that fit come first, by likelihood; then the others, and if none fits
	// all by how near they are. There are no more than MaxCandidates.
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

// MaxCandidates is how many candidates a result holds, the first of them.
const MaxCandidates = 200

// Find ranks what a part may be by what was measured on it, and says what to measure
// next. Errors are of kind BadInput or NotFound and name the attribute.
func (k Kind) Find(h *standards.Handbook, q Query) (Result, error) {
	list, err := k.readings(q)
	if err != nil {
		return Result{}, err
	}
	best := k.weigh(h, q, list)
	if !best.fits() {
		for _, other := range inInches(list) {
			if w := k.weigh(h, q, other); w.better(best) {
				best = w
			}
		}
	}
	return best.result(), nil
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
