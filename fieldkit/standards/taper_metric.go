package standards

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
)

// TaperMetric is a metric tapered roller bearing, cone and cup together: 30207.
type TaperMetric struct {
	Basic               string // 30207; T7FC045 for one known only by its ISO 355 code
	Series              string // 302
	ISO355              string // dimension series, 3DB, where it was read
	Bore, OD, Width     fieldkit.Length
	ConeWidth, CupWidth fieldkit.Length
	Suffixes            []Suffix
	listed              bool
	source              string
}

const taperSource = "ISO 355; bore by the rule of the bore code, no table holds this size"

// ParseTaperMetric reads a metric tapered bearing: 30207, 32007X, 302/22, 30307D (a
// steep one, now 31307), T3DB035. The error is a *Misread.
func (h *Handbook) ParseTaperMetric(text string) (TaperMetric, error) {
	return parse(text, h.readTaperMetric)
}

func (h *Handbook) readTaperMetric(s *scan) (TaperMetric, *Misread) {
	t, m := h.readTaperNumber(s)
	if m != nil {
		return TaperMetric{}, m
	}
	if t.Suffixes, m = h.taperSuffixes.read(s, KindTaperMetric); m != nil {
		return TaperMetric{}, m
	}
	return t, nil
}

func (h *Handbook) readTaperNumber(s *scan) (TaperMetric, *Misread) {
	if s.peek() == 'T' {
		return h.readISO355(s)
	}
	start := s.at
	run := s.digits()
	after := s.at
	if s.take('/') {
		if code := s.digits(); len(code) == 2 {
			run += "/" + code
			after = s.at
		}
		s.at = after
	}
	if letter := s.peek(); letter == 'D' || letter == 'X' {
		if t, ok := h.tapers.named(run + string(letter)); ok {
			s.at++
			return t, nil
		}
	}
	if t, ok := h.tapers.named(run); ok {
		return t, nil
	}
	if len(run) == 5 {
		if bore, ok := boreOf(run[3:]); ok && h.taperSeries[run[:3]] {
			return TaperMetric{Basic: run, Series: run[:3], Bore: bore, source: taperSource}, nil
		}
	}
	s.at = start
	if run == "" {
		return TaperMetric{}, s.expected(KindTaperMetric, "a number")
	}
	s.at += h.tapers.common(s, run)
	return TaperMetric{}, s.misread(KindTaperMetric, "no metric tapered bearing is numbered %q", run)
}

// readISO355 reads T, contact angle 1 to 7, diameter series, width series and the
// bore in three digits.
func (h *Handbook) readISO355(s *scan) (TaperMetric, *Misread) {
	s.take('T')
	s.skip(" -")
	start := s.at
	code := string(s.runes[s.at:min(len(s.runes), s.at+3)])
	if len(code) != 3 || !strings.ContainsRune("1234567", rune(code[0])) || !strings.ContainsRune("ABCDEFG", rune(code[1])) || !strings.ContainsRune("ABCDE", rune(code[2])) {
		return TaperMetric{}, s.expected(KindTaperMetric, "a dimension series such as 3DB")
	}
	s.at += 3
	s.skip(" -")
	digits := s.digits()
	bore, ok := millimetres(strings.TrimLeft(digits, "0"))
	if len(digits) != 3 || !ok {
		s.at = start + 3
		return TaperMetric{}, s.expected(KindTaperMetric, "the bore in three digits")
	}
	full := "T" + code + digits
	if t, ok := h.tapers.named(full); ok {
		return t, nil
	}
	return TaperMetric{Basic: full, ISO355: code, Bore: bore, source: "ISO 355 dimension series; bore as written, no table holds this size"}, nil
}

func (t TaperMetric) Kind() Kind     { return KindTaperMetric }
func (t TaperMetric) Listed() bool   { return t.listed }
func (t TaperMetric) String() string { return withSuffixes(t.Basic, t.Suffixes) }

func (t TaperMetric) Dims() []Dim {
	var d dims
	d.length("bore", t.Bore)
	d.length("od", t.OD)
	d.length("width", t.Width)
	d.length("cone_width", t.ConeWidth)
	d.length("cup_width", t.CupWidth)
	return d
}

func (t TaperMetric) Source() string { return t.source }

func (t TaperMetric) Explain() []Piece {
	var pieces []Piece
	if t.Series != "" {
		pieces = explainBore(t.Basic, t.Series, t.Bore)
	}
	if t.ISO355 != "" {
		pieces = append(pieces, Piece{t.ISO355, fmt.Sprintf("ISO 355 dimension series: contact angle range %s, diameter series %s, width series %s", t.ISO355[:1], t.ISO355[1:2], t.ISO355[2:])})
	}
	return append(pieces, explainSuffixes(t.Suffixes)...)
}

func (o *opener) tapers(h *Handbook) {
	h.taperSuffixes = o.suffixes("tapered metric", "rolling bearing", "matched pair")
	h.taperSeries = map[string]bool{}
	o.each("tapered_metric", func(r row) {
		t := TaperMetric{
			Basic: r.text("designation"), Series: r.text("series"),
			Bore: r.mm("bore_mm"), OD: r.mm("od_mm"), Width: r.mm("width_T_mm"),
			ConeWidth: r.mm("cone_width_B_mm"), CupWidth: r.mm("cup_width_C_mm"),
			listed: true, source: r.source(),
		}
		names := append(strings.Fields(r.text("alt_designation")), t.Basic)
		if t.ISO355 = iso355[t.Basic]; t.ISO355 != "" {
			names = append(names, fmt.Sprintf("T%s%03d", t.ISO355, t.Bore/fieldkit.Millimetre))
			t.source += "; dimension series read at zanotowane.pl (a public metric tapered bearing list)"
		}
		h.taperSeries[t.Series] = true
		h.tapers.add(t, names...)
	})
}

// iso355 gives the dimension series of ISO 355 for the numbers for which it was
// read: a public list of metric tapered bearings of 15 to 35 mm bore (zanotowane.pl).
var iso355 = map[string]string{
	"30302": "2FB",
	"30203": "2DB", "30303": "2FB",
	"32004": "3CC", "30204": "2DB", "30304": "2FB", "32304": "2FD",
	"32005": "4CC", "33005": "2CE", "30205": "3CC", "30305": "2FB", "31305": "7FB", "32305": "2FD",
	"32006": "4CC", "33006": "2CE", "30206": "3DB", "32206": "3DC", "30306": "2FB", "31306": "7FB", "32306": "2FD",
	"32907": "2BD", "32007": "4CC", "33007": "2CE", "30207": "3DB", "32207": "3DC", "33207": "2DE", "30307": "2FB", "31307": "7FB", "32307": "2FE",
}
