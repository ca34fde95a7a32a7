package kitfile

import (
	"encoding/json"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"
	"unicode/utf8"

	"trailfieldkit/fieldkit"
)

// Years outside these are slips of the finger; dates are held to the same.
const (
	firstYear = 1900
	lastYear  = 2199
)

var (
	moneyType   = reflect.TypeFor[fieldkit.Money]()
	valueType   = reflect.TypeFor[fieldkit.Value]()
	dateType    = reflect.TypeFor[fieldkit.Date]()
	momentType  = reflect.TypeFor[fieldkit.Moment]()
	minutesType = reflect.TypeFor[fieldkit.Minutes]()
)

// amounts are the quantities that are never below nothing.
var amounts = map[reflect.Type]bool{
	reflect.TypeFor[fieldkit.Mass](): true, reflect.TypeFor[fieldkit.Volume](): true,
	reflect.TypeFor[fieldkit.Distance](): true, reflect.TypeFor[fieldkit.Length](): true, minutesType: true,
}

// fields checks the fields of a struct by their types, except those skipped.
func (c *checker) fields(v reflect.Value, at *trail, skip func(name string) bool) {
	s := shapeOf(v.Type())
	for _, f := range s.fields {
		if skip != nil && skip(f.name) {
			continue
		}
		c.value(v.Field(f.index), f.optional, at.field(f.name))
	}
	if s.extra >= 0 {
		c.extra(v.Field(s.extra).Interface().(fieldkit.Extra), s, at)
	}
}

func (c *checker) value(v reflect.Value, optional bool, at *trail) {
	if v.Kind() == reflect.Pointer {
		if !v.IsNil() {
			c.value(v.Elem(), false, at)
		}
		return
	}
	t := v.Type()
	switch {
	case amounts[t]:
		c.amount(v, at)
		return
	case t == moneyType:
		c.price(v.Interface().(fieldkit.Money), at)
		return
	case t == valueType || t == dateType || t == momentType:
		c.reading(v, optional, at)
		return
	case v.Kind() == reflect.String:
		c.text(v.String(), t, optional, at)
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		c.fields(v, at, nil)
	case reflect.Slice:
		if v.Len() > fieldkit.MaxList {
			c.found.add(at.pointer(), nowhere, fieldkit.TooBig, fmt.Sprintf("%d entries are more than the most, %d", v.Len(), fieldkit.MaxList), "shorten the list")
		}
		for i := range v.Len() {
			c.value(v.Index(i), false, at.entry(i))
		}
	case reflect.Map:
		table := v.Interface().(map[string]string)
		for _, key := range slices.Sorted(maps.Keys(table)) {
			if !isID(key) || len(key) > fieldkit.MaxID {
				c.note(at.field(key), fmt.Sprintf("%s is not an id", quoted(key)), "use the id the catalog gives")
			}
			c.text(table[key], reflect.TypeFor[string](), false, at.field(key))
		}
	}
}

func (c *checker) amount(v reflect.Value, at *trail) {
	if v.Int() < 0 {
		c.note(at, fmt.Sprintf("%s is less than nothing", quoted(fmt.Sprint(v.Interface()))), "write 0 or more")
	}
	if v.Type() == minutesType && fieldkit.Minutes(v.Int()) > fieldkit.MaxMinutes {
		c.note(at, fmt.Sprintf("%s is longer than a year", quoted(fmt.Sprint(v.Interface()))), "check it")
	}
}

func (c *checker) price(m fieldkit.Money, at *trail) {
	if m.Cents < 0 {
		c.note(at, fmt.Sprintf("%s is less than nothing", quoted(m.String())), "write 0 or more")
	}
	if m.Currency != c.kit.Currency && isCurrency(c.kit.Currency) {
		c.note(at, fmt.Sprintf("%s is not in %s, the currency of the kit", quoted(m.String()), c.kit.Currency), fmt.Sprintf("write the price in %s", c.kit.Currency))
	}
}

// reading checks a measured value, a date or a moment.
func (c *checker) reading(v reflect.Value, optional bool, at *trail) {
	zero := v.Interface().(interface{ IsZero() bool }).IsZero()
	if zero {
		if !optional {
			c.note(at, "nothing is written", "write it")
		}
		return
	}
	switch one := v.Interface().(type) {
	case fieldkit.Value:
		if one.Dim == fieldkit.DimText {
			c.text(one.Text, reflect.TypeFor[string](), false, at)
		} else if what, do, refused := enums[reflect.TypeFor[fieldkit.Dimension]()].refuse(string(one.Dim)); refused {
			c.note(at, what, do)
		}
	case fieldkit.Date:
		if one.Year < firstYear || one.Year > lastYear || one.AddDays(0) != one {
			c.note(at, fmt.Sprintf("%s is not a day of the calendar", quoted(one.String())), "write 2026-05-14 or 14 May 2026")
		}
	case fieldkit.Moment:
		if y := one.UTC().Year(); y < firstYear || y > lastYear {
			c.note(at, fmt.Sprintf("the year %d is out of range", y), fmt.Sprintf("check the clock; years go from %d to %d", firstYear, lastYear))
		}
	}
}

func (c *checker) text(s string, t reflect.Type, optional bool, at *trail) {
	if !optional && strings.TrimSpace(s) == "" {
		c.note(at, "nothing is written", "write it")
		return
	}
	if e, ok := enums[t]; ok {
		if s == "" {
			return
		}
		if what, do, refused := e.refuse(s); refused {
			c.note(at, what, do)
		}
		return
	}
	if len(s) > fieldkit.MaxString {
		c.found.add(at.pointer(), nowhere, fieldkit.TooBig, fmt.Sprintf("a text of %d bytes is longer than the most, %d", len(s), fieldkit.MaxString), "shorten it")
	}
	if !utf8.ValidString(s) {
		c.note(at, "a text is not UTF-8", "write the text again")
	}
	c.characters(s, at)
}

// severalLines names the fields that hold more than one line; all others are shown
// and printed on one.
var severalLines = map[string]bool{"note": true, "what": true, "why": true, "fix": true, "tell": true}

// characters refuses what is not seen and changes how the text around it reads: the
// first control character (line breaks and tabs may stand in a note), or the first
// sign that turns the direction of writing over.
func (c *checker) characters(s string, at *trail) {
	lines := at != nil && severalLines[at.token]
	if c.disguised != nil {
		c.readsAs(s, lines, at)
	}
	i := strings.IndexFunc(s, func(r rune) bool {
		if r == '\n' || r == '\t' {
			return !lines
		}
		return r < ' ' || r >= 0x202A && r <= 0x202E || r >= 0x2066 && r <= 0x2069
	})
	if i < 0 {
		return
	}
	r, _ := utf8.DecodeRuneInString(s[i:])
	switch r {
	case '\n':
		c.note(at, "a text of one line holds a line break", "write a space instead")
	case '\t':
		c.note(at, "a text of one line holds a tab", "write a space instead")
	default:
		c.note(at, fmt.Sprintf("a text holds the character %U, which is not seen", r), "take it out")
	}
}

// extra checks kept fields: JSON, and none that this program knows.
func (c *checker) extra(kept fieldkit.Extra, s *shape, at *trail) {
	for _, key := range slices.Sorted(maps.Keys(kept)) {
		if _, known := s.byName[key]; known {
			c.note(at.field(key), fmt.Sprintf("%s is both a field and a kept one", quoted(key)), "remove the kept one")
		}
		if !json.Valid([]byte(kept[key])) {
			c.note(at.field(key), fmt.Sprintf("the kept field %s is not JSON", quoted(key)), "remove it")
		}
	}
}
