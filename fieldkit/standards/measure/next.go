package measure

import (
	"fmt"
	"math"
	"slices"

	"trailfieldkit/fieldkit"
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

// rival is a candidate worth telling apart.
type rival struct {
	place int     // among all candidates
	p     float64 // likelihood against the other rivals
}

// next picks the attribute not yet measured that can be expected to lower the entropy
// of the candidates most.
func (w *weighing) next() Next {
	rivals := w.rivals()
	best, bestScore := Next{}, 0.0
	for _, a := range w.kind.Attributes {
		if asked(w.readings, a.Name) || a.silent || a.after != "" && !asked(w.readings, a.after) {
			continue
		}
		gain, left := newModel(a, w.query.toolFor(a).Within, w.query.Worn, w.candidates).gain(rivals)
		score := gain
		if a.Tool.Within == 0 {
			score += byEye
		}
		if gain >= leastGain && score > bestScore {
			best, bestScore = Next{a.Name, "", gain, left}, score+sameGain
		}
	}
	needed := func(name string) bool { return asked(w.readings, name) }
	switch {
	case best.Measurement != "":
		best.Why = w.why(best, rivals)
	case len(w.kind.needs) > 0 && !slices.ContainsFunc(w.kind.needs, needed):
		best = Next{w.kind.needs[0], fmt.Sprintf("without the %s the part cannot be named", w.kind.needs[0]), 0, 1}
	case len(rivals) == 1:
		best.Why = fmt.Sprintf("nothing else fits: compare the stamp with %s", w.candidates[rivals[0].place])
	default:
		best.Why = fmt.Sprintf("%s and %s measure the same: read the stamp", w.candidates[rivals[0].place], w.candidates[rivals[1].place])
	}
	return best
}

// rivals gives the candidates worth telling apart, the likeliest first.
func (w *weighing) rivals() []rival {
	var rivals []rival
	sum, least := 0.0, negligible*w.likelihood[w.order[0]]
	for _, i := range w.order[:min(len(w.order), weighed)] {
		if w.fit[i] && w.likelihood[i] >= least {
			rivals = append(rivals, rival{i, w.likelihood[i]})
			sum += w.likelihood[i]
		}
	}
	for i := range rivals {
		rivals[i].p /= sum
	}
	return rivals
}

// gain gives the expected drop of entropy by measuring an attribute: for each rival
// the reading it would give, and what that reading would leave of the others.
func (m model) gain(rivals []rival) (gain, left float64) {
	before := 0.0
	for _, c := range rivals {
		before += entropy(c.p)
	}
	after := 0.0
	posterior := make([]float64, len(rivals))
	for _, c := range rivals {
		expected, known := m.expected(c.place)
		if !known && !m.attribute.absent {
			after += c.p * before
			continue
		}
		sum := 0.0
		for i, r := range rivals {
			posterior[i] = r.p
			switch {
			case known:
				posterior[i] *= m.likelihood(expected, r.place)
			case m.figures[r.place].known:
				posterior[i] *= slip // nothing was seen where there is something
			}
			sum += posterior[i]
		}
		for _, p := range posterior {
			after += c.p * entropy(p/sum)
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
func (w *weighing) why(n Next, rivals []rival) string {
	a, _ := w.kind.AttributeNamed(n.Measurement)
	one := w.candidates[rivals[0].place]
	first := a.figureText(one)
	for _, r := range rivals[1:] {
		other := w.candidates[r.place]
		figure := a.figureText(other)
		if first == "" || figure == "" || figure == first {
			continue
		}
		text := fmt.Sprintf("it tells %s (%s) from %s (%s)", one, first, other, figure)
		if len(rivals) > 2 {
			text += fmt.Sprintf(" and leaves about %.0f of %d", math.Max(1, math.Round(n.Left)), len(rivals))
		}
		return text
	}
	return fmt.Sprintf("it leaves about %.0f of %d", math.Max(1, math.Round(n.Left)), len(rivals))
}

// figureText writes what a candidate should measure; "" if that is not known.
func (a Attribute) figureText(p part) string {
	switch figure, ok := a.figure(p); {
	case ok:
		return figure.Both(fieldkit.Metric)
	case a.absent:
		return "none"
	}
	return ""
}

// again asks for the reading that is farthest from the nearest candidate.
func again(nearest Candidate) Next {
	worst, far := Misfit{}, -1.0
	for _, f := range nearest.Misfits {
		if f.Within {
			continue
		}
		off := 1.0
		if f.Known && f.Figure.Dim == fieldkit.DimLength {
			off = math.Abs(float64(f.Off.Base)) / float64(mm)
		}
		if off > far {
			worst, far = f, off
		}
	}
	has := "none"
	if worst.Known {
		has = worst.Figure.Both(fieldkit.Metric)
	}
	return Next{Measurement: worst.Name, Why: fmt.Sprintf("nothing standard fits; the nearest, %s, has %s: measure again at another place", nearest.Designation, has)}
}
