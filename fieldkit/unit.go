package fieldkit

import (
	"math/big"
	"strings"
	"sync"
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
	factor  ratio
	offset  ratio    // temperatures only
	aliases []string // as people write it, lower case
}

// ratio is an exact constant; the zero ratio is none. Big numbers are made of it
// where they are needed: the table of units is to cost nothing at the start.
type ratio struct{ over, under int64 }

func (r ratio) none() bool      { return r.under == 0 }
func (r ratio) exact() *big.Rat { return big.NewRat(r.over, r.under) }

// units lists every unit understood, the usual one of each system first.
//
// Factors are exact by definition: the inch is 25.4 mm and the pound
// 0.45359237 kg (international yard and pound agreement, 1959); the US gallon is
// 231 cubic inches; the pound-force is the pound times 9.80665 m/s² (NIST SP 811,
// appendix B); a degree Fahrenheit is 5/9 K and 0 °F is 459.67 °F above absolute
// zero.
var units = []unit{
	{"mm", DimLength, Metric, ratio{1_000_000, 1}, ratio{}, []string{"millimetre", "millimeter", "millimetres", "millimeters"}},
	{"in", DimLength, Inch, ratio{25_400_000, 1}, ratio{}, []string{"\"", "inch", "inches", "″", "''", "”"}},
	{"cm", DimLength, Metric, ratio{10_000_000, 1}, ratio{}, []string{"centimetre", "centimeter"}},
	{"m", DimLength, Metric, ratio{1_000_000_000, 1}, ratio{}, []string{"metre", "meter", "metres", "meters"}},
	{"ft", DimLength, Inch, ratio{304_800_000, 1}, ratio{}, []string{"'", "foot", "feet", "′"}},
	{"thou", DimLength, Inch, ratio{25400, 1}, ratio{}, []string{"mil"}},
	{"µm", DimLength, Metric, ratio{1000, 1}, ratio{}, []string{"um", "micron", "μm"}},

	{"km", DimDistance, Metric, ratio{1_000_000, 1}, ratio{}, []string{"kilometre", "kilometer", "kilometres", "kilometers"}},
	{"mi", DimDistance, Inch, ratio{1_609_344, 1}, ratio{}, []string{"mile", "miles"}},

	{"kg", DimMass, Metric, ratio{1_000_000_000_000, 1}, ratio{}, []string{"kilo", "kilos", "kilogram", "kilograms"}},
	{"lb", DimMass, Inch, ratio{453_592_370_000, 1}, ratio{}, []string{"lbs", "pound", "pounds", "#"}},
	{"g", DimMass, Metric, ratio{1_000_000_000, 1}, ratio{}, []string{"gram", "grams"}},
	{"oz", DimMass, Inch, ratio{28_349_523_125, 1}, ratio{}, []string{"ounce", "ounces"}},

	{"L", DimVolume, Metric, ratio{1_000_000_000_000_000, 1}, ratio{}, []string{"l", "litre", "liter", "litres", "liters"}},
	{"gal", DimVolume, Inch, ratio{3_785_411_784_000_000, 1}, ratio{}, []string{"gallon", "gallons"}},
	{"mL", DimVolume, Metric, ratio{1_000_000_000_000, 1}, ratio{}, []string{"ml", "cc", "cm³", "cm3"}},
	{"qt", DimVolume, Inch, ratio{946_352_946_000_000, 1}, ratio{}, []string{"quart", "quarts"}},
	{"pt", DimVolume, Inch, ratio{473_176_473_000_000, 1}, ratio{}, []string{"pint", "pints"}},
	{"fl oz", DimVolume, Inch, ratio{29_573_529_562_500, 1}, ratio{}, []string{"floz", "fl. oz"}},

	{"N·m", DimTorque, Metric, ratio{1_000_000, 1}, ratio{}, []string{"nm", "n m", "n.m", "n-m", "newton metre"}},
	{"lb-ft", DimTorque, Inch, ratio{13_558_179_483_314_004, 10_000_000_000}, ratio{}, []string{"lbf-ft", "lbf·ft", "ft-lb", "ft-lbs", "ft lb", "ft lbs", "lb ft", "lbft", "ftlb", "foot pounds"}},
	{"lb-in", DimTorque, Inch, ratio{1_129_848_290_276_167, 10_000_000_000}, ratio{}, []string{"lbf-in", "in-lb", "in-lbs", "in lb", "lb in"}},

	{"kPa", DimPressure, Metric, ratio{1_000_000, 1}, ratio{}, []string{"kpa"}},
	{"psi", DimPressure, Inch, ratio{44_482_216_152_605, 6_451_600}, ratio{}, []string{"lb/in²", "lbf/in²"}},
	{"bar", DimPressure, Metric, ratio{100_000_000, 1}, ratio{}, nil},
	{"MPa", DimPressure, Metric, ratio{1_000_000_000, 1}, ratio{}, []string{"mpa"}},

	{"°C", DimTemperature, Metric, ratio{1800, 1}, ratio{27315, 100}, []string{"c", "degc", "deg c", "celsius"}},
	{"°F", DimTemperature, Inch, ratio{1000, 1}, ratio{45967, 100}, []string{"f", "degf", "deg f", "fahrenheit"}},

	{"°", DimAngle, "", ratio{3600, 1}, ratio{}, []string{"deg", "degree", "degrees"}},
	{"V", DimVoltage, "", ratio{1_000_000, 1}, ratio{}, []string{"v", "volt", "volts"}},
	{"A", DimCurrent, "", ratio{1_000_000, 1}, ratio{}, []string{"a", "amp", "amps"}},
	{"", DimCount, "", ratio{1_000_000, 1}, ratio{}, []string{"teeth", "tooth", "splines", "spline", "ribs", "studs", "holes", "threads", "pieces"}},
}

// unitOf finds the unit a person wrote for a dimension, "" dim meaning any.
func unitOf(written string, dim Dimension) (unit, bool) {
	for i := range units {
		if u := &units[i]; u.symbol == written && (u.dim == dim || dim == "") {
			return *u, true // as this program writes it
		}
	}
	for _, i := range unitsCalled(written) {
		if dim == "" || units[i].dim == dim {
			return units[i], true
		}
	}
	return unit{}, false
}

// unitsCalled lists the units a person may mean by a word, as places in units.
func unitsCalled(written string) []int { return unitsNamed()[foldUnit(written)] }

func foldUnit(written string) string {
	return strings.TrimSuffix(strings.ToLower(strings.TrimSpace(written)), ".")
}

// unitsNamed finds units by symbol and alias, folded, in the order of the list.
var unitsNamed = sync.OnceValue(func() map[string][]int {
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
})

// base returns v of this unit in base units, exactly.
func (u unit) base(v *big.Rat) *big.Rat {
	r := new(big.Rat).Set(v)
	if !u.offset.none() {
		r.Add(r, u.offset.exact())
	}
	return r.Mul(r, u.factor.exact())
}

// reading returns base units as a reading of this unit, exactly.
func (u unit) reading(base int64) *big.Rat {
	r := new(big.Rat).SetInt64(base)
	r.Quo(r, u.factor.exact())
	if !u.offset.none() {
		r.Sub(r, u.offset.exact())
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
