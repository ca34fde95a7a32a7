package measure

import (
	"cmp"
	"math"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// weighing is all candidates of a kind weighed by readings.
type weighing struct {
	kind       Kind
	query      Query
	readings   []reading
	candidates []part
	models     []model // by reading
	likelihood []float64
	fit        []bool
	order      []int // places of the candidates, best first
}

func (k Kind) weigh(h *standards.Handbook, q Query, list []reading) *weighing {
	w := &weighing{kind: k, query: q, readings: list}
	for _, d := range k.candidates(h, list) {
		w.candidates = append(w.candidates, part{d, d.Dims()})
	}
	total := nothingStandard
	for _, r := range list {
		m := newModel(r.attribute, r.within, r.worn, w.candidates)
		w.models = append(w.models, m)
		total *= m.none()
	}
	w.likelihood, w.fit = k.priors(w.candidates), make([]bool, len(w.candidates))
	for i := range w.candidates {
		w.fit[i] = true
		for j, r := range list {
			w.likelihood[i] *= w.models[j].likelihood(r.value, i)
			w.fit[i] = w.fit[i] && w.models[j].compare(r.value, i).Within
		}
		total += w.likelihood[i]
		w.order = append(w.order, i)
	}
	for i := range w.likelihood {
		w.likelihood[i] /= total
	}
	w.sort()
	return w
}

// priors gives how likely each candidate is before anything is measured.
func (k Kind) priors(candidates []part) []float64 {
	weights, sum := make([]float64, len(candidates)), 0.0
	for i, p := range candidates {
		weights[i] = 1
		if k.weight != nil {
			weights[i] = k.weight(p.Designation)
		}
		sum += weights[i]
	}
	for i := range weights {
		weights[i] *= (1 - nothingStandard) / sum
	}
	return weights
}

// sort puts the candidates that fit first, by likelihood; if none fits all by how near
// they are.
func (w *weighing) sort() {
	var far []float64
	if !slices.Contains(w.fit, true) {
		far = make([]float64, len(w.candidates))
		for i := range far {
			far[i] = w.far(i)
		}
	}
	slices.SortStableFunc(w.order, func(a, b int) int {
		switch {
		case far != nil:
			return cmp.Compare(far[a], far[b])
		case w.fit[a] != w.fit[b] && w.fit[a]:
			return -1
		case w.fit[a] != w.fit[b]:
			return 1
		}
		return cmp.Compare(w.likelihood[b], w.likelihood[a])
	})
}

// far gives how far a candidate is from the readings: the sum of what they are off, as
// shares of its figures. A wrong word is like a quarter, and a wrong count as much more.
func (w *weighing) far(candidate int) (sum float64) {
	for j, r := range w.readings {
		switch f := w.models[j].compare(r.value, candidate); {
		case !f.Known || f.Within:
		case w.models[j].attribute.whole():
			sum += 0.25 + math.Abs(float64(f.Off.Base)/float64(f.Figure.Base))
		case f.Figure.Dim != fieldkit.DimLength || f.Figure.Base == 0:
			sum += 0.25
		default:
			sum += math.Abs(float64(f.Off.Base) / float64(f.Figure.Base))
		}
	}
	return sum
}

func (w *weighing) fits() bool { return len(w.order) > 0 && w.fit[w.order[0]] }

// better reports whether a way to understand the readings makes more sense.
func (w *weighing) better(than *weighing) bool {
	if w.fits() != than.fits() {
		return w.fits()
	}
	return w.standard() > 2*than.standard()
}

// standard gives how likely the part is anything standard.
func (w *weighing) standard() (p float64) {
	for _, x := range w.likelihood {
		p += x
	}
	return p
}

// result puts together what is handed out.
func (w *weighing) result() Result {
	r := Result{Fits: w.fits()}
	for _, i := range w.order[:min(len(w.order), MaxCandidates)] {
		c := Candidate{Designation: w.candidates[i].Designation, Likelihood: w.likelihood[i], Fits: w.fit[i]}
		for j, read := range w.readings {
			c.Misfits = append(c.Misfits, w.models[j].compare(read.value, i))
		}
		r.Candidates = append(r.Candidates, c)
	}
	for _, read := range w.readings {
		r.Readings = append(r.Readings, Reading{read.attribute.Name, read.value, read.within, read.turned})
	}
	if r.Fits {
		r.Next = w.next()
	} else {
		r.Next = again(r.Candidates[0])
	}
	return r
}
