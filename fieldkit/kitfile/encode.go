package kitfile

import (
	"encoding"
	"encoding/json"
	"maps"
	"reflect"
	"slices"
	"strconv"

	"trailfieldkit/fieldkit"
)

// appendValue writes v as compact JSON in the order of its struct fields.
func appendValue(b []byte, v reflect.Value) []byte {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return append(b, "null"...)
		}
		return appendValue(b, v.Elem())
	}
	if v.Type().Implements(marshalerType) {
		// No MarshalText of fieldkit fails: they print whole numbers.
		written, _ := v.Interface().(encoding.TextMarshaler).MarshalText()
		return appendText(b, string(written))
	}
	if n, entry, ok := entriesOf(v); ok {
		b = append(b, '[')
		for i := range n {
			if i > 0 {
				b = append(b, ',')
			}
			b = appendValue(b, entry(i))
		}
		return append(b, ']')
	}
	switch v.Kind() {
	case reflect.Struct:
		return appendStruct(b, v)
	case reflect.Map:
		return appendTable(b, v.Interface().(map[string]string))
	case reflect.String:
		return appendText(b, v.String())
	case reflect.Bool:
		return strconv.AppendBool(b, v.Bool())
	case reflect.Int, reflect.Int64:
		return strconv.AppendInt(b, v.Int(), 10)
	}
	panic("kitfile: no way to write a " + v.Type().String())
}

// entriesOf takes a slice or a fieldkit.List apart.
func entriesOf(v reflect.Value) (n int, entry func(i int) reflect.Value, ok bool) {
	switch {
	case v.Kind() == reflect.Slice:
		return v.Len(), v.Index, true
	case v.Kind() == reflect.Struct && isLongList(v.Type()):
		list := v.Interface().(longList)
		return list.Len(), func(i int) reflect.Value { return reflect.ValueOf(list.Record(i)).Elem() }, true
	}
	return 0, nil, false
}

func appendTable(b []byte, table map[string]string) []byte {
	b = append(b, '{')
	for i, key := range slices.Sorted(maps.Keys(table)) {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(appendText(b, key), ':')
		b = appendText(b, table[key])
	}
	return append(b, '}')
}

func appendStruct(b []byte, v reflect.Value) []byte {
	s := shapeOf(v.Type())
	b = append(b, '{')
	first := true
	name := func(name string) {
		if !first {
			b = append(b, ',')
		}
		first = false
		b = append(appendText(b, name), ':')
	}
	for _, f := range s.fields {
		fv := v.Field(f.index)
		if f.optional && isEmpty(fv) {
			continue
		}
		name(f.name)
		b = appendValue(b, fv)
	}
	if s.extra >= 0 {
		extra := v.Field(s.extra).Interface().(fieldkit.Extra)
		for _, key := range slices.Sorted(maps.Keys(extra)) {
			if _, known := s.byName[key]; known {
				continue // a field of today wins over a kept one
			}
			name(key)
			if raw := extra[key]; json.Valid([]byte(raw)) {
				b = append(b, raw...)
			} else {
				b = appendText(b, raw)
			}
		}
	}
	return append(b, '}')
}

// isEmpty reports a value that an optional field leaves out: nothing set in it,
// at any depth.
func isEmpty(v reflect.Value) bool {
	if n, _, ok := entriesOf(v); ok {
		return n == 0
	}
	switch v.Kind() {
	case reflect.Map, reflect.String:
		return v.Len() == 0
	case reflect.Struct:
		if zero, ok := v.Interface().(interface{ IsZero() bool }); ok {
			return zero.IsZero()
		}
		for i := range v.NumField() {
			if !isEmpty(v.Field(i)) {
				return false
			}
		}
		return true
	}
	return v.IsZero()
}

// holdsExtra reports whether any part of v keeps a field this program does not
// know.
func holdsExtra(v reflect.Value) bool {
	if v.Kind() == reflect.Slice && v.Type().Elem().Kind() == reflect.String {
		return false
	}
	if n, entry, ok := entriesOf(v); ok {
		for i := range n {
			if holdsExtra(entry(i)) {
				return true
			}
		}
		return false
	}
	switch v.Kind() {
	case reflect.Pointer:
		return !v.IsNil() && holdsExtra(v.Elem())
	case reflect.Struct:
		if v.Type().Implements(marshalerType) {
			return false
		}
		for i := range v.NumField() {
			f := v.Field(i)
			if f.Type() == extraType && f.Len() > 0 || f.Type() != extraType && holdsExtra(f) {
				return true
			}
		}
	}
	return false
}
