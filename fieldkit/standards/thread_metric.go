package standards

import (
	"fmt"

	"trailfieldkit/fieldkit"
)

// MetricThread is an ISO metric screw thread: M14x1.5.
type MetricThread struct {
	Nominal, Pitch fieldkit.Length
	Series         string // coarse, fine; "" beyond the table
	Class          string // "6g"; "" if not said
	Left           bool
	AreaMM2        float64 // stress area in mm², 0 where no table gives it
	listed         bool
	source         string
}

const metricThreadSource = "ISO 261 sizes; beyond the table"

// pitchesBeyond are what threads larger than the table have (ISO 261, from memory).
var pitchesBeyond = []fieldkit.Length{1_500_000, 2_000_000, 3_000_000, 4_000_000, 4_500_000, 5_000_000, 5_500_000, 6_000_000, 8_000_000}

const largestMetricThread = 300 * fieldkit.Millimetre

// ParseMetricThread reads a metric thread: M14×1.5, M8 (coarse), M10x1.25-6g LH,
// 14x1.5. The error is a *Misread.
func (h *Handbook) ParseMetricThread(text string) (MetricThread, error) {
	return parse(text, h.readMetricThread)
}

func (h *Handbook) readMetricThread(s *scan) (MetricThread, *Misread) {
	marked := s.take('M')
	s.blank()
	at := s.at
	nominal, ok := millimetres(s.decimal())
	if !ok || nominal > largestMetricThread {
		s.at = at
		return MetricThread{}, s.expected(KindMetricThread, "M and the nominal diameter")
	}
	t := MetricThread{Nominal: nominal, source: metricThreadSource}
	afterSize := s.at
	pitchAt := s.at
	if s.times() {
		pitchAt = s.at
		if t.Pitch, ok = millimetres(s.decimal()); !ok {
			s.at = pitchAt
			return MetricThread{}, s.expected(KindMetricThread, "the pitch")
		}
	} else if s.take('-') { // M8-1.25, or the class of M8-6g
		if q, ok := millimetres(s.decimal()); ok && (s.done() || s.peek() < 'A') {
			t.Pitch = q
		} else {
			s.at = afterSize
		}
	}
	if t.Pitch == 0 && !marked {
		return MetricThread{}, s.expected(KindMetricThread, "× and the pitch")
	}
	known, found := h.metricThreads.named(t.pair())
	if t.Pitch == 0 {
		known, found = h.metricThreads.named(mmText(nominal))
	}
	switch {
	case found:
		t = known
	case t.Pitch == 0:
		s.at = at
		return MetricThread{}, s.misread(KindMetricThread, "no coarse thread M%s is listed; its pitch must be said", mmText(nominal))
	case nominal > h.metricLargest && contains(pitchesBeyond, t.Pitch) && nominal%fieldkit.Millimetre == 0:
	default:
		s.at = pitchAt
		return MetricThread{}, s.misread(KindMetricThread, "no thread M%s has a pitch of %s mm", mmText(nominal), mmText(t.Pitch))
	}
	s.skip(" -,")
	t.Class = s.fitClass()
	s.skip(" -,")
	t.Left = s.word("LH", "LEFT HAND", "LEFT-HAND", "LEFT") != ""
	return t, nil
}

func contains(list []fieldkit.Length, q fieldkit.Length) bool {
	for _, x := range list {
		if x == q {
			return true
		}
	}
	return false
}

// fitClass takes a tolerance class: grade and letter, once or twice: 6g, 6H, 5g6g.
// Small letters are bolts and capitals nuts, so it is kept as typed.
func (s *scan) fitClass() string {
	start := s.at
	for range 2 {
		r := s.peek()
		if r < '3' || r > '9' || s.at+1 >= len(s.runes) || s.runes[s.at+1] < 'E' || s.runes[s.at+1] > 'H' {
			break
		}
		s.at += 2
	}
	if r := s.peek(); r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' {
		s.at = start
	}
	return string([]rune(s.text)[start:s.at])
}

func (t MetricThread) Kind() Kind   { return KindMetricThread }
func (t MetricThread) Listed() bool { return t.listed }

func (t MetricThread) pair() string { return mmText(t.Nominal) + "x" + mmText(t.Pitch) }

func (t MetricThread) String() string {
	text := "M" + t.pair()
	if t.Class != "" {
		text += "-" + t.Class
	}
	if t.Left {
		text += " LH"
	}
	return text
}

func (t MetricThread) Dims() []Dim {
	var d dims
	d.length("nominal", t.Nominal)
	d.length("pitch", t.Pitch)
	return d
}

func (t MetricThread) Source() string { return t.source }

func (t MetricThread) Explain() []Piece {
	says := "pitch " + t.Pitch.Both(fieldkit.Metric)
	if t.Series != "" {
		says = fmt.Sprintf("%s, the %s one of this size", says, t.Series)
		if t.Series == "fine" {
			says = fmt.Sprintf("pitch %s, finer than the coarse one of this size", t.Pitch.Both(fieldkit.Metric))
		}
	}
	pieces := []Piece{{"M" + mmText(t.Nominal), "nominal diameter " + t.Nominal.Both(fieldkit.Metric)}, {mmText(t.Pitch), says}}
	if t.Class != "" {
		pieces = append(pieces, Piece{t.Class, "fit: small letters are bolts, capitals nuts"})
	}
	if t.Left {
		pieces = append(pieces, Piece{"LH", "left-hand: tightens anticlockwise"})
	}
	return pieces
}

func (o *opener) metricThreads(h *Handbook) {
	o.each("threads_metric", func(r row) {
		t := MetricThread{Nominal: r.mm("nominal_mm"), Pitch: r.mm("pitch_mm"), Series: r.text("series"), AreaMM2: r.figure("stress_area_mm2"), listed: true, source: r.source()}
		names := []string{t.pair()}
		if t.Series == "coarse" {
			names = append(names, mmText(t.Nominal))
		}
		h.metricLargest = max(h.metricLargest, t.Nominal)
		h.metricThreads.add(t, names...)
	})
	// Brake fittings use a few threads that ISO 261 does not choose.
	o.each("fittings_fluid", func(r row) {
		if r.text("tpi") == "" {
			t := MetricThread{Nominal: r.mm("thread_od_mm"), Pitch: r.mm("pitch_mm"), Series: "fine", listed: true, source: r.source()}
			if _, known := h.metricThreads.named(t.pair()); !known && t.Pitch != 0 {
				h.metricThreads.add(t, t.pair())
			}
		}
	})
}
