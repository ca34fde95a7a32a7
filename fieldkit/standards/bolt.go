package standards

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
)

// Bolt is a bolt by its thread and the grade its head marks say: 1/2-13 UNC grade 8,
// M10x1.5 10.9.
type Bolt struct {
	Thread Designation // InchThread or MetricThread
	Grade  Grade
}

// Grade is a strength grade within its range of diameters.
type Grade struct {
	Name     string // "8", "10.9"
	Standard string
	Marks    string // on the head
	Proof    string // both systems
	ProofMPa float64
	over, to fieldkit.Length
	inch     bool
	source   string
}

// ParseBolt reads a thread with a grade. The error is a *Misread.
func (h *Handbook) ParseBolt(text string) (Bolt, error) { return parse(text, h.readBolt) }

func (h *Handbook) readBolt(s *scan) (Bolt, *Misread) {
	var b Bolt
	start := s.at
	inch, mInch := h.readInchThread(s)
	if mInch == nil {
		b.Thread = inch
	} else {
		inchAt := mInch.At
		s.at = start
		metric, m := h.readMetricThread(s)
		if m != nil && m.At >= inchAt {
			m.Kind = KindBolt
			return Bolt{}, m
		}
		if m != nil {
			mInch.Kind = KindBolt
			return Bolt{}, mInch
		}
		b.Thread = metric
	}
	s.skip(" -,")
	s.word("GRADE", "GR", "GR.", "CLASS", "CL", "CL.", "SAE", "SAE GRADE", "PROPERTY CLASS")
	s.skip(" .")
	at := s.at
	name := s.decimal()
	nominal, _ := DimNamed(b.Thread, "nominal")
	grade, ok := h.gradeOf(name, fieldkit.Length(nominal.Base), mInch == nil)
	if !ok {
		s.at = at
		if name == "" {
			return Bolt{}, s.expected(KindBolt, "a grade")
		}
		return Bolt{}, s.misread(KindBolt, "%s has no grade %s", b.Thread, name)
	}
	b.Grade = grade
	return b, nil
}

func (h *Handbook) gradeOf(name string, nominal fieldkit.Length, inch bool) (Grade, bool) {
	for _, g := range h.grades {
		if g.Name == name && g.inch == inch && nominal > g.over && nominal <= g.to {
			return g, true
		}
	}
	return Grade{}, false
}

func (b Bolt) Kind() Kind   { return KindBolt }
func (b Bolt) Listed() bool { return b.Thread.Listed() }

func (b Bolt) String() string {
	if b.Grade.inch {
		return b.Thread.String() + " grade " + b.Grade.Name
	}
	return b.Thread.String() + " " + b.Grade.Name
}

func (b Bolt) Dims() []Dim {
	d := dims(b.Thread.Dims())
	d.text("marks", b.Grade.Marks)
	d.text("proof_strength", b.Grade.Proof)
	return d
}

func (b Bolt) Source() string { return b.Grade.source }

func (b Bolt) Explain() []Piece {
	return append(b.Thread.Explain(), Piece{b.Grade.Name, fmt.Sprintf("%s, head marked with %s, proof strength %s", b.Grade.Standard, b.Grade.Marks, b.Grade.Proof)})
}

func (o *opener) grades(h *Handbook) {
	o.each("bolt_grades", func(r row) {
		h.grades = append(h.grades, Grade{
			Name: r.text("grade"), Standard: r.text("standard"), Marks: r.text("head_marking"),
			Proof:    fmt.Sprintf("%s MPa (%s psi)", r.text("proof_strength_MPa"), r.text("proof_strength_psi")),
			ProofMPa: r.figure("proof_strength_MPa"),
			over:     r.mm("dia_over_mm"), to: r.mm("dia_up_to_mm"), inch: strings.HasPrefix(r.text("standard"), "SAE"), source: r.source(),
		})
	})
	for _, t := range h.inchThreads.all {
		h.addBolts(t, t.Nominal, true)
	}
	for _, t := range h.metricThreads.all {
		h.addBolts(t, t.Nominal, false)
	}
}

// smallestGraded is from where SAE J429 marks grades.
const smallestGraded = fieldkit.Inches / 4

func (h *Handbook) addBolts(thread Designation, nominal fieldkit.Length, inch bool) {
	for _, g := range h.grades {
		if g.inch == inch && nominal > g.over && nominal <= g.to && (!inch || nominal >= smallestGraded) {
			b := Bolt{Thread: thread, Grade: g}
			h.bolts.add(b, b.String())
		}
	}
}
