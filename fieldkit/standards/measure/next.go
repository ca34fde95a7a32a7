package measure

import (
	"fmt"
	"math"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// Next is what to measure next, and why. Measurement is "" when nothing more is to be
// gained.
type Next struct {
	Measurement string
	Why         string
	Gain        float64 // bits by which doubt can be expected to shrink
	Left        float64 // candidates about as likely as each other that will be left
}

const (
	// leastGain is the gain below which measuring is not worth the time: about one
	// candidate in twenty ruled out.
	leastGain = 0.08
	// byEye is what seeing, counting or a gauge is ahead of measuring, in bits: it needs
	// no tool at hand and goes wrong less often.
	byEye = 0.15
	// sameGain is the difference in bits below which the attribute that stands first is
	// taken.
	sameGain = 0.01
	// weighed is how many candidates are weighed against each other, the likeliest;
	// what lies behind them does not change the choice.
	weighed = 120
	// negligible is the share of the first candidate's likelihood below which another
	// is not weighed.
	negligible = 1e-4
)

// next picks the attribute not yet measured that can be expected to lower the entropy
// of the candidates most.
func (k Kind) next(result Result, candidates []standards.Designation, q Query, list []reading) Next {
	if !result.Fits {
		return again(result)
	}
	rivals := rivalsOf(result)
	best, bestScore := Next{}, 0.0
	for _, a := range k.Attributes {
		if asked(list, a.Name) || a.silent || a.after != "" && !asked(list, a.after) {
			continue
		}
		m := newModel(a, k.toolFor(a, q).Within, q.Worn, candidates)
		gain, left := m.gain(rivals)
		score := gain
		if a.Tool.Within == 0 {
			score += byEye
		}
		if gain >= leastGain && score > bestScore {
			best, bestScore = Next{a.Name, "", gain, left}, score+sameGain
		}
	}
	switch {
	case best.Measurement != "":
		best.Why = k.why(best, rivals)
	case len(k.needs) > 0 && !slices.ContainsFunc(k.needs, func(name string) bool { return asked(list, name) }):
		best = Next{k.needs[0], fmt.Sprintf("without the %s the part cannot be named", k.needs[0]), 0, 1}
	case len(rivals) == 1:
		best.Why = fmt.Sprintf("nothing else fits: compare the stamp with %s", rivals[0].Designation)
	default:
		best.Why = fmt.Sprintf("%s and %s measure the same: read the stamp", rivals[0].Designation, rivals[1].Designation)
	}
	return best
}

func (k Kind) toolFor(a Attribute, q Query) Tool {
	if q.Tool != nil && a.Dim == fieldkit.DimLength && a.Tool.Within > 0 && q.Tool.Within > 0 {
		return *q.Tool
	}
	return a.Tool
}

// rivalsOf gives the candidates worth telling apart, their likelihoods made to add up
// to 1.
func rivalsOf(result Result) []Candidate {
	var rivals []Candidate
	sum := 0.0
	for _, c := range result.Candidates[:min(len(result.Candidates), weighed)] {
		if c.Fits && c.Likelihood >= negligible*result.Candidates[0].Likelihood {
			rivals = append(rivals, c)
			sum += c.Likelihood
		}
	}
	for i := range rivals {
		rivals[i].Likelihood /= sum
	}
	return rivals
}

// gain gives the expected drop of entropy by measuring an attribute: for each rival
// the reading it would give, and what that reading would leave of the others.
func (m model) gain(rivals []Candidate) (gain, left float64) {
	before := 0.0
	for _, c := range rivals {
		before += entropy(c.Likelihood)
	}
	after := 0.0
	posterior := make([]float64, len(rivals))
	for _, c := range rivals {
		expected, known := m.expected(c.place)
		if !known && !m.attribute.absent {
			after += c.Likelihood * before
			continue
		}
		sum := 0.0
		for i, r := range rivals {
			posterior[i] = r.Likelihood
			switch {
			case known:
				posterior[i] *= m.likelihood(expected, r.place)
			case m.figures[r.place].known:
				posterior[i] *= slip // nothing was seen where there is something
			}
			sum += posterior[i]
		}
		for _, p := range posterior {
			after += c.Likelihood * entropy(p/sum)
		}
	}
	return before - after, math.Exp2(after)
}

// expected gives the reading a candidate would give: the middle of what new parts
// measure.
func (m model) expected(candidate int) (fieldkit.Value, bool) {
	f := m.figures[candidate]
	if f.known && m.attribute.Dim == fieldkit.DimLength && m.attribute.ratio == 0 {
		f.value.Base += int64(f.spread.Above-f.spread.Below) / 2
	}
	return f.value, f.known
}

func entropy(p float64) float64 {
	if p <= 0 {
		return 0
	}
	return -p * math.Log2(p)
}

// why names the first candidate and the likeliest rival that the measurement tells
// from it.
func (k Kind) why(n Next, rivals []Candidate) string {
	a, _ := k.AttributeNamed(n.Measurement)
	first := a.figureText(rivals[0].Designation)
	for _, r := range rivals[1:] {
		figure := a.figureText(r.Designation)
		if first == "" || figure == "" || figure == first {
			continue
		}
		text := fmt.Sprintf("it tells %s (%s) from %s (%s)", rivals[0].Designation, first, r.Designation, figure)
		if len(rivals) > 2 {
			text += fmt.Sprintf(" and leaves about %.0f of %d", math.Max(1, math.Round(n.Left)), len(rivals))
		}
		return text
	}
	return fmt.Sprintf("it leaves about %.0f of %d", math.Max(1, math.Round(n.Left)), len(rivals))
}

// figureText writes what a candidate should measure; "" if that is not known.
func (a Attribute) figureText(d standards.Designation) string {
	switch figure, ok := a.figure(d); {
	case ok:
		return figure.Both(fieldkit.Metric)
	case a.absent:
		return "none"
	}
	return ""
}

// again asks for the reading that is farthest from the nearest candidate.
func again(result Result) Next {
	nearest := result.Candidates[0]
	worst, far := Misfit{}, -1.0
	for _, f := range nearest.Misfits {
		if f.Within || !f.Known {
			continue
		}
		off := 1.0
		if f.Figure.Dim == fieldkit.DimLength {
			off = math.Abs(float64(f.Off.Base)) / float64(mm)
		}
		if off > far {
			worst, far = f, off
		}
	}
	return Next{Measurement: worst.Name, Why: fmt.Sprintf("nothing standard fits; the nearest, %s, has %s: measure again at another place", nearest.Designation, worst.Figure.Both(fieldkit.Metric))}
}
