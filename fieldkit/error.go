package fieldkit

import "strings"

// ErrorKind says what sort of fault an Error is, so that callers can react
// without reading its text.
type ErrorKind string

const (
	// BadInput is something a person, a file or a URL supplied that cannot be read.
	BadInput ErrorKind = "bad input"
	// NotFound is a reference to something the kit does not hold.
	NotFound ErrorKind = "not found"
	// Conflict is a change that contradicts what the kit holds by now.
	Conflict ErrorKind = "conflict"
	// TooBig is input beyond a named limit.
	TooBig ErrorKind = "too big"
	// TooNew is a file of a later major version than this program knows.
	TooNew ErrorKind = "too new"
	// Storage is a store that refused or lost a write or a read.
	Storage ErrorKind = "storage"
)

// Error tells a person what was wrong, where, and what to do about it.
// What is lower case without a full stop and quotes the offending value; Where
// and Do may be empty. Match on Kind with errors.As, never on the text.
type Error struct {
	Kind  ErrorKind
	Where string // "kit.json, line 212, part \"pump-front\", width"
	What  string // "\"1 3/8/2\" is not a size"
	Do    string // "write 1-3/8, 1.375 in or 34.9 mm"
	Cause error
}

// Error joins the parts as "where: what; do".
func (e *Error) Error() string {
	var b strings.Builder
	if e.Where != "" {
		b.WriteString(e.Where + ": ")
	}
	b.WriteString(e.What)
	if e.Do != "" {
		b.WriteString("; " + e.Do)
	}
	return b.String()
}

// Unwrap gives the cause, if there is one.
func (e *Error) Unwrap() error { return e.Cause }

// At returns a copy of e that says where, keeping a place already known as the
// inner part.
func (e *Error) At(where string) *Error {
	placed := *e
	if placed.Where != "" {
		where += ", " + placed.Where
	}
	placed.Where = where
	return &placed
}

func badInput(what, do string) *Error {
	return &Error{Kind: BadInput, What: what, Do: do}
}
