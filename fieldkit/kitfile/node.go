package kitfile

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// kind is the sort of a JSON value.
type kind uint8

const (
	broken kind = iota // already reported
	object
	list
	text
	number
	truth
	null
)

// String names the sort as messages do.
func (k kind) String() string {
	return [...]string{"", "a group in { }", "a list in [ ]", "a text", "a number", "true or false", "null"}[k]
}

// node is one value of a document with its place in the text.
type node struct {
	kind       kind
	start, end int      // bytes of the document
	text       string   // decoded text; number or truth as written
	members    []member // of an object, in file order
	items      []*node  // of a list
	origin     string   // pointer in the file, where a migration moved the value
}

type member struct {
	key   string
	was   string // name in the file, where a migration renamed it
	value *node
}

// way leads from the root of a document down to a value.
type way []turn

// turn is one step down: to a field of a group or to an entry of a list.
type turn struct {
	field string
	entry int // -1 for a field
}

func (w *way) toField(name string) { *w = append(*w, turn{name, -1}) }
func (w *way) toEntry(i int)       { *w = append(*w, turn{"", i}) }
func (w *way) back()               { *w = (*w)[:len(*w)-1] }

// pointer gives the way as a JSON pointer.
func (w way) pointer() string {
	var b strings.Builder
	for _, t := range w {
		b.WriteByte('/')
		if t.entry >= 0 {
			b.WriteString(strconv.Itoa(t.entry))
		} else {
			b.WriteString(escape(t.field))
		}
	}
	return b.String()
}

// member finds a value of an object by name, nil if there is none.
func (n *node) member(key string) *node {
	for _, m := range n.members {
		if m.key == key {
			return m.value
		}
	}
	return nil
}

// name gives what a person calls the object: its ID, else its name.
func (n *node) name() string {
	for _, key := range []string{"id", "name"} {
		if m := n.member(key); m != nil && m.kind == text && m.text != "" {
			return m.text
		}
	}
	return ""
}

// document is a parsed text.
type document struct {
	name  string
	src   string
	root  *node
	about string // what the root is, when it is a record: "parts"
}

// cursor turns rising offsets of a text into lines and columns, in one pass.
type cursor struct {
	src          string
	at           int
	line, column int // of at, from 1; the column counts characters
}

func (c *cursor) moveTo(offset int) {
	for c.at < offset && c.at < len(c.src) {
		r, size := utf8.DecodeRuneInString(c.src[c.at:])
		c.at += size
		c.column++
		if r == '\n' {
			c.line, c.column = c.line+1, 1
		}
	}
}

// spot is where a pointer leads.
type spot struct {
	offset  int    // of the value, or of the nearest around it that exists
	pointer string // as in the file, before any migration
	words   string
}

// find follows a pointer as far as the document goes.
func (d *document) find(pointer string) spot {
	at, s := d.root, spot{}
	if at != nil {
		s.offset = at.start
	}
	var words []string
	if d.about != "" {
		words = append(words, label(d.about, 0, at))
	}
	field := "" // of the list or object being entered
	for _, token := range tokens(pointer) {
		next, name := (*node)(nil), token
		switch {
		case at == nil:
		case at.kind == list:
			if i, err := strconv.Atoi(token); err == nil && i >= 0 && i < len(at.items) {
				next = at.items[i]
			}
		case at.kind == object:
			for _, m := range at.members {
				if m.key == token {
					next = m.value
					if m.was != "" {
						name = m.was
					}
				}
			}
		}
		if at != nil && at.kind == list {
			i, _ := strconv.Atoi(token)
			if len(words) > 0 {
				words = words[:len(words)-1]
			}
			words = append(words, label(field, i, next))
		} else {
			words = append(words, name)
		}
		field = token
		s.pointer += "/" + escape(name)
		if next != nil {
			s.offset = next.start
			if next.origin != "" {
				s.pointer = next.origin
			}
		}
		at = next
	}
	s.words = strings.Join(words, ", ")
	return s
}

// label names an entry of a list: `part "pump-front"`, `measurement 2`.
func label(listName string, index int, entry *node) string {
	one := singular(listName)
	if entry != nil && entry.kind == object {
		if name := entry.name(); name != "" {
			return one + " " + quoted(name)
		}
	}
	return one + " " + strconv.Itoa(index+1)
}

// singulars are the lists whose entries are not called by the list's name
// without its s.
var singulars = map[string]string{
	"": "entry", "runs": "repair", "used": "item used", "never": "item left at home",
	"lookAlikes": "look-alike", "path": "step done", "buyWith": "thing to buy with it",
}

func singular(listName string) string {
	if one, ok := singulars[listName]; ok {
		return one
	}
	if _, err := strconv.Atoi(listName); err == nil {
		return "entry" // of a list in a list
	}
	var b strings.Builder
	for _, r := range listName {
		if unicode.IsUpper(r) {
			b.WriteRune(' ')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	name := b.String()
	for _, end := range []string{"ches", "shes", "sses", "xes"} {
		if strings.HasSuffix(name, end) {
			return strings.TrimSuffix(name, "es")
		}
	}
	if stem, ok := strings.CutSuffix(name, "ies"); ok {
		return stem + "y"
	}
	return strings.TrimSuffix(name, "s")
}

// tokens splits a JSON pointer into its unescaped parts.
func tokens(pointer string) []string {
	if pointer == "" {
		return nil
	}
	parts := strings.Split(pointer[1:], "/")
	for i, p := range parts {
		parts[i] = strings.ReplaceAll(strings.ReplaceAll(p, "~1", "/"), "~0", "~")
	}
	return parts
}

func escape(token string) string {
	return strings.ReplaceAll(strings.ReplaceAll(token, "~", "~0"), "/", "~1")
}
