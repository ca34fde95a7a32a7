package standards

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

// Tyre is a tyre by the size and service description on its sidewall: LT315/70R17
// 121/118Q, 35x12.50R17LT 121Q, 7.00-16.
type Tyre struct {
	Form    TyreForm
	Use     string          // P, LT, ST or T before the size; LT or C behind it is After
	Overall fieldkit.Length // of a flotation size: written first
	Section fieldkit.Length // nominal section width
	Aspect  int             // per cent; 0 where it is not written
	Build   string          // R, ZR, B or D; "-" for bias written as a dash
	Rim     fieldkit.Length
	After   string // LT or C
	Service Service
	source  string
}

// TyreForm is the system a size is written in.
type TyreForm int

const (
	MetricTyre    TyreForm = iota // 315/70R17: millimetres, per cent, inches
	FlotationTyre                 // 35x12.50R17: overall, width and rim in inches
	NumericTyre                   // 7.00-16: width and rim in inches
)

// Of a size without an aspect the height of the section is taken as a share of the
// width: 82 per cent for metric sizes (185R14, ETRTO), 104 per cent for sizes in
// inches: 7.00-16 is listed with 778 mm, 7.50-16 with 802 mm. From memory.
const (
	metricAspectUnsaid  = 82
	numericAspectUnsaid = 104
)

// ParseTyre reads a tyre size with or without its service description. The error is
// a *Misread.
func (h *Handbook) ParseTyre(text string) (Tyre, error) { return parse(text, h.readTyre) }

func (h *Handbook) readTyre(s *scan) (Tyre, *Misread) {
	t := Tyre{}
	if use := s.piece([]string{"P", "LT", "ST", "T"}); use != "" {
		t.Use = use
		s.blank()
	}
	sizeAt := s.at
	if m := s.tyreSize(&t); m != nil {
		return Tyre{}, h.widthMeant(s, m, sizeAt)
	}
	s.blank()
	switch {
	case s.word("LT") != "" || s.letterBefore("LT"):
		t.After = "LT"
	case s.word("C") != "":
		t.After = "C"
	}
	if t.After != "" && t.Use != "" {
		return Tyre{}, s.misread(KindTyre, "%s stands before the size and %s behind it", t.Use, t.After)
	}
	var m *Misread
	if t.Service, m = h.readService(s); m != nil {
		return Tyre{}, m
	}
	t.source = tyreSources[t.Form]
	return t, nil
}

// widthMeant adds to the refusal of a width in millimetres the tyre of the next width
// that ends in 5.
func (h *Handbook) widthMeant(s *scan, m *Misread, at int) *Misread {
	from := &scan{runes: s.runes, at: at}
	digits := from.digits()
	width, err := strconv.Atoi(digits)
	if s.quiet || m.At != at || err != nil || len(digits) != 3 || width%10 == 5 {
		return m
	}
	meant := string(s.runes[:at]) + strconv.Itoa(width/10*10+5) + string(s.runes[from.at:])
	if t, again := parseWhole(meant, true, h.readTyre); again == nil {
		m.Nearest = []Designation{t}
	}
	return m
}

// letterBefore takes LT run together with what follows: 35x12.50R17LT121Q.
func (s *scan) letterBefore(word string) bool {
	if s.piece([]string{word}) == "" {
		return false
	}
	if r := s.peek(); r >= '0' && r <= '9' {
		return true
	}
	s.at -= len(word)
	return false
}

var tyreSources = map[TyreForm]string{
	MetricTyre:    "ISO 4000-1: section width in mm, height in per cent of it, rim in inches; nominal geometry",
	FlotationTyre: "Tire and Rim Association flotation sizes: overall diameter, section width and rim in inches, nominal",
	NumericTyre:   "numeric sizes: section width and rim in inches; the diameter is an estimate, the maker's figure decides",
}

func (t Tyre) Kind() Kind { return KindTyre }

// Listed is true for what the sidewall says whole: sizes are made up by rule, and no
// table of them is brought along.
func (t Tyre) Listed() bool { return t.Form != NumericTyre && t.Aspect != 0 || t.Form == FlotationTyre }

// SectionHeight gives the nominal height of one sidewall.
func (t Tyre) SectionHeight() fieldkit.Length {
	switch {
	case t.Form == FlotationTyre:
		return (t.Overall - t.Rim) / 2
	case t.Aspect != 0:
		return t.Section * fieldkit.Length(t.Aspect) / 100
	case t.Form == MetricTyre:
		return t.Section * metricAspectUnsaid / 100
	}
	return t.Section * numericAspectUnsaid / 100
}

// Diameter gives the nominal overall diameter, new and without load: rim and two
// section heights.
func (t Tyre) Diameter() fieldkit.Length { return t.Rim + 2*t.SectionHeight() }

// TurnsOver gives how often the tyre turns over a distance, from its nominal
// circumference. Under load a tyre turns some 3 per cent more often (common
// practice): for a speedometer measure the rolled distance.
func (t Tyre) TurnsOver(d fieldkit.Distance) float64 {
	return float64(d) * 1e6 / (math.Pi * float64(t.Diameter()))
}

func (t Tyre) String() string {
	var b strings.Builder
	b.WriteString(t.Use)
	switch t.Form {
	case FlotationTyre:
		fmt.Fprintf(&b, "%sx%s", inText(t.Overall), twoDecimals(t.Section))
	case NumericTyre:
		b.WriteString(twoDecimals(t.Section))
	default:
		b.WriteString(mmText(t.Section))
		if t.Aspect != 0 {
			fmt.Fprintf(&b, "/%d", t.Aspect)
		}
	}
	b.WriteString(t.Build + inText(t.Rim) + t.After)
	if service := t.Service.String(); service != "" {
		b.WriteString(" " + service)
	}
	return b.String()
}

// twoDecimals writes a width in inches as sidewalls do: 12.50.
func twoDecimals(q fieldkit.Length) string {
	return strconv.FormatFloat(float64(q)/float64(fieldkit.Inches), 'f', 2, 64)
}

func (t Tyre) Dims() []Dim {
	var d dims
	d.length("diameter", t.Diameter())
	d.length("section_width", t.Section)
	d.length("rim", t.Rim)
	d.count("aspect", int64(t.Aspect)*1000)
	d.count("revs_per_mile", int64(math.Round(t.TurnsOver(fieldkit.Mile)*10))*100)
	d.count("revs_per_km", int64(math.Round(t.TurnsOver(fieldkit.Kilometre)*10))*100)
	d.mass("load", t.Service.Load)
	d.mass("load_dual", t.Service.DualLoad)
	d.text("speed", t.Service.Speed)
	return d
}

func (t Tyre) Source() string {
	if t.Service.source == "" {
		return t.source
	}
	return t.source + "; " + t.Service.source
}

func (t Tyre) Explain() []Piece {
	pieces := []Piece{}
	if use := t.Use + t.After; use != "" {
		pieces = append(pieces, Piece{use, tyreUses[use]})
	}
	if t.Form == FlotationTyre {
		pieces = append(pieces, Piece{inText(t.Overall), "overall diameter in inches"})
	}
	pieces = append(pieces, Piece{t.sectionText(), "section width " + t.Section.Both(fieldkit.Metric)})
	switch {
	case t.Aspect != 0:
		pieces = append(pieces, Piece{strconv.Itoa(t.Aspect), "height of the sidewall in per cent of the width: " + t.SectionHeight().Both(fieldkit.Metric)})
	case t.Form == MetricTyre:
		pieces = append(pieces, Piece{"no aspect", "height of the sidewall is taken as 82 per cent of the width"})
	case t.Form == NumericTyre:
		pieces = append(pieces, Piece{"no aspect", "height of the sidewall is taken as 104 per cent of the width: an estimate"})
	}
	pieces = append(pieces, Piece{t.Build, tyreBuilds[t.Build]}, Piece{inText(t.Rim), "rim diameter in inches"})
	return append(pieces, t.Service.explain()...)
}

func (t Tyre) sectionText() string {
	if t.Form == MetricTyre {
		return mmText(t.Section)
	}
	return twoDecimals(t.Section)
}

var tyreBuilds = map[string]string{"R": "radial", "ZR": "radial, for high speed", "D": "diagonal (bias)", "B": "bias belted", "-": "diagonal (bias)"}

var tyreUses = map[string]string{
	"P": "passenger vehicles", "LT": "light trucks; pressures and loads of its own", "ST": "trailers only, not for a driven or steered axle",
	"T": "temporary spare", "C": "commercial vehicles",
}
