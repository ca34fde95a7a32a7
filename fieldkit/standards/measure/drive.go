package measure

import (
	"fmt"
	"math"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// Universal joints and splines (common practice where no standard is named).
const (
	capOff     = 40 * um  // caps are ground
	spanOff    = 250 * um // snap rings come in several thicknesses
	wornCap    = 150 * um
	wornSpan   = 400 * um
	splineOff  = 130 * um // 0.005 in, of what makers grind off the tips
	wornSpline = 500 * um
)

var uJoint = Kind{
	Name: "u-joint", Aliases: []string{"ujoint", "universal joint", "u joint", "cross kit", "cross"},
	Title: "Universal joints by trade series",
	Attributes: []Attribute{
		{
			Name: "cap", Aliases: []string{"cap diameter", "bearing cap", "cap_diameter", "diameter"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "over a bearing cap",
			Wear: Spread{wornCap, 0}, spread: evenly(capOff, capOff),
		},
		{
			Name: "span", Aliases: []string{"width", "length", "overall", "cap to cap"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "outside rings: over both caps from end to end; inside clips: between the clip grooves",
			Wear: Spread{wornSpan, 0}, spread: evenly(spanOff, spanOff),
		},
		{
			Name: "lock_up", Aliases: []string{"lock", "clip", "ring", "retainer"}, Dim: fieldkit.DimText, Tool: Eye,
			How: "how the caps are held: rings outside in the yoke, or clips inside on the caps",
		},
	},
	candidates: listed(standards.KindUJoint),
}

var spline = Kind{
	Name: "spline", Aliases: []string{"splines", "axle spline", "axle shaft"},
	Title: "Axle splines of 24/48 pitch",
	Attributes: []Attribute{
		{
			Name: "splines", Aliases: []string{"count", "teeth", "number"}, Dim: fieldkit.DimCount, Tool: Eye,
			How: "count them all, with a mark of chalk where you begin",
		},
		{
			Name: "diameter", Aliases: []string{"od", "major", "major diameter", "outside diameter"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "over the tips",
			Wear: Spread{wornSpline, 0},
			spread: func(d standards.Designation, figure fieldkit.Length) Spread {
				x := d.(standards.Spline)
				s := Spread{splineOff, splineOff}
				if x.TradeMin != 0 { // the trade's figure is not quite that of the geometry
					s.Below = max(s.Below, figure-x.TradeMin)
					s.Above = max(s.Above, x.TradeMax-figure)
				}
				return s
			},
		},
	},
	candidates: listed(standards.KindSpline),
}

// Belts: the tolerance of the effective length within which belts interchange is 3 mm
// (mechanexpert.com); a worn belt is longer by up to a hundredth (common practice).
const (
	beltOff       = 3 * mm
	beltStretched = 15 * mm
	beltWidthOff  = 600 * um // rubber, cut to width
	outsideOff    = 4 * mm   // 14 mm more than the effective length is typical, not exact
)

var belt = Kind{
	Name: "belt", Aliases: []string{"ribbed belt", "serpentine belt", "v-ribbed belt", "drive belt"},
	Title: "Ribbed belts",
	Attributes: []Attribute{
		{
			Name: "ribs", Aliases: []string{"rib count", "grooves", "number of ribs"}, Dim: fieldkit.DimCount, Tool: Eye,
			How: "count the ribs, not the grooves between them",
		},
		{
			Name: "length", Aliases: []string{"effective length", "l"}, Dim: fieldkit.DimLength, Tool: Tape,
			How:  "the effective length, along the ribs; around the back it is some 14 mm more",
			Wear: Spread{0, beltStretched}, spread: evenly(beltOff, beltOff),
		},
		{
			Name: "outside", Aliases: []string{"circumference", "outside length", "back"}, Dim: fieldkit.DimLength, Tool: Tape,
			How:  "around the back, with a tape or a string",
			Wear: Spread{0, beltStretched}, spread: evenly(outsideOff, outsideOff),
		},
		{
			Name: "width", Aliases: []string{"w"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "over all ribs",
			Wear: Spread{1 * mm, 0}, spread: evenly(beltWidthOff, beltWidthOff),
		},
		{
			Name: "rib_pitch", Aliases: []string{"pitch", "rib spacing"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "from rib to rib; better over several ribs, divided by their number",
			Wear: Spread{0, 100 * um}, spread: evenly(50*um, 50*um),
		},
	},
	candidates: beltsAround,
	weight: func(d standards.Designation) float64 {
		if b, ok := d.(standards.Belt); ok && b.Profile != "PK" {
			return rareProfile
		}
		if b, ok := d.(beltOfAnyLength); ok && b.Profile != "PK" {
			return rareProfile
		}
		return 1
	},
	needs: []string{"length", "outside"},
}

// rareProfile is how common other profiles are beside PK on engines (common practice).
const rareProfile = 0.02

const fewestBeltRibs, mostBeltRibs = 3, 12

// beltsAround makes up the belts of each profile and number of ribs with the length
// that was measured, as belts are made to any length.
func beltsAround(h *standards.Handbook, r []reading) (all []standards.Designation) {
	length := fieldkit.Length(0)
	for _, x := range r {
		switch base := fieldkit.Length(x.value.Base); x.attribute.Name {
		case "length":
			length = base
		case "outside":
			if length == 0 {
				length = base - 14*mm
			}
		}
	}
	measured := length != 0
	if !measured {
		length = anyBelt
	}
	// A length that no belt has is compared with the shortest and the longest.
	whole := int64(math.Round(float64(min(max(length, standards.ShortestBelt), standards.LongestBelt)) / float64(mm)))
	for _, profile := range []string{"PK", "PJ", "PH", "PL", "PM"} {
		for ribs := fewestBeltRibs; ribs <= mostBeltRibs; ribs++ {
			b, err := h.BeltOf(ribs, profile, fieldkit.Length(whole)*mm)
			switch {
			case err != nil:
			case measured:
				all = append(all, b)
			default:
				all = append(all, beltOfAnyLength{b})
			}
		}
	}
	return all
}

// anyBelt stands for a length that was not measured.
const anyBelt = 1000 * mm

// beltOfAnyLength is a belt of which ribs and profile are known.
type beltOfAnyLength struct{ standards.Belt }

func (b beltOfAnyLength) String() string { return fmt.Sprintf("%d%s", b.Ribs, b.Profile) }

func (b beltOfAnyLength) Dims() []standards.Dim {
	return slices.DeleteFunc(b.Belt.Dims(), func(d standards.Dim) bool { return d.Name == "length" || d.Name == "outside" })
}
