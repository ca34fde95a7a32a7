package measure

import (
	"math"
	"strings"
	"unicode"

	"trailfieldkit/fieldkit"
)

// How readings go wrong (common practice).
const (
	slip        = 0.01  // of readings is a slip: misread, miswritten, measured elsewhere
	slipSpread  = 10    // a slip is off by some ten times the accuracy, or a millimetre
	miscounted  = 0.02  // a count is one too many, as often one too few
	countSlip   = 0.001 // or anything
	wordSlip    = 0.03  // a word, a colour or a mark is wrong
	wornAtPlace = 0.5   // of worn parts are worn where it was measured
)

// Misfit is how a reading and a candidate differ in one attribute.
type Misfit struct {
	Name   string
	Read   fieldkit.Value
	Figure fieldkit.Value // of the candidate; zero if it has none
	Off    fieldkit.Value // read less figure; of words a count, 0 the same and 1 not
	Within bool           // tool, tolerance and wear explain it
	Known  bool           // the candidate has a figure to compare with
}

// model is what readings of one attribute make of the candidates: their figures, and
// how far new parts differ from them.
type model struct {
	attribute Attribute
	within    float64 // of the tool, nm
	worn      bool
	figures   []figure // by candidate
	width     float64  // of the range of all figures, nm or millionths: for "nothing standard"
	kinds     int      // of words, how many different ones
}

// figure is what a candidate should measure.
type figure struct {
	value  fieldkit.Value
	known  bool
	spread Spread
}

// newModel looks at all candidates: a part that is nothing standard may measure
// anything within their range.
func newModel(a Attribute, within fieldkit.Length, worn bool, candidates []part) model {
	m := model{attribute: a, within: float64(within), worn: worn, figures: make([]figure, len(candidates))}
	low, high := math.Inf(1), math.Inf(-1)
	words := map[string]bool{}
	for i, p := range candidates {
		f := &m.figures[i]
		if f.value, f.known = a.figure(p); !f.known {
			continue
		}
		if a.Dim == fieldkit.DimText {
			words[f.value.Text] = true
			continue
		}
		if a.spread != nil {
			f.spread = a.spread(p.Designation, fieldkit.Length(f.value.Base))
		}
		low, high = min(low, float64(f.value.Base)), max(high, float64(f.value.Base))
	}
	m.kinds = len(words)
	switch {
	case math.IsInf(high, -1):
		m.width = float64(fieldkit.Inches) // no candidate has such a figure
	case a.Dim == fieldkit.DimLength:
		m.width = max(1.1*(high-low), float64(5*mm))
	default:
		m.width = max(high-low, 1e6) * 1.5 // counts are kept in millionths
	}
	return m
}

// none gives how likely any reading is on a part that is nothing standard.
func (m model) none() float64 {
	switch {
	case m.attribute.Dim == fieldkit.DimText:
		return 1 / float64(m.kinds+1)
	case m.attribute.ratio > 0:
		return 0.2 // of a logarithm of the ratio: from half to twelve times
	case m.attribute.Dim == fieldkit.DimLength:
		return 1 / m.width
	}
	return 1e6 / m.width
}

// likelihood gives how likely a reading is if the part is that candidate.
func (m model) likelihood(v fieldkit.Value, candidate int) float64 {
	f := m.figures[candidate]
	switch {
	case !f.known && m.attribute.absent:
		return slip * m.none()
	case !f.known:
		return m.none() // nothing is known of it: it speaks neither for nor against
	}
	return m.density(v, f.value, f.spread)
}

// density gives how likely a reading is for a figure from which new parts differ by
// the spread: even over the spread, blurred by the tool; on a worn part, with even
// chances, over the spread and the wear.
func (m model) density(v, figure fieldkit.Value, s Spread) float64 {
	switch {
	case m.attribute.Dim == fieldkit.DimText:
		return m.word(v, figure)
	case m.attribute.ratio > 0:
		off := math.Log(float64(v.Base) / float64(figure.Base))
		return (1-slip)*normal(off, m.attribute.ratio) + slip*cauchy(off, slipSpread*m.attribute.ratio)
	case m.attribute.Dim != fieldkit.DimLength:
		return counted(float64(v.Base-figure.Base) / 1e6)
	}
	off, within := float64(v.Base-figure.Base), m.withinOf(figure)
	p := evenBlurred(off, float64(s.Below), float64(s.Above), within)
	if w := m.attribute.Wear; m.worn && w != (Spread{}) {
		s := s.Plus(w)
		p = (1-wornAtPlace)*p + wornAtPlace*evenBlurred(off, float64(s.Below), float64(s.Above), within)
	}
	return (1-slip)*p + slip*cauchy(off, max(slipSpread*within, float64(mm)))
}

// withinOf gives the accuracy with which a figure can be met.
func (m model) withinOf(figure fieldkit.Value) float64 {
	return math.Hypot(m.within, m.attribute.blur*float64(figure.Base))
}

// word gives how likely a word is: right, or a slip. What is only usual is less sure.
func (m model) word(v, figure fieldkit.Value) float64 {
	sure := 1 - wordSlip
	if m.attribute.often > 0 {
		sure = m.attribute.often
	}
	if m.attribute.sameWords(v.Text, figure.Text) {
		return sure
	}
	return (1 - sure) / float64(max(m.kinds, 1))
}

// counted gives how likely a count is that is off by so many.
func counted(off float64) float64 {
	switch math.Round(math.Abs(off)) {
	case 0:
		return 1 - 2*miscounted - countSlip
	case 1:
		return miscounted
	}
	return countSlip / 10
}

// normal is the normal density of spread s, cauchy one with far tails.
func normal(x, s float64) float64 { return math.Exp(-x*x/(2*s*s)) / (s * math.Sqrt(2*math.Pi)) }
func cauchy(x, s float64) float64 { return 1 / (math.Pi * s * (1 + x*x/(s*s))) }

// evenBlurred is the density of what is even from -below to +above, read with normal
// errors of spread s.
func evenBlurred(x, below, above, s float64) float64 {
	s = max(s, float64(um)) // no reading is without any error
	if below+above < s/10 {
		return normal(x, s)
	}
	phi := func(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }
	return (phi((x+below)/s) - phi((x-above)/s)) / (below + above)
}

// compare gives the misfit of a reading with a candidate.
func (m model) compare(v fieldkit.Value, candidate int) Misfit {
	f := m.figures[candidate]
	misfit := Misfit{Name: m.attribute.Name, Read: v, Known: f.known, Figure: f.value, Off: fieldkit.Value{Dim: v.Dim}}
	if v.Dim == fieldkit.DimText {
		misfit.Off.Dim = fieldkit.DimCount
	}
	if !f.known {
		misfit.Within = !m.attribute.absent
		return misfit
	}
	off := v.Base - f.value.Base
	switch {
	case v.Dim == fieldkit.DimText:
		same := m.attribute.sameWords(v.Text, f.value.Text)
		misfit.Within = same || m.attribute.often > 0
		if !same {
			misfit.Off.Base = 1e6
		}
		return misfit
	case m.attribute.ratio > 0:
		misfit.Within = math.Abs(math.Log(float64(v.Base)/float64(f.value.Base))) <= handlingSlack*m.attribute.ratio
	case v.Dim != fieldkit.DimLength:
		misfit.Within = off == 0
	default:
		s := f.spread
		if m.worn {
			s = s.Plus(m.attribute.Wear)
		}
		slack := int64(handlingSlack * m.withinOf(f.value))
		misfit.Within = off >= -int64(s.Below)-slack && off <= int64(s.Above)+slack
	}
	misfit.Off.Base = off
	return misfit
}

// sameWords reports whether what was said is what a table says, in whole words of it,
// or by a word that means it.
func (a Attribute) sameWords(said, figure string) bool {
	said, figure = strings.ToLower(strings.TrimSpace(said)), strings.ToLower(figure)
	if wordsWithin(said, figure) {
		return true
	}
	for _, meant := range a.same[said] {
		if strings.ToLower(meant) == figure || wordsWithin(strings.ToLower(meant), figure) && a.same[figure] == nil {
			return true
		}
	}
	return false
}

// wordsWithin reports whether all words of one text are words of the other.
func wordsWithin(part, whole string) bool {
	split := func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '.' && r != '-' }
	words := strings.FieldsFunc(whole, split)
	parts := strings.FieldsFunc(part, split)
	for _, p := range parts {
		found := false
		for _, w := range words {
			found = found || w == p
		}
		if !found {
			return false
		}
	}
	return len(parts) > 0
}
