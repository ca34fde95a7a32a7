package kitfile

import (
	"encoding"
	"reflect"
	"strconv"
	"strings"
	"unicode/utf8"

	"trailfieldkit/fieldkit"
)

// straight reads a kit as this program writes it, without taking the text apart first: a
// start waits for that. At anything else, were it only a field it does not know, it gives
// up, and the text is read again by the decoder, which has words for what is wrong and ways
// to read what is old.
type straight struct {
	*parser
	emptyIsZero bool // as the decoder's
}

// readStraight reads a kit of the present version that has no problem a decoder would
// note; ok is false for any other.
func readStraight(raw []byte, emptyIsZero bool) (kit fieldkit.Kit, ok bool) {
	if len(raw) > fieldkit.MaxFileSize {
		return kit, false
	}
	s := straight{&parser{src: string(raw), found: &faults{}}, emptyIsZero}
	t := reflect.TypeFor[fieldkit.Kit]()
	if !s.value(reflect.ValueOf(&kit).Elem(), readingOf(t), 0) || s.peek() != 0 || s.at < len(s.src) {
		return fieldkit.Kit{}, false
	}
	if v, known := parseVersion(kit.Version); kit.Format != fieldkit.Format || !known || v.major != current.major {
		return fieldkit.Kit{}, false
	}
	return kit, true
}

// take steps over a character if it comes next.
func (s straight) take(c byte) bool {
	if s.peek() != c {
		return false
	}
	s.at++
	return true
}

func (s straight) value(v reflect.Value, r *reading, depth int) bool {
	if s.count++; s.count > maxValues || depth >= fieldkit.MaxDepth {
		return false
	}
	switch r.kind {
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		return s.value(v.Elem(), r.elem, depth)
	case reflect.Struct:
		return s.object(v, r.shape, depth)
	case reflect.Slice:
		return s.entries(depth, func() reflect.Value {
			v.Grow(1)
			v.SetLen(v.Len() + 1)
			return v.Index(v.Len() - 1)
		}, r.elem)
	case asList:
		list := v.Addr().Interface().(interface{ More() fieldkit.Record })
		return s.entries(depth, func() reflect.Value { return reflect.ValueOf(list.More()).Elem() }, r.elem)
	case reflect.Map:
		return s.table(v, depth)
	case reflect.Bool, reflect.Int, reflect.Int64:
		return s.plain(v, r.kind)
	case asText, reflect.String:
		text, ok := s.text(fieldkit.MaxString)
		if !ok || text == "" {
			return ok && (s.emptyIsZero || r.kind != asText)
		}
		if r.kind == asText {
			return v.Addr().Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(text)) == nil
		}
		if r.enum != nil {
			text, ok = r.enum.own(text)
		} else {
			text = strings.Clone(text)
		}
		v.SetString(text)
		return ok
	}
	return false
}

func (s straight) object(v reflect.Value, shape *shape, depth int) bool {
	if !s.take('{') {
		return false
	}
	given := make([]bool, 0, 64)[:len(shape.fields)]
	next := 0 // fields come in their order, some left out
	for more := !s.take('}'); more; {
		name, ok := s.text(fieldkit.MaxID)
		if !ok || !s.take(':') {
			return false
		}
		for next < len(given) && shape.fields[next].name != name {
			next++
		}
		if next == len(given) {
			if next, ok = shape.byName[name]; !ok {
				return false
			}
		}
		f := &shape.fields[next]
		if given[next] || !s.value(v.Field(f.index), f.reading, depth+1) {
			return false
		}
		given[next] = true
		if more = s.take(','); !more && !s.take('}') {
			return false
		}
	}
	for i := range given {
		if !given[i] && !shape.fields[i].optional {
			return false
		}
	}
	return true
}

// entries reads a list into the places that more gives.
func (s straight) entries(depth int, more func() reflect.Value, elem *reading) bool {
	if !s.take('[') {
		return false
	}
	most := mostEntries(depth)
	for again := !s.take(']'); again; most-- {
		if most == 0 || !s.value(more(), elem, depth+1) {
			return false
		}
		if again = s.take(','); !again && !s.take(']') {
			return false
		}
	}
	return true
}

// table reads texts under names that are data.
func (s straight) table(v reflect.Value, depth int) bool {
	if !s.take('{') {
		return false
	}
	table := map[string]string{}
	for more := !s.take('}'); more; {
		name, ok := s.text(fieldkit.MaxID)
		if _, twice := table[name]; !ok || twice || !s.take(':') || len(table) == fieldkit.MaxList || depth+1 >= fieldkit.MaxDepth {
			return false
		}
		text, ok := s.text(fieldkit.MaxString)
		table[strings.Clone(name)] = strings.Clone(text)
		if more = s.take(','); !ok || !more && !s.take('}') {
			return false
		}
	}
	if len(table) > 0 {
		v.Set(reflect.ValueOf(table).Convert(v.Type()))
	}
	return true
}

// plain reads a whole number or a truth.
func (s straight) plain(v reflect.Value, kind reflect.Kind) bool {
	s.space()
	begin := s.at
	for s.at < len(s.src) && (s.src[s.at] == '-' || s.src[s.at] >= '0' && s.src[s.at] <= '9' || s.src[s.at] >= 'a' && s.src[s.at] <= 'z') {
		s.at++
	}
	word := s.src[begin:s.at]
	if kind == reflect.Bool {
		v.SetBool(word == "true")
		return word == "true" || word == "false"
	}
	i, err := strconv.ParseInt(word, 10, v.Type().Bits())
	v.SetInt(i)
	return err == nil && plainNumber(word)
}

// text reads a text or a name, which is a piece of what is read where nothing in it is
// escaped.
func (s straight) text(most int) (text string, ok bool) {
	if s.peek() != '"' {
		return "", false
	}
	for i := s.at + 1; i < len(s.src); i++ {
		switch c := s.src[i]; {
		case c == '"':
			text = s.src[s.at+1 : i]
			s.at = i + 1
			return text, len(text) <= most
		case c < ' ' || c == '\\' || c >= utf8.RuneSelf:
			text, ok = s.string("a text", most)
			return text, ok && s.found.none()
		}
	}
	return "", false
}
