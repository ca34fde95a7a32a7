package fit

import (
	"slices"

	"trailfieldkit/fieldkit"
)

// Answer is what a check showed on the part in hand. A zero Found means that it could
// not be told; SomethingElse that it showed none of what is known.
type Answer struct {
	Check string // name
	By    Way
	Found fieldkit.Value
}

// SomethingElse is found where a check shows what neither the wanted part nor any
// look-alike is known to show.
var SomethingElse = fieldkit.Value{Dim: fieldkit.DimText, Text: "something else"}

// Standing says how far the questions have come.
type Standing string

const (
	Open      Standing = "open"      // there is a question that narrows it
	Proven    Standing = "proven"    // it is the part wanted, among those known
	Refuted   Standing = "refuted"   // it is not
	Undecided Standing = "undecided" // no check left tells
)

// State is what the answers so far leave.
type State struct {
	Standing Standing
	Left     []string          // look-alikes it may still be
	Ruled    []string          // look-alikes it cannot be
	Next     *Check            // the next question, while open
	Options  []fieldkit.Value  // what Next may show, as known of those it may still be
	Proof    fieldkit.Evidence // the least among the answers that ruled something out; "" for none
}

// Ask says what the answers leave and which check narrows most: the one that can be
// done with what the person has after which the fewest candidates are to be expected,
// each being as likely as the other; then the one of less effort, then the first.
func (p Puzzle) Ask(answers []Answer, have []Way) State {
	n := 1 + len(p.Alikes)
	possible := make([]bool, n)
	for i := range possible {
		possible[i] = true
	}
	var s State
	for _, answer := range answers {
		c, ok := p.named(answer.Check, answer.By)
		if !ok || answer.Found.IsZero() {
			continue
		}
		for i := range possible {
			if possible[i] && c.rules(i, answer.Found) {
				possible[i] = false
				if proof := answer.By.Proof(); s.Proof == "" || proof.Strength() < s.Proof.Strength() {
					s.Proof = proof
				}
			}
		}
	}
	for i, name := range p.Alikes {
		if possible[i+1] {
			s.Left = append(s.Left, name)
		} else {
			s.Ruled = append(s.Ruled, name)
		}
	}
	switch {
	case !possible[0]:
		s.Standing = Refuted
		return s
	case len(s.Left) == 0 && n > 1:
		s.Standing = Proven
		return s
	}
	s.Next = p.next(answers, have, possible)
	if s.Standing = Open; s.Next == nil {
		s.Standing = Undecided
		return s
	}
	s.Options = s.Next.options(possible)
	return s
}

func (p Puzzle) named(name string, by Way) (c Check, ok bool) {
	for _, c := range p.Checks {
		if c.Name == name && c.By == by {
			return c, true
		}
	}
	return c, false
}

// rules reports whether a candidate cannot show what was found.
func (c Check) rules(candidate int, found fieldkit.Value) bool {
	shows := c.Shows[candidate]
	if found == SomethingElse {
		return !shows.IsZero()
	}
	return c.apart(shows, found)
}

func (p Puzzle) next(answers []Answer, have []Way, possible []bool) *Check {
	best, bestSum, bestOf := -1, 0, 1
	for k, c := range p.Checks {
		asked := slices.ContainsFunc(answers, func(a Answer) bool { return a.Check == c.Name && a.By == c.By })
		if asked || !slices.Contains(have, c.By) || !c.narrows(possible) {
			continue
		}
		sum, of := c.expected(possible)
		better := best < 0 || sum*bestOf < bestSum*of ||
			sum*bestOf == bestSum*of && c.By.effort() < p.Checks[best].By.effort()
		if better {
			best, bestSum, bestOf = k, sum, of
		}
	}
	if best < 0 {
		return nil
	}
	return &p.Checks[best]
}

// narrows reports whether the check tells the part wanted from any it may still be.
func (c Check) narrows(possible []bool) bool {
	for i := 1; i < len(possible); i++ {
		if possible[i] && c.tells(i) {
			return true
		}
	}
	return false
}

// expected gives how many candidates are left after the check, as sum/of: summed over
// what each candidate of which it is known would show.
func (c Check) expected(possible []bool) (sum, of int) {
	for i, is := range possible {
		if !is || c.Shows[i].IsZero() {
			continue
		}
		of++
		for j, may := range possible {
			if may && !c.rules(j, c.Shows[i]) {
				sum++
			}
		}
	}
	return sum, of
}

// options lists what the check may show, what the part wanted shows first.
func (c Check) options(possible []bool) (list []fieldkit.Value) {
	for i, is := range possible {
		if is && !c.Shows[i].IsZero() && !slices.Contains(list, c.Shows[i]) {
			list = append(list, c.Shows[i])
		}
	}
	return list
}
