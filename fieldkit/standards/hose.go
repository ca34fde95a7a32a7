package standards

import (
	"fmt"
	"strconv"

	"trailfieldkit/fieldkit"
)

// Hose is a hose by its use and bore: -6 hydraulic hose, 5/16 fuel hose.
type Hose struct {
	Use      string // "fuel hose"
	Standard string
	Dash     int // 0 where hoses of this use bear none
	Bore     fieldkit.Length
	source   string
}

// hoseUses are what the table calls a use, and how it is written here. Where the
// dash is not the bore in sixteenths, the dash is written; the others go by bore.
var hoseUses = map[string]struct {
	name string
	dash bool
}{
	"hydraulic and general (dash = ID in 1/16 in)": {"hydraulic hose", true},
	"tube-size hose (dash = tube OD in 1/16 in)":   {"100R5 hose", true},
	"brake/clutch PTFE hose":                       {"PTFE brake hose", true},
	"brake hydraulic rubber hose":                  {"brake hose", false},
	"power steering pressure hose":                 {"power steering pressure hose", false},
	"power steering return hose":                   {"power steering return hose", false},
	"fuel hose":                                    {"fuel hose", false},
	"heater hose":                                  {"heater hose", false},
}

// hoseWords are the ways people write a use.
var hoseWords = map[string]string{
	"HYDRAULIC HOSE": "hydraulic hose", "HYDRAULIC": "hydraulic hose",
	"100R5 HOSE": "100R5 hose", "100R5": "100R5 hose", "R5 HOSE": "100R5 hose",
	"PTFE BRAKE HOSE": "PTFE brake hose", "PTFE HOSE": "PTFE brake hose", "PTFE": "PTFE brake hose",
	"BRAKE HOSE": "brake hose", "BRAKE": "brake hose",
	"POWER STEERING PRESSURE HOSE": "power steering pressure hose", "POWER STEERING PRESSURE": "power steering pressure hose",
	"POWER STEERING RETURN HOSE": "power steering return hose", "POWER STEERING RETURN": "power steering return hose",
	"FUEL HOSE": "fuel hose", "FUEL LINE": "fuel hose", "HEATER HOSE": "heater hose",
}

var hoseWordList = keys(hoseWords)

// ParseHose reads a hose: -6 hydraulic hose, 5/16 fuel hose. The error is a *Misread.
func (h *Handbook) ParseHose(text string) (Hose, error) { return parse(text, h.readHose) }

func (h *Handbook) readHose(s *scan) (Hose, *Misread) {
	use := hoseWords[s.word(hoseWordList...)]
	s.blank()
	at := s.at
	dash := -1
	var bore fieldkit.Length
	if s.skip("-#") {
		n, err := strconv.Atoi(s.digits())
		if err != nil {
			s.at = at
			return Hose{}, s.expected(KindHose, "a dash size")
		}
		dash = n
	} else {
		q, ok := s.readFraction()
		if !ok {
			return Hose{}, s.expected(KindHose, "a dash size or the bore in inches")
		}
		bore = q
		s.skip(`"`)
	}
	s.blank()
	if use == "" {
		if use = hoseWords[s.word(hoseWordList...)]; use == "" {
			return Hose{}, s.expected(KindHose, "what the hose is for")
		}
	}
	for _, hose := range h.hoses.all {
		if hose.Use == use && (hose.Dash == dash || hose.Bore == bore) {
			return hose, nil
		}
	}
	s.at = at
	return Hose{}, s.misread(KindHose, "no %s of this size is listed", use)
}

func (x Hose) Kind() Kind   { return KindHose }
func (x Hose) Listed() bool { return true }

func (x Hose) String() string {
	if x.Dash != 0 {
		return fmt.Sprintf("-%d %s", x.Dash, x.Use)
	}
	return inchText(x.Bore) + " " + x.Use
}

func (x Hose) Dims() []Dim {
	var d dims
	d.length("bore", x.Bore)
	d.text("use", x.Use)
	return d
}

func (x Hose) Source() string { return x.source }

func (x Hose) Explain() []Piece {
	var pieces []Piece
	if x.Dash != 0 {
		pieces = append(pieces, Piece{fmt.Sprintf("-%d", x.Dash), "dash size, bore " + x.Bore.Both(fieldkit.Inch)})
	} else {
		pieces = append(pieces, Piece{inchText(x.Bore), "bore " + x.Bore.Both(fieldkit.Inch)})
	}
	return append(pieces, Piece{x.Use, x.Standard})
}

func (o *opener) hoses(h *Handbook) {
	o.each("hose_dash", func(r row) {
		use, ok := hoseUses[r.text("kind")]
		if !ok {
			return
		}
		hose := Hose{Use: use.name, Standard: r.text("standard"), Bore: r.inch("nominal_bore_in"), source: r.source()}
		if use.dash {
			hose.Dash = r.whole("dash")
		}
		h.hoses.add(hose, hose.String())
	})
}
