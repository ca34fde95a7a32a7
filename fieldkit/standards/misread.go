package standards

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
)

// Misread says why a text is no designation: what is wrong, at which character,
// and which valid designations are near.
type Misread struct {
	Text    string
	Kind    Kind   // what it was read as
	At      int    // offset in runes: all before it could be read
	Why     string // lower case, quotes what is wrong
	Nearest []Designation

	standing standing
}

// standing says how far a refusal can be trusted to be of the kind that was meant.
type standing int

const (
	usual   standing = iota
	foreign          // the text has not even the form of the kind
	certain          // the text can be of no other kind
)

func (m *Misread) notOfKind() *Misread {
	m.standing = foreign
	return m
}

func (m *Misread) surely() *Misread {
	m.standing = certain
	return m
}

// near adds what may have been meant.
func (m *Misread) near(meant []Fitting) *Misread {
	for _, f := range meant[:min(len(meant), maxNearest)] {
		m.Nearest = append(m.Nearest, f)
	}
	return m
}

// Error names the text, the place, the reason and the nearest valid readings.
func (m *Misread) Error() string { return m.fault().Error() }

// Unwrap gives the fault as the error all packages use.
func (m *Misread) Unwrap() error { return m.fault() }

func (m *Misread) fault() *fieldkit.Error {
	return &fieldkit.Error{
		Kind:  fieldkit.BadInput,
		Where: fmt.Sprintf("%q, character %d", m.Text, m.At+1),
		What:  m.Why,
		Do:    m.do(),
	}
}

func (m *Misread) do() string {
	if len(m.Nearest) == 0 {
		return "look at the stamp again"
	}
	near := make([]string, len(m.Nearest))
	for i, d := range m.Nearest {
		near[i] = d.String()
	}
	return "nearest: " + strings.Join(near, ", ")
}
