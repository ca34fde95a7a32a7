package fieldkit

import (
	"fmt"
	"math/big"
	"strings"
	"unicode/utf8"
)

// finestInchFraction is the smallest division of a workshop rule or drill
// index; finer readings are written as decimals (common practice).
const finestInchFraction = 64

// maxExactDecimals is how many decimals exactText tries; a base unit of any
// dimension is no finer than this in its largest unit.
const maxExactDecimals = 15

// exactText writes base units as the shortest text that reads back to the same
// base units, the metric form winning a tie. It is the form kept in files.
func exactText(dim Dimension, base int64) string {
	best, of, least := "", "", 0
	for _, u := range units {
		if u.dim != dim {
			continue
		}
		fraction, digits := exactForms(u, base)
		for _, number := range [...]string{fraction, digits} {
			n := len(number) + utf8.RuneCountInString(u.symbol)
			if number != "" && (best == "" || n < least) {
				best, of, least = number, u.symbol, n
			}
		}
	}
	if of == "" {
		return best
	}
	return best + " " + of
}

// exactForms writes base units as a fraction and as a decimal number of a unit, either
// of them empty if it does not read back to the same.
func exactForms(u unit, base int64) (fraction, digits string) {
	if u.dim == DimLength && u.symbol == "in" && base%(u.factor.over/finestInchFraction) == 0 {
		fraction, _ = inchFraction(u.reading(base))
	}
	if digits, ok := wholeFactorDigits(u, base); ok {
		return fraction, digits
	}
	r := u.reading(base)
	for n := 0; n <= maxExactDecimals; n++ {
		text := r.FloatString(n)
		back, _ := new(big.Rat).SetString(text)
		if rounded, ok := roundToInt64(u.base(back)); ok && rounded == base {
			return fraction, text
		}
	}
	return fraction, ""
}

// inchFraction writes a reading as a mixed fraction when it is an exact multiple
// of 1/64, and is not whole.
func inchFraction(r *big.Rat) (string, bool) {
	den := r.Denom()
	if !den.IsInt64() || den.Int64() == 1 || finestInchFraction%den.Int64() != 0 {
		return "", false
	}
	sign := ""
	num := new(big.Int).Set(r.Num())
	if num.Sign() < 0 {
		sign = "-"
		num.Abs(num)
	}
	whole, part := new(big.Int).QuoRem(num, den, new(big.Int))
	if whole.Sign() == 0 {
		return fmt.Sprintf("%s%s/%s", sign, part, den), true
	}
	return fmt.Sprintf("%s%s-%s/%s", sign, whole, part, den), true
}

// decimals writes r with at most n decimals, rounded half away from zero,
// without trailing zeros.
func decimals(r *big.Rat, n int) string {
	scale := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil))
	scaled, ok := roundToInt64(new(big.Rat).Mul(r, scale))
	if !ok {
		return r.FloatString(n)
	}
	s := new(big.Rat).Quo(new(big.Rat).SetInt64(scaled), scale).FloatString(n)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// shownAs says in which unit and with how many decimals people of a system write a
// quantity from a size on.
type shownAs struct {
	dim      Dimension
	system   System // "" for both
	symbol   string
	atLeast  int64 // smallest absolute reading shown in this unit
	decimals int
}

// shown lists the forms of each dimension, the largest unit first.
var shown = []shownAs{
	{DimLength, Metric, "mm", 0, 2},
	{DimLength, Inch, "in", 0, 3},
	{DimDistance, Metric, "km", 10, 0}, {DimDistance, Metric, "km", 0, 1},
	{DimDistance, Inch, "mi", 10, 0}, {DimDistance, Inch, "mi", 0, 1},
	{DimMass, Metric, "kg", 10, 1}, {DimMass, Metric, "kg", 1, 2}, {DimMass, Metric, "g", 0, 0},
	{DimMass, Inch, "lb", 10, 0}, {DimMass, Inch, "lb", 1, 1}, {DimMass, Inch, "oz", 0, 1},
	{DimVolume, Metric, "L", 10, 0}, {DimVolume, Metric, "L", 1, 2}, {DimVolume, Metric, "mL", 0, 0},
	{DimVolume, Inch, "gal", 1, 2}, {DimVolume, Inch, "qt", 1, 2}, {DimVolume, Inch, "fl oz", 0, 1},
	{DimTorque, Metric, "N·m", 10, 0}, {DimTorque, Metric, "N·m", 0, 1},
	{DimTorque, Inch, "lb-ft", 10, 0}, {DimTorque, Inch, "lb-in", 0, 0},
	{DimPressure, Metric, "kPa", 0, 0},
	{DimPressure, Inch, "psi", 0, 1},
	{DimTemperature, Metric, "°C", 0, 0},
	{DimTemperature, Inch, "°F", 0, 0},
	{DimAngle, "", "°", 0, 2},
	{DimVoltage, "", "V", 0, 2},
	{DimCurrent, "", "A", 0, 2},
	{DimCount, "", "", 0, 3},
}

// show writes base units as a person of the system writes them, rounded for
// reading.
func show(dim Dimension, base int64, system System) string {
	if system != Inch {
		system = Metric
	}
	for _, as := range shown {
		if as.dim != dim || as.system != system && as.system != "" {
			continue
		}
		u, _ := unitOf(as.symbol, dim)
		r := u.reading(base)
		if u.offset.none() && new(big.Rat).Abs(r).Cmp(big.NewRat(as.atLeast, 1)) < 0 {
			continue
		}
		if dim == DimLength && system == Inch {
			if f, ok := inchFraction(r); ok {
				return f + " in"
			}
		}
		return strings.TrimSpace(decimals(r, as.decimals) + spaced(as.symbol))
	}
	return exactText(dim, base)
}

func spaced(symbol string) string {
	if symbol == "°" {
		return symbol
	}
	return " " + symbol
}

// showBoth writes the quantity in the system read first, the other in brackets.
func showBoth(dim Dimension, base int64, first System) string {
	a, b := show(dim, base, first), show(dim, base, first.Other())
	if a == b {
		return a
	}
	return a + " (" + b + ")"
}
