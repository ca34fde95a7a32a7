package journal

import (
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// check refuses a state that has a problem the one before it had not. A kit that
// had problems already, after damage, can still be edited.
func (s *state) check(before *state, e Entry) error {
	was, is := checkRecords(before.kit, e), checkRecords(s.kit, e)
	if reachesFurther(before.kit, s.kit, e) {
		was, is = before.found(), s.found()
	}
	had := map[string]int{}
	for _, p := range was {
		had[p.What]++
	}
	for _, p := range is {
		if had[p.What]--; had[p.What] < 0 {
			return p.Error(e.What)
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

// checkRecords checks only the records the entry touches.
func checkRecords(k fieldkit.Kit, e Entry) []kitfile.Problem {
	var found []kitfile.Problem
	for _, c := range e.Changes {
		if list, ok := fieldkit.CollectionNamed(c.Collection); ok {
			if r, ok := list.Get(k, c.ID); ok {
				found = append(found, kitfile.CheckRecord(k, r)...)
			}
		}
	}
	return found
}

// reachesFurther reports whether the entry can bring a problem to records it does
// not touch: to those that refer to a deleted one, to positions that would hang
// under themselves, to a full list. Most entries cannot, and so cost the same in
// a kit of any size.
func reachesFurther(before, after fieldkit.Kit, e Entry) bool {
	for _, c := range e.Changes {
		list, ok := fieldkit.CollectionNamed(c.Collection)
		if !ok || len(c.After) == 0 || list.Index(after, c.ID) >= fieldkit.MaxRecords {
			return true
		}
		if c.Collection == "positions" {
			was, _ := before.Position(c.ID)
			if is, _ := after.Position(c.ID); is.Parent != was.Parent {
				return true
			}
		}
	}
	return false
}
