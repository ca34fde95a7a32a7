package standards

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
)

// GearOil is a gear oil by its SAE J306 grade: 80W-90, SAE 90.
type GearOil struct {
	Winter string               // 80W; "" for a summer grade
	Summer string               // 90; "" for a winter grade
	Cold   fieldkit.Temperature // coldest at which it still flows to the gears
	Thick  string               // viscosity at 100 °C
	source string
}

type gearGrade struct {
	cold     fieldkit.Temperature
	min, max string
	source   string
}

// ParseGearOil reads a grade: 80W-90, 75W90, SAE 140, 85W. The error is a *Misread.
func (h *Handbook) ParseGearOil(text string) (GearOil, error) { return parse(text, h.readGearOil) }

func (h *Handbook) readGearOil(s *scan) (GearOil, *Misread) {
	s.word("SAE", "GEAR OIL")
	s.skip(" -")
	var g GearOil
	at := s.at
	grade := s.digits()
	if s.take('W') {
		g.Winter = grade + "W"
		known, ok := h.gearOils[g.Winter]
		if !ok {
			s.at = at
			return GearOil{}, s.misread(KindGearOil, "SAE J306 has no %s; engine oils have grades of their own", g.Winter).surely()
		}
		g.Cold, g.source, g.Thick = known.cold, known.source, viscosity(known)
		mark := s.at
		s.skip(" -/")
		at = s.at
		if grade = s.digits(); grade == "" {
			s.at = mark
			return g, nil
		}
	}
	known, ok := h.gearOils[grade]
	if !ok {
		s.at = at
		return GearOil{}, s.expected(KindGearOil, "a grade of SAE J306")
	}
	g.Summer, g.Thick, g.source = grade, viscosity(known), known.source
	return g, nil
}

func viscosity(g gearGrade) string {
	if g.max == "" {
		return "at least " + g.min + " mm²/s at 100 °C"
	}
	return g.min + " to " + g.max + " mm²/s at 100 °C"
}

func (g GearOil) Kind() Kind   { return KindGearOil }
func (g GearOil) Listed() bool { return true }

func (g GearOil) String() string {
	switch {
	case g.Winter == "":
		return "SAE " + g.Summer
	case g.Summer == "":
		return "SAE " + g.Winter
	}
	return g.Winter + "-" + g.Summer
}

func (g GearOil) Dims() []Dim {
	var d dims
	d.temperature("cold_limit", g.Cold)
	d.text("viscosity", g.Thick)
	return d
}

func (g GearOil) Source() string { return g.source }

func (g GearOil) Explain() []Piece {
	var pieces []Piece
	if g.Winter != "" {
		pieces = append(pieces, Piece{g.Winter, "no more than 150 000 mPa·s down to " + g.Cold.Both(fieldkit.Metric)})
	}
	if g.Summer != "" {
		pieces = append(pieces, Piece{g.Summer, g.Thick})
	}
	return append(pieces, Piece{"SAE J306", "not the numbers of engine oil: hot, a 90 is about as thick as an engine oil of 40 to 50 (common practice)"})
}

// The edition of SAE J306 that is read; older grades differ a little.
const gearOilEdition = "2019"

func (o *opener) gearOils(h *Handbook) {
	h.gearOils = map[string]gearGrade{}
	o.each("gear_oil", func(r row) {
		if r.text("edition") != gearOilEdition {
			return
		}
		g := gearGrade{min: r.text("kv100C_min_cSt"), max: r.text("kv100C_max_cSt"), source: r.source()}
		if cold := r.text("max_temp_C_for_150000_cP"); cold != "" {
			t, err := fieldkit.ParseTemperature(strings.TrimSpace(cold)+" °C", fieldkit.Metric)
			if err != nil {
				r.refuse("max_temp_C_for_150000_cP", fmt.Sprintf("%q is not a temperature", cold), "write degrees Celsius")
			}
			g.cold = t
		}
		h.gearOils[r.text("grade")] = g
	})
}
