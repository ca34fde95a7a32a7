package measure

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
)

// ReadAmount reads one value of any dimension as a person writes it; for a length
// also how far it may be off if that is written: "34.9±0.2 mm", and at least half of
// the last place of decimal inches. A length without a unit is in the system read
// first; a fraction is inches. The error is of kind BadInput.
func ReadAmount(text string, dim fieldkit.Dimension, first fieldkit.System) (v fieldkit.Value, within fieldkit.Length, err error) {
	text = strings.TrimSpace(text)
	if dim != fieldkit.DimLength {
		v, err = fieldkit.ParseValueAs(text, dim, first)
		if dim == fieldkit.DimText && err == nil {
			v = fieldkit.Value{Dim: fieldkit.DimText, Text: text} // "8" may be a word too
		}
		return v, 0, err
	}
	figure := text
	if before, after, ok := cutPlusMinus(text); ok {
		within, err = fieldkit.ParseLength(withUnitOf(after, before), first)
		if err != nil || within < 0 {
			return fieldkit.Value{}, 0, &fieldkit.Error{Kind: fieldkit.BadInput, What: fmt.Sprintf("%q is not how far a reading may be off", after), Do: "write 34.9±0.2 mm"}
		}
		figure = withUnitOf(before, after)
	}
	bare := strings.TrimLeft(figure, "0123456789.,/- ½¼¾⅛⅜⅝⅞") == ""
	if bare && strings.ContainsAny(figure, "/½¼¾⅛⅜⅝⅞") {
		first = fieldkit.Inch
	}
	q, err := fieldkit.ParseLength(figure, first)
	if err != nil {
		return fieldkit.Value{}, 0, err
	}
	r := reading{within: within}
	if bare && first == fieldkit.Inch {
		figure += " in"
	}
	r.round(figure, q)
	return fieldkit.Value{Dim: fieldkit.DimLength, Base: int64(q)}, r.within, nil
}
