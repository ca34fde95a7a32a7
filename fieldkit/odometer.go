package fieldkit

import (
	"strings"
	"unicode/utf8"
)

// ParseOdometer is ParseDistance for what an odometer shows, where 55,240 or 55 240 or
// 55'240 can only mean thousands: odometers show one decimal at most (common practice).
// What ParseDistance reads, it reads alike, so 55.240 km stays a decimal. Errors are of
// kind BadInput.
func ParseOdometer(text string, first System) (Distance, error) {
	d, err := ParseDistance(text, first)
	if err == nil {
		return d, nil
	}
	if d, again := ParseDistance(withoutThousands(strings.TrimSpace(text)), first); again == nil {
		return d, nil
	}
	return 0, err
}

// withoutThousands takes the marks out of a number a text begins with, if all that
// stands between its digits parts thousands by one and the same mark.
func withoutThousands(text string) string {
	digits := func(s string) int {
		return len(s) - len(strings.TrimLeft(s, "0123456789"))
	}
	n := digits(text)
	if n < 1 || n > 3 || len(text) > MaxAmountText {
		return text
	}
	number, rest, mark := text[:n], text[n:], rune(0)
	for {
		r, size := utf8.DecodeRuneInString(rest)
		if !strings.ContainsRune(" ,.'’\u00a0\u202f", r) || mark != 0 && r != mark || digits(rest[size:]) != 3 {
			break
		}
		mark = r
		number += rest[size : size+3]
		rest = rest[size+3:]
	}
	return number + rest
}
