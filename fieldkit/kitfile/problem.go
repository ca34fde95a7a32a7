package kitfile

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// Bounds on what is said about a broken file: a file of another sort would
// otherwise give a problem for each of its lines.
const (
	maxProblems = 1000 // kept in a list
	maxPrinted  = 40   // printed by Error
	maxQuoted   = 60   // characters of an offending value that are quoted
)

// Problem is one thing that is wrong with a file or a kit.
type Problem struct {
	Kind    fieldkit.ErrorKind
	Line    int    // from 1; 0 when the kit was not read from text
	Column  int    // in characters, from 1
	Pointer string // JSON pointer (RFC 6901) into the file; "" is the whole document
	Where   string // in words: `part "pump-front", mass`
	What    string // lower case, the offending value quoted
	Do      string // what to do about it
}

// Error gives the problem as an error that says in which file it is.
func (p Problem) Error(name string) *fieldkit.Error {
	var where []string
	if name != "" {
		where = append(where, name)
	}
	if p.Line > 0 {
		where = append(where, fmt.Sprintf("line %d", p.Line))
	}
	if p.Where != "" {
		where = append(where, p.Where)
	}
	return &fieldkit.Error{Kind: p.Kind, Where: strings.Join(where, ", "), What: p.What, Do: p.Do}
}

// Problems is the error of a file that cannot be taken: all that is wrong with
// it, in file order. It unwraps to the first problem as a *fieldkit.Error.
type Problems struct {
	Name string // of the file
	List []Problem
	More int // problems beyond the longest list kept
}

// Error prints the problems one a line, the first few of very many.
func (p *Problems) Error() string {
	var lines []string
	for i, one := range p.List {
		if i == maxPrinted {
			break
		}
		lines = append(lines, one.Error(p.Name).Error())
	}
	if rest := len(p.List) + p.More - len(lines); rest > 0 {
		lines = append(lines, fmt.Sprintf("%s: %d more problems", p.Name, rest))
	}
	return strings.Join(lines, "\n")
}

// Unwrap gives the first problem, whose Kind tells a file that is too new or too
// big from one that is broken.
func (p *Problems) Unwrap() error {
	if len(p.List) == 0 {
		return nil
	}
	return p.List[0].Error(p.Name)
}

// nowhere is the offset of a problem known only by its pointer.
const nowhere = -1

// fault is a problem whose line is not yet looked up.
type fault struct {
	Problem
	offset int
}

// faults collects problems up to a bound.
type faults struct {
	list []fault
	more int
}

func (f *faults) add(pointer string, offset int, kind fieldkit.ErrorKind, what, do string) {
	if f.full() {
		f.more++
		return
	}
	f.list = append(f.list, fault{Problem{Kind: kind, Pointer: pointer, What: what, Do: do}, offset})
}

// full reports that no more problems are kept, only counted.
func (f *faults) full() bool { return len(f.list) >= maxProblems }

func (f *faults) none() bool { return len(f.list) == 0 }

// placed gives the problems with line, column and words, in file order; nil if
// there are none.
func (f *faults) placed(d *document) *Problems {
	if f.none() {
		return nil
	}
	for i := range f.list {
		one := &f.list[i]
		spot := d.find(one.Pointer)
		if one.offset == nowhere {
			one.offset = spot.offset
		}
		one.Pointer, one.Where = spot.pointer, spot.words
	}
	order.By(f.list, func(a, b fault) int { return a.offset - b.offset })
	found := &Problems{Name: d.name, More: f.more}
	at := cursor{src: d.src, line: 1, column: 1}
	for _, one := range f.list {
		at.moveTo(one.offset)
		one.Line, one.Column = at.line, at.column
		found.List = append(found.List, one.Problem)
	}
	return found
}

// quoted shows an offending value, shortened.
func quoted(s string) string {
	if r := []rune(s); len(r) > maxQuoted {
		s = string(r[:maxQuoted]) + "…"
	}
	return fmt.Sprintf("%q", s)
}

// listed joins words as "a, b or c".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
