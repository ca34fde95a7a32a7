package measure

import (
	"math"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// Worn, stretched or rusted threads (common practice).
const (
	wornThread = 300 * um
	wornNut    = 300 * um
)

// taperRun is how much smaller than its nominal diameter a taper pipe thread
// measures near its end: 1 in 16 over some 12 mm (ASME B1.20.1 taper).
const taperRun = 1 * mm

var pitchAttributes = []Attribute{
	{
		Name: "pitch", Dim: fieldkit.DimLength, Tool: ThreadGauge, ratio: pitchWithin,
		How: "with a thread gauge, in millimetres; without one over ten threads, divided by ten",
	},
	{
		Name: "tpi", Aliases: []string{"threads per inch", "threads"}, Dim: fieldkit.DimCount, Tool: ThreadGauge, ratio: pitchWithin,
		How: "threads to the inch, with a thread gauge, or counted along a rule",
		of:  threadsPerInch,
	},
}

// threadsPerInch gives the threads to the inch of any thread, metric ones too.
func threadsPerInch(p part) (fieldkit.Value, bool) {
	if v, ok := p.dim("tpi"); ok {
		return v, true
	}
	pitch, ok := p.dim("pitch")
	if !ok || pitch.Base == 0 {
		return fieldkit.Value{}, false
	}
	return fieldkit.Value{Dim: fieldkit.DimCount, Base: int64(math.Round(float64(fieldkit.Inches) / float64(pitch.Base) * 1e6))}, true
}

var threadNominal = Attribute{
	Name: "nominal", Aliases: []string{"od", "diameter", "outside diameter", "major", "major diameter", "size", "nominal_diameter"}, Dim: fieldkit.DimLength, Tool: Caliper,
	How:  "over the tops of the thread of a bolt or stud, at its least worn place",
	Wear: Spread{wornThread, 0}, spread: boltUnder,
}

var thread = Kind{
	Name: "thread", Aliases: []string{"threads", "stud", "screw thread"},
	Title: "Screw threads: unified, metric, pipe",
	Attributes: append([]Attribute{
		threadNominal,
		{
			Name: "minor", Aliases: []string{"hole", "nut", "inside diameter", "id", "bore"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "of a nut or tapped hole: across the tops of its thread, inside jaws",
			Wear: Spread{0, wornNut}, of: minorDiameter,
			spread: nutOver,
		},
	}, pitchAttributes...),
	candidates: listed(standards.KindInchThread, standards.KindMetricThread, standards.KindPipeThread),
	weight:     threadWeight,
}

// threadWeight is how common a thread is on such a rig beside the coarse one of its
// size (common practice).
func threadWeight(d standards.Designation) float64 {
	switch d := d.(type) {
	case standards.InchThread:
		return map[string]float64{"UNC": 1, "UNF": 0.8}[d.Series] + 0.1
	case standards.MetricThread:
		if d.Series == "coarse" {
			return 1.1
		}
		if d.Pitch < 1*mm {
			return 0.1
		}
		return 0.5
	case standards.PipeThread:
		if d.Form == "NPT" {
			return 0.5
		}
		return 0.1
	}
	return 1
}

// boltUnder gives how much smaller than nominal the thread of a new bolt is: grade 6g
// of ISO 965-1, es = 15 + 11·P and Td = 180·P^(2/3) − 3.15/√P micrometres with the
// pitch in millimetres. ASME B1.1 class 2A gives the same within a hundredth. From
// memory; M14x1.5 comes to 0.268 mm and 9/16-18 to 0.26 mm.
func boltUnder(d standards.Designation, _ fieldkit.Length) Spread {
	p := pitchOf(d)
	if p == 0 {
		return Spread{}
	}
	if t, ok := d.(standards.PipeThread); ok && t.Form != "G" {
		return Spread{taperRun, 0}
	}
	return Spread{fieldkit.Length(15+11*p+180*math.Pow(p, 2.0/3)-3.15/math.Sqrt(p)) * um, 0}
}

// nutOver gives how much larger than its basic size the hole of a new nut is: grade
// 6H of ISO 965-1, 230·P^0.7 micrometres, of fine pitches below 1 mm 433·P −
// 190·P^1.22. From memory.
func nutOver(d standards.Designation, _ fieldkit.Length) Spread {
	p := pitchOf(d)
	if p < 1 {
		return Spread{0, fieldkit.Length(433*p-190*math.Pow(p, 1.22)) * um}
	}
	return Spread{0, fieldkit.Length(230*math.Pow(p, 0.7)) * um}
}

// minorDiameter is the basic inside diameter of a 60 degree thread: the nominal less
// 1.0825 pitches (ISO 68-1).
func minorDiameter(p part) (fieldkit.Value, bool) {
	if p.Kind() == standards.KindPipeThread {
		return fieldkit.Value{}, false
	}
	nominal, ok := p.dim("nominal")
	pitch, known := p.dim("pitch")
	return fieldkit.Value{Dim: fieldkit.DimLength, Base: nominal.Base - int64(math.Round(1.082532*float64(pitch.Base)))}, ok && known
}

// pitchOf gives the pitch in millimetres.
func pitchOf(d standards.Designation) float64 {
	switch d := d.(type) {
	case standards.Bolt:
		return pitchOf(d.Thread)
	case standards.InchThread:
		return float64(d.Pitch()) / float64(mm)
	case standards.MetricThread:
		return float64(d.Pitch) / float64(mm)
	case standards.PipeThread:
		return float64(d.Pitch()) / float64(mm)
	case standards.Fitting:
		return float64(d.Pitch) / float64(mm)
	}
	return 0
}

var bolt = Kind{
	Name: "bolt", Aliases: []string{"bolt grade", "screw", "cap screw"},
	Title: "Bolts: thread and the grade of the head marks",
	Attributes: append(append([]Attribute{threadNominal}, pitchAttributes...), Attribute{
		Name: "marks", Aliases: []string{"grade", "class", "head", "head marks", "mark", "lines"}, Dim: fieldkit.DimText, Tool: Eye,
		How: "on the head: 3 or 6 radial lines, none, or figures such as 8.8",
		same: map[string][]string{
			"none": {"no marks"}, "no": {"no marks"}, "plain": {"no marks"}, "unmarked": {"no marks"}, "0": {"no marks"},
			"3": {"3 radial lines"}, "three": {"3 radial lines"}, "6": {"6 radial lines"}, "six": {"6 radial lines"},
			"5": {"3 radial lines"}, "8": {"6 radial lines"}, "2": {"no marks"},
		},
	}),
	candidates: listed(standards.KindBolt),
	weight:     func(d standards.Designation) float64 { return threadWeight(d.(standards.Bolt).Thread) },
}
