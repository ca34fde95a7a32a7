package standards

import (
	"fmt"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

// Spline is an involute spline of the 24/48 pitch that axles have: 30 spline.
type Spline struct {
	Count    int
	Pitch    string // "24/48"
	Major    fieldkit.Length
	TradeMin fieldkit.Length // what the trade calls the diameter; 0 if it has no word
	TradeMax fieldkit.Length
	source   string
}

// ParseSpline reads a spline count: 30 spline, 35-spline, 31 splines 24/48. The error
// is a *Misread.
func (h *Handbook) ParseSpline(text string) (Spline, error) { return parse(text, h.readSpline) }

func (h *Handbook) readSpline(s *scan) (Spline, *Misread) {
	at := s.at
	x, ok := h.splines.named(s.digits())
	if !ok {
		s.at = at
		return Spline{}, s.expected(KindSpline, "a count of splines of the table")
	}
	s.skip(" -")
	if s.word("SPLINE", "SPLINES", "SPL", "SPL.") == "" {
		return Spline{}, s.expected(KindSpline, "the word spline")
	}
	s.blank()
	s.word(x.Pitch)
	return x, nil
}

func (x Spline) Kind() Kind     { return KindSpline }
func (x Spline) Listed() bool   { return true }
func (x Spline) String() string { return strconv.Itoa(x.Count) + " spline" }

func (x Spline) Dims() []Dim {
	var d dims
	d.count("splines", int64(x.Count)*1000)
	d.length("diameter", x.Major)
	return d
}

func (x Spline) Source() string { return x.source }

func (x Spline) Explain() []Piece {
	says := fmt.Sprintf("splines of %s pitch: %s over the tips", x.Pitch, x.Major.Both(fieldkit.Inch))
	if x.TradeMin != 0 && x.TradeMin != x.Major {
		says += fmt.Sprintf("; the trade says %s", x.TradeMin.Both(fieldkit.Inch))
	}
	return []Piece{{strconv.Itoa(x.Count), says + "; some axles have another pitch, so count and measure"}}
}

func (o *opener) splines(h *Handbook) {
	o.each("splines", func(r row) {
		x := Spline{Count: r.whole("splines"), Pitch: r.text("pitch"), Major: r.inch("major_diameter_in"), source: r.source()}
		low, high, isRange := strings.Cut(r.text("trade_diameter_in"), "-")
		x.TradeMin, _ = inches(low)
		if x.TradeMax = x.TradeMin; isRange {
			x.TradeMax, _ = inches(high)
		}
		h.splines.add(x, strconv.Itoa(x.Count))
	})
}
