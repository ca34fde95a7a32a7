package driveline

import (
	"math"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

// ShaftTorque is the torque at which the surface of a solid round shaft reaches a shear
// stress: T = τ·π·d³/16. Special case: no diameter or no stress gives 0.
// Source: torsion of a round bar, any textbook of mechanics; checked against the table
// of splines.
func ShaftTorque(d fieldkit.Length, shear fieldkit.Pressure) fieldkit.Torque {
	if d <= 0 || shear <= 0 {
		return 0
	}
	metres := float64(d) / float64(fieldkit.Millimetre) / 1000
	pascals := float64(shear) / float64(fieldkit.Kilopascal) * 1000
	return fieldkit.Torque(math.Round(pascals * math.Pi * metres * metres * metres / 16 * float64(fieldkit.NewtonMetre)))
}

// ShearYield is the shear stress at which steel of a yield strength yields in torsion:
// σ/√3, by the distortion-energy (von Mises) criterion.
func ShearYield(yield fieldkit.Pressure) fieldkit.Pressure {
	return fieldkit.Pressure(math.Round(float64(yield) / math.Sqrt(3)))
}

// SplineDiameter is the diameter over the splines of the 24/48 pitch that axles have:
// (N + 1)/24 in. Some axles use another pitch: where the shaft is measured, that stands.
// Source: SAE/ANSI B92.1; 35 splines 1.500 in, 40 splines 1.708 in.
func SplineDiameter(splines int) fieldkit.Length {
	if splines <= 0 {
		return 0
	}
	return fieldkit.Length(math.Round(float64(splines+1) / 24 * float64(fieldkit.Inches)))
}

// Measurements of a part that say how strong it is.
const (
	YieldName  = "yield strength" // of its steel
	RatingName = "torque rating"  // in the maker's book
)

// strength is what a part takes, or what would have to be known.
type strength struct {
	torque  fieldkit.Torque
	how     string
	missing string
}

// strengthOf is what the fitted part takes: its rating where one was read, else a
// shaft's yield by its thinnest measure.
func strengthOf(part fieldkit.Part, shaft bool, usual fieldkit.Value) strength {
	var thinnest fieldkit.Length
	how, yield := "", usual
	for _, m := range part.Measurements {
		name := strings.ToLower(m.Name)
		d := fieldkit.Length(0)
		switch {
		case name == RatingName && m.Value.Dim == fieldkit.DimTorque && m.Value.Base > 0:
			return strength{torque: fieldkit.Torque(m.Value.Base), how: "rating written down"}
		case name == YieldName:
			yield = m.Value
		case strings.HasSuffix(name, "shaft diameter") && m.Value.Dim == fieldkit.DimLength:
			d = fieldkit.Length(m.Value.Base)
		case strings.HasSuffix(name, "splines") && m.Value.Dim == fieldkit.DimCount:
			d = SplineDiameter(int(m.Value.Base / 1_000_000))
		}
		if d > 0 && (thinnest == 0 || d < thinnest) {
			thinnest, how = d, m.Name+" "+m.Value.Show(fieldkit.Inch)
		}
	}
	switch {
	case !shaft:
		return strength{missing: "a " + RatingName + " from its maker's book"}
	case thinnest == 0:
		return strength{missing: "splines counted or a shaft diameter"}
	case yield.Dim != fieldkit.DimPressure || yield.Base <= 0:
		return strength{missing: "the " + YieldName + " of its steel"}
	}
	steel := fieldkit.Pressure(yield.Base)
	return strength{torque: ShaftTorque(thinnest, ShearYield(steel)), how: "yields in torsion: " + how + " (" + thinnest.Both(fieldkit.Inch) + "), steel of " + strconv.FormatFloat(float64(steel)/float64(fieldkit.Kilopascal)/1000, 'f', 0, 64) + " MPa"}
}
