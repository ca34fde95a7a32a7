package kitfile

import (
	"encoding"
	"reflect"
	"strings"
	"sync"

	"trailfieldkit/fieldkit"
)

// field is one field of a struct as the file knows it.
type field struct {
	name     string // in the file
	quoted   string // the name as it is written
	index    int
	optional bool // left out when zero
	reading  *reading
}

// shape is what a struct looks like in the file.
type shape struct {
	fields []field
	byName map[string]int // into fields
	extra  int            // index of the field that keeps unknown ones, -1 if none
}

var (
	extraType       = reflect.TypeFor[fieldkit.Extra]()
	unmarshalerType = reflect.TypeFor[encoding.TextUnmarshaler]()
	longListType    = reflect.TypeFor[longList]()
)

// longList is a fieldkit.List of any record.
type longList interface {
	Len() int
	Record(i int) fieldkit.Record
	Empty() fieldkit.Record
}

// isLongList is asked of every struct: most have more fields.
func isLongList(t reflect.Type) bool { return t.NumField() == 1 && t.Implements(longListType) }

var shapes sync.Map // reflect.Type to *shape

func shapeOf(t reflect.Type) *shape {
	if known, ok := shapes.Load(t); ok {
		return known.(*shape)
	}
	s := &shape{byName: map[string]int{}, extra: -1}
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Type == extraType {
			s.extra = i
			continue
		}
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "-" || !f.IsExported() {
			continue
		}
		if name == "" {
			name = f.Name
		}
		s.byName[name] = len(s.fields)
		s.fields = append(s.fields, field{name, string(appendText(nil, name)), i, strings.Contains(options, "omit"), readingOf(f.Type)})
	}
	shapes.Store(t, s)
	return s
}

// reading says how values of a Go type stand in the file.
type reading struct {
	kind  reflect.Kind // or asText
	enum  *enum        // of a string that takes one of a few words, else nil
	shape *shape       // of a struct
	elem  *reading     // of a pointer, an entry of a list or table
}

// asText is the kind of the types that read and write themselves as text, asList that
// of a fieldkit.List.
const (
	asText = reflect.Invalid
	asList = reflect.UnsafePointer
)

var readings sync.Map // reflect.Type to *reading

func readingOf(t reflect.Type) *reading {
	if known, ok := readings.Load(t); ok {
		return known.(*reading)
	}
	r := &reading{kind: t.Kind(), enum: enums[t]}
	switch {
	case t.PkgPath() != "" && reflect.PointerTo(t).Implements(unmarshalerType): // only named types have methods
		r.kind = asText
	case r.kind == reflect.Struct && isLongList(t):
		r.kind = asList
		r.elem = readingOf(reflect.TypeOf(reflect.Zero(t).Interface().(longList).Empty()))
	case r.kind == reflect.Struct:
		r.shape = shapeOf(t)
	case r.kind == reflect.Pointer || r.kind == reflect.Slice || r.kind == reflect.Map:
		r.elem = readingOf(t.Elem())
	}
	readings.Store(t, r)
	return r
}

// names lists the fields in file order.
func (s *shape) names() []string {
	names := make([]string, len(s.fields))
	for i, f := range s.fields {
		names[i] = f.name
	}
	return names
}

// shortestPart is the fewest letters by which a part of a word stands for it.
const shortestPart = 4

// nearest finds the word a slip of the finger away from s, else the first that s
// is the beginning of or the other way round, "" if there is none.
func nearest(s string, words []string) string {
	best, least := "", max(2, len(s)/3)+1
	for _, w := range words {
		if d := edits(strings.ToLower(s), strings.ToLower(w)); d < least && d < max(len(s), len(w)) {
			best, least = w, d
		}
	}
	for i := 0; best == "" && i < len(words); i++ {
		if w := words[i]; min(len(s), len(w)) >= shortestPart && (strings.HasPrefix(w, s) || strings.HasPrefix(s, w)) {
			best = w
		}
	}
	return best
}

// edits counts the letters to change, add or drop between two short words.
func edits(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := diagonal
			if a[i] != b[j] {
				cost++
			}
			diagonal = row[j+1]
			row[j+1] = min(cost, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
