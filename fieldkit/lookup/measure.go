package lookup

import (
	"slices"
	"sort"
	"strings"

	"trailfieldkit/fieldkit"
)

// A reading counts as near when it is off by no more than this: what a caliper in a
// cold hand and a little wear make of it (common practice).
const (
	nearLength   = 300_000 // nm
	nearFraction = 0.008   // of the reading, for larger lengths and all else
	// exactLength is how far apart two readings are that are meant to be the same
	// size in inches and millimetres: a hundredth of a millimetre each.
	exactLength = 20_000 // nm
)

// How good a measurement match is, of an exact one with its unit.
const (
	nearMeasure = 0.85
	bareMeasure = 0.75 // typed without a unit: a guess which is meant
	// asideMeasure is for figures of a table other than the one parts are called by:
	// "35 mm bearing" is one of 35 mm bore rather than 35 mm outside.
	asideMeasure = 0.93
)

// measureTable is all measurements by dimension, sorted by size once complete.
type measureTable struct {
	of     map[fieldkit.Dimension][]reading
	sorted bool
}

type reading struct {
	base   int64
	phrase int32
}

func (t *measureTable) add(v fieldkit.Value, id int32) {
	if v.Dim == fieldkit.DimText || v.Dim == "" {
		return
	}
	if t.of == nil {
		t.of = map[fieldkit.Dimension][]reading{}
	}
	list := t.of[v.Dim]
	at := len(list)
	if t.sorted {
		at = from(list, v.Base)
	}
	t.of[v.Dim] = slices.Insert(list, at, reading{v.Base, id})
}

// from gives the place of the first reading that is no smaller.
func from(list []reading, base int64) int {
	return sort.Search(len(list), func(i int) bool { return list[i].base >= base })
}

func (t *measureTable) sort() {
	t.sorted = true
	for _, list := range t.of {
		sort.SliceStable(list, func(i, j int) bool { return list[i].base < list[j].base })
	}
}

// size is one way to understand a typed measurement.
type size struct {
	value   fieldkit.Value
	system  fieldkit.System // in which it was typed
	quality float64
}

// sizesOf gives the ways to understand text as a measurement: with a unit it is that;
// a fraction is inches; a bare number is a count or a length in either system.
func sizesOf(text string) []size {
	if len(text) > fieldkit.MaxAmountText {
		return nil
	}
	v, err := fieldkit.ParseValue(text)
	switch {
	case err != nil || v.Dim == fieldkit.DimText || v.Base <= 0:
		return nil
	case v.Dim != fieldkit.DimCount:
		return []size{{v, systemOf(text), 1}}
	case strings.ContainsAny(text, "/½¼¾⅛⅜⅝⅞⅓⅔"):
		return lengths(text, fieldkit.Inch, 1)
	case strings.TrimLeft(text, "0123456789.,") != "":
		return []size{{v, fieldkit.Metric, 1}} // "30 splines"
	}
	sizes := append(lengths(text, fieldkit.Metric, bareMeasure), lengths(text, fieldkit.Inch, bareMeasure)...)
	return append(sizes, size{v, fieldkit.Metric, bareMeasure})
}

func lengths(text string, in fieldkit.System, quality float64) []size {
	v, err := fieldkit.ParseValueAs(text, fieldkit.DimLength, in)
	if err != nil {
		return nil
	}
	return []size{{v, in, quality}}
}

func systemOf(text string) fieldkit.System {
	folded := strings.ToLower(text)
	for _, mark := range []string{"in", "\"", "″", "”", "'", "ft", "thou", "lb", "oz", "psi", "°f", "gal", "qt", "pt"} {
		if strings.Contains(folded, mark) {
			return fieldkit.Inch
		}
	}
	return fieldkit.Metric
}

// each calls found with every measurement near enough to a size.
func (t *measureTable) each(s size, found func(phrase int32, quality float64)) {
	near := int64(nearFraction * float64(s.value.Base))
	exact := int64(0)
	switch s.value.Dim {
	case fieldkit.DimLength:
		near, exact = max(near, nearLength), exactLength
	case fieldkit.DimCount:
		near = 0 // 30 splines are not 31
	}
	list := t.of[s.value.Dim]
	for at := from(list, s.value.Base-near); at < len(list) && list[at].base <= s.value.Base+near; at++ {
		off := list[at].base - s.value.Base
		off = max(off, -off)
		quality := s.quality
		if off > exact {
			quality *= nearMeasure - 0.15*float64(off)/float64(near)
		}
		found(list[at].phrase, quality)
	}
}
