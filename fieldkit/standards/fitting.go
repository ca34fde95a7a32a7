package standards

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

// Fitting is a tube or hose fitting by its form and size: -6 JIC, 3/16 inverted
// flare, M10x1 bubble flare.
type Fitting struct {
	Form   string // JIC, ORB, AN, SAE 45 flare, inverted flare, …
	Dash   int    // tube outside diameter in sixteenths of an inch; 0 for metric threads
	Tube   fieldkit.Length
	Thread string // male thread
	OD     fieldkit.Length
	TPI    int64 // thousandths; 0 for metric threads
	Pitch  fieldkit.Length
	Seal   string // how it seals
	source string
}

// fittingForms are what the table calls a form, and how it is written here.
var fittingForms = map[string]string{
	"JIC 37 flare": "JIC", "ORB straight thread O-ring boss": "ORB", "AN 37 flare": "AN",
	"SAE 45 flare": "SAE 45 flare", "inverted flare (45 double flare)": "inverted flare",
	"bubble flare (DIN/ISO)": "bubble flare", "metric inverted (double) flare": "metric inverted flare",
	"banjo bolt, brake caliper": "banjo", "power steering O-ring (metric)": "power steering O-ring",
	"ORFS O-ring face seal": "ORFS", "metric O-ring port": "O-ring port",
	"24 degree cone, light series": "light cone", "24 degree cone, heavy series": "heavy cone",
}

// fittingWords are the ways people write a form.
var fittingWords = map[string]string{
	"JIC": "JIC", "37 FLARE": "JIC", "37° FLARE": "JIC", "37 DEGREE FLARE": "JIC",
	"ORB": "ORB", "O-RING BOSS": "ORB", "SAE BOSS": "ORB", "BOSS": "ORB",
	"AN":           "AN",
	"SAE 45 FLARE": "SAE 45 flare", "45 FLARE": "SAE 45 flare", "45° FLARE": "SAE 45 flare", "SAE FLARE": "SAE 45 flare", "45 DEGREE FLARE": "SAE 45 flare",
	"INVERTED FLARE": "inverted flare", "INVERTED": "inverted flare", "DOUBLE FLARE": "inverted flare",
	"BUBBLE FLARE": "bubble flare", "BUBBLE": "bubble flare", "ISO FLARE": "bubble flare", "DIN FLARE": "bubble flare",
	"METRIC INVERTED FLARE": "metric inverted flare", "METRIC INVERTED": "metric inverted flare",
	"BANJO": "banjo", "BANJO BOLT": "banjo",
	"ORFS": "ORFS", "FACE SEAL": "ORFS", "O-RING FACE SEAL": "ORFS",
	"O-RING PORT": "O-ring port", "METRIC O-RING PORT": "O-ring port",
	"LIGHT CONE": "light cone", "24 DEGREE CONE LIGHT": "light cone", "HEAVY CONE": "heavy cone", "24 DEGREE CONE HEAVY": "heavy cone",
	"POWER STEERING O-RING": "power steering O-ring", "POWER STEERING": "power steering O-ring",
}

var fittingWordList = keys(fittingWords)

// ParseFitting reads a fitting, the form before or behind the size. The error is a
// *Misread.
func (h *Handbook) ParseFitting(text string) (Fitting, error) { return parse(text, h.readFitting) }

func (h *Handbook) readFitting(s *scan) (Fitting, *Misread) {
	form := s.fittingForm()
	s.blank()
	at := s.at
	if f, ok := h.coneFitting(s); ok && form == "" {
		return f, nil
	}
	s.at = at
	sizes, m := h.fittingSizes(s)
	if m != nil {
		return Fitting{}, m
	}
	if len(sizes) == 0 {
		s.at = at
		return Fitting{}, s.misread(KindFitting, "no fitting of this size is listed")
	}
	s.skip(" ,")
	if form == "" {
		if form = s.fittingForm(); form == "" {
			m := s.expected(KindFitting, "JIC, ORB, AN or another kind of fitting")
			if s.done() {
				m = m.near(sizes)
			}
			return Fitting{}, m
		}
	} else if s.peek() == 'M' {
		form = s.fittingForm()
	}
	sizes = slices.DeleteFunc(sizes, func(f Fitting) bool { return f.Form != form && f.Form != "metric "+form })
	if tube, ok := s.tube(); ok {
		sizes = slices.DeleteFunc(sizes, func(f Fitting) bool { return f.Tube != tube })
	}
	switch {
	case len(sizes) == 0:
		s.at = at
		return Fitting{}, s.misread(KindFitting, "no %s fitting of this size is listed", form)
	case len(sizes) > 1 && sizes[0].Tube != sizes[1].Tube:
		return Fitting{}, s.expected(KindFitting, fmt.Sprintf("the tube, %s or %s mm", mmText(sizes[0].Tube), mmText(sizes[1].Tube))).near(sizes)
	}
	return sizes[0], nil
}

func (s *scan) fittingForm() string { return fittingWords[s.word(fittingWordList...)] }

// coneFitting takes a tube in millimetres and L or S for the light or heavy series
// of 24 degree cones: 12L.
func (h *Handbook) coneFitting(s *scan) (Fitting, bool) {
	tube, _ := millimetres(s.digits())
	form := map[string]string{"L": "light cone", "S": "heavy cone"}[s.letters()]
	for _, f := range h.fittings.all {
		if f.Form == form && f.Tube == tube {
			return f, true
		}
	}
	return Fitting{}, false
}

// fittingSizes takes a dash number, a metric thread or a tube size, and gives all
// fittings of that size.
func (h *Handbook) fittingSizes(s *scan) ([]Fitting, *Misread) {
	start := s.at
	pick := func(fits func(f Fitting) bool) (list []Fitting) {
		for _, f := range h.fittings.all {
			if fits(f) {
				list = append(list, f)
			}
		}
		return list
	}
	dashed := s.skip("-#")
	if digits := s.digits(); digits != "" && len(digits) <= 2 {
		n, _ := strconv.Atoi(digits)
		inch := fieldkit.Length(n) * fieldkit.Inches
		if s.done() || s.peek() == ' ' || s.peek() >= 'A' {
			return pick(func(f Fitting) bool { // flares go by the tube unless there is a dash
				if !dashed && strings.HasSuffix(f.Form, "flare") {
					return f.TPI != 0 && f.Tube == inch
				}
				return f.Dash == n
			}), nil
		}
	}
	if s.at = start; dashed {
		return nil, s.expected(KindFitting, "a dash size")
	}
	if s.take('M') {
		nominal, _ := millimetres(s.decimal())
		s.times()
		at := s.at
		pitch, ok := millimetres(s.decimal())
		if !ok {
			s.at = at
			return nil, s.expected(KindFitting, "the pitch of the thread")
		}
		return pick(func(f Fitting) bool { return f.TPI == 0 && f.OD == nominal && f.Pitch == pitch }), nil
	}
	tube, ok := s.readFraction()
	if !ok {
		return nil, s.expected(KindFitting, "a dash size, a tube size or a metric thread")
	}
	s.skip(`"`)
	return pick(func(f Fitting) bool { return f.TPI != 0 && f.Tube == tube }), nil
}

// tube takes "4.75 mm tube" behind a form.
func (s *scan) tube() (fieldkit.Length, bool) {
	start := s.at
	s.skip(" ,")
	if q, ok := millimetres(s.decimal()); ok {
		s.blank()
		s.word("MM")
		s.blank()
		s.word("TUBE")
		return q, true
	}
	s.at = start
	return 0, false
}

func (f Fitting) Kind() Kind   { return KindFitting }
func (f Fitting) Listed() bool { return true }

func (f Fitting) String() string {
	switch {
	case f.TPI == 0 && f.Tube == 0:
		return f.Thread + " " + f.Form
	case f.TPI == 0:
		return fmt.Sprintf("%s %s, %s mm tube", f.Thread, f.Form, mmText(f.Tube))
	case strings.HasSuffix(f.Form, "flare"):
		return inchText(f.Tube) + " " + f.Form
	}
	return fmt.Sprintf("-%d %s", f.Dash, f.Form)
}

func (f Fitting) Dims() []Dim {
	var d dims
	d.text("thread", f.Thread)
	d.length("thread_od", f.OD)
	d.count("tpi", f.TPI)
	d.length("pitch", f.Pitch)
	d.length("tube", f.Tube)
	d.text("seat", f.Seal)
	return d
}

func (f Fitting) Source() string { return f.source }

func (f Fitting) Explain() []Piece {
	var pieces []Piece
	if f.Dash != 0 {
		pieces = append(pieces, Piece{fmt.Sprintf("-%d", f.Dash), fmt.Sprintf("%d sixteenths: tube of %s", f.Dash, f.Tube.Both(fieldkit.Inch))})
	}
	return append(pieces, Piece{f.Form, "seals by " + f.Seal}, Piece{f.Thread, "male thread, " + f.OD.Both(fieldkit.Inch) + " outside"})
}

func (o *opener) fittings(h *Handbook) {
	o.each("fittings_fluid", func(r row) {
		form, ok := fittingForms[r.text("kind")]
		if !ok {
			return // pipe threads are read as threads
		}
		f := Fitting{
			Form: form, Dash: r.whole("dash"), Tube: r.inch("tube_od_in"), Thread: r.text("male_thread"),
			OD: r.inch("thread_od_in"), TPI: r.thousandths("tpi"), Pitch: r.mm("pitch_mm"), Seal: r.text("seal_method"), source: r.source(),
		}
		if f.TPI == 0 { // metric: the millimetre column is the exact one
			f.OD, f.Tube = r.mm("thread_od_mm"), r.mm("tube_od_mm")
		} else {
			f.Pitch = (fieldkit.Inches*1000 + fieldkit.Length(f.TPI)/2) / fieldkit.Length(f.TPI)
		}
		h.fittings.add(f, f.String())
	})
}
