package standards

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

// InchThread is a unified screw thread: 9/16-18 UNF.
type InchThread struct {
	Nominal fieldkit.Length
	Number  string  // "#10" for the numbered sizes below a quarter inch
	TPI     int     // threads per inch
	Series  string  // UNC, UNF, UNEF, UN, UNS, or with J for a rounded root
	Class   string  // "2A"; "" if not said
	Left    bool    // left-hand
	AreaMM2 float64 // stress area in mm², 0 where no table gives it
	listed  bool
	source  string
}

// squareInch is in mm², by the definition of the inch.
const squareInch = 25.4 * 25.4

const inchThreadSource = "ASME B1.1 sizes and pitches; no table holds this pair"

// unifiedSeries are the series as people write them, and what they are called.
var unifiedSeries = map[string]string{
	"UNC": "UNC", "UNF": "UNF", "UNEF": "UNEF", "UN": "UN", "UNS": "UNS",
	"NC": "UNC", "NF": "UNF", "NEF": "UNEF", "UNRC": "UNC", "UNRF": "UNF",
	"UNJC": "UNJC", "UNJF": "UNJF", "UNJEF": "UNJEF", "UNJ": "UNJ",
}

var seriesWords = keys(unifiedSeries)

// constantPitch are the threads per inch of the series UN that have the same pitch
// for all diameters (ASME B1.1, from memory).
var constantPitch = []int{4, 6, 8, 12, 16, 20, 28, 32}

// ParseInchThread reads a unified thread: 9/16-18 UNF, #10-24, 1-1/8-12 UNF-2A LH,
// .250-20. The error is a *Misread.
func (h *Handbook) ParseInchThread(text string) (InchThread, error) {
	return parse(text, h.readInchThread)
}

func (h *Handbook) readInchThread(s *scan) (InchThread, *Misread) {
	t := InchThread{source: inchThreadSource}
	start := s.at
	numbered := s.take('#') || s.word("NO.", "NO", "NUMBER") != ""
	s.blank()
	sizeAt := s.at
	whole := s.digits()
	s.at = sizeAt
	var ok bool
	if t.Nominal, ok = s.readFraction(); !ok && !(whole == "0" && s.digits() != "") {
		return InchThread{}, s.expected(KindInchThread, "a size in inches or a number such as #10")
	}
	onlyWhole := string(s.runes[sizeAt:s.at]) == whole
	s.skip(`"`)
	s.word("IN")
	afterSize := s.at
	if !s.skip(" -X") {
		return InchThread{}, s.expected(KindInchThread, "- and the threads per inch")
	}
	at := s.at
	tpi, err := strconv.Atoi(s.digits())
	if err != nil || tpi < 1 || tpi > 100 {
		s.at = at
		if at >= len(s.runes) {
			s.at = afterSize
		}
		return InchThread{}, s.expected(KindInchThread, "the threads per inch")
	}
	t.TPI = tpi
	s.skip(" ")
	s.word("TPI")
	listed, found := h.inchThreads.named(t.pair())
	if byNumber, ok := h.inchThreads.named(fmt.Sprintf("#%s-%d", whole, tpi)); ok && onlyWhole && (numbered || !found) {
		listed, found = byNumber, true
	} else if numbered {
		s.at = at
		return InchThread{}, s.misread(KindInchThread, "#%s has no %d threads per inch", whole, tpi)
	}
	if t.Nominal == 0 && !found {
		s.at = start
		return InchThread{}, s.expected(KindInchThread, "a size in inches or a number such as #10")
	}
	return h.finishInchThread(s, t, listed, found, at)
}

// finishInchThread reads series, class and hand, and holds them against the table.
func (h *Handbook) finishInchThread(s *scan, t, listed InchThread, found bool, tpiAt int) (InchThread, *Misread) {
	s.skip(" -")
	seriesAt := s.at
	t.Series = unifiedSeries[s.word(seriesWords...)]
	if found {
		plainSeries := strings.Replace(t.Series, "J", "", 1)
		if plainSeries != "" && plainSeries != listed.Series && plainSeries != "UN" {
			s.at = seriesAt
			return InchThread{}, s.misread(KindInchThread, "%s is %s, not %s", listed.pair(), listed.Series, t.Series)
		}
		series := t.Series
		t = listed
		if strings.Contains(series, "J") && series != "UNJ" {
			t.Series = series
		}
	} else {
		whole := t.Nominal%(fieldkit.Inches/16) == 0 && t.Nominal >= fieldkit.Inches/4 && t.Nominal <= 6*fieldkit.Inches
		constant := slices.Contains(constantPitch, t.TPI) && t.TPI >= 8
		switch {
		case whole && constant && (t.Series == "" || t.Series == "UN"):
			t.Series = "UN"
		case whole && constant && t.Series == "UNJ", whole && t.Series == "UNS" && t.TPI <= 80:
		default:
			s.at = tpiAt
			return InchThread{}, s.misread(KindInchThread, "no thread of %s has %d to the inch", t.sizeText(), t.TPI)
		}
	}
	s.skip(" -,")
	t.Class = s.word("1A", "2A", "3A", "1B", "2B", "3B")
	s.skip(" -,")
	t.Left = s.word("LH", "LEFT HAND", "LEFT-HAND", "LEFT") != ""
	return t, nil
}

func (t InchThread) Kind() Kind   { return KindInchThread }
func (t InchThread) Listed() bool { return t.listed }

func (t InchThread) sizeText() string {
	if t.Number != "" {
		return t.Number
	}
	return inchText(t.Nominal)
}

// pair gives size and pitch, the key under which the table finds it.
func (t InchThread) pair() string { return fmt.Sprintf("%s-%d", t.sizeText(), t.TPI) }

func (t InchThread) String() string {
	text := t.pair() + " " + t.Series
	if t.Class != "" {
		text += "-" + t.Class
	}
	if t.Left {
		text += " LH"
	}
	return text
}

// Pitch gives the distance from thread to thread.
func (t InchThread) Pitch() fieldkit.Length {
	return (fieldkit.Inches + fieldkit.Length(t.TPI)/2) / fieldkit.Length(t.TPI)
}

func (t InchThread) Dims() []Dim {
	var d dims
	d.length("nominal", t.Nominal)
	d.count("tpi", int64(t.TPI)*1000)
	d.length("pitch", t.Pitch())
	return d
}

func (t InchThread) Source() string { return t.source }

func (t InchThread) Explain() []Piece {
	pieces := []Piece{
		{t.sizeText(), "nominal diameter " + t.Nominal.Both(fieldkit.Inch)},
		{strconv.Itoa(t.TPI), fmt.Sprintf("threads per inch: %s from thread to thread", t.Pitch().Both(fieldkit.Metric))},
		{t.Series, seriesSays[strings.Replace(t.Series, "J", "", 1)]},
	}
	if strings.Contains(t.Series, "J") {
		pieces = append(pieces, Piece{"J", "rounded root; goes into a plain nut, not the other way round"})
	}
	if t.Class != "" {
		pieces = append(pieces, Piece{t.Class, "fit: 1 loose, 2 usual, 3 close; A is the bolt, B the nut"})
	}
	if t.Left {
		pieces = append(pieces, Piece{"LH", "left-hand: tightens anticlockwise"})
	}
	return pieces
}

var seriesSays = map[string]string{
	"UNC": "unified coarse", "UNF": "unified fine", "UNEF": "unified extra fine",
	"UN": "unified, one pitch for all diameters", "UNS": "unified, special",
}

func (o *opener) inchThreads(h *Handbook) {
	o.each("threads_inch", func(r row) {
		t := InchThread{Nominal: r.inch("nominal_in"), TPI: r.whole("tpi"), Series: r.text("series"), AreaMM2: r.figure("stress_area_in2") * squareInch, listed: true, source: r.source()}
		if size, _, ok := strings.Cut(r.text("designation"), "-"); ok && strings.HasPrefix(size, "#") {
			t.Number = size
		}
		h.inchThreads.add(t, t.pair(), fmt.Sprintf("%s-%d", inchText(t.Nominal), t.TPI))
	})
}
