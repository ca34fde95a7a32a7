package standards

import (
	"strconv"

	"trailfieldkit/fieldkit"
)

// Wire is a wire by its American gauge: 10 AWG.
type Wire struct {
	Gauge    string // 10, 4/0
	Diameter fieldkit.Length
	Area     float64 // mm²
	Metric   string  // the ISO 6722 size at or above it, mm²
	source   string
}

// ParseWire reads a gauge: 10 AWG, AWG 4/0, 12 ga. The error is a *Misread.
func (h *Handbook) ParseWire(text string) (Wire, error) { return parse(text, h.readWire) }

func (h *Handbook) readWire(s *scan) (Wire, *Misread) {
	named := s.word("AWG", "GAUGE") != ""
	s.skip(" -#")
	at := s.at
	gauge := s.digits()
	if mark := s.at; s.take('/') {
		if s.take('0') {
			gauge += "/0"
		} else {
			s.at = mark
		}
	}
	w, ok := h.wires.named(gauge)
	if !ok {
		s.at = at
		return Wire{}, s.expected(KindWire, "a gauge of the table")
	}
	s.skip(" -")
	if s.word("AWG", "GA", "GA.", "GAUGE") == "" && !named {
		return Wire{}, s.expected(KindWire, "AWG")
	}
	return w, nil
}

func (w Wire) Kind() Kind     { return KindWire }
func (w Wire) Listed() bool   { return true }
func (w Wire) String() string { return w.Gauge + " AWG" }

func (w Wire) Dims() []Dim {
	var d dims
	d.length("diameter", w.Diameter)
	d.count("area", int64(w.Area*1000+0.5))
	return d
}

func (w Wire) Source() string { return w.source }

func (w Wire) Explain() []Piece {
	area := strconv.FormatFloat(w.Area, 'g', 4, 64)
	return []Piece{{w.Gauge, "gauge: bare copper of " + w.Diameter.Both(fieldkit.Metric) + " if solid, " + area + " mm²; " + w.Metric + " mm² carries as much or more"}}
}

func (o *opener) wires(h *Handbook) {
	o.each("wire_awg", func(r row) {
		w := Wire{Gauge: r.text("awg"), Diameter: r.mm("diameter_mm"), Area: float64(r.thousandths("area_mm2")) / 1000, Metric: r.text("iso6722_at_or_above_mm2"), source: r.source()}
		h.wires.add(w, w.Gauge)
	})
}
