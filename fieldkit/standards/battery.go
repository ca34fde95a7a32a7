package standards

import (
	"strings"

	"trailfieldkit/fieldkit"
)

// Battery is a battery by its group number, which fixes case and terminals: group 65.
type Battery struct {
	Group                 string          // 34R, 34/78
	European              string          // LN3/H6; "" if it has none
	Length, Width, Height fieldkit.Length // the most it may measure
	Terminals             string
	Opposite              string // the group of the same case with the poles the other way round
	source                string
}

// ParseBattery reads a group: 65, 34R, group 34/78, BCI 24F, LN3, H6. The error is a
// *Misread.
func (h *Handbook) ParseBattery(text string) (Battery, error) { return parse(text, h.readBattery) }

func (h *Handbook) readBattery(s *scan) (Battery, *Misread) {
	s.word("BCI", "BCI GROUP", "GROUP", "GRP", "GR", "GROUP SIZE", "EN")
	s.skip(" -.")
	at := s.at
	name := s.letters() + s.digits()
	if s.take('/') { // 34/78, LN3/H6
		name += "/" + s.letters() + s.digits()
	}
	name += s.letters()
	b, ok := h.batteries.named(name)
	if !ok {
		s.at = at
		return Battery{}, s.expected(KindBattery, "a group of the table")
	}
	if s.blank(); b.European != "" && s.take('(') {
		for !s.done() && !s.take(')') {
			s.at++
		}
	}
	return b, nil
}

func (b Battery) Kind() Kind   { return KindBattery }
func (b Battery) Listed() bool { return true }

func (b Battery) String() string {
	if b.European != "" {
		return "group " + b.European
	}
	return "group " + b.Group
}

func (b Battery) Dims() []Dim {
	var d dims
	d.length("length", b.Length)
	d.length("width", b.Width)
	d.length("height", b.Height)
	d.text("terminals", b.Terminals)
	return d
}

func (b Battery) Source() string { return b.source }

func (b Battery) Explain() []Piece {
	pieces := []Piece{{b.Group, "group: case at most " + b.Length.Show(fieldkit.Metric) + " long, " + b.Width.Show(fieldkit.Metric) + " wide, " + b.Height.Show(fieldkit.Metric) + " high, " + b.Terminals}}
	if b.Opposite != "" {
		pieces = append(pieces, Piece{b.Opposite, "same case, poles the other way round: cables may not reach, and swapped cables do damage"})
	}
	return pieces
}

func (o *opener) batteries(h *Handbook) {
	o.each("batteries_bci", func(r row) {
		b := Battery{
			Group: r.text("group"), Length: r.mm("max_length_mm"), Width: r.mm("max_width_mm"), Height: r.mm("max_height_mm"),
			Terminals: r.text("terminals"), Opposite: r.text("same_case_opposite_polarity"), source: r.source(),
		}
		var names []string
		if group, en, ok := strings.Cut(b.Group, " (EN "); ok {
			b.Group, b.European = group, strings.TrimSuffix(en, ")")
			names = append(strings.Split(b.European, "/"), b.European)
		}
		h.batteries.add(b, append(names, b.Group)...)
	})
}
