package standards

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

// Wheel is a bolt circle: 5x114.3.
type Wheel struct {
	Studs   int
	Circle  fieldkit.Length
	Threads []string // usual stud threads
	listed  bool
	source  string
}

const (
	wheelSource = "geometry as written; no table holds this bolt circle"
	// wheelNear is how far a rounded figure may be off the defined one: people write
	// 5x114 for 114.3 (common practice). No two circles of the table are so close.
	wheelNear = 310_000 // nm
	// Below this a figure is inches, above it millimetres.
	wheelInches = 20

	fewestStuds, mostStuds       = 3, 12
	smallestCircle, widestCircle = 50 * fieldkit.Millimetre, 400 * fieldkit.Millimetre
)

// ParseWheel reads a bolt circle: 5x114.3, 5 on 4.5, 8x6-1/2. The error is a *Misread.
func (h *Handbook) ParseWheel(text string) (Wheel, error) { return parse(text, h.readWheel) }

func (h *Handbook) readWheel(s *scan) (Wheel, *Misread) {
	at := s.at
	studs, err := strconv.Atoi(s.digits())
	if err != nil || studs < fewestStuds || studs > mostStuds {
		s.at = at
		return Wheel{}, s.expected(KindWheel, "the number of studs")
	}
	s.blank()
	s.word("LUG", "STUD", "STUDS", "HOLE")
	s.blank()
	if !s.times() && s.word("ON") == "" && !s.skip("-/") {
		return Wheel{}, s.expected(KindWheel, "× and the bolt circle")
	}
	s.blank()
	at = s.at
	circle, ok := s.readFraction()
	inch := ok && circle <= wheelInches*fieldkit.Inches
	if ok && !inch {
		s.at = at
		circle, ok = millimetres(s.decimal())
	}
	s.blank()
	if inch {
		s.word("IN", `"`)
	} else {
		s.word("MM")
	}
	if !ok || circle < smallestCircle || circle > widestCircle {
		s.at = at
		return Wheel{}, s.expected(KindWheel, "the bolt circle in millimetres or inches")
	}
	w := Wheel{Studs: studs, Circle: circle, source: wheelSource}
	for _, known := range h.wheels.all {
		if known.Studs == studs && known.Circle-circle <= wheelNear && circle-known.Circle <= wheelNear {
			w = known
		}
	}
	return w, nil
}

func (w Wheel) Kind() Kind     { return KindWheel }
func (w Wheel) Listed() bool   { return w.listed }
func (w Wheel) String() string { return fmt.Sprintf("%dx%s", w.Studs, mmText(w.Circle)) }

// Spacing gives the distance between the centres of neighbouring studs.
func (w Wheel) Spacing() fieldkit.Length {
	return fieldkit.Length(math.Round(float64(w.Circle) * math.Sin(math.Pi/float64(w.Studs))))
}

func (w Wheel) Dims() []Dim {
	var d dims
	d.count("studs", int64(w.Studs)*1000)
	d.length("circle", w.Circle)
	d.length("spacing", w.Spacing())
	if w.Studs%2 == 0 {
		d.length("across", w.Circle)
	}
	d.text("thread", strings.Join(w.Threads, ", "))
	return d
}

func (w Wheel) Source() string { return w.source }

func (w Wheel) Explain() []Piece {
	pieces := []Piece{
		{strconv.Itoa(w.Studs), fmt.Sprintf("studs; centres of neighbours are %s apart", w.Spacing().Both(fieldkit.Metric))},
		{mmText(w.Circle), "circle through the centres of the studs, " + w.Circle.Both(fieldkit.Metric)},
	}
	if len(w.Threads) > 0 {
		pieces = append(pieces, Piece{strings.Join(w.Threads, ", "), "usual stud threads: measure the stud"})
	}
	return pieces
}

func (o *opener) wheels(h *Handbook) {
	o.each("wheel_patterns", func(r row) {
		w := Wheel{Studs: r.whole("lugs"), Circle: r.mm("bolt_circle_mm"), listed: true, source: r.source()}
		for thread := range strings.SplitSeq(r.text("usual_stud_threads"), ";") {
			if thread = strings.TrimSpace(thread); thread != "" {
				w.Threads = append(w.Threads, strings.TrimSuffix(thread, " bolt"))
			}
		}
		h.wheels.add(w, w.String())
	})
}
