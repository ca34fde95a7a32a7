package standards

import (
	"strings"

	"trailfieldkit/fieldkit"
)

// Roller is a cylindrical roller bearing: NU207 E C3.
type Roller struct {
	Form            string // N, NU, NJ or NUP: which rings have flanges
	Size            string // 207
	Bore, OD, Width fieldkit.Length
	Suffixes        []Suffix

	says   string // what the form means
	source string
}

// ParseRoller reads a cylindrical roller bearing. The error is a *Misread.
func (h *Handbook) ParseRoller(text string) (Roller, error) { return parse(text, h.readRoller) }

func (h *Handbook) readRoller(s *scan) (Roller, *Misread) {
	start := s.at
	form := s.letters()
	if _, ok := h.rollerForms[form]; !ok {
		s.at = start
		return Roller{}, s.expected(KindRoller, "N, NU, NJ or NUP")
	}
	s.skip(" -")
	at := s.at
	size := s.digits()
	r, ok := h.rollers.named(form + size)
	if !ok {
		s.at = at
		return Roller{}, s.expected(KindRoller, "a size of the table")
	}
	var m *Misread
	if r.Suffixes, m = h.rollerSuffixes.read(s, KindRoller); m != nil {
		return Roller{}, m
	}
	return r, nil
}

func (r Roller) Kind() Kind     { return KindRoller }
func (r Roller) Listed() bool   { return true }
func (r Roller) String() string { return withSuffixes(r.Form+r.Size, r.Suffixes) }

func (r Roller) Dims() []Dim {
	var d dims
	d.length("bore", r.Bore)
	d.length("od", r.OD)
	d.length("width", r.Width)
	d.text("type", "cylindrical roller")
	d.text("flanges", r.Form+": "+r.says)
	return d
}

func (r Roller) Source() string { return r.source }

func (r Roller) Explain() []Piece {
	pieces := append([]Piece{{r.Form, r.says}}, explainBore(r.Size, r.Size[:len(r.Size)-2], r.Bore)...)
	return append(pieces, explainSuffixes(r.Suffixes)...)
}

func (o *opener) rollers(h *Handbook) {
	h.rollerSuffixes = o.suffixes("roller", "roller or needle", "rolling bearing")
	h.rollerForms = map[string]string{}
	o.each("bearing_suffixes", func(r row) {
		if r.text("position") == "prefix" && r.text("applies_to") == "cylindrical roller" {
			h.rollerForms[r.text("code")] = r.text("meaning")
		}
	})
	o.each("cylindrical_rollers", func(r row) {
		size := r.text("size_code")
		for _, name := range strings.Fields(r.text("designations")) {
			form := strings.TrimSuffix(name, size)
			h.rollers.add(Roller{
				Form: form, Size: size, Bore: r.mm("bore_mm"), OD: r.mm("od_mm"), Width: r.mm("width_mm"),
				says: h.rollerForms[form], source: r.source(),
			}, name)
		}
	})
}
