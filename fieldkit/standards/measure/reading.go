package measure

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
)

// Given is one reading as a person writes it: bore, "35", "1-3/8", "34.9±0.2 mm".
type Given struct{ Name, Text string }

// Query is all that was measured on one part.
type Query struct {
	Given []Given
	Tool  *Tool // what all lengths were taken with; nil means the usual tool of each
	Worn  bool  // the part is worn
}

// toolFor gives what an attribute is taken with: the tool in hand if it takes lengths
// and the attribute is one, else the usual one.
func (q Query) toolFor(a Attribute) Tool {
	if q.Tool != nil && a.Dim == fieldkit.DimLength && q.Tool.Within > 0 && a.Tool.Within > 0 {
		return *q.Tool
	}
	return a.Tool
}

// reading is one reading, understood.
type reading struct {
	attribute Attribute
	text      string
	value     fieldkit.Value
	within    fieldkit.Length // ± of a length
	worn      bool
	// other is the value if a number without a unit is inches after all.
	other  *fieldkit.Value
	turned bool // it was taken so
}

// readings reads all that was given. Errors are of kind BadInput and name the
// attribute, or of kind NotFound where the kind has none of that name.
func (k Kind) readings(q Query) ([]reading, error) {
	var list []reading
	for _, g := range q.Given {
		a, ok := k.AttributeNamed(g.Name)
		if !ok {
			return nil, &fieldkit.Error{Kind: fieldkit.NotFound, What: fmt.Sprintf("%q is not measured on a %s", g.Name, k.Name), Do: "give " + k.attributeNames()}
		}
		if slices.ContainsFunc(list, func(r reading) bool { return r.attribute.Name == a.Name }) {
			return nil, &fieldkit.Error{Kind: fieldkit.BadInput, What: fmt.Sprintf("%s is given twice", a.Name), Do: "give it once"}
		}
		r, err := a.read(g.Text, q)
		if err != nil {
			if fault, ok := err.(*fieldkit.Error); ok {
				return nil, fault.At(a.Name)
			}
			return nil, err
		}
		list = append(list, r)
	}
	if len(list) == 0 {
		return nil, &fieldkit.Error{Kind: fieldkit.BadInput, What: "nothing is measured", Do: "give one or more of " + k.attributeNames()}
	}
	return list, nil
}

func (k Kind) attributeNames() string {
	names := make([]string, len(k.Attributes))
	for i, a := range k.Attributes {
		names[i] = a.Name
	}
	return strings.Join(names, ", ")
}

func (a Attribute) read(text string, q Query) (reading, error) {
	r := reading{attribute: a, text: strings.TrimSpace(text), worn: q.Worn}
	r.within = q.toolFor(a).Within
	figure := r.text
	if before, after, ok := cutPlusMinus(figure); ok && a.Dim == fieldkit.DimLength {
		within, err := fieldkit.ParseLength(withUnitOf(after, before), fieldkit.Metric)
		if err != nil || within < 0 {
			return reading{}, &fieldkit.Error{Kind: fieldkit.BadInput, What: fmt.Sprintf("%q is not how far a reading may be off", after), Do: "write 34.9±0.2 mm"}
		}
		figure, r.within = withUnitOf(before, after), within
	}
	var err error
	switch a.Dim {
	case fieldkit.DimLength:
		err = r.readLength(figure)
	case fieldkit.DimText:
		r.value = fieldkit.Value{Dim: fieldkit.DimText, Text: figure}
		if figure == "" || len(figure) > fieldkit.MaxAmountText {
			err = &fieldkit.Error{Kind: fieldkit.BadInput, What: fmt.Sprintf("%q says nothing", figure), Do: a.How}
		}
	default:
		r.value, err = fieldkit.ParseValueAs(figure, a.Dim, fieldkit.Metric)
	}
	if err == nil && a.Dim != fieldkit.DimText && r.value.Base <= 0 {
		err = &fieldkit.Error{Kind: fieldkit.BadInput, What: fmt.Sprintf("%q is not a measurement", r.text), Do: "write what was read, more than nothing"}
	}
	if err == nil && a.whole() && r.value.Base%1e6 != 0 {
		err = &fieldkit.Error{Kind: fieldkit.BadInput, What: fmt.Sprintf("%q is not a whole number", r.text), Do: "count again"}
	}
	return r, err
}

// cutPlusMinus cuts "34.9±0.2 mm" and "34.9+-0.2 mm".
func cutPlusMinus(text string) (before, after string, ok bool) {
	for _, sign := range []string{"±", "+-", "+/-"} {
		if before, after, ok := strings.Cut(text, sign); ok {
			return strings.TrimSpace(before), strings.TrimSpace(after), true
		}
	}
	return "", "", false
}

// withUnitOf gives a number the unit of another text, if it has none of its own.
func withUnitOf(number, other string) string {
	if strings.TrimLeft(number, "0123456789.,/- ½¼¾⅛⅜⅝⅞") != "" {
		return number
	}
	return number + " " + strings.TrimLeft(other, "0123456789.,/- ½¼¾⅛⅜⅝⅞")
}

// readLength reads a length. Without a unit a fraction is inches; any other number is
// millimetres, and inches if that makes no sense.
func (r *reading) readLength(text string) error {
	if number, err := fieldkit.ParseValue(text); err != nil || number.Dim != fieldkit.DimCount || strings.TrimLeft(text, "0123456789.,/- ½¼¾⅛⅜⅝⅞") != "" {
		q, err := fieldkit.ParseLength(text, fieldkit.Metric)
		r.value = fieldkit.Value{Dim: fieldkit.DimLength, Base: int64(q)}
		r.round(text, q)
		return err
	}
	inch, err := fieldkit.ParseLength(text, fieldkit.Inch)
	if err != nil {
		return err
	}
	inches := fieldkit.Value{Dim: fieldkit.DimLength, Base: int64(inch)}
	if r.attribute.bare == fieldkit.Inch || strings.ContainsAny(text, "/½¼¾⅛⅜⅝⅞") {
		r.value = inches
		return nil
	}
	millimetres, err := fieldkit.ParseLength(text, fieldkit.Metric)
	if err != nil {
		return err
	}
	r.value, r.other = fieldkit.Value{Dim: fieldkit.DimLength, Base: int64(millimetres)}, &inches
	return nil
}

// round widens the accuracy of a decimal in inches to half of its last place: 1.6 in
// is anything from 1.55 to 1.65. Millimetres are finer than that, and fractions exact.
func (r *reading) round(text string, q fieldkit.Length) {
	_, after, decimal := strings.Cut(text, ".")
	if !decimal || !strings.ContainsAny(strings.ToLower(text), `i"″”`) {
		return
	}
	places := len(after) - len(strings.TrimLeft(after, "0123456789"))
	half := fieldkit.Length(float64(fieldkit.Inches) * math.Pow(10, -float64(places)) / 2)
	r.within = max(r.within, half)
}

// inInches gives the reading with a number without a unit taken as inches.
func (r reading) inInches() reading {
	if r.other != nil {
		r.value, r.other, r.turned = *r.other, nil, true
		r.round(r.text+" in", fieldkit.Length(r.value.Base))
	}
	return r
}
