package standards

import "trailfieldkit/fieldkit"

// UJoint is a universal joint by its trade series: 1310.
type UJoint struct {
	Series    string
	Cap, Span fieldkit.Length
	LockUp    string // how the caps are held
	source    string
}

// ParseUJoint reads a series: 1310, 1310 U-joint, series 3R. The error is a *Misread.
func (h *Handbook) ParseUJoint(text string) (UJoint, error) { return parse(text, h.readUJoint) }

func (h *Handbook) readUJoint(s *scan) (UJoint, *Misread) {
	s.word("SERIES", "U-JOINT", "UJOINT", "UNIVERSAL JOINT", "U-JOINT SERIES")
	s.blank()
	at := s.at
	series := s.digits() + s.letters()
	u, ok := h.ujoints.named(series)
	if !ok {
		s.at = at
		return UJoint{}, s.expected(KindUJoint, "a series of the table")
	}
	s.blank()
	s.word("SERIES", "U-JOINT", "UJOINT", "UNIVERSAL JOINT", "CROSS")
	return u, nil
}

func (u UJoint) Kind() Kind     { return KindUJoint }
func (u UJoint) Listed() bool   { return true }
func (u UJoint) String() string { return u.Series }

func (u UJoint) Dims() []Dim {
	var d dims
	d.length("cap", u.Cap)
	d.length("span", u.Span)
	d.text("lock_up", u.LockUp)
	return d
}

func (u UJoint) Source() string { return u.source }

func (u UJoint) Explain() []Piece {
	return []Piece{{u.Series, "trade series: caps of " + u.Cap.Both(fieldkit.Inch) + ", " + u.Span.Both(fieldkit.Inch) + " over or between them, " + u.LockUp}}
}

func (o *opener) ujoints(h *Handbook) {
	o.each("ujoints", func(r row) {
		h.ujoints.add(UJoint{
			Series: r.text("series"), Cap: r.inch("cap_diameter_in"), Span: r.inch("span_in"),
			LockUp: r.text("lock_up"), source: r.source(),
		}, r.text("series"))
	})
}
