package standards

import (
	"fmt"

	"trailfieldkit/fieldkit"
)

// ORing is an O-ring by its AS568 dash number.
type ORing struct {
	Dash         string // "214"
	Inside       fieldkit.Length
	CrossSection fieldkit.Length
	CrossTol     fieldkit.Length // ± on the cross-section
	source       string
}

// ParseORing reads an O-ring: AS568-214, -214 or 214. The error is a *Misread.
func (h *Handbook) ParseORing(text string) (ORing, error) { return parse(text, h.readORing) }

func (h *Handbook) readORing(s *scan) (ORing, *Misread) {
	if s.word("AS568", "AS 568", "AS-568", "AS568A", "AS568B", "AS568C", "AS568D", "AS568E", "AS568F") != "" {
		s.blank()
	}
	s.take('-')
	s.blank()
	start := s.at
	dash := s.digits()
	if len(dash) != 3 {
		s.at = start
		return ORing{}, s.expected(KindORing, "a dash number of three digits")
	}
	o, ok := h.orings.named(dash)
	if !ok {
		s.at = start
		return ORing{}, s.misread(KindORing, "AS568 has no -%s", dash)
	}
	return o, nil
}

func (o ORing) Kind() Kind     { return KindORing }
func (o ORing) Listed() bool   { return true }
func (o ORing) String() string { return "AS568-" + o.Dash }

func (o ORing) Dims() []Dim {
	var d dims
	d.length("id", o.Inside)
	d.length("cs", o.CrossSection)
	d.length("od", o.Inside+2*o.CrossSection)
	return d
}

func (o ORing) Source() string { return o.source }

func (o ORing) Explain() []Piece {
	says := "cross-section " + o.CrossSection.Both(fieldkit.Inch)
	if o.Dash[0] == '9' {
		says = fmt.Sprintf("for straight thread tube fittings of size -%s", o.Dash[1:])
	}
	return []Piece{{"-" + o.Dash[:1] + "xx", says}, {"-" + o.Dash, "inside diameter " + o.Inside.Both(fieldkit.Inch)}}
}

func (o *opener) orings(h *Handbook) {
	o.each("orings_as568", func(r row) {
		ring := ORing{
			Dash: r.text("dash"), Inside: r.inch("id_in"), CrossSection: r.inch("cs_in"), CrossTol: r.inch("cs_tol_in"),
			source: r.source(),
		}
		h.orings.add(ring, ring.Dash)
	})
}
