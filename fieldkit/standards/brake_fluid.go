package standards

import (
	"fmt"

	"trailfieldkit/fieldkit"
)

// BrakeFluid is a brake fluid by its grade: DOT 4.
type BrakeFluid struct {
	Grade    string // "DOT 4"
	Dry, Wet fieldkit.Temperature
	Base     string
	source   string
}

// ParseBrakeFluid reads a grade: DOT 4, DOT3, DOT-5.1. The error is a *Misread.
func (h *Handbook) ParseBrakeFluid(text string) (BrakeFluid, error) {
	return parse(text, h.readBrakeFluid)
}

func (h *Handbook) readBrakeFluid(s *scan) (BrakeFluid, *Misread) {
	if s.piece([]string{"DOT"}) == "" {
		return BrakeFluid{}, s.expected(KindBrakeFluid, "DOT")
	}
	s.skip(" -")
	at := s.at
	f, ok := h.fluids.named("DOT " + s.decimal())
	if !ok {
		s.at = at
		return BrakeFluid{}, s.expected(KindBrakeFluid, "3, 4, 5 or 5.1")
	}
	return f, nil
}

func (f BrakeFluid) Kind() Kind     { return KindBrakeFluid }
func (f BrakeFluid) Listed() bool   { return true }
func (f BrakeFluid) String() string { return f.Grade }

func (f BrakeFluid) Dims() []Dim {
	var d dims
	d.temperature("dry_boiling", f.Dry)
	d.temperature("wet_boiling", f.Wet)
	d.text("base", f.Base)
	return d
}

func (f BrakeFluid) Source() string { return f.source }

func (f BrakeFluid) Explain() []Piece {
	return []Piece{{f.Grade, fmt.Sprintf("%s; boils at no less than %s dry, %s wet; a silicone fluid mixes with no other", f.Base, f.Dry.Both(fieldkit.Metric), f.Wet.Both(fieldkit.Metric))}}
}

func (o *opener) fluids(h *Handbook) {
	o.each("brake_fluid", func(r row) {
		celsius := func(column string) fieldkit.Temperature {
			t, err := fieldkit.ParseTemperature(r.text(column)+" °C", fieldkit.Metric)
			if err != nil {
				r.refuse(column, fmt.Sprintf("%q is not a temperature", r.text(column)), "write degrees Celsius")
			}
			return t
		}
		h.fluids.add(BrakeFluid{Grade: r.text("grade"), Dry: celsius("dry_boiling_min_C"), Wet: celsius("wet_boiling_min_C"), Base: r.text("base"), source: r.source()}, r.text("grade"))
	})
}
