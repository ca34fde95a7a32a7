package measure

import (
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

const (
	um = fieldkit.Millimetre / 1000
	mm = fieldkit.Millimetre
)

// Tolerances of new bearings of the normal class (ISO 492, as read at
// tpsbearing.com for bores of 50 to 120 mm; smaller ones are a little closer).
const (
	boreUnder  = 20 * um  // the bore is at most so much smaller
	odUnder    = 20 * um  // and so the outside
	widthUnder = 200 * um // a ring may be narrower, never wider
	setOver    = 200 * um // a tapered set may be wider, up to a bore of 80 mm
	setUnder   = 200 * um // and narrower above
)

// What wear does to a bearing before it falls apart (common practice).
const (
	spunBore  = 150 * um // the inner ring turned on its shaft
	spunOD    = 150 * um // the outer ring turned in its housing
	wornSet   = 300 * um // rollers and races of a tapered set
	wornWidth = 100 * um // a shield dented, a face rubbed
)

var bearing = Kind{
	Name: "bearing", Aliases: []string{"ball bearing", "ball-bearing", "roller bearing", "cylindrical roller bearing", "needle cage"},
	Title: "Bearings of all kinds by bore, outside and width",
	Attributes: []Attribute{
		{
			Name: "bore", Aliases: []string{"id", "inside diameter", "inner diameter", "inside", "inner", "d"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "across the hole of the inner ring, inside jaws, largest of three readings",
			Wear: Spread{0, spunBore}, spread: evenly(boreUnder, 0),
		},
		{
			Name: "od", Aliases: []string{"outer diameter", "outside", "outer"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "over the outer ring, smallest of three readings square to the axis",
			Wear: Spread{spunOD, 0}, spread: evenly(odUnder, 0),
		},
		{
			Name: "width", Aliases: []string{"b", "w", "thickness"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "over the outer ring from face to face, not over a seal that bulges",
			Wear: Spread{wornWidth, 0}, spread: func(d standards.Designation, _ fieldkit.Length) Spread {
				if isTapered(d) {
					return Spread{setUnder, setOver}
				}
				return Spread{widthUnder, 100 * um}
			},
		},
		{
			Name: "type", Aliases: []string{"rolls", "rolling elements"}, Dim: fieldkit.DimText, Tool: Eye,
			How: "what rolls in it, looking past the cage: ball, double row, cylindrical roller, tapered roller or needle cage",
			of: func(p part) (fieldkit.Value, bool) {
				if isTapered(p.Designation) {
					return fieldkit.Value{Dim: fieldkit.DimText, Text: "tapered roller"}, true
				}
				return p.dim("type")
			},
			same: map[string][]string{
				"ball": {"deep groove", "double row angular contact"}, "balls": {"deep groove", "double row angular contact"}, "single row": {"deep groove"},
				"double row": {"double row angular contact"}, "two rows": {"double row angular contact"},
				"roller": {"cylindrical roller"}, "rollers": {"cylindrical roller"}, "tapered": {"tapered roller"}, "taper": {"tapered roller"}, "needle": {"needle cage"}, "needles": {"needle cage"},
			},
		},
		{
			Name: "flanges", Dim: fieldkit.DimText, Tool: Eye, absent: true, after: "type",
			How: "of a roller bearing: which ring has flanges beside the rollers, and whether the rings come apart: N, NU, NJ or NUP",
		},
	},
	candidates: func(h *standards.Handbook, _ []reading) []standards.Designation {
		all := listed(standards.KindBall, standards.KindRoller, standards.KindNeedle, standards.KindTaperMetric)(h, nil)
		for _, d := range h.Listed(standards.KindTaperInch) {
			if t := d.(standards.TaperInch); t.Cone != "" && t.Cup != "" {
				all = append(all, d)
			}
		}
		return all
	},
	weight: func(d standards.Designation) float64 {
		switch d := d.(type) {
		case standards.Roller:
			return rareRoller
		case standards.Needle:
			return rareNeedle
		case standards.TaperMetric, standards.TaperInch:
			return otherTaper
		case standards.Ball:
			if d.Type != "deep groove" {
				return rareDouble
			}
		}
		return 1
	},
}

// How common other bearings are beside a deep groove ball bearing of the same sizes
// on such a rig (common practice): each form of roller bearing, needle cages, double
// rows.
const (
	rareRoller = 0.05
	rareNeedle = 0.3
	rareDouble = 0.3
	otherTaper = 0.6
)

func isTapered(d standards.Designation) bool {
	return d.Kind() == standards.KindTaperMetric || d.Kind() == standards.KindTaperInch
}

var tapered = Kind{
	Name: "tapered", Aliases: []string{"tapered set", "tapered bearing", "taper", "tapered roller", "tapered bearing set", "cone and cup", "wheel bearing"},
	Title: "Tapered roller bearings, metric and inch, whole sets or one half",
	Attributes: []Attribute{
		{
			Name: "bore", Aliases: []string{"id", "inside diameter", "inner diameter", "inside", "inner", "cone bore", "d"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "across the hole of the cone, inside jaws, largest of three readings",
			Wear: Spread{0, spunBore}, spread: evenly(boreUnder, 13*um),
		},
		{
			Name: "od", Aliases: []string{"outer diameter", "outside", "outer", "cup od"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "over the cup, smallest of three readings",
			Wear: Spread{spunOD, 0}, spread: evenly(odUnder, 25*um),
		},
		{
			Name: "width", Aliases: []string{"t", "w", "total width", "set width"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:    "cone laid in the cup: from the back of the cone to the back of the cup",
			Wear:   Spread{wornSet, 0},
			spread: func(_ standards.Designation, figure fieldkit.Length) Spread { return Spread{setUnder, setOver} },
		},
		{
			Name: "cone_width", Aliases: []string{"b", "cone"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "the inner ring alone, from face to face",
			Wear: Spread{wornWidth, 0}, spread: evenly(widthUnder, 100*um),
		},
		{
			Name: "cup_width", Aliases: []string{"c", "cup"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "the outer ring alone, from face to face",
			Wear: Spread{wornWidth, 0}, spread: evenly(widthUnder, 100*um),
		},
	},
	candidates: taperedCandidates,
	weight: func(d standards.Designation) float64 {
		if t, ok := d.(standards.TaperInch); ok && (t.Cone == "" || t.Cup == "") {
			return halfAlone
		}
		return 1
	},
}

// halfAlone puts a half before the sets it belongs to where all that was measured is
// of that half: then no more is known.
const halfAlone = 5

// taperedCandidates are the sets; and the halves where what was measured is all of
// one half.
func taperedCandidates(h *standards.Handbook, r []reading) []standards.Designation {
	all := h.Listed(standards.KindTaperMetric)
	cone, cup, width := asked(r, "cone_width"), asked(r, "cup_width"), asked(r, "width")
	bore, od := asked(r, "bore"), asked(r, "od")
	for _, d := range h.Listed(standards.KindTaperInch) {
		t := d.(standards.TaperInch)
		switch {
		case t.Cone != "" && t.Cup != "":
		case width || t.Cup == "" && (cup || od || !cone || !bore) || t.Cone == "" && (cone || bore || !cup || !od):
			continue
		}
		all = append(all, d)
	}
	return all
}

// asked reports whether an attribute was measured.
func asked(list []reading, name string) bool {
	for _, r := range list {
		if r.attribute.Name == name {
			return true
		}
	}
	return false
}
