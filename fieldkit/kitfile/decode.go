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
	way         way // down to the value that is read
}

// decode reads the document into v.
func (d *decoder) decode(v reflect.Value) { d.value(d.doc.root, v, readingOf(v.Type())) }

func (d *decoder) note(n *node, what, do string) {
	d.found.add(d.way.pointer(), n.start, fieldkit.BadInput, what, do)
}

// wrongKind reports a value of another JSON sort than its field takes.
func (d *decoder) wrongKind(n *node, do string) {
	switch n.kind {
	case broken: // reported by the parser
	case null:
		d.note(n, "null is not a value", "leave the field out, or "+do)
	case text:
		d.note(n, quoted(n.text)+" is a text", do)
	case number, truth:
		d.note(n, n.text+" is "+n.kind.String(), do)
	default:
		d.note(n, n.kind.String()+" stands here", do)
	}
}

// value decodes n into v. A problem leaves v zero.
func (d *decoder) value(n *node, v reflect.Value, r *reading) {
	switch r.kind {
	case reflect.Pointer:
		if n.kind == null {
			d.wrongKind(n, "write a value")
			return
		}
		v.Set(reflect.New(v.Type().Elem()))
		d.value(n, v.Elem(), r.elem)
	case asText:
		d.written(n, v)
	case reflect.Struct:
		d.object(n, v, r.shape)
	case reflect.Slice, asList:
		d.list(n, v, r.elem)
	case reflect.Map:
		d.table(n, v, r.elem)
	case reflect.String:
		d.text(n, v, r.enum)
	case reflect.Bool:
		if n.kind != truth {
			d.wrongKind(n, "write true or false, without quotes")
			return
		}
		v.SetBool(n.text == "true")
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		if n.kind != number {
			d.wrongKind(n, "write a whole number, without quotes")
			return
		}
		i, err := strconv.ParseInt(n.text, 10, v.Type().Bits())
		if errors.Is(err, strconv.ErrSyntax) {
			d.note(n, n.text+" is not a whole number", "write it without point and exponent")
		} else if err != nil {
			d.note(n, n.text+" is too large", "check it")
		} else {
			v.SetInt(i)
		}
	case reflect.Float32, reflect.Float64:
		if n.kind != number {
			d.wrongKind(n, "write a number, without quotes")
			return
		}
		f, _ := strconv.ParseFloat(n.text, 64)
		v.SetFloat(f)
	default:
		panic("kitfile: no way to read a " + v.Type().String())
	}
}

// written decodes a value that is kept as text: a quantity, a date, a price.
func (d *decoder) written(n *node, v reflect.Value) {
	into := v.Addr().Interface().(encoding.TextUnmarshaler)
	if n.kind != text {
		_, do := refusal(into.UnmarshalText([]byte("?")))
		v.SetZero()
		d.wrongKind(n, cmp.Or(do, "write it")+", in double quotes")
		return
	}
	if n.text == "" && d.emptyIsZero {
		return
	}
	if what, do := refusal(into.UnmarshalText([]byte(n.text))); what != "" {
		v.SetZero()
		d.note(n, what, do)
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

func (d *decoder) text(n *node, v reflect.Value, e *enum) {
	if n.kind != text {
		do := "write it in double quotes"
		if e != nil {
			do = "write " + listed(e.words) + ", in double quotes"
		}
		d.wrongKind(n, do)
		return
	}
	if e != nil && n.text != "" {
		if what, do, refused := e.refuse(n.text); refused {
			d.note(n, what, do)
			return
		}
	}
	v.SetString(strings.Clone(n.text))
}

func (d *decoder) list(n *node, v reflect.Value, elem *reading) {
	if n.kind != list {
		d.wrongKind(n, "write a list in [ ]")
		return
	}
	if len(n.items) == 0 {
		return
	}
	if long, ok := v.Addr().Interface().(interface{ Fill(n int) }); ok {
		long.Fill(len(n.items))
	} else {
		v.Set(reflect.MakeSlice(v.Type(), len(n.items), len(n.items)))
	}
	_, entry, _ := entriesOf(v)
	for i, item := range n.items {
		d.way.toEntry(i)
		d.value(item, entry(i), elem)
		d.way.back()
	}
}

// table decodes an object whose fields are data, such as traits.
func (d *decoder) table(n *node, v reflect.Value, elem *reading) {
	if n.kind != object {
		d.wrongKind(n, "write a group in { }")
		return
	}
	if len(n.members) == 0 {
		return
	}
	v.Set(reflect.MakeMapWithSize(v.Type(), len(n.members)))
	for _, m := range n.members {
		one := reflect.New(v.Type().Elem()).Elem()
		d.way.toField(m.key)
		d.value(m.value, one, elem)
		d.way.back()
		v.SetMapIndex(reflect.ValueOf(strings.Clone(m.key)).Convert(v.Type().Key()), one)
	}
}

func (d *decoder) object(n *node, v reflect.Value, s *shape) {
	if n.kind != object {
		d.wrongKind(n, "write a group in { }")
		return
	}
	given := make([]bool, len(s.fields))
	var extra fieldkit.Extra
	for _, m := range n.members {
		d.way.toField(m.key)
		i, known := s.byName[m.key]
		switch {
		case known:
			given[i] = true
			d.value(m.value, v.Field(s.fields[i].index), s.fields[i].reading)
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
			d.note(m.value, fmt.Sprintf("%s is not a field here", quoted(m.key)), do)
		}
		d.way.back()
	}
	if extra != nil {
		v.Field(s.extra).Set(reflect.ValueOf(extra))
	}
	for i, f := range s.fields {
		if !given[i] && !f.optional {
			d.way.toField(f.name)
			d.note(n, fmt.Sprintf("%q is missing", f.name), "add it")
			d.way.back()
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
