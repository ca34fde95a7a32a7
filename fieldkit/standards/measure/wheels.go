package measure

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// studOff is how far the centres of two studs can be found with a rule or caliper
// from edge to edge, on top of the tool (common practice).
const studOff = 300 * um

var wheel = Kind{
	Name: "wheel", Aliases: []string{"bolt circle", "wheel bolt circle", "bolt pattern", "lug pattern", "studs", "hub", "pcd"},
	Title: "Wheel bolt circles",
	Attributes: []Attribute{
		{
			Name: "studs", Aliases: []string{"lugs", "stud count", "holes", "count", "number", "n"}, Dim: fieldkit.DimCount, Tool: Eye,
			How: "count the studs",
		},
		{
			Name: "spacing", Aliases: []string{"neighbours", "stud to stud", "neighbouring studs", "chord", "adjacent", "distance", "stud spacing"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:    "from centre to centre of two neighbouring studs: from the left edge of one to the left edge of the next",
			spread: evenly(studOff, studOff),
		},
		{
			Name: "across", Aliases: []string{"opposite"}, Dim: fieldkit.DimLength, Tool: SteelRule,
			How:    "of an even number of studs, from centre to centre of two opposite ones",
			spread: evenly(studOff, studOff),
		},
		{
			Name: "circle", Aliases: []string{"bolt_circle", "pcd", "diameter", "bolt circle diameter"}, Dim: fieldkit.DimLength, Tool: SteelRule, silent: true,
			How:    "the circle through the centres of all studs, where it was measured or read already",
			spread: evenly(studOff, studOff),
		},
		{
			Name: "thread", Aliases: []string{"stud thread", "lug thread"}, Dim: fieldkit.DimText, Tool: ThreadGauge, often: usualThread, silent: true,
			How: "of a stud, as measure thread finds it: M14x1.5",
		},
	},
	candidates: listed(standards.KindWheel),
}

// usualThread is how often a wheel has one of the stud threads listed as usual for its
// circle (common practice).
const usualThread = 0.9

// Tyres (common practice): a tread is up to 16 mm deep, on both sides of the
// diameter; makers differ by a per cent or two from the nominal sizes, and the width
// depends on the rim.
const (
	wornTread   = 32 * mm
	diameterOff = 0.008
	sectionOff  = 0.02
)

var tyre = Kind{
	Name: "tyre", Aliases: []string{"tire", "tyre size"},
	Title: "Tyres by the rules of their sizes; not each size is made",
	Attributes: []Attribute{
		{
			Name: "diameter", Aliases: []string{"overall diameter", "od", "height", "overall"}, Dim: fieldkit.DimLength, Tool: Tape,
			How:  "overall, pumped up and without load: against a wall, a board laid on top",
			Wear: Spread{wornTread, 0}, blur: diameterOff,
		},
		{
			Name: "section_width", Aliases: []string{"width", "section"}, Dim: fieldkit.DimLength, Tool: Tape,
			How: "where the sidewalls are widest, without ribs and lettering; not the tread", blur: sectionOff,
		},
		{
			Name: "rim", Aliases: []string{"rim diameter", "wheel", "wheel diameter"}, Dim: fieldkit.DimLength, Tool: Eye, bare: fieldkit.Inch,
			How:    "the rim's diameter, as it is stamped in inches; across the beads, not over the flanges",
			spread: evenly(3*mm, 3*mm),
		},
		{
			Name: "aspect", Aliases: []string{"profile", "ratio", "aspect ratio"}, Dim: fieldkit.DimCount, Tool: Eye, absent: true,
			How: "what can be read behind the slash; sizes in inches have none",
		},
	},
	candidates: tyresByRule,
	weight:     tyreWeight,
}

// tyreWeight is how common a size is on off-road rigs and their tow vehicles (common
// practice): rims of 15 to 18 and 20 inches, aspects of 70 and 75, the usual widths.
func tyreWeight(d standards.Designation) float64 {
	t := d.(standards.Tyre)
	weight := rimWeight[int(t.Rim/fieldkit.Inches)]
	switch t.Form {
	case standards.MetricTyre:
		weight *= aspectWeight[t.Aspect]
		if t.Section > 325*mm {
			weight *= 0.2
		}
	case standards.FlotationTyre:
		if t.Section != 25*fieldkit.Inches/2 && t.Section != 21*fieldkit.Inches/2 {
			weight *= 0.4 // 10.50 and 12.50 are the usual widths
		}
	default:
		weight *= 0.4
	}
	return weight
}

var (
	rimWeight    = map[int]float64{14: 0.2, 15: 1, 16: 1, 17: 1, 18: 0.6, 19: 0.05, 20: 0.5}
	aspectWeight = map[int]float64{50: 0.1, 55: 0.1, 60: 0.3, 65: 0.6, 70: 1, 75: 1, 80: 0.2, 85: 0.4}
)

// tyresByRule makes up the sizes that off-road rigs and their tow vehicles have: all
// steps of width, aspect and rim within what is made (common practice).
func tyresByRule(h *standards.Handbook, _ []reading) (all []standards.Designation) {
	add := func(size string) {
		if t, err := h.ParseTyre(size); err == nil {
			all = append(all, t)
		}
	}
	for rim := 14; rim <= 20; rim++ {
		for width := 195; width <= 375; width += 10 {
			for aspect := 50; aspect <= 85; aspect += 5 {
				add(fmt.Sprintf("%d/%dR%d", width, aspect, rim))
			}
		}
	}
	for _, rim := range []int{15, 16, 17, 18, 20} {
		for overall := 27; overall <= 44; overall++ {
			if overall < rim+12 {
				continue // less sidewall than any flotation size has
			}
			for _, width := range flotationWidths[overall] {
				add(fmt.Sprintf("%dx%sR%dLT", overall, width, rim))
			}
		}
	}
	for _, size := range strings.Fields("6.00-16 6.50-16 7.00-15 7.00-16 7.50-16 8.25-16 9.00-16") {
		add(size)
	}
	return all
}

// flotationWidths are the section widths that go with overall diameters (common
// practice).
var flotationWidths = map[int][]string{
	27: {"8.50"}, 28: {"8.50"}, 29: {"8.50", "9.50"}, 30: {"9.50"}, 31: {"10.50", "11.50"}, 32: {"10.50", "11.50"},
	33: {"9.50", "10.50", "12.50"}, 34: {"9.50", "10.50", "12.50"}, 35: {"10.50", "11.50", "12.50", "13.50"}, 36: {"12.50", "13.50"},
	37: {"11.50", "12.50", "13.50"}, 38: {"12.50", "13.50", "15.50"}, 39: {"13.50"}, 40: {"13.50", "15.50"},
	41: {"14.50"}, 42: {"13.50", "14.50"}, 43: {"14.50"}, 44: {"18.50"},
}
