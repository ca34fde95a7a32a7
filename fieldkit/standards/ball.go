package standards

import (
	"strings"

	"trailfieldkit/fieldkit"
)

// Ball is a radial ball bearing by its ISO 15 number: 6207-2RS C3.
type Ball struct {
	Basic           string // 6207
	Series          string // 62
	Flange          bool   // prefix F
	Type            string // "deep groove"
	Bore, OD, Width fieldkit.Length
	Suffixes        []Suffix

	listed bool
	source string
}

const ballSource = "ISO 15; bore by the rule of the bore code, no table holds this size"

// ParseBall reads a ball bearing: 6207, 6207-2RS C3, 62/22 ZZ, F604. The error is a
// *Misread.
func (h *Handbook) ParseBall(text string) (Ball, error) { return parse(text, h.readBall) }

func (h *Handbook) readBall(s *scan) (Ball, *Misread) {
	flange := false
	if s.peek() == 'F' && s.at+1 < len(s.runes) && s.runes[s.at+1] >= '0' && s.runes[s.at+1] <= '9' {
		s.at++
		flange = true
	}
	b, m := h.readBallNumber(s)
	if m != nil {
		return Ball{}, m
	}
	b.Flange = flange
	if b.Suffixes, m = h.ballSuffixes.read(s, KindBall); m != nil {
		return Ball{}, m
	}
	return b, nil
}

// readBallNumber takes the longest number the table holds; of those it does not
// hold one of a known series with a bore code.
func (h *Handbook) readBallNumber(s *scan) (Ball, *Misread) {
	start := s.at
	run := s.digits()
	if mark := s.at; s.take('/') {
		if after := s.digits(); len(after) == 2 {
			if b, ok := h.balls.named(run + "/" + after); ok {
				return b, nil
			}
		}
		s.at = mark
	}
	for n := len(run); n >= 3; n-- {
		if b, ok := h.balls.named(run[:n]); ok {
			s.at = start + n
			return b, nil
		}
	}
	if run == "" {
		return Ball{}, s.expected(KindBall, "a number")
	}
	for n := len(run); n >= 4; n-- {
		series := run[:n-2]
		if bore, ok := boreOf(run[n-2 : n]); ok && h.ballSeries[series] != "" {
			s.at = start + n
			return Ball{Basic: run[:n], Series: series, Type: h.ballSeries[series], Bore: bore, source: ballSource}, nil
		}
	}
	s.at = start + h.balls.common(s, run)
	return Ball{}, s.misread(KindBall, "no ball bearing number begins with %q", run)
}

func (b Ball) Kind() Kind   { return KindBall }
func (b Ball) Listed() bool { return b.listed }

func (b Ball) String() string {
	number := b.Basic
	if b.Flange {
		number = "F" + number
	}
	return withSuffixes(number, b.Suffixes)
}

func (b Ball) Dims() []Dim {
	var d dims
	d.length("bore", b.Bore)
	d.length("od", b.OD)
	d.length("width", b.Width)
	d.text("type", b.Type)
	return d
}

func (b Ball) Source() string { return b.source }

func (b Ball) Explain() []Piece {
	var pieces []Piece
	if b.Flange {
		pieces = append(pieces, Piece{"F", "flange on the outer ring"})
	}
	pieces = append(pieces, explainBore(b.Basic, b.Series, b.Bore)...)
	return append(pieces, explainSuffixes(b.Suffixes)...)
}

func (o *opener) balls(h *Handbook) {
	h.ballSuffixes = o.suffixes("ball", "rolling bearing", "matched pair")
	h.ballSeries = map[string]string{}
	o.each("ball_bearings", func(r row) {
		b := Ball{
			Basic: r.text("designation"), Series: r.text("series"), Type: r.text("type"),
			Bore: r.mm("bore_mm"), OD: r.mm("od_mm"), Width: r.mm("width_mm"),
			listed: true, source: r.source(),
		}
		h.ballSeries[b.Series] = b.Type
		h.balls.add(b, append(strings.Fields(r.text("alt_designation")), b.Basic)...)
	})
}
