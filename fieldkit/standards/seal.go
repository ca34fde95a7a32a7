package standards

import (
	"fmt"

	"trailfieldkit/fieldkit"
)

// Seal is a radial shaft seal: 45x68x10 TC.
type Seal struct {
	Shaft, Bore, Width fieldkit.Length
	Type               string // TC, AS …; "" if not said
	Material           string // NBR, FKM …; "" if not said
	listed             bool
	source             string
}

const sealSource = "ISO 6194-1 sizes are shaft × bore × width; no table holds this one"

// sealLargest is beyond any seal on a rig.
const sealLargest = 1000 * fieldkit.Millimetre

// sealTypes are the letters behind a size. DIN 3760 has A, B, C and S for a dust
// lip; T and S, C, B and A are what replacement seals bear (common practice). All
// from memory.
var sealTypes = map[string]string{
	"A": "DIN 3760 A: rubber outside", "AS": "DIN 3760 AS: rubber outside, dust lip",
	"B": "DIN 3760 B: metal outside", "BS": "DIN 3760 BS: metal outside, dust lip",
	"C": "DIN 3760 C: metal outside with a stiffening cap", "CS": "DIN 3760 CS: as C, dust lip",
	"SC": "rubber outside, one lip with spring", "TC": "rubber outside, lip with spring and dust lip",
	"SB": "metal outside, one lip with spring", "TB": "metal outside, lip with spring and dust lip",
	"SA": "metal outside with a stiffening cap, one lip", "TA": "metal outside with a stiffening cap, dust lip",
	"VC": "rubber outside, lip without spring", "KC": "rubber outside, lip without spring, dust lip",
	"VB": "metal outside, lip without spring", "KB": "metal outside, lip without spring, dust lip",
}

// sealMaterials are the rubbers (ISO 1629 letters, from memory).
var sealMaterials = map[string]string{
	"NBR": "nitrile rubber", "HNBR": "hydrogenated nitrile rubber", "FKM": "fluorocarbon rubber", "FPM": "fluorocarbon rubber",
	"ACM": "acrylic rubber", "VMQ": "silicone rubber", "EPDM": "not for oil or grease", "PTFE": "PTFE lip",
}

var sealTypeWords, sealMaterialWords = keys(sealTypes), keys(sealMaterials)

// ParseSeal reads a shaft seal: 45×68×10, 45-68-10, 45x68x10 TC NBR. The error is a
// *Misread.
func (h *Handbook) ParseSeal(text string) (Seal, error) { return parse(text, h.readSeal) }

func (h *Handbook) readSeal(s *scan) (Seal, *Misread) {
	seal := Seal{source: sealSource}
	if seal.Type = s.word(sealTypeWords...); seal.Type != "" {
		s.skip(" -")
	}
	// 45x68x10, 45-68-10 and 45 68 10 are all written, but one sign at a time.
	times := true
	for i, size := range []*fieldkit.Length{&seal.Shaft, &seal.Bore, &seal.Width} {
		if i == 1 {
			times = s.times()
		}
		if i == 1 && !times && !s.skip(" -") || i == 2 && (times && !s.times() || !times && !s.skip(" -")) {
			return Seal{}, s.expected(KindSeal, "× and the next size")
		}
		at := s.at
		q, ok := millimetres(s.decimal())
		if !ok || q > sealLargest {
			s.at = at
			return Seal{}, s.expected(KindSeal, []string{"the shaft", "the bore", "the width"}[i]+" in millimetres")
		}
		if *size = q; i == 1 && q <= seal.Shaft {
			return Seal{}, h.sealTurned(s, seal, at)
		}
	}
	s.blank()
	s.word("MM")
	if listed, ok := h.seals.named(seal.size()); ok {
		listed.Type = seal.Type
		seal = listed
	}
	for {
		s.skip(" -")
		if t := s.word(sealTypeWords...); t != "" && seal.Type == "" {
			seal.Type = t
		} else if m := s.word(sealMaterialWords...); t == "" && m != "" && seal.Material == "" {
			seal.Material = m
		} else if t != "" || m != "" {
			return Seal{}, s.misread(KindSeal, "%q says the type or the material twice", t+m)
		} else {
			return seal, nil
		}
	}
}

// sealTurned refuses a bore that is not larger than the shaft, with the sizes the
// other way round.
func (h *Handbook) sealTurned(s *scan, seal Seal, at int) *Misread {
	seal.Shaft, seal.Bore = seal.Bore, seal.Shaft
	s.times()
	s.skip(" -")
	width, ok := millimetres(s.decimal())
	s.at = at
	m := s.misread(KindSeal, "the bore is not larger than the shaft")
	if seal.Width = width; ok && width <= sealLargest && seal.Shaft < seal.Bore {
		if listed, ok := h.seals.named(seal.size()); ok {
			seal.listed, seal.source = true, listed.source
		}
		m.Nearest = []Designation{seal}
	}
	return m
}

func (s Seal) Kind() Kind   { return KindSeal }
func (s Seal) Listed() bool { return s.listed }

func (s Seal) size() string {
	return fmt.Sprintf("%sx%sx%s", mmText(s.Shaft), mmText(s.Bore), mmText(s.Width))
}

func (s Seal) String() string {
	text := s.size()
	for _, more := range []string{s.Type, s.Material} {
		if more != "" {
			text += " " + more
		}
	}
	return text
}

func (s Seal) Dims() []Dim {
	var d dims
	d.length("shaft", s.Shaft)
	d.length("bore", s.Bore)
	d.length("width", s.Width)
	return d
}

func (s Seal) Source() string { return s.source }

func (s Seal) Explain() []Piece {
	pieces := []Piece{
		{mmText(s.Shaft), "shaft the lip runs on, mm; the free lip is smaller"},
		{mmText(s.Bore), "bore it is pressed into, mm; the seal itself is a little larger"},
		{mmText(s.Width), "width, mm"},
	}
	if s.Type != "" {
		pieces = append(pieces, Piece{s.Type, sealTypes[s.Type]})
	}
	if s.Material != "" {
		pieces = append(pieces, Piece{s.Material, sealMaterials[s.Material]})
	}
	return pieces
}

func (o *opener) seals(h *Handbook) {
	o.each("radial_shaft_seals", func(r row) {
		seal := Seal{Shaft: r.mm("shaft_mm"), Bore: r.mm("bore_mm"), Width: r.mm("width_mm"), listed: true, source: r.source()}
		h.seals.add(seal, seal.size())
	})
}
