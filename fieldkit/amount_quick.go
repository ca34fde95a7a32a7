package fieldkit

import (
	"math"
	"math/bits"
	"strconv"
	"strings"
)

// A kit holds thousands of quantities, nearly all a plain decimal with one unit
// that is a whole number of base units. Those are read and printed here in whole
// numbers of 64 bits, with the same results as the exact way of parseAmount and
// exactForms, which takes over for everything else.

// quickBase reads "34.925 mm" and the like; ok is false for whatever is not as
// plain as that, which may still be an amount.
func quickBase(text string, dim Dimension) (base int64, ok bool) {
	s, negative := cutMinus(strings.TrimSpace(text))
	digits, decimals, symbol, ok := cutPlain(s)
	if !ok || len(s) > MaxAmountText {
		return 0, false
	}
	u, ok := unitOf(symbol, dim)
	if !ok {
		return 0, false
	}
	factor, ok := u.wholeFactor()
	if !ok {
		return 0, false
	}
	number, err := strconv.ParseUint(digits, 10, 64)
	if err != nil {
		return 0, false
	}
	size, ok := mulDivRound(number, factor, uint64(math.Pow10(decimals)))
	if !ok || size > math.MaxInt64 {
		return 0, false
	}
	if negative {
		return -int64(size), true
	}
	return int64(size), true
}

// cutPlain takes a number in digits with a point, or none, off the front: its
// digits without the point and how many of them are decimals.
func cutPlain(s string) (digits string, decimals int, rest string, ok bool) {
	end, point := 0, -1
	for ; end < len(s) && (s[end] >= '0' && s[end] <= '9' || s[end] == '.' && point < 0); end++ {
		if s[end] == '.' {
			point = end
		}
	}
	digits = s[:end]
	if point >= 0 {
		digits, decimals = s[:point]+s[point+1:end], end-point-1
	}
	return digits, decimals, s[end:], digits != "" && len(digits) <= maxQuickDigits && decimals <= maxExactDecimals
}

// maxQuickDigits always fit 64 bits.
const maxQuickDigits = 18

// wholeFactor gives the base units in the unit, if they are a whole number.
func (u unit) wholeFactor() (factor uint64, ok bool) {
	return uint64(u.factor.over), u.offset.none() && u.factor.under == 1
}

// wholeFactorDigits finds the fewest decimals that read back to base, as the loop
// in exactForms does, in whole numbers. The digits are empty if no number of
// decimals tried does; ok is false for the units and sizes that need big numbers.
func wholeFactorDigits(u unit, base int64) (digits string, ok bool) {
	factor, ok := u.wholeFactor()
	if !ok {
		return "", false
	}
	size, sign := uint64(base), ""
	if base < 0 {
		size, sign = -size, "-"
	}
	for n, scale := 0, uint64(1); n <= maxExactDecimals; n, scale = n+1, scale*10 {
		reading, ok := mulDivRound(size, scale, factor)
		if !ok {
			return "", false
		}
		back, ok := mulDivRound(reading, factor, scale)
		if !ok {
			return "", false
		}
		if back == size {
			whole, part := reading/scale, reading%scale
			digits = sign + strconv.FormatUint(whole, 10)
			if n > 0 {
				digits += "." + padded(int(part), n)
			}
			return digits, true
		}
	}
	return "", true
}

// padded writes a number with zeros in front up to a width, of maxExactDecimals at most.
func padded(n, width int) string {
	const zeros = "000000000000000"
	digits := strconv.Itoa(n)
	return zeros[:max(0, width-len(digits))] + digits
}

// mulDivRound returns a·b/c rounded half up; ok is false beyond 64 bits.
func mulDivRound(a, b, c uint64) (uint64, bool) {
	hi, lo := bits.Mul64(a, b)
	lo, carry := bits.Add64(lo, c/2, 0)
	hi += carry
	if hi >= c {
		return 0, false
	}
	quotient, _ := bits.Div64(hi, lo, c)
	return quotient, true
}
