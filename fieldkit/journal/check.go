package journal

import (
	"fmt"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// check refuses a state that has a problem the one before it had not. A kit that
// had problems already, after damage, can still be edited. Only what the entry can
// have brought a problem to is looked at, so that an edit costs the same in a kit of
// any size.
func (s *state) check(before *state, e Entry) error {
	reached := reachedBy(e, s.kit)
	was, is := checkReached(before.kit, reached), checkReached(s.kit, reached)
	if before.kit.Currency != s.kit.Currency { // every price is in it
		was, is = kitfile.Check(before.kit), kitfile.Check(s.kit)
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
	return tooMany(before.kit, s.kit, e)
}

// reachedBy lists the records an entry can bring a problem to: those it touches and
// those that refer to one it deleted.
func reachedBy(e Entry, after fieldkit.Kit) []recordKey {
	var list []recordKey
	for _, c := range e.Changes {
		list = append(list, recordKey{c.Collection, c.ID})
		if len(c.After) == 0 {
			for _, r := range kitfile.ReferringTo(after, c.Collection, c.ID) {
				list = append(list, recordKey{r.Collection(), r.Key()})
			}
		}
	}
	return list
}

func checkReached(k fieldkit.Kit, reached []recordKey) []kitfile.Problem {
	var found []kitfile.Problem
	seen := map[recordKey]bool{}
	for _, key := range reached {
		if seen[key] {
			continue
		}
		seen[key] = true
		if key.collection == kitCollection {
			found = append(found, kitfile.CheckHeader(k)...)
			continue
		}
		list, _ := fieldkit.CollectionNamed(key.collection)
		if r, ok := list.Get(k, key.id); ok {
			found = append(found, kitfile.CheckRecord(k, r)...)
		}
	}
	return found
}

// tooMany refuses an entry that makes a collection longer than a kit file may be.
func tooMany(before, after fieldkit.Kit, e Entry) error {
	for _, c := range e.Changes {
		list, ok := fieldkit.CollectionNamed(c.Collection)
		if ok && list.Len(after) > fieldkit.MaxRecords && list.Len(after) > list.Len(before) {
			return &fieldkit.Error{Kind: fieldkit.TooBig, Where: e.What, What: fmt.Sprintf("a kit holds at most %d %s", fieldkit.MaxRecords, c.Collection),
				Do: "take out what is not needed any more first"}
		}
	}
	return nil
}
