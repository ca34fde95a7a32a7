package standards

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
)

// PipeThread is a pipe thread by the size of the pipe, which is not measured on it:
// 1/2 NPT, G 1/4.
type PipeThread struct {
	Form   string // NPT, NPTF, NPSM, G, R, Rc, Rp
	Size   fieldkit.Length
	OD     fieldkit.Length // of the male thread
	TPI    int64           // thousandths: 11.5 to the inch is 11500
	Class  string          // of a G male thread, A or B
	listed bool
	source string
}

// pipeForms are the forms as people write them, and what they are.
var pipeForms = map[string]string{
	"NPT": "NPT", "NPTF": "NPTF", "NPSM": "NPSM",
	"G": "G", "BSPP": "G", "BSP": "G", "R": "R", "BSPT": "R", "RC": "Rc", "RP": "Rp",
}

var pipeFormWords = keys(pipeForms)

var pipeFormSays = map[string]string{
	"NPT":  "American taper pipe thread, 60 degrees, sealed with tape or paste",
	"NPTF": "American taper pipe thread that seals without paste",
	"NPSM": "American straight pipe thread for mechanical joints",
	"G":    "British parallel pipe thread, 55 degrees, sealed with a washer",
	"R":    "British taper pipe thread, male",
	"Rc":   "British taper pipe thread, female",
	"Rp":   "British parallel pipe thread, female, for a taper male",
}

// ParsePipeThread reads a pipe thread: 1/2 NPT, 1/2-14 NPT, G 1/4, R 3/8, 1/4 BSP. The
// error is a *Misread.
func (h *Handbook) ParsePipeThread(text string) (PipeThread, error) {
	return parse(text, h.readPipeThread)
}

func (h *Handbook) readPipeThread(s *scan) (PipeThread, *Misread) {
	form := s.pipeForm()
	s.skip(" -")
	at := s.at
	size, ok := s.readFraction()
	if !ok {
		return PipeThread{}, s.expected(KindPipeThread, "the size of the pipe in inches")
	}
	s.skip(`"`)
	s.skip(" -")
	tpiAt := s.at
	tpi := s.decimal()
	s.skip(" -")
	if form == "" {
		if form = s.pipeForm(); form == "" {
			return PipeThread{}, s.expected(KindPipeThread, "NPT, G or R")
		}
	}
	t, ok := h.pipeThreads.named(form + " " + inchText(size))
	if !ok {
		s.at = at
		return PipeThread{}, s.misread(KindPipeThread, "no %s thread of %s in is listed", form, inchText(size))
	}
	if tpi != "" && tpi != thousandthsText(t.TPI) {
		s.at = tpiAt
		return PipeThread{}, s.misread(KindPipeThread, "%s has %s threads per inch", t, thousandthsText(t.TPI))
	}
	if s.blank(); t.Form == "G" {
		t.Class = s.word("A", "B")
	}
	return t, nil
}

func (s *scan) pipeForm() string {
	start := s.at
	if form := s.word(pipeFormWords...); form != "" {
		return pipeForms[form]
	}
	s.at = start
	return ""
}

func (t PipeThread) Kind() Kind   { return KindPipeThread }
func (t PipeThread) Listed() bool { return t.listed }

func (t PipeThread) american() bool { return strings.HasPrefix(t.Form, "N") }

func (t PipeThread) String() string {
	if t.american() {
		return inchText(t.Size) + " " + t.Form
	}
	return strings.TrimSpace(t.Form + " " + inchText(t.Size) + " " + t.Class)
}

// Pitch gives the distance from thread to thread.
func (t PipeThread) Pitch() fieldkit.Length {
	return (fieldkit.Inches*1000 + fieldkit.Length(t.TPI)/2) / fieldkit.Length(t.TPI)
}

func (t PipeThread) Dims() []Dim {
	var d dims
	d.length("nominal", t.OD)
	d.count("tpi", t.TPI)
	d.length("pitch", t.Pitch())
	return d
}

func (t PipeThread) Source() string { return t.source }

func (t PipeThread) Explain() []Piece {
	pieces := []Piece{
		{inchText(t.Size), fmt.Sprintf("size of the pipe; the male thread measures %s outside", t.OD.Both(fieldkit.Metric))},
		{t.Form, fmt.Sprintf("%s, %s threads per inch", pipeFormSays[t.Form], thousandthsText(t.TPI))},
	}
	if t.Class != "" {
		pieces = append(pieces, Piece{t.Class, "male, tolerance A close or B wide"})
	}
	return pieces
}

// thousandthsText writes 11500 as 11.5.
func thousandthsText(n int64) string {
	text := fmt.Sprintf("%d.%03d", n/1000, n%1000)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

func (o *opener) pipeThreads(h *Handbook) {
	o.each("fittings_fluid", func(r row) {
		forms := map[string][]string{
			"NPT taper pipe":     {"NPT", "NPTF", "NPSM"},
			"BSPP parallel pipe": {"G"},
			"BSPT taper pipe":    {"R", "Rc", "Rp"},
		}[r.text("kind")]
		if forms == nil {
			return
		}
		s := newScan(r.text("male_thread")) // 1/2-14 NPT, G 1/4, R 1/4
		s.letters()
		s.blank()
		size, ok := s.readFraction()
		if !ok {
			r.refuse("male_thread", fmt.Sprintf("%q is no pipe thread", r.text("male_thread")), "write 1/2-14 NPT or G 1/4")
		}
		for _, form := range forms {
			t := PipeThread{Form: form, Size: size, OD: r.inch("thread_od_in"), TPI: r.thousandths("tpi"), listed: true, source: r.source()}
			if form[0] != 'N' {
				t.OD = r.mm("thread_od_mm")
			}
			h.pipeThreads.add(t, t.Form+" "+inchText(t.Size))
		}
	})
}
