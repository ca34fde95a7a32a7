package fieldkit

import (
	"fmt"
	"math/big"
	"strings"
	"unicode"
	"unicode/utf8"
)

// MaxAmountText is the longest text read as an amount; no tool's reading and no
// label is longer.
const MaxAmountText = 64

// parseAmount reads a number with its unit as people write it ("1-3/8",
// "1 3/8 in", `1.375"`, "34,93 mm", "5 ft 3 in", "½ in") and returns base units,
// exactly. A number without a unit is taken in fallback; with no fallback it is
// refused.
func parseAmount(text string, dim Dimension, fallback string) (*big.Rat, error) {
	s := strings.TrimSpace(text)
	if len(s) > MaxAmountText {
		return nil, badInput(fmt.Sprintf("a text of %d characters is not a %s", len(s), dim), "write a number and its unit")
	}
	if s == "" {
		return nil, badInput("nothing is written", "write a number and its unit, "+example(dim))
	}
	sum := new(big.Rat)
	seen := map[string]bool{}
	rest, negative := cutMinus(s)
	for first := true; rest != "" || first; first = false {
		number, after, err := cutNumber(rest)
		if err != nil {
			return nil, badInput(fmt.Sprintf("%q is not a %s: %s", s, noun(dim), err), "write "+example(dim))
		}
		symbol, next := cutUnit(after)
		if symbol == "" {
			if next != "" || !first || (fallback == "" && dim != DimCount) {
				return nil, badInput(fmt.Sprintf("%q has no unit", s), "write "+example(dim))
			}
			symbol = fallback
		}
		u, ok := unitOf(symbol, dim)
		if !ok {
			return nil, badInput(fmt.Sprintf("%q is not a unit of %s", symbol, dim), "write "+example(dim))
		}
		if seen[u.symbol] || (!first && !u.offset.none()) {
			return nil, badInput(fmt.Sprintf("%q gives %s twice", s, u.symbol), "write "+example(dim))
		}
		seen[u.symbol] = true
		if negative && !u.offset.none() {
			number.Neg(number)
			negative = false
		}
		sum.Add(sum, u.base(number))
		rest = next
	}
	if negative {
		sum.Neg(sum)
	}
	return sum, nil
}

// cutMinus takes a minus, or the longer one of print, off the front.
func cutMinus(s string) (rest string, negative bool) {
	for _, minus := range []string{"-", "−"} {
		if rest, found := strings.CutPrefix(s, minus); found {
			return rest, true
		}
	}
	return s, false
}

// vulgar spells out a fraction that is one character, "" for any other.
func vulgar(r rune) string {
	switch r {
	case '½':
		return "1/2"
	case '¼':
		return "1/4"
	case '¾':
		return "3/4"
	case '⅛':
		return "1/8"
	case '⅜':
		return "3/8"
	case '⅝':
		return "5/8"
	case '⅞':
		return "7/8"
	case '⅓':
		return "1/3"
	case '⅔':
		return "2/3"
	}
	return ""
}

// cutNumber takes a whole number, decimal, fraction or mixed number off the front.
func cutNumber(s string) (*big.Rat, string, error) {
	// Only the first one: a later one belongs to a number still to come.
	if i := strings.IndexFunc(s, isVulgar); i >= 0 {
		r, size := utf8.DecodeRuneInString(s[i:])
		s = strings.TrimSpace(strings.TrimRight(s[:i], " -") + " " + vulgar(r) + s[i+size:])
	}
	head, rest := cutWhile(s, func(r rune) bool { return r >= '0' && r <= '9' || r == '.' || r == ',' })
	if head == "" {
		return nil, "", fmt.Errorf("a number is missing")
	}
	if strings.HasPrefix(rest, "/") {
		return cutFraction(nil, head, rest)
	}
	value, err := decimal(head)
	if err != nil {
		return nil, "", err
	}
	// "1-3/8" and "1 3/8": a whole number followed by a fraction.
	if joined := strings.TrimLeft(rest, " -–"); joined != rest && value.IsInt() {
		num, tail := cutWhile(joined, unicode.IsDigit)
		if num != "" && strings.HasPrefix(tail, "/") {
			return cutFraction(value, num, tail)
		}
	}
	return value, strings.TrimSpace(rest), nil
}

func cutFraction(whole *big.Rat, num, slashed string) (*big.Rat, string, error) {
	den, rest := cutWhile(slashed[1:], unicode.IsDigit)
	if den == "" || strings.HasPrefix(rest, "/") || strings.ContainsAny(num, ".,") {
		return nil, "", fmt.Errorf("the fraction is not a whole number over a whole number")
	}
	n, okN := new(big.Int).SetString(num, 10)
	d, okD := new(big.Int).SetString(den, 10)
	if !okN || !okD || d.Sign() == 0 {
		return nil, "", fmt.Errorf("the fraction is over nothing")
	}
	value := new(big.Rat).SetFrac(n, d)
	if whole != nil {
		value.Add(value, whole)
	}
	return value, strings.TrimSpace(rest), nil
}

// decimal reads digits with a point or comma. "1,234" could be twelve hundred or
// one and a bit, so it is refused rather than guessed; "0,375" and "1234,567"
// cannot be grouped digits.
func decimal(s string) (*big.Rat, error) {
	points, commas := strings.Count(s, "."), strings.Count(s, ",")
	switch {
	case points > 1 || commas > 1 || points+commas > 1:
		return nil, fmt.Errorf("%s has more than one decimal mark", s)
	case commas == 1 && groupedDigits(s):
		plain := strings.Replace(s, ",", "", 1)
		return nil, fmt.Errorf("%s can be read as %s or as %s", s, plain, strings.Replace(s, ",", ".", 1))
	}
	s = strings.Replace(s, ",", ".", 1)
	r, ok := new(big.Rat).SetString("0" + strings.TrimSuffix(s, "."))
	if !ok || s == "." {
		return nil, fmt.Errorf("%s is not a number", s)
	}
	return r, nil
}

// groupedDigits reports whether a text with one comma could be a whole number
// with its thousands set apart.
func groupedDigits(s string) bool {
	head, tail, _ := strings.Cut(s, ",")
	return len(tail) == 3 && len(head) >= 1 && len(head) <= 3 && head[0] != '0'
}

// cutUnit takes the unit off the front: everything up to the next digit, except
// in units that hold one (cm3).
func cutUnit(s string) (symbol, rest string) {
	for _, whole := range []string{"cm3", "cm³"} {
		if r, found := strings.CutPrefix(strings.ToLower(s), whole); found {
			return whole, strings.TrimSpace(r)
		}
	}
	symbol, rest = cutWhile(s, func(r rune) bool { return !unicode.IsDigit(r) && !isVulgar(r) })
	return strings.TrimSpace(symbol), strings.TrimSpace(rest)
}

func isVulgar(r rune) bool { return vulgar(r) != "" }

func cutWhile(s string, keep func(rune) bool) (head, rest string) {
	for i, r := range s {
		if !keep(r) {
			return s[:i], s[i:]
		}
	}
	return s, ""
}

func noun(d Dimension) string {
	if d == DimLength {
		return "size"
	}
	return string(d)
}

// example shows how a quantity of the dimension is written.
func example(d Dimension) string {
	switch d {
	case DimLength:
		return "1-3/8, 1.375 in or 34.9 mm"
	case DimDistance:
		return "120 km or 75 mi"
	case DimMass:
		return "2.5 kg or 5 lb 8 oz"
	case DimVolume:
		return "1.5 L, 2 qt or 300 mL"
	case DimTorque:
		return "120 N·m or 90 lb-ft"
	case DimPressure:
		return "240 kPa, 2.4 bar or 35 psi"
	case DimTemperature:
		return "90 °C or 195 °F"
	case DimAngle:
		return "12 deg"
	case DimVoltage:
		return "12.6 V"
	case DimCurrent:
		return "30 A"
	}
	return "28"
}
