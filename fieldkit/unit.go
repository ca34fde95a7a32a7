package fieldkit

import (
	"math/big"
	"strings"
)

// System is the family of units a person reads first.
type System string

const (
	Metric System = "metric"
	Inch   System = "inch"
)

// Other returns the system shown second.
func (s System) Other() System {
	if s == Inch {
		return Metric
	}
	return Inch
}

// Dimension is what a quantity measures.
type Dimension string

const (
	DimLength      Dimension = "length"
	DimDistance    Dimension = "distance"
	DimMass        Dimension = "mass"
	DimVolume      Dimension = "volume"
	DimTorque      Dimension = "torque"
	DimPressure    Dimension = "pressure"
	DimTemperature Dimension = "temperature"
	DimAngle       Dimension = "angle"
	DimVoltage     Dimension = "voltage"
	DimCurrent     Dimension = "current"
	DimCount       Dimension = "count"
	DimText        Dimension = "text"
)

// unit is a named multiple of a dimension's base unit. A reading v of the unit
// is (v + offset) × factor base units.
type unit struct {
	symbol  string // as printed
	dim     Dimension
	system  System // "" when used in both
	factor  *big.Rat
	offset  *big.Rat // temperatures only
	aliases []string // as people write it, lower case
}

// rat reads a constant of this file; it panics on a misprint, which the first
// test run shows.
func rat(s string) *big.Rat {
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		panic("fieldkit: bad constant " + s)
	}
	return r
}

// units lists every unit understood, the usual one of each system first.
//
// Factors are exact by definition: the inch is 25.4 mm and the pound
// 0.45359237 kg (international yard and pound agreement, 1959); the US gallon is
// 231 cubic inches; the pound-force is the pound times 9.80665 m/s² (NIST SP 811,
// appendix B); a degree Fahrenheit is 5/9 K and 0 °F is 459.67 °F above absolute
// zero.
var units = []unit{
	{"mm", DimLength, Metric, rat("1000000"), nil, []string{"millimetre", "millimeter", "millimetres", "millimeters"}},
	{"in", DimLength, Inch, rat("25400000"), nil, []string{"\"", "inch", "inches", "″", "''", "”"}},
	{"cm", DimLength, Metric, rat("10000000"), nil, []string{"centimetre", "centimeter"}},
	{"m", DimLength, Metric, rat("1000000000"), nil, []string{"metre", "meter", "metres", "meters"}},
	{"ft", DimLength, Inch, rat("304800000"), nil, []string{"'", "foot", "feet", "′"}},
	{"thou", DimLength, Inch, rat("25400"), nil, []string{"mil"}},
	{"µm", DimLength, Metric, rat("1000"), nil, []string{"um", "micron", "μm"}},

	{"km", DimDistance, Metric, rat("1000000"), nil, []string{"kilometre", "kilometer", "kilometres", "kilometers"}},
	{"mi", DimDistance, Inch, rat("1609344"), nil, []string{"mile", "miles"}},

	{"kg", DimMass, Metric, rat("1000000000000"), nil, []string{"kilo", "kilos", "kilogram", "kilograms"}},
	{"lb", DimMass, Inch, rat("453592370000"), nil, []string{"lbs", "pound", "pounds", "#"}},
	{"g", DimMass, Metric, rat("1000000000"), nil, []string{"gram", "grams"}},
	{"oz", DimMass, Inch, rat("28349523125"), nil, []string{"ounce", "ounces"}},

	{"L", DimVolume, Metric, rat("1000000000000000"), nil, []string{"l", "litre", "liter", "litres", "liters"}},
	{"gal", DimVolume, Inch, rat("3785411784000000"), nil, []string{"gallon", "gallons"}},
	{"mL", DimVolume, Metric, rat("1000000000000"), nil, []string{"ml", "cc", "cm³", "cm3"}},
	{"qt", DimVolume, Inch, rat("946352946000000"), nil, []string{"quart", "quarts"}},
	{"pt", DimVolume, Inch, rat("473176473000000"), nil, []string{"pint", "pints"}},
	{"fl oz", DimVolume, Inch, rat("29573529562500"), nil, []string{"floz", "fl. oz"}},

	{"N·m", DimTorque, Metric, rat("1000000"), nil, []string{"nm", "n m", "n.m", "n-m", "newton metre"}},
	{"lb-ft", DimTorque, Inch, rat("1355817.9483314004"), nil, []string{"lbf-ft", "lbf·ft", "ft-lb", "ft-lbs", "ft lb", "ft lbs", "lb ft", "lbft", "ftlb", "foot pounds"}},
	{"lb-in", DimTorque, Inch, rat("112984.8290276167"), nil, []string{"lbf-in", "in-lb", "in-lbs", "in lb", "lb in"}},

	{"kPa", DimPressure, Metric, rat("1000000"), nil, []string{"kpa"}},
	{"psi", DimPressure, Inch, rat("44482216152605/6451600"), nil, []string{"lb/in²", "lbf/in²"}},
	{"bar", DimPressure, Metric, rat("100000000"), nil, nil},
	{"MPa", DimPressure, Metric, rat("1000000000"), nil, []string{"mpa"}},

	{"°C", DimTemperature, Metric, rat("1800"), rat("273.15"), []string{"c", "degc", "deg c", "celsius"}},
	{"°F", DimTemperature, Inch, rat("1000"), rat("459.67"), []string{"f", "degf", "deg f", "fahrenheit"}},

	{"°", DimAngle, "", rat("3600"), nil, []string{"deg", "degree", "degrees"}},
	{"V", DimVoltage, "", rat("1000000"), nil, []string{"v", "volt", "volts"}},
	{"A", DimCurrent, "", rat("1000000"), nil, []string{"a", "amp", "amps"}},
	{"", DimCount, "", rat("1000000"), nil, []string{"teeth", "tooth", "splines", "spline", "ribs", "studs", "holes", "threads", "pieces"}},
}

// unitOf finds the unit a person wrote for a dimension, "" dim meaning any.
func unitOf(written string, dim Dimension) (unit, bool) {
	for _, i := range unitsNamed[foldUnit(written)] {
		if dim == "" || units[i].dim == dim {
			return units[i], true
		}
	}
	return unit{}, false
}

func foldUnit(written string) string {
	return strings.TrimSuffix(strings.ToLower(strings.TrimSpace(written)), ".")
}

// unitsNamed finds units by symbol and alias, folded, in the order of the list.
var unitsNamed = func() map[string][]int {
	named := map[string][]int{}
	for i, u := range units {
		named[foldUnit(u.symbol)] = append(named[foldUnit(u.symbol)], i)
		for _, a := range u.aliases {
			if a != foldUnit(u.symbol) {
				named[a] = append(named[a], i)
			}
		}
	}
	return named
}()

// base returns v of this unit in base units, exactly.
func (u unit) base(v *big.Rat) *big.Rat {
	r := new(big.Rat).Set(v)
	if u.offset != nil {
		r.Add(r, u.offset)
	}
	return r.Mul(r, u.factor)
}

// reading returns base units as a reading of this unit, exactly.
func (u unit) reading(base int64) *big.Rat {
	r := new(big.Rat).SetInt64(base)
	r.Quo(r, u.factor)
	if u.offset != nil {
		r.Sub(r, u.offset)
	}
	return r
}

// roundToInt64 rounds half away from zero; ok is false beyond int64.
func roundToInt64(r *big.Rat) (int64, bool) {
	num, den := new(big.Int).Set(r.Num()), r.Denom()
	negative := num.Sign() < 0
	num.Abs(num)
	num.Lsh(num, 1).Add(num, den)
	num.Quo(num, new(big.Int).Lsh(den, 1))
	if negative {
		num.Neg(num)
	}
	return num.Int64(), num.IsInt64()
}
