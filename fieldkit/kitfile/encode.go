package kitfile

import (
	"bytes"
	"encoding"
	"encoding/json"
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

// writer writes values as JSON in the order of their struct fields.
type writer struct {
	b      []byte
	lines  bool // two spaces a level, each field and entry on a line of its own; else compact
	depth  int
	extras bool // fields were written that this program does not know
	turn   func()
}

// turnAfter is how many entries of a list are written in one go: about a millisecond's
// work in a browser.
const turnAfter = 64

// appendValue writes v as compact JSON.
func appendValue(b []byte, v reflect.Value) []byte {
	w := &writer{b: b}
	w.value(v, readingOf(v.Type()))
	return w.b
}

func (w *writer) value(v reflect.Value, r *reading) {
	switch r.kind {
	case reflect.Pointer:
		if v.IsNil() {
			w.b = append(w.b, "null"...)
			return
		}
		w.value(v.Elem(), r.elem)
	case asText:
		// No MarshalText of fieldkit fails: they print whole numbers.
		written, _ := methods(v).(encoding.TextMarshaler).MarshalText()
		w.b = appendText(w.b, string(written))
	case reflect.Struct:
		w.object(v, r.shape)
	case reflect.Slice, asList:
		n, entry, _ := entriesOf(v)
		w.begin('[')
		for i := range n {
			w.next(i > 0)
			w.value(entry(i), r.elem)
			if w.turn != nil && i%turnAfter == turnAfter-1 {
				w.turn()
			}
		}
		w.end(']', n > 0)
	case reflect.Map:
		table := v.Interface().(map[string]string)
		w.begin('{')
		for i, key := range slices.Sorted(maps.Keys(table)) {
			w.name(key, i > 0)
			w.b = appendText(w.b, table[key])
		}
		w.end('}', len(table) > 0)
	case reflect.String:
		w.b = appendText(w.b, v.String())
	case reflect.Bool:
		w.b = strconv.AppendBool(w.b, v.Bool())
	case reflect.Int, reflect.Int64:
		w.b = strconv.AppendInt(w.b, v.Int(), 10)
	default:
		panic("kitfile: no way to write a " + v.Type().String())
	}
}

func (w *writer) object(v reflect.Value, s *shape) {
	w.begin('{')
	more := false
	for _, f := range s.fields {
		fv := v.Field(f.index)
		if f.optional && isEmpty(fv, f.reading) {
			continue
		}
		w.next(more)
		w.b = append(w.b, f.quoted...)
		w.colon()
		w.value(fv, f.reading)
		more = true
	}
	if s.extra >= 0 && v.Field(s.extra).Len() > 0 {
		w.extras = true
		extra := v.Field(s.extra).Interface().(fieldkit.Extra)
		for _, key := range slices.Sorted(maps.Keys(extra)) {
			if _, known := s.byName[key]; known {
				continue // a field of today wins over a kept one
			}
			w.name(key, more)
			w.raw(extra[key])
			more = true
		}
	}
	w.end('}', more)
}

// raw writes the JSON of a field that is only kept.
func (w *writer) raw(kept string) {
	if !json.Valid([]byte(kept)) {
		w.b = appendText(w.b, kept)
		return
	}
	if !w.lines {
		w.b = append(w.b, kept...)
		return
	}
	var spread bytes.Buffer
	_ = json.Indent(&spread, []byte(kept), strings.Repeat(level, w.depth), level) // it is valid
	w.b = append(w.b, spread.Bytes()...)
}

const level = "  "

// newLines is what begins a line, of the deepest level and more.
var newLines = "\n" + strings.Repeat(level, fieldkit.MaxDepth)

func (w *writer) begin(bracket byte) {
	w.b = append(w.b, bracket)
	w.depth++
}

// next goes on to a field or entry; more says that there is one before it.
func (w *writer) next(more bool) {
	if more {
		w.b = append(w.b, ',')
	}
	w.newLine()
}

func (w *writer) name(name string, more bool) {
	w.next(more)
	w.b = appendText(w.b, name)
	w.colon()
}

func (w *writer) colon() {
	if w.b = append(w.b, ':'); w.lines {
		w.b = append(w.b, ' ')
	}
}

func (w *writer) end(bracket byte, some bool) {
	if w.depth--; some {
		w.newLine()
	}
	w.b = append(w.b, bracket)
}

func (w *writer) newLine() {
	if !w.lines {
		return
	}
	w.b = append(w.b, newLines[:1+w.depth*len(level)]...)
}

// methods gives a value for the sake of its methods, without a copy where it can.
func methods(v reflect.Value) any {
	if v.CanAddr() {
		return v.Addr().Interface()
	}
	return v.Interface()
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

// isEmpty reports a value that an optional field leaves out: nothing set in it,
// at any depth.
func isEmpty(v reflect.Value, r *reading) bool {
	switch r.kind {
	case reflect.Slice, reflect.Map, reflect.String:
		return v.Len() == 0
	case asList:
		return v.Interface().(longList).Len() == 0
	case asText:
		if zero, ok := methods(v).(interface{ IsZero() bool }); ok {
			return zero.IsZero()
		}
	case reflect.Struct:
		if zero, ok := methods(v).(interface{ IsZero() bool }); ok {
			return zero.IsZero()
		}
		for _, f := range r.shape.fields {
			if !isEmpty(v.Field(f.index), f.reading) {
				return false
			}
		}
		return r.shape.extra < 0 || v.Field(r.shape.extra).Len() == 0
	}
	return v.IsZero()
}
