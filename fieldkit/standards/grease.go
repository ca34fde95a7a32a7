package standards

import "fmt"

// Grease is a grease by its NLGI number: NLGI 2.
type Grease struct {
	Number   string // 000 to 6
	EP       bool   // for extreme pressure
	min, max string // worked penetration, tenths of a millimetre
	source   string
}

// ParseGrease reads a number: NLGI 2, NLGI #00, EP 2. The error is a *Misread.
func (h *Handbook) ParseGrease(text string) (Grease, error) { return parse(text, h.readGrease) }

func (h *Handbook) readGrease(s *scan) (Grease, *Misread) {
	named := s.word("NLGI", "GREASE", "NLGI NO.", "NLGI GRADE") != ""
	s.skip(" #-")
	ep := s.piece([]string{"EP"}) != ""
	s.skip(" #-")
	at := s.at
	g, ok := h.greases[s.digits()]
	if !ok || !named && !ep {
		s.at = at
		return Grease{}, s.expected(KindGrease, "NLGI and a number from 000 to 6")
	}
	s.skip(" -")
	g.EP = s.word("EP") != "" || ep
	return g, nil
}

func (g Grease) Kind() Kind   { return KindGrease }
func (g Grease) Listed() bool { return true }

func (g Grease) String() string {
	if g.EP {
		return "NLGI " + g.Number + " EP"
	}
	return "NLGI " + g.Number
}

func (g Grease) Dims() []Dim {
	var d dims
	d.text("penetration", g.penetration())
	return d
}

func (g Grease) penetration() string {
	return fmt.Sprintf("%s to %s tenths of a millimetre, worked, at 25 °C", g.min, g.max)
}

func (g Grease) Source() string { return g.source }

func (g Grease) Explain() []Piece {
	pieces := []Piece{{g.Number, "stiffness: a cone sinks in " + g.penetration() + "; says nothing of the thickener, and not all mix"}}
	if g.EP {
		pieces = append(pieces, Piece{"EP", "with additives for extreme pressure"})
	}
	return pieces
}

func (o *opener) greases(h *Handbook) {
	h.greases = map[string]Grease{}
	o.each("grease_nlgi", func(r row) {
		h.greases[r.text("nlgi")] = Grease{Number: r.text("nlgi"), min: r.text("worked_penetration_min_tenth_mm"), max: r.text("worked_penetration_max_tenth_mm"), source: r.source()}
	})
}
