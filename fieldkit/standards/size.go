package standards

import (
	"fmt"
	"strconv"

	"trailfieldkit/fieldkit"
)

// maxSizeDigits keeps a size within what a Length holds.
const maxSizeDigits = 10

// millimetres reads a decimal of a designation as millimetres, more than nothing.
func millimetres(decimal string) (fieldkit.Length, bool) { return sized(decimal, " mm") }

// inches reads a decimal of a designation as inches.
func inches(decimal string) (fieldkit.Length, bool) { return sized(decimal, " in") }

func sized(decimal, unit string) (fieldkit.Length, bool) {
	if decimal == "" || len(decimal) > maxSizeDigits {
		return 0, false
	}
	if decimal[0] == '.' {
		decimal = "0" + decimal
	}
	q, err := fieldkit.ParseLength(decimal+unit, fieldkit.Metric)
	return q, err == nil && q > 0
}

// mmText and inText write a length as a bare decimal of millimetres or inches, as
// designations hold it.
func mmText(q fieldkit.Length) string { return ratioText(q, fieldkit.Millimetre) }
func inText(q fieldkit.Length) string { return ratioText(q, fieldkit.Inches) }

func ratioText(q, unit fieldkit.Length) string {
	return strconv.FormatFloat(float64(q)/float64(unit), 'f', -1, 64)
}

// largestDenominator is that of a workshop rule.
const largestDenominator = 64

// readFraction takes an inch size as it stands in a designation: 3/8, 1-1/16,
// 1 1/16, 2, .5 or 0.5625. It takes nothing if there is none.
func (s *scan) readFraction() (q fieldkit.Length, ok bool) {
	start := s.at
	whole := s.digits()
	if whole == "" || s.peek() == '.' {
		s.at = start
		q, ok = inches(s.decimal())
		if !ok {
			s.at = start
		}
		return q, ok
	}
	if s.peek() == '/' {
		return s.overInch(start, 0, whole)
	}
	afterWhole := s.at
	n, err := strconv.Atoi(whole)
	if err != nil || len(whole) > 3 {
		s.at = start
		return 0, false
	}
	if s.skip(" -") {
		if num := s.digits(); num != "" && s.peek() == '/' {
			if q, ok := s.overInch(s.at, n, num); ok {
				return q, true
			}
		}
		s.at = afterWhole
	}
	if n == 0 {
		s.at = start
		return 0, false
	}
	return fieldkit.Length(n) * fieldkit.Inches, true
}

// overInch takes "/16" behind a numerator; start is where to go back to.
func (s *scan) overInch(start, whole int, num string) (fieldkit.Length, bool) {
	s.take('/')
	n, errN := strconv.Atoi(num)
	d, errD := strconv.Atoi(s.digits())
	if errN != nil || errD != nil || n == 0 || d > largestDenominator || d&(d-1) != 0 || d < 2 || n >= d {
		s.at = start
		return 0, false
	}
	return fieldkit.Length(whole)*fieldkit.Inches + fieldkit.Inches*fieldkit.Length(n)/fieldkit.Length(d), true
}

// inchText writes an inch size as a workshop fraction if it is one, else as a
// decimal: 1-1/16, 0.19.
func inchText(q fieldkit.Length) string {
	parts := q * largestDenominator
	if parts%fieldkit.Inches != 0 {
		return inText(q)
	}
	n, d := int64(parts/fieldkit.Inches), int64(largestDenominator)
	whole := n / d
	for n %= d; n%2 == 0 && n > 0; n, d = n/2, d/2 {
	}
	switch {
	case n == 0:
		return strconv.FormatInt(whole, 10)
	case whole == 0:
		return fmt.Sprintf("%d/%d", n, d)
	}
	return fmt.Sprintf("%d-%d/%d", whole, n, d)
}
