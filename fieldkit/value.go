package fieldkit

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Value is what a measurement gave: a quantity with its dimension, a count
// (teeth, studs), or plain text (a thread, a colour).
type Value struct {
	Dim  Dimension
	Base int64  // in the base unit of Dim; a count in millionths
	Text string // only for DimText
}

// ParseValue reads text that may be of any dimension: with a unit it is that
// quantity, a bare number is a count, anything else stays text. Only an empty or
// overlong text is an error.
func ParseValue(text string) (Value, error) {
	s := strings.TrimSpace(text)
	if s == "" {
		return Value{}, badInput("nothing is written", "write what was measured, "+example(DimLength))
	}
	if len(s) > MaxString {
		return Value{}, &Error{Kind: TooBig, What: "the value is too long", Do: "keep it to one line"}
	}
	var meant []int
	if symbol, ok := firstUnit(s); ok {
		meant = unitsCalled(symbol)
	}
	for _, dim := range valueDimensions {
		if !slices.ContainsFunc(meant, func(u int) bool { return units[u].dim == dim }) {
			continue
		}
		if base, err := parseWithUnit(s, dim); err == nil {
			return Value{Dim: dim, Base: base}, nil
		}
	}
	return Value{Dim: DimText, Text: s}, nil
}

// firstUnit gives the unit after the number a text begins with: it is of the
// dimension of the whole. ok is false when the text is no amount at all.
func firstUnit(s string) (symbol string, ok bool) {
	s, _ = cutMinus(s)
	r, _ := utf8.DecodeRuneInString(s)
	if len(s) > MaxAmountText || !(r >= '0' && r <= '9' || r == '.' || r == ',' || isVulgar(r)) {
		return "", false
	}
	if _, _, after, plain := cutPlain(s); plain && !strings.ContainsFunc(after, isOfNumber) {
		return strings.TrimSpace(after), true
	}
	_, after, err := cutNumber(s)
	if err != nil {
		return "", false
	}
	symbol, _ = cutUnit(after)
	return symbol, true
}

// isOfNumber reports what may go on with a number after its decimals.
func isOfNumber(r rune) bool {
	return strings.ContainsRune("/.,", r) || unicode.IsDigit(r) || isVulgar(r)
}

// valueDimensions are tried in this order: a length before a distance, so that
// "2 m" is a hose and not a drive.
var valueDimensions = []Dimension{
	DimCount, DimLength, DimMass, DimVolume, DimTorque, DimPressure,
	DimTemperature, DimAngle, DimVoltage, DimCurrent, DimDistance,
}

// ParseValueAs reads text of a known dimension, a bare number in the usual unit
// of the system read first. Errors are of kind BadInput.
func ParseValueAs(text string, dim Dimension, first System) (Value, error) {
	if dim == DimText || dim == "" {
		return ParseValue(text)
	}
	base, err := parseBase(text, dim, first)
	if err != nil {
		return Value{}, err
	}
	return Value{Dim: dim, Base: base}, nil
}

// Show prints the value in one system.
func (v Value) Show(s System) string {
	if v.Dim == DimText {
		return v.Text
	}
	return show(v.Dim, v.Base, s)
}

// Both prints the value in the system read first, the other in brackets.
func (v Value) Both(first System) string {
	if v.Dim == DimText {
		return v.Text
	}
	return showBoth(v.Dim, v.Base, first)
}

// IsZero reports a value that was never set.
func (v Value) IsZero() bool { return v == Value{} }

// String gives the exact text kept in files.
func (v Value) String() string {
	if v.Dim == DimText || v.Dim == "" {
		return v.Text
	}
	return exactText(v.Dim, v.Base)
}

// MarshalText writes the exact text kept in files.
func (v Value) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

// UnmarshalText reads what MarshalText wrote.
func (v *Value) UnmarshalText(text []byte) error {
	parsed, err := ParseValue(string(text))
	if err == nil {
		*v = parsed
	}
	return err
}
