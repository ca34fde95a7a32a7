package kitfile

import (
	"fmt"
	"strconv"
)

// Version 0.9 differs from 1.0 in this:
//
//   - the collection "systems" is called "assemblies", and a position names its
//     system in "assembly";
//   - a side is a letter: "L", "R" or "C";
//   - a rig's odometer is a whole number of kilometres, "odometerKm";
//   - the weight of a part is kept with its spares, in whole grams,
//     "weightGrams"; 1.0 keeps it once, with the part, as "mass".

// from09 brings a document of version 0.9 to 1.0.
func from09(root *node) {
	root.rename("assemblies", "systems")
	for _, p := range root.entries("positions") {
		p.rename("assembly", "system")
		sideInWords(p)
	}
	for _, r := range root.entries("rigs") {
		r.withUnit("odometerKm", "odometer", "km")
	}
	weightsToParts(root)
}

var sideWords = map[string]string{"L": "left", "R": "right", "C": "centre"}

func sideInWords(position *node) {
	side := position.member("side")
	if side == nil || side.kind != text {
		return
	}
	if word, ok := sideWords[side.text]; ok {
		side.text = word
	}
}

// withUnit turns a whole number into a text with its unit, under a new name. It
// returns nil, and changes nothing, if the value is no whole number of 0 or more.
func (n *node) withUnit(old, now, unit string) *node {
	v := n.member(old)
	if v == nil || v.kind != number || n.member(now) != nil {
		return nil
	}
	if _, err := strconv.ParseUint(v.text, 10, 32); err != nil {
		return nil
	}
	v.kind, v.text = text, v.text+" "+unit
	n.rename(old, now)
	return v
}

// weightsToParts moves the weight written at a spare to the part it is a spare
// of. A second, different weight of the same part is kept in the spare's note.
func weightsToParts(root *node) {
	parts := map[string]*node{}
	for _, p := range root.entries("parts") {
		if id := p.member("id"); id != nil && id.kind == text {
			parts[id.text] = p
		}
	}
	for i, s := range root.entries("spares") {
		mass := s.withUnit("weightGrams", "mass", "g")
		if mass == nil {
			continue
		}
		s.take("mass")
		named := s.member("part")
		if named == nil || parts[named.text] == nil {
			continue // the reader reports that the part is missing
		}
		part := parts[named.text]
		mass.origin = fmt.Sprintf("/spares/%d/weightGrams", i)
		switch known := part.member("mass"); {
		case known == nil:
			part.put("mass", mass)
		case known.text != mass.text:
			s.remark("weighed " + mass.text)
		}
	}
}

// remark adds a sentence to the note of a record.
func (n *node) remark(words string) {
	note := n.member("note")
	switch {
	case note == nil:
		n.put("note", &node{kind: text, start: n.start, end: n.end, text: words})
	case note.kind == text && note.text != "":
		note.text += "; " + words
	case note.kind == text:
		note.text = words
	}
}
