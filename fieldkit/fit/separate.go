package fit

import (
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
)

// Check is one thing to look at or measure, with what it shows on the part wanted and
// on each of those that look like it.
type Check struct {
	Name string
	How  string
	By   Way
	// Shows is by candidate: the part wanted first, then the look-alikes in their
	// order; zero where it is not known.
	Shows []fieldkit.Value

	attribute Attribute // decides how near is the same; of a check of one's own its dimension only
}

// Puzzle is a part wanted among those that look like it.
type Puzzle struct {
	Wanted string
	Alikes []string // what they are called
	Checks []Check
}

// Answers of a check that only says which of two parts is in hand.
const (
	LikeOurs  = "like the one wanted"
	LikeOther = "like the other"
)

// PuzzleOf lists all checks that may tell a part from its look-alikes: what was
// measured on both, what was written down of a look-alike, and where that is nothing,
// its one line as a question. Part finds the parts that look-alikes are.
func PuzzleOf(s Schema, wanted fieldkit.Part, part func(id string) (fieldkit.Part, bool)) Puzzle {
	p := Puzzle{Wanted: wanted.Name}
	ours := Known(wanted).Readings
	n := 1 + len(wanted.LookAlikes)
	for i, alike := range wanted.LookAlikes {
		p.Alikes = append(p.Alikes, alike.Name)
		for _, t := range alike.Tells {
			p.tell(s, ours, t, i+1, n)
		}
		if other, ok := part(alike.Part); ok && alike.Part != "" {
			theirs := Known(other).Readings
			for _, a := range s.Attributes {
				if r := theirs.Of(a.Name); r != nil && ours.Of(a.Name) != nil {
					p.check(a, a.How, wayOfAttribute(a), n).show(ours, i+1, r.Value)
				}
			}
		}
	}
	for i, alike := range wanted.LookAlikes {
		if !slices.ContainsFunc(p.Checks, func(c Check) bool { return c.tells(i + 1) }) {
			shows := make([]fieldkit.Value, n)
			shows[0], shows[i+1] = words(LikeOurs), words(LikeOther)
			p.Checks = append(p.Checks, Check{Name: alike.Name, How: alike.Tell, By: ByEye, Shows: shows,
				attribute: Attribute{Attribute: fieldkit.Attribute{Dim: fieldkit.DimText}}})
		}
	}
	return p
}

func words(text string) fieldkit.Value {
	return fieldkit.Value{Dim: fieldkit.DimText, Text: text}
}

// tell adds what was written down of a look-alike.
func (p *Puzzle) tell(s Schema, ours Readings, t fieldkit.Tell, i, n int) {
	a, known := s.Named(t.What)
	if !known {
		a = Attribute{Attribute: fieldkit.Attribute{Name: t.What, Dim: t.Other.Dim}}
		if t.Other.Dim != fieldkit.DimText && t.Other.Dim != fieldkit.DimCount {
			a.Spec = Spec{Below: oneInFifty, Above: oneInFifty}
		}
	}
	way, said := WayOf(t.By)
	if !said {
		if way = ByEye; known || a.Dim != fieldkit.DimText {
			way = wayOfAttribute(a)
		}
	}
	c := p.check(a, a.How, way, n)
	c.show(ours, i, t.Other)
	if !t.Wanted.IsZero() && c.Shows[0].IsZero() {
		c.Shows[0] = t.Wanted
	}
}

// oneInFifty is how near amounts are the same where no schema says it: two in a
// hundred (common practice for what is told apart in a yard).
var oneInFifty = Slack{Share: 20, Written: true}

// check finds the check of a name and way, or adds it.
func (p *Puzzle) check(a Attribute, how string, way Way, n int) *Check {
	for i := range p.Checks {
		if sameName(p.Checks[i].Name, a.Name) && p.Checks[i].By == way {
			return &p.Checks[i]
		}
	}
	p.Checks = append(p.Checks, Check{Name: a.Name, How: how, By: way, Shows: make([]fieldkit.Value, n), attribute: a})
	return &p.Checks[len(p.Checks)-1]
}

func (c *Check) show(ours Readings, i int, v fieldkit.Value) {
	c.Shows[i] = v
	if r := ours.Of(c.attribute.Name); r != nil {
		c.Shows[0] = r.Value
	}
}

// apart reports whether two showings cannot be of one part.
func (c Check) apart(a, b fieldkit.Value) bool {
	if a.IsZero() || b.IsZero() || a.Dim != b.Dim {
		return false
	}
	if a.Dim == fieldkit.DimText {
		return compareWords(a.Text, b.Text, c.attribute.Spec.Words) == unlike
	}
	// By size alone: a part that is more than asked for is another one all the same.
	below, above := c.attribute.Spec.Below.of(a), c.attribute.Spec.Above.of(a)
	off := b.Base - a.Base
	return off < -max(below, above) || off > max(below, above)
}

// tells reports whether the check tells a look-alike, by its place, from the part
// wanted.
func (c Check) tells(i int) bool { return c.apart(c.Shows[0], c.Shows[i]) }

// Separation is the smallest set of checks that tells the wanted part from its
// look-alikes.
type Separation struct {
	Checks    []Check  // in the order to do them
	Lacking   []Way    // what they need and the person has not
	Undecided []string // look-alikes that no check tells from the part wanted
}

// Separate finds the smallest set of checks that tells the part wanted from every
// look-alike that any check tells from it. A check that can be done with what the
// person has goes before any number of others that cannot; then fewer checks, then
// less effort, then the first. It is exact.
func (p Puzzle) Separate(have []Way) Separation {
	var s Separation
	item := make([]int, len(p.Alikes)) // by look-alike, -1 if nothing tells it
	n := 0
	for i, name := range p.Alikes {
		item[i] = -1
		if slices.ContainsFunc(p.Checks, func(c Check) bool { return c.tells(i + 1) }) {
			item[i] = n
			n++
		} else {
			s.Undecided = append(s.Undecided, name)
		}
	}
	sets := make([]coverSet, len(p.Checks))
	for k, c := range p.Checks {
		sets[k].cost = stepCost + c.By.effort()
		if !slices.Contains(have, c.By) {
			sets[k].cost += lackCost
		}
		for i := range p.Alikes {
			if item[i] >= 0 && c.tells(i+1) {
				sets[k].items = append(sets[k].items, item[i])
			}
		}
	}
	chosen, _ := cheapestCover(n, sets)
	for _, k := range chosen {
		c := p.Checks[k]
		s.Checks = append(s.Checks, c)
		if !slices.Contains(have, c.By) && !slices.Contains(s.Lacking, c.By) {
			s.Lacking = append(s.Lacking, c.By)
		}
	}
	slices.SortStableFunc(s.Checks, func(a, b Check) int { return a.By.effort() - b.By.effort() })
	return s
}

// lackCost weighs a check that cannot be done against any number that can.
const lackCost = 1_000_000

// TellLine writes a tell as people do: "splines: 30, not 35, by count".
func TellLine(t fieldkit.Tell, first fieldkit.System) string {
	var b strings.Builder
	b.WriteString(t.What + ": ")
	if !t.Wanted.IsZero() {
		b.WriteString(t.Wanted.Show(first) + ", ")
	}
	b.WriteString("not " + t.Other.Show(first))
	if t.By != "" {
		b.WriteString(", by " + t.By)
	}
	return b.String()
}

// Dim is the dimension of what the check shows.
func (c Check) Dim() fieldkit.Dimension { return c.attribute.Dim }
