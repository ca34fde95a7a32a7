package standards

import (
	"fmt"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

// Belt is a ribbed belt by ribs, profile and effective length: 6PK1795, K060705.
type Belt struct {
	Ribs    int
	Profile string // PH, PJ, PK, PL or PM
	Length  fieldkit.Length
	Inch    bool // coded in tenths of an inch: K060705
	pitch   fieldkit.Length
	source  string
}

const (
	fewestRibs, mostRibs = 2, 30
	inchBeltSource       = "inch code K, ribs in two digits, length in tenths of an inch: trade practice"
	tenthOfAnInch        = fieldkit.Inches / 10
)

// Belts are made between these lengths (common practice).
const (
	ShortestBelt = 200 * fieldkit.Millimetre
	LongestBelt  = 9999 * fieldkit.Millimetre
)

// ParseBelt reads a ribbed belt: 6PK1795, and the inch-coded K060705 and 6K705. The
// error is a *Misread.
func (h *Handbook) ParseBelt(text string) (Belt, error) { return parse(text, h.readBelt) }

func (h *Handbook) readBelt(s *scan) (Belt, *Misread) {
	at := s.at
	if s.take('K') {
		digits := s.digits()
		if len(digits) != 6 {
			s.at = at + 1
			return Belt{}, s.expected(KindBelt, "two digits of ribs and four of length in tenths of an inch")
		}
		ribs, _ := strconv.Atoi(digits[:2])
		tenths, _ := strconv.Atoi(digits[2:])
		return h.belt(s, at+1, Belt{Ribs: ribs, Profile: "PK", Length: fieldkit.Length(tenths) * tenthOfAnInch, Inch: true})
	}
	ribs, err := strconv.Atoi(s.digits())
	if err != nil || ribs < fewestRibs || ribs > mostRibs {
		s.at = at
		return Belt{}, s.expected(KindBelt, "the number of ribs")
	}
	s.skip(" -")
	profileAt := s.at
	profile := s.letters()
	s.skip(" -")
	lengthAt := s.at
	n, err := strconv.Atoi(s.digits())
	if err != nil || n > 99_999 {
		s.at = lengthAt
		if profile == "" {
			s.at = profileAt
			return Belt{}, s.expected(KindBelt, "the profile, such as PK")
		}
		return Belt{}, s.expected(KindBelt, "the length")
	}
	if profile == "K" {
		return h.belt(s, lengthAt, Belt{Ribs: ribs, Profile: "PK", Length: fieldkit.Length(n) * tenthOfAnInch, Inch: true})
	}
	if h.ribPitch[profile] == 0 {
		s.at = profileAt
		m := s.expected(KindBelt, "a profile: PH, PJ, PK, PL or PM")
		if b, wrong := h.belt(s, lengthAt, Belt{Ribs: ribs, Profile: "PK", Length: fieldkit.Length(n) * fieldkit.Millimetre}); wrong == nil && profile != "" && profile[0] == 'P' {
			m.Nearest = []Designation{b}
		}
		return Belt{}, m
	}
	return h.belt(s, lengthAt, Belt{Ribs: ribs, Profile: profile, Length: fieldkit.Length(n) * fieldkit.Millimetre})
}

// BeltOf puts a belt together from its ribs, profile and effective length. Error of
// kind BadInput if there are no such belts.
func (h *Handbook) BeltOf(ribs int, profile string, length fieldkit.Length) (Belt, error) {
	s := newScan(profile)
	if h.ribPitch[profile] == 0 {
		return Belt{}, s.expected(KindBelt, "a profile: PH, PJ, PK, PL or PM")
	}
	b, m := h.belt(s, 0, Belt{Ribs: ribs, Profile: profile, Length: length})
	if m != nil {
		return Belt{}, m
	}
	return b, nil
}

// belt checks what was read and adds what the rules say of it.
func (h *Handbook) belt(s *scan, lengthAt int, b Belt) (Belt, *Misread) {
	switch {
	case b.Ribs < fewestRibs || b.Ribs > mostRibs:
		s.at = max(lengthAt-1, 0)
		return Belt{}, s.misread(KindBelt, "%d is not a number of ribs", b.Ribs)
	case b.Length < ShortestBelt || b.Length > LongestBelt:
		s.at = lengthAt
		return Belt{}, s.misread(KindBelt, "%s is not the length of a belt", b.Length.Both(fieldkit.Metric))
	}
	b.pitch, b.source = h.ribPitch[b.Profile], h.beltSource
	if b.Inch {
		b.source = inchBeltSource
	}
	return b, nil
}

func (b Belt) Kind() Kind { return KindBelt }

// Listed is true: belts are made to any length, by rule.
func (b Belt) Listed() bool { return true }

func (b Belt) String() string {
	if b.Inch {
		return fmt.Sprintf("K%02d%04d", b.Ribs, b.Length/tenthOfAnInch)
	}
	return fmt.Sprintf("%d%s%d", b.Ribs, b.Profile, b.Length/fieldkit.Millimetre)
}

// Width gives the width of the belt: ribs times the distance from rib to rib.
func (b Belt) Width() fieldkit.Length { return fieldkit.Length(b.Ribs) * b.pitch }

// Outside gives the circumference over the back, as a tape around the belt shows it:
// typically 14 mm more than the effective length of a PK belt.
func (b Belt) Outside() fieldkit.Length {
	if b.Profile != "PK" {
		return 0
	}
	return b.Length + outsideMore
}

// outsideMore was read at hawkbelt.com for PK belts (6PK1200 is 1214 mm around).
const outsideMore = 14 * fieldkit.Millimetre

func (b Belt) Dims() []Dim {
	var d dims
	d.length("length", b.Length)
	d.count("ribs", int64(b.Ribs)*1000)
	d.length("width", b.Width())
	d.length("rib_pitch", b.pitch)
	d.length("outside", b.Outside())
	return d
}

func (b Belt) Source() string { return b.source }

func (b Belt) Explain() []Piece {
	return []Piece{
		{strconv.Itoa(b.Ribs), "ribs, " + b.Width().Both(fieldkit.Metric) + " wide"},
		{b.Profile, b.pitch.Both(fieldkit.Metric) + " from rib to rib"},
		{b.lengthText(), "effective length " + b.Length.Both(fieldkit.Metric)},
	}
}

func (b Belt) lengthText() string {
	if b.Inch {
		return fmt.Sprintf("%04d", b.Length/tenthOfAnInch)
	}
	return strconv.FormatInt(int64(b.Length/fieldkit.Millimetre), 10)
}

func (o *opener) belts(h *Handbook) {
	h.ribPitch = map[string]fieldkit.Length{}
	o.each("belts_ribbed", func(r row) {
		profile, _, isPitch := strings.Cut(r.text("item"), " ")
		if r.text("kind") == "rule" && isPitch && strings.HasSuffix(r.text("item"), "rib pitch") {
			h.ribPitch[profile] = r.mm("value")
			if profile == "PK" {
				h.beltSource = r.source()
			}
		}
	})
}
