package fit

import (
	"fmt"
	"math"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards/measure"
)

// Reading is what is known of one attribute of a part, and how.
type Reading struct {
	Value  fieldkit.Value
	Within fieldkit.Length   // ± of a length
	Worn   bool              // taken on a worn part
	How    fieldkit.Evidence // how it is known
	Tool   string            // what it was taken with, in words
	Turned bool              // a number without a unit was taken in the system read second
}

// Readings are what is known of a part, by attribute name as the schema has it.
type Readings map[string]Reading

// Part is what is known of the part wanted: readings, the numbers that name it beyond
// doubt, and the standard designations on it, which name no more than what their
// standard defines.
type Part struct {
	Readings     Readings
	Numbers      []string
	Designations map[string]fieldkit.Evidence // how each is known
}

// Known gives what a kit knows of a part: of several readings of an attribute the one
// on a new part, then the latest; of numbers those read off the part or better proven.
// A designation without a word on how it is known counts as seen.
func Known(p fieldkit.Part) Part {
	known := Part{Readings: Readings{}, Designations: map[string]fieldkit.Evidence{}}
	taken := map[string]fieldkit.Measurement{}
	for _, m := range p.Measurements {
		name := foldName(m.Name)
		best, there := taken[name]
		if m.Value.IsZero() || there && !(best.Worn && !m.Worn || best.Worn == m.Worn && best.On.Before(m.On)) {
			continue
		}
		taken[name] = m
		r := Reading{Value: m.Value, Worn: m.Worn, Tool: m.How, How: EvidenceOf(m.How)}
		if r.How == fieldkit.Measured {
			r.Within = toolOf(m.How).Within
		}
		known.Readings[name] = r
	}
	for _, n := range p.Numbers {
		switch {
		case n.Issuer == fieldkit.StandardNumber && n.Proof == nil:
			known.Designations[foldNumber(n.Value)] = fieldkit.Seen
		case n.Issuer == fieldkit.StandardNumber:
			known.Designations[foldNumber(n.Value)] = n.Proof.How
		case n.Issuer != fieldkit.CastingMark && n.Proof != nil && n.Proof.How.Strength() >= fieldkit.NumberRead.Strength():
			known.Numbers = append(known.Numbers, foldNumber(n.Value))
		}
	}
	return known
}

func foldNumber(number string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(" -._/", r) {
			return -1
		}
		return r
	}, strings.ToUpper(number))
}

// Hand is the part in hand: what was read on it, and its number.
type Hand struct {
	Readings Readings
	Number   string
}

// EvidenceOf reads how a measurement was taken from what was written beside it. One
// without a word counts as seen: nothing says that a tool was used.
func EvidenceOf(how string) fieldkit.Evidence {
	words := strings.ToLower(strings.TrimSpace(how))
	if e := fieldkit.Evidence(words); e.Strength() > 0 {
		return e
	}
	has := func(list ...string) bool {
		for _, w := range list {
			if strings.Contains(words, w) {
				return true
			}
		}
		return false
	}
	switch {
	case words == "", has("eye", "look"):
		return fieldkit.Seen
	case has("told", "said", "hear", "phone", "guess"):
		return fieldkit.Hearsay
	case has("book", "catalogue", "catalog", "listing", "web"):
		return fieldkit.StoreBook
	case has("standard", "table"):
		return fieldkit.PublishedStandard
	case has("read", "stamp", "printed"):
		return fieldkit.NumberRead
	}
	return fieldkit.Measured
}

func toolOf(how string) measure.Tool {
	if tool, ok := measure.ToolNamed(how); ok {
		return tool
	}
	return measure.Caliper
}

// Read reads a value of an attribute as a person writes it: "34.9", "1-3/8",
// "34.9±0.2 mm", "8", "left". How says what it was taken with; the usual tool if it is
// left out. A length without a unit is taken in the system read first, or in the other
// if that is much nearer to the wanted one. The error, of kind BadInput, names the
// attribute.
func (a Attribute) Read(text, how string, wanted *Reading, first fieldkit.System) (Reading, error) {
	r := Reading{Tool: how, How: EvidenceOf(how)}
	if how == "" {
		r.How, r.Tool = a.usually()
	}
	figure, within, err := measure.ReadAmount(text, a.Dim, first)
	if err == nil && a.Dim != fieldkit.DimText && a.Dim != fieldkit.DimTemperature && figure.Base <= 0 {
		err = &fieldkit.Error{Kind: fieldkit.BadInput, What: fmt.Sprintf("%q is not a measurement", strings.TrimSpace(text)), Do: a.How}
	}
	if err != nil {
		if fault, ok := err.(*fieldkit.Error); ok {
			return Reading{}, fault.At(a.Name)
		}
		return Reading{}, err
	}
	r.Value = figure
	if a.Dim != fieldkit.DimLength {
		return r, nil
	}
	if other, otherWithin, err := measure.ReadAmount(text, a.Dim, first.Other()); err == nil && wanted != nil && wanted.Value.Dim == fieldkit.DimLength {
		if farther(figure, wanted.Value, other) {
			r.Value, within, r.Turned = other, otherWithin, true
		}
	}
	r.Within = within
	if tool := toolOf(r.Tool); r.How == fieldkit.Measured {
		r.Within = max(within, tool.Within)
		if strings.ContainsAny(text, "±") || strings.Contains(text, "+-") || strings.Contains(text, "+/-") {
			r.Within = within
		}
	}
	return r, nil
}

// farther reports whether the second reading of a number is much nearer to the wanted
// value: by a factor of five and more.
func farther(figure, wanted, other fieldkit.Value) bool {
	if figure.Base <= 0 || wanted.Base <= 0 || other.Base <= 0 {
		return false
	}
	off := func(v fieldkit.Value) float64 { return math.Abs(math.Log(float64(v.Base) / float64(wanted.Base))) }
	return off(figure)-off(other) > math.Log(5)
}

// usually says how an attribute is known when it is taken as its kind says.
func (a Attribute) usually() (fieldkit.Evidence, string) {
	switch how := strings.ToLower(a.How); {
	case a.Dim == fieldkit.DimCount:
		return fieldkit.Measured, "counted"
	case strings.Contains(how, "thread gauge"):
		return fieldkit.Measured, "thread gauge"
	case a.Dim == fieldkit.DimLength && strings.HasPrefix(how, "tape"):
		return fieldkit.Measured, "tape"
	case a.Dim == fieldkit.DimLength && strings.Contains(how, "caliper"), a.Dim == fieldkit.DimLength && !strings.Contains(how, "read"):
		return fieldkit.Measured, "caliper"
	case a.Dim == fieldkit.DimText && !strings.Contains(how, "read") && !strings.Contains(how, "printed") && !strings.Contains(how, "stamped"):
		return fieldkit.Seen, "by eye"
	}
	return fieldkit.NumberRead, "read"
}
