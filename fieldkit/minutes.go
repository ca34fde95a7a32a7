package fieldkit

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"
	"unicode"
)

// Minutes is a span of time on the trail, to the minute.
type Minutes int64

// MaxMinutes bounds a span at a year; anything longer is a slip of the finger.
const MaxMinutes Minutes = 366 * 24 * 60

// ParseMinutes reads "2 h 30 min", "2:30", "90 min", "1.5 h" or a bare number of
// hours. Errors are of kind BadInput.
func ParseMinutes(text string) (Minutes, error) {
	s := strings.ToLower(strings.TrimSpace(text))
	if h, m, ok := strings.Cut(s, ":"); ok && len(m) == 2 && m <= "59" {
		s = h + " h " + m + " min"
	}
	if len(s) <= MaxAmountText {
		if n, ok := wholeMinutes(s); ok {
			return n, nil
		}
		if total, ok := exactMinutes(s); ok {
			n, ok := roundToInt64(total)
			if !ok || Minutes(n) > MaxMinutes {
				return 0, badInput(fmt.Sprintf("%q is longer than a year", s), "check the number")
			}
			return Minutes(n), nil
		}
	}
	return 0, badInput(fmt.Sprintf("%q is not a span of time", s), "write 2 h 30 min, 2:30 or 1.5 h")
}

// wholeMinutes reads spans in whole numbers, as nearly all are, up to MaxMinutes.
func wholeMinutes(s string) (total Minutes, ok bool) {
	for rest := s; rest != ""; {
		digits, after := cutWhile(rest, unicode.IsDigit)
		n, err := strconv.ParseUint(digits, 10, 32)
		word, next := cutUnit(after)
		per, known := minutesPer(word)
		alone := rest == s && next == ""
		if err != nil || !known || word == "" && !alone {
			return 0, false
		}
		total += Minutes(n) * Minutes(per)
		rest = next
	}
	return total, s != "" && total <= MaxMinutes
}

// exactMinutes reads spans of whatever numbers people write.
func exactMinutes(s string) (total *big.Rat, ok bool) {
	total = new(big.Rat)
	for rest := s; ; {
		number, after, err := cutNumber(rest)
		if err != nil {
			return nil, false
		}
		word, next := cutUnit(after)
		per, known := minutesPer(word)
		if !known || word == "" && rest != s {
			return nil, false
		}
		total.Add(total, number.Mul(number, big.NewRat(per, 1)))
		if rest = next; rest == "" {
			return total, true
		}
	}
}

// minutesPer gives the minutes in a unit of time as people write it.
func minutesPer(word string) (minutes int64, ok bool) {
	switch word {
	case "", "h", "hr", "hrs", "hour", "hours":
		return 60, true
	case "min", "mins", "minute", "minutes", "m":
		return 1, true
	case "d", "day", "days":
		return 24 * 60, true
	}
	return 0, false
}

// Hours returns the span as a number of hours, for sums that need one.
func (m Minutes) Hours() float64 { return float64(m) / 60 }

// String prints "2 h 30 min".
func (m Minutes) String() string {
	h, rest := m/60, m%60
	switch {
	case m < 0 && h == 0:
		return fmt.Sprintf("%d min", m)
	case m < 0:
		return fmt.Sprintf("%d h %d min", h, -rest)
	case h == 0:
		return fmt.Sprintf("%d min", rest)
	case rest == 0:
		return fmt.Sprintf("%d h", h)
	}
	return fmt.Sprintf("%d h %d min", h, rest)
}

// MarshalText writes what String prints.
func (m Minutes) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// UnmarshalText reads what MarshalText wrote.
func (m *Minutes) UnmarshalText(text []byte) error {
	parsed, err := ParseMinutes(string(text))
	if err == nil {
		*m = parsed
	}
	return err
}
