package journal

import (
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// check refuses a state that has a problem the one before it had not. A kit that
// had problems already, after damage, can still be edited.
func (s *state) check(before *state, what string) error {
	had := map[string]int{}
	for _, p := range before.found() {
		had[p.What]++
	}
	for _, p := range s.found() {
		if had[p.What]--; had[p.What] < 0 {
			return &fieldkit.Error{Kind: fieldkit.BadInput, Where: what, What: p.What, Do: p.Do}
		}
	}
	return nil
}

// found checks the kit once. Only the session's lock holder calls it.
func (s *state) found() []kitfile.Problem {
	if !s.checked {
		s.problems, s.checked = kitfile.Check(s.kit), true
	}
	return s.problems
}
