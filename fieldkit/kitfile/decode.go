package kitfile

import (
	"bytes"
	"cmp"
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

// decoder fills Go values from nodes and notes every problem on the way.
type decoder struct {
	doc   *document
	found *faults
	// keepUnknown keeps unknown fields in Extra instead of refusing them.
	keepUnknown bool
	// emptyIsZero takes an empty text as a value not given. Records of the
	// journal may be half filled in; a file may not.
	emptyIsZero bool
}

// trail is the way from the root to a value; the pointer is only put together
// for a problem.
type trail struct {
	up    *trail
	token string
	index int // when token is ""
}

func (t *trail) pointer() string {
	if t == nil {
		return ""
	}
	if t.token == "" && t.index >= 0 {
		return t.up.pointer() + "/" + strconv.Itoa(t.index)
	}
	return t.up.pointer() + "/" + escape(t.token)
}

func (t *trail) field(name string) *trail { return &trail{up: t, token: name, index: -1} }
func (t *trail) entry(i int) *trail       { return &trail{up: t, index: i} }

func (d *decoder) note(at *trail, n *node, what, do string) {
	d.found.add(at.pointer(), n.start, fieldkit.BadInput, what, do)
}

// wrongKind reports a value of another JSON sort than its field takes.
func (d *decoder) wrongKind(at *trail, n *node, do string) {
	switch n.kind {
	case broken: // reported by the parser
	case null:
		d.note(at, n, "null is not a value", "leave the field out, or "+do)
	case text:
		d.note(at, n, quoted(n.text)+" is a text", do)
	case number, truth:
		d.note(at, n, n.text+" is "+string(n.kind), do)
	default:
		d.note(at, n, string(n.kind)+" stands here", do)
	}
}

// value decodes n into v. A problem leaves v zero.
func (d *decoder) value(n *node, v reflect.Value, at *trail) {
	if v.Kind() == reflect.Pointer {
		if n.kind == null {
			d.wrongKind(at, n, "write a value")
			return
		}
		v.Set(reflect.New(v.Type().Elem()))
		d.value(n, v.Elem(), at)
		return
	}
	if v.CanAddr() && v.Addr().Type().Implements(unmarshalerType) {
		d.written(n, v, at)
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		d.object(n, v, at)
	case reflect.Slice:
		d.list(n, v, at)
	case reflect.Map:
		d.table(n, v, at)
	case reflect.String:
		d.text(n, v, at)
	case reflect.Bool:
		if n.kind != truth {
			d.wrongKind(at, n, "write true or false, without quotes")
			return
		}
		v.SetBool(n.text == "true")
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		if n.kind != number {
			d.wrongKind(at, n, "write a whole number, without quotes")
			return
		}
		i, err := strconv.ParseInt(n.text, 10, v.Type().Bits())
		if errors.Is(err, strconv.ErrSyntax) {
			d.note(at, n, n.text+" is not a whole number", "write it without point and exponent")
		} else if err != nil {
			d.note(at, n, n.text+" is too large", "check it")
		} else {
			v.SetInt(i)
		}
	case reflect.Float32, reflect.Float64:
		if n.kind != number {
			d.wrongKind(at, n, "write a number, without quotes")
			return
		}
		f, _ := strconv.ParseFloat(n.text, 64)
		v.SetFloat(f)
	default:
		panic("kitfile: no way to read a " + v.Type().String())
	}
}

// written decodes a value that is kept as text: a quantity, a date, a price.
func (d *decoder) written(n *node, v reflect.Value, at *trail) {
	into := v.Addr().Interface().(encoding.TextUnmarshaler)
	if n.kind != text {
		_, do := refusal(into.UnmarshalText([]byte("?")))
		v.SetZero()
		d.wrongKind(at, n, cmp.Or(do, "write it")+", in double quotes")
		return
	}
	if n.text == "" && d.emptyIsZero {
		return
	}
	if what, do := refusal(into.UnmarshalText([]byte(n.text))); what != "" {
		v.SetZero()
		d.note(at, n, what, do)
	}
}

// refusal takes an error apart into what and what to do.
func refusal(err error) (what, do string) {
	var told *fieldkit.Error
	switch {
	case err == nil:
		return "", ""
	case errors.As(err, &told):
		return told.What, told.Do
	}
	return err.Error(), ""
}

func (d *decoder) text(n *node, v reflect.Value, at *trail) {
	e, isEnum := enums[v.Type()]
	if n.kind != text {
		do := "write it in double quotes"
		if isEnum {
			do = "write " + listed(e.words) + ", in double quotes"
		}
		d.wrongKind(at, n, do)
		return
	}
	if isEnum && n.text != "" {
		if what, do, refused := e.refuse(n.text); refused {
			d.note(at, n, what, do)
			return
		}
	}
	v.SetString(strings.Clone(n.text))
}

func (d *decoder) list(n *node, v reflect.Value, at *trail) {
	if n.kind != list {
		d.wrongKind(at, n, "write a list in [ ]")
		return
	}
	if len(n.items) == 0 {
		return
	}
	v.Set(reflect.MakeSlice(v.Type(), len(n.items), len(n.items)))
	for i, item := range n.items {
		d.value(item, v.Index(i), at.entry(i))
	}
}

// table decodes an object whose fields are data, such as traits.
func (d *decoder) table(n *node, v reflect.Value, at *trail) {
	if n.kind != object {
		d.wrongKind(at, n, "write a group in { }")
		return
	}
	if len(n.members) == 0 {
		return
	}
	v.Set(reflect.MakeMapWithSize(v.Type(), len(n.members)))
	for _, m := range n.members {
		one := reflect.New(v.Type().Elem()).Elem()
		d.value(m.value, one, at.field(m.key))
		v.SetMapIndex(reflect.ValueOf(strings.Clone(m.key)).Convert(v.Type().Key()), one)
	}
}

func (d *decoder) object(n *node, v reflect.Value, at *trail) {
	if n.kind != object {
		d.wrongKind(at, n, "write a group in { }")
		return
	}
	s := shapeOf(v.Type())
	given := make([]bool, len(s.fields))
	var extra fieldkit.Extra
	for _, m := range n.members {
		i, known := s.byName[m.key]
		switch {
		case known:
			given[i] = true
			d.value(m.value, v.Field(s.fields[i].index), at.field(m.key))
		case d.keepUnknown && s.extra >= 0:
			if extra == nil {
				extra = fieldkit.Extra{}
			}
			extra[strings.Clone(m.key)] = d.raw(m.value)
		case d.found.full():
			d.found.more++
		default:
			do := fmt.Sprintf("remove it; known here: %s", strings.Join(s.names(), ", "))
			if near := nearest(m.key, s.names()); near != "" {
				do = fmt.Sprintf("did you mean %q?", near)
			}
			d.note(at.field(m.key), m.value, fmt.Sprintf("%s is not a field here", quoted(m.key)), do)
		}
	}
	if extra != nil {
		v.Field(s.extra).Set(reflect.ValueOf(extra))
	}
	for i, f := range s.fields {
		if !given[i] && !f.optional {
			d.note(at.field(f.name), n, fmt.Sprintf("%q is missing", f.name), "add it")
		}
	}
}

// raw gives the JSON of a value as it stands in the file, without white space
// between its parts.
func (d *decoder) raw(n *node) string {
	var b bytes.Buffer
	if err := json.Compact(&b, []byte(d.doc.src[n.start:n.end])); err != nil {
		return "null" // only a value the parser refused, and then nothing is kept
	}
	return b.String()
}
