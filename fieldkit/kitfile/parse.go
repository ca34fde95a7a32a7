package kitfile

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"trailfieldkit/fieldkit"
)

// maxValues bounds the values of one document, small as each may be: a tenfold of
// what the largest kit holds, and what still fits a phone's memory.
const maxValues = 4_000_000

// nodesTogether is how many nodes are made at a time: a small record has as many
// values.
const nodesTogether = 32

// parser reads JSON (RFC 8259) into nodes. What breaks the structure ends it;
// all else is noted and reading goes on.
type parser struct {
	doc   *document
	src   string
	at    int
	way   way // down to where the parser is
	found *faults
	count int    // values so far
	spare []node // made together, as there are many
}

// parse reads the text into a document. The root is set even when a problem was
// found, as far as reading came; ok is false when reading had to stop.
func parse(name string, data []byte, found *faults) (d *document, ok bool) {
	d = &document{name: name, root: &node{}}
	if len(data) > fieldkit.MaxFileSize {
		found.add("", 0, fieldkit.TooBig, fmt.Sprintf("the file is %d bytes long, the most is %d", len(data), fieldkit.MaxFileSize), "keep photos out of it or split it")
		return d, false
	}
	d.src = string(data)
	p := &parser{doc: d, src: d.src, found: found}
	if strings.HasPrefix(p.src, "\uFEFF") {
		p.note(0, "the file begins with a byte order mark", "save it as UTF-8 without one")
		p.at = len("\uFEFF")
	}
	p.space()
	if p.at == len(p.src) {
		p.note(p.at, "the file is empty", "choose another file")
		return d, false
	}
	if !p.value(d.root, 0) {
		return d, false
	}
	p.space()
	if p.at < len(p.src) {
		return d, p.stop(p.at, "there is more text after the end of the document", "remove it")
	}
	return d, true
}

func (p *parser) note(offset int, what, do string) {
	p.found.add(p.way.pointer(), offset, fieldkit.BadInput, what, do)
}

func (p *parser) stop(offset int, what, do string) bool {
	p.note(offset, what, do)
	return false
}

func (p *parser) tooBig(offset int, what, do string) {
	p.found.add(p.way.pointer(), offset, fieldkit.TooBig, what, do)
}

// newNode gives an empty node.
func (p *parser) newNode() *node {
	if len(p.spare) == 0 {
		p.spare = make([]node, nodesTogether)
	}
	n := &p.spare[0]
	p.spare = p.spare[1:]
	return n
}

func (p *parser) space() {
	for p.at < len(p.src) {
		switch p.src[p.at] {
		case ' ', '\t', '\n', '\r':
			p.at++
		default:
			return
		}
	}
}

// peek gives the next byte after white space, 0 at the end.
func (p *parser) peek() byte {
	p.space()
	if p.at == len(p.src) {
		return 0
	}
	return p.src[p.at]
}

func (p *parser) value(n *node, depth int) bool {
	if depth >= fieldkit.MaxDepth {
		p.tooBig(p.at, fmt.Sprintf("groups and lists are nested more than %d deep", fieldkit.MaxDepth), "flatten them")
		return false
	}
	if p.count++; p.count > maxValues {
		p.tooBig(p.at, fmt.Sprintf("the file holds more than %d values", maxValues), "split it")
		return false
	}
	c := p.peek()
	n.start = p.at
	ok := true
	switch {
	case c == '{':
		n.kind = object
		ok = p.object(n, depth)
	case c == '[':
		n.kind = list
		ok = p.list(n, depth)
	case c == '"':
		n.kind = text
		n.text, ok = p.string("a text", fieldkit.MaxString)
	case c == '-' || c == '+' || c == '.' || c >= '0' && c <= '9':
		p.number(n)
	case c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z':
		p.word(n)
	default:
		ok = p.unexpected("a value")
	}
	n.end = p.at
	return ok
}

// unexpected reports the character where something else should stand.
func (p *parser) unexpected(wanted string) bool {
	switch c := p.peek(); {
	case c == 0 && p.at == len(p.src):
		return p.stop(p.at, "the file ends in the middle", "it was cut off: use a whole copy or an earlier backup")
	case c == '\'':
		return p.stop(p.at, "a text begins with '", `write texts in double quotes "`)
	case c == '/' || c == '#':
		return p.stop(p.at, "a remark cannot stand in a kit file", "remove it, or use a note field")
	case c == '}' || c == ']':
		return p.stop(p.at, fmt.Sprintf("%q stands where %s should", string(c), wanted), "remove the comma before it, or write what is missing")
	}
	r, size := utf8.DecodeRuneInString(p.src[p.at:])
	if r == utf8.RuneError && size == 1 {
		return p.stop(p.at, "the file is not UTF-8 text", "save it as UTF-8")
	}
	return p.stop(p.at, fmt.Sprintf("%q stands where %s should", string(r), wanted), "check the commas, colons and quotes before it")
}

func (p *parser) object(n *node, depth int) bool {
	p.at++
	var seen map[string]bool // only for the large ones
	if p.peek() == '}' {
		p.at++
		return true
	}
	for {
		if p.peek() != '"' {
			return p.unexpected(`a field name in double quotes`)
		}
		keyAt := p.at
		key, ok := p.string("a field name", fieldkit.MaxID)
		if !ok {
			return false
		}
		p.way.toField(key)
		if seen == nil && len(n.members) == 32 {
			seen = map[string]bool{}
			for _, m := range n.members {
				seen[m.key] = true
			}
		}
		again := seen[key]
		if seen == nil {
			again = n.member(key) != nil
		} else {
			seen[key] = true
		}
		if again {
			p.note(keyAt, fmt.Sprintf("%s is given twice", quoted(key)), "keep one of the two")
		}
		if p.peek() != ':' {
			return p.unexpected("a colon")
		}
		p.at++
		child := p.newNode()
		n.members = append(n.members, member{key: key, value: child})
		if !p.value(child, depth+1) {
			return false
		}
		p.way.back()
		if len(n.members) == fieldkit.MaxList+1 {
			p.tooBig(n.start, fmt.Sprintf("a group holds more than %d fields", fieldkit.MaxList), "split it")
			return false
		}
		switch p.peek() {
		case ',':
			p.at++
		case '}':
			p.at++
			return true
		default:
			return p.unexpected(`a comma or "}"`)
		}
	}
}

// mostEntries is how many entries a list at a depth may have.
func mostEntries(depth int) int {
	if depth <= 1 { // a collection of the document
		return fieldkit.MaxRecords
	}
	return fieldkit.MaxList
}

func (p *parser) list(n *node, depth int) bool {
	p.at++
	limit := mostEntries(depth)
	if p.peek() == ']' {
		p.at++
		return true
	}
	for {
		p.way.toEntry(len(n.items))
		child := p.newNode()
		n.items = append(n.items, child)
		if !p.value(child, depth+1) {
			return false
		}
		p.way.back()
		if len(n.items) == limit+1 {
			p.tooBig(n.start, fmt.Sprintf("a list holds more than %d entries", limit), "split it")
			return false
		}
		switch p.peek() {
		case ',':
			p.at++
		case ']':
			p.at++
			return true
		default:
			return p.unexpected(`a comma or "]"`)
		}
	}
}

// maxNumber is the longest number taken: a figure with more digits than any
// measuring tool gives is a slip.
const maxNumber = 40

func (p *parser) number(n *node) {
	begin := p.at
	for p.at < len(p.src) && strings.IndexByte("+-.0123456789eE", p.src[p.at]) >= 0 {
		p.at++
	}
	n.kind, n.text = number, p.src[begin:p.at]
	if strings.HasPrefix(p.src[p.at:], "Infinity") {
		p.at = begin
		p.word(n)
		return
	}
	_, err := strconv.ParseFloat(n.text, 64)
	switch {
	case !plainNumber(n.text):
		n.kind = broken
		p.note(begin, fmt.Sprintf("%s is not a number", quoted(n.text)), "write digits, with a point before decimals, no leading zeros and no plus sign")
	case err != nil || len(n.text) > maxNumber:
		n.kind = broken
		p.note(begin, fmt.Sprintf("%s is beyond any number a kit holds", quoted(n.text)), "check it")
	}
}

// plainNumber tests the number grammar of RFC 8259.
func plainNumber(s string) bool {
	s = strings.TrimPrefix(s, "-")
	digits := func() (n int) {
		for len(s) > 0 && s[0] >= '0' && s[0] <= '9' {
			s, n = s[1:], n+1
		}
		return n
	}
	leadingZero := strings.HasPrefix(s, "0")
	if n := digits(); n == 0 || leadingZero && n > 1 {
		return false
	}
	if strings.HasPrefix(s, ".") {
		s = s[1:]
		if digits() == 0 {
			return false
		}
	}
	if s != "" && (s[0] == 'e' || s[0] == 'E') {
		s = s[1:]
		if s != "" && (s[0] == '+' || s[0] == '-') {
			s = s[1:]
		}
		if digits() == 0 {
			return false
		}
	}
	return s == ""
}

func (p *parser) word(n *node) {
	begin := p.at
	for p.at < len(p.src) && (p.src[p.at] >= 'a' && p.src[p.at] <= 'z' || p.src[p.at] >= 'A' && p.src[p.at] <= 'Z' || p.src[p.at] == '-' || p.src[p.at] == '+') {
		p.at++
	}
	n.text = p.src[begin:p.at]
	switch n.text {
	case "true", "false":
		n.kind = truth
	case "null":
		n.kind = null
	default:
		n.kind = broken
		do := `write texts in double quotes, or true or false`
		if strings.HasSuffix(n.text, "NaN") || strings.HasSuffix(n.text, "Infinity") {
			do = "write a figure, or leave the field out"
		}
		p.note(begin, fmt.Sprintf("%s is not a value", quoted(n.text)), do)
	}
}
