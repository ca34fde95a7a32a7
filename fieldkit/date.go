package fieldkit

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"time"
)

// Date is a calendar day without a time zone; the zero Date is "not known".
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// DateOf returns the calendar day of t in its own zone.
func DateOf(t time.Time) Date {
	y, m, d := t.Date()
	return Date{y, m, d}
}

// ParseDate reads 2026-05-14, 14 May 2026 or May 14, 2026. A date in figures
// alone whose day and month could be swapped, such as 3/4/2026, is refused rather
// than guessed. Errors are of kind BadInput.
func ParseDate(text string) (Date, error) {
	s := strings.TrimSpace(text)
	const do = "write 2026-05-14 or 14 May 2026"
	if len(s) > MaxAmountText {
		return Date{}, badInput("that is too long for a date", do)
	}
	if d, ok := plainDate(s); ok {
		return d, nil
	}
	fields := strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune(" -/.,", r) })
	if len(fields) != 3 {
		return Date{}, badInput(fmt.Sprintf("%q is not a date", s), do)
	}
	var numbers []int
	var month time.Month
	for _, f := range fields {
		if m, ok := monthNamed(f); ok && month == 0 {
			month = m
			continue
		}
		n, err := strconv.Atoi(f)
		if err != nil || f[0] == '+' {
			return Date{}, badInput(fmt.Sprintf("%q is not a date", s), do)
		}
		numbers = append(numbers, n)
	}
	var d Date
	switch {
	case month != 0 && len(numbers) == 2 && numbers[1] >= 1000:
		d = Date{numbers[1], month, numbers[0]}
	case month == 0 && len(fields[0]) == 4:
		d = Date{numbers[0], time.Month(numbers[1]), numbers[2]}
	case month == 0 && len(fields[2]) == 4 && numbers[0] > 12:
		d = Date{numbers[2], time.Month(numbers[1]), numbers[0]}
	case month == 0 && len(fields[2]) == 4 && numbers[1] > 12:
		d = Date{numbers[2], time.Month(numbers[0]), numbers[1]}
	case month == 0 && len(fields[2]) == 4:
		return Date{}, badInput(fmt.Sprintf("%q can be read in two ways", s), do)
	default:
		return Date{}, badInput(fmt.Sprintf("%q is not a date", s), do)
	}
	if !d.exists() {
		return Date{}, badInput(fmt.Sprintf("%q is not a day of the calendar", s), do)
	}
	return d, nil
}

func monthNamed(s string) (time.Month, bool) {
	if len(s) < 3 || s[0] <= '9' {
		return 0, false
	}
	for m := time.January; m <= time.December; m++ {
		if strings.HasPrefix(strings.ToLower(m.String()), strings.ToLower(s)) {
			return m, true
		}
	}
	return 0, false
}

// plainDate reads 2026-05-14, as nearly all dates of a kit are written; ok is false for
// whatever is not that, which may still be a date.
func plainDate(s string) (d Date, ok bool) {
	if len(s) != len("2026-05-14") || s[4] != '-' || s[7] != '-' {
		return Date{}, false
	}
	year, errYear := strconv.ParseUint(s[:4], 10, 16)
	month, errMonth := strconv.ParseUint(s[5:7], 10, 16)
	day, errDay := strconv.ParseUint(s[8:], 10, 16)
	d = Date{int(year), time.Month(month), int(day)}
	return d, errYear == nil && errMonth == nil && errDay == nil && d.exists()
}

func (d Date) exists() bool {
	return d.Year >= 1900 && d.Year <= 2199 && d.Month >= time.January && d.Month <= time.December &&
		d.Day >= 1 && (d.Day <= 28 || DateOf(d.time()) == d)
}

func (d Date) time() time.Time { return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC) }

// IsZero reports a date that is not known.
func (d Date) IsZero() bool { return d == Date{} }

// Before reports whether d is earlier than e.
func (d Date) Before(e Date) bool { return d.Compare(e) < 0 }

// AddDays returns the day n days later.
func (d Date) AddDays(n int) Date { return DateOf(d.time().AddDate(0, 0, n)) }

// DaysUntil counts the days from d to e.
func (d Date) DaysUntil(e Date) int { return int(e.time().Sub(d.time()) / (24 * time.Hour)) }

// String prints 2026-05-14, and nothing for a date not known.
func (d Date) String() string {
	if d.IsZero() {
		return ""
	}
	return padded(d.Year, 4) + "-" + padded(int(d.Month), 2) + "-" + padded(d.Day, 2)
}

// Show prints 14 May 2026: the month in letters cannot be mistaken for the day.
func (d Date) Show() string {
	if d.IsZero() {
		return "date not known"
	}
	return fmt.Sprintf("%d %s %d", d.Day, d.Month.String()[:3], d.Year)
}

// MarshalText writes what String prints.
func (d Date) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads a date; an empty text is a date not known.
func (d *Date) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*d = Date{}
		return nil
	}
	parsed, err := ParseDate(string(text))
	if err == nil {
		*d = parsed
	}
	return err
}

// Compare orders dates, the unknown date first.
func (d Date) Compare(e Date) int {
	return cmp.Or(cmp.Compare(d.Year, e.Year), cmp.Compare(d.Month, e.Month), cmp.Compare(d.Day, e.Day))
}
