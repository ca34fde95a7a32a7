package standards

import (
	"fmt"

	"trailfieldkit/fieldkit"
)

// Needle is a needle roller and cage assembly by its sizes: K30X35X17.
type Needle struct {
	Inside, Outside, Width fieldkit.Length
	listed                 bool
	source                 string
}

const needleSource = "ISO 3030 numbering: the sizes are in the name; no table holds this one"

// ParseNeedle reads a needle cage. The error is a *Misread.
func (h *Handbook) ParseNeedle(text string) (Needle, error) { return parse(text, h.readNeedle) }

func (h *Handbook) readNeedle(s *scan) (Needle, *Misread) {
	if !s.take('K') {
		return Needle{}, s.expected(KindNeedle, "K")
	}
	s.blank()
	n := Needle{source: needleSource}
	for i, size := range []*fieldkit.Length{&n.Inside, &n.Outside, &n.Width} {
		if i > 0 && !s.times() {
			return Needle{}, s.expected(KindNeedle, "× and the next size")
		}
		at := s.at
		q, ok := millimetres(s.decimal())
		if !ok || q > needleLargest {
			s.at = at
			return Needle{}, s.expected(KindNeedle, "a size in millimetres")
		}
		if *size = q; i == 1 && q <= n.Inside {
			s.at = at
			return Needle{}, s.misread(KindNeedle, "the outside is not larger than the inside")
		}
	}
	if listed, ok := h.needles.named(n.String()); ok {
		n = listed
	}
	return n, nil
}

// needleLargest is beyond any cage on a rig.
const needleLargest = 500 * fieldkit.Millimetre

func (n Needle) Kind() Kind   { return KindNeedle }
func (n Needle) Listed() bool { return n.listed }

func (n Needle) String() string {
	return fmt.Sprintf("K%sX%sX%s", mmText(n.Inside), mmText(n.Outside), mmText(n.Width))
}

func (n Needle) Dims() []Dim {
	var d dims
	d.length("bore", n.Inside)
	d.length("od", n.Outside)
	d.length("width", n.Width)
	d.text("type", "needle cage")
	return d
}

func (n Needle) Source() string { return n.source }

func (n Needle) Explain() []Piece {
	return []Piece{
		{"K", "needle rollers in a cage, no rings"},
		{mmText(n.Inside), "shaft under the needles, mm"},
		{mmText(n.Outside), "bore over the needles, mm"},
		{mmText(n.Width), "width of the cage, mm"},
	}
}

func (o *opener) needles(h *Handbook) {
	o.each("needle_cages", func(r row) {
		n := Needle{Inside: r.mm("inside_Fw_mm"), Outside: r.mm("outside_Ew_mm"), Width: r.mm("width_Bc_mm"), listed: true, source: r.source()}
		h.needles.add(n, n.String())
	})
}
