package measure

import (
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// Batteries are listed with the most they may measure; makers stay under it, in
// length and width by up to 6 mm, in height more (common practice).
const (
	batteryUnder = 6 * mm
	heightUnder  = 12 * mm
	bulged       = 5 * mm
)

var battery = Kind{
	Name: "battery", Aliases: []string{"battery group", "group", "bci"},
	Title: "Batteries by group",
	Attributes: []Attribute{
		{
			Name: "length", Aliases: []string{"l"}, Dim: fieldkit.DimLength, Tool: SteelRule,
			How:  "the long side of the case, with its rims but without hold-down ledges that stick out at the foot",
			Wear: Spread{0, bulged}, spread: evenly(batteryUnder, 1*mm),
		},
		{
			Name: "width", Aliases: []string{"w", "depth"}, Dim: fieldkit.DimLength, Tool: SteelRule,
			How:  "the short side of the case",
			Wear: Spread{0, bulged}, spread: evenly(batteryUnder, 1*mm),
		},
		{
			Name: "height", Aliases: []string{"h"}, Dim: fieldkit.DimLength, Tool: SteelRule,
			How:    "over everything, posts too",
			spread: evenly(heightUnder, 1*mm),
		},
		{
			Name: "terminals", Aliases: []string{"terminal", "posts"}, Dim: fieldkit.DimText, Tool: Eye,
			How:  "top post, recessed top post, side terminal, dual or studs",
			same: map[string][]string{"top": {"top post"}, "side": {"side terminal"}, "studs": {"studs"}, "recessed": {"recessed top post"}},
		},
	},
	candidates: listed(standards.KindBattery),
}

const fuseOff = 300 * um // moulded bodies; makers differ (common practice)

var fuse = Kind{
	Name: "fuse", Aliases: []string{"blade fuse", "fuses"},
	Title: "Blade and cartridge fuses",
	Attributes: []Attribute{
		{
			Name: "width", Aliases: []string{"w", "length"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:    "over the body from blade to blade",
			spread: evenly(fuseOff, fuseOff),
		},
		{
			Name: "height", Aliases: []string{"h"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:    "from the top of the body to the tips of the blades",
			spread: evenly(3*fuseOff, 3*fuseOff),
		},
		{
			Name: "depth", Aliases: []string{"thickness"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:    "through the body, front to back",
			spread: evenly(fuseOff, fuseOff),
		},
		{
			Name: "colour", Aliases: []string{"color"}, Dim: fieldkit.DimText, Tool: Eye,
			How:  "of the body; it stands for the rating",
			same: map[string][]string{"gray": {"grey"}, "purple": {"violet"}, "white": {"clear"}, "natural": {"clear"}, "beige": {"tan"}},
		},
		{
			Name: "rating", Aliases: []string{"amps", "ampere", "amperes"}, Dim: fieldkit.DimCurrent, Tool: Eye,
			How: "the figure on the body, in amperes",
		},
	},
	candidates: listed(standards.KindFuse),
}

// Wire is drawn to a hundredth; strands and tinning make it a little more or less
// (common practice).
const (
	wireShare = 0.03
	areaShare = 0.06
)

var wire = Kind{
	Name: "wire", Aliases: []string{"cable", "awg"},
	Title: "Wire by American gauge",
	Attributes: []Attribute{
		{
			Name: "diameter", Aliases: []string{"d", "conductor"}, Dim: fieldkit.DimLength, Tool: Micrometer,
			How:  "of one solid conductor, bare; of stranded wire give the area",
			Wear: Spread{100 * um, 0}, blur: wireShare,
		},
		{
			Name: "area", Aliases: []string{"section", "mm2"}, Dim: fieldkit.DimCount, Tool: Eye, ratio: areaShare, silent: true,
			How: "in mm²: of stranded wire, strands × 0.785 × the diameter of a strand × itself",
		},
	},
	candidates: listed(standards.KindWire),
}
