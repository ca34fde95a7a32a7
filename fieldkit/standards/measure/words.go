package measure

import (
	"fmt"

	"trailfieldkit/fieldkit"
)

const (
	// leastShown is the likelihood below which a candidate is not worth a line.
	leastShown = 0.0005
	// misreadShown is the same for one that fits only if something was misread.
	misreadShown = 0.05
	// nearestShown is how many are shown when none fits.
	nearestShown = 3
)

// Shown gives the candidates worth showing, at most so many: those with a chance, and
// the nearest few when none fits.
func (r Result) Shown(most int) []Candidate {
	n := 0
	for n < len(r.Candidates) && n < most {
		c := r.Candidates[n]
		switch {
		case !r.Fits && n >= nearestShown, r.Fits && !c.Fits && c.Likelihood < misreadShown, n > 0 && r.Fits && c.Likelihood < leastShown:
			return r.Candidates[:n]
		}
		n++
	}
	return r.Candidates[:n]
}

// Chance writes a likelihood for people.
func Chance(p float64) string {
	switch {
	case p >= 0.995:
		return "nearly certain"
	case p < 0.005:
		return "under 1 %"
	}
	return fmt.Sprintf("%.0f %%", 100*p)
}

// Words says what a part should measure and how far the reading is off, in both
// systems.
func (m Misfit) Words(first fieldkit.System) string {
	if !m.Known {
		return "not in the table"
	}
	figure := m.Figure.Both(first)
	off := m.Off
	word := "more"
	if off.Base < 0 {
		off.Base, word = -off.Base, "less"
	}
	switch {
	case off.Base == 0, off.Both(first) == (fieldkit.Value{Dim: off.Dim}).Both(first):
		return figure + ", as read"
	case m.Figure.Dim == fieldkit.DimText:
		return figure + ", not " + m.Read.Text
	}
	text := fmt.Sprintf("%s; read %s %s", figure, off.Both(first), word)
	if !m.Within {
		text += ", too far off"
	}
	return text
}

// Words says how a reading was understood: the size in both systems, how far it may be
// off, and whether its unit was a guess.
func (r Reading) Words(first fieldkit.System) string {
	text := r.Value.Both(first)
	if r.Value.Dim == fieldkit.DimLength && r.Within > 0 {
		text += " ±" + r.Within.Show(first)
	}
	if r.Guess {
		text += ", taken as inches"
	}
	return text
}
