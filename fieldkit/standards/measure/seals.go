package measure

import (
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// What seals measure beside their nominal sizes.
const (
	pressOver   = 350 * um // a seal is larger than its bore so that it stays in (ISO 6194-1, from memory)
	sealWidth   = 300 * um // tolerance of the width up to 10 mm (ISO 6194-1, from memory)
	shaftUnder  = 190 * um // shafts are made to h11 (ISO 6194-1, from memory)
	lipUnder    = 3 * mm   // the free lip is 1 to 3 mm smaller than the shaft (common practice)
	wornShaft   = 300 * um // a groove where the lip ran
	wornSealLip = 1 * mm   // hardened and worn open
)

var seal = Kind{
	Name: "seal", Aliases: []string{"shaft seal", "oil seal", "radial shaft seal", "lip seal"},
	Title: "Radial shaft seals",
	Attributes: []Attribute{
		{
			Name: "shaft", Aliases: []string{"id", "inside diameter", "shaft diameter", "d"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "the shaft beside where the lip runs; the free lip is smaller",
			Wear: Spread{wornShaft, 0}, spread: evenly(shaftUnder, 0),
		},
		{
			Name: "bore", Aliases: []string{"od", "outside diameter", "housing", "housing bore", "outside_diameter"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "the bore of the housing, or over the seal, which is a little larger",
			Wear: Spread{100 * um, 100 * um}, spread: evenly(0, pressOver),
		},
		{
			Name: "width", Aliases: []string{"b", "w", "height", "thickness"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "the case of the seal, not over the lip",
			Wear: Spread{100 * um, 0}, spread: evenly(sealWidth, sealWidth),
		},
		{
			Name: "lip", Aliases: []string{"lip diameter", "free lip"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "across the free lip without pressing it open",
			Wear: Spread{0, wornSealLip}, spread: evenly(lipUnder, 0),
			of: func(p part) (fieldkit.Value, bool) { return p.dim("shaft") },
		},
	},
	candidates: listed(standards.KindSeal),
}

// What O-rings measure beside their nominal sizes.
const (
	// Of the inside diameter ISO 3601-1 and AS568 allow about 1 per cent, of small
	// rings a tenth of a millimetre (from memory).
	ringShare = 0.01
	ringLeast = 130 * um
	// A used ring is flattened and stretched (common practice).
	flattened = 500 * um
	stretched = 500 * um
)

var oRing = Kind{
	Name: "o-ring", Aliases: []string{"oring", "o ring"},
	Title: "O-rings (AS568)",
	Attributes: []Attribute{
		{
			Name: "id", Aliases: []string{"inside diameter", "inner diameter", "inside"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "inside, on a cone or over a rod, the ring not stretched",
			Wear: Spread{stretched, stretched}, spread: ringSpread,
		},
		{
			Name: "cs", Aliases: []string{"cross section", "cross-section", "thickness", "cord", "section", "width", "w"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "through the cord, across where it is least flattened",
			Wear: Spread{flattened, 0},
			spread: func(d standards.Designation, _ fieldkit.Length) Spread {
				tol := d.(standards.ORing).CrossTol
				return Spread{tol, tol}
			},
		},
		{
			Name: "od", Aliases: []string{"outside diameter", "outside", "outer diameter"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "outside, the ring lying free",
			Wear: Spread{stretched, stretched}, spread: ringSpread,
		},
	},
	candidates: listed(standards.KindORing),
}

func ringSpread(_ standards.Designation, figure fieldkit.Length) Spread {
	s := max(ringLeast, fieldkit.Length(ringShare*float64(figure)))
	return Spread{s, s}
}
