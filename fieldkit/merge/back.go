package merge

import (
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// Missing lists what the history holds and the kit does not: records deleted on one
// phone, and those held back because something they hang on was deleted.
type Missing struct {
	Deleted []fieldkit.Record
	Held    []fieldkit.Record
}

// MissingFrom lists what is held beside the kit. Of the deleted records it lists
// those edited after the deletion on a phone that did not know of it, and those that
// held-back records hang on.
func MissingFrom(r Replica) Missing {
	var m Missing
	if r.History == nil {
		return m
	}
	wanted := map[Key]bool{}
	for k, t := range r.History.Of {
		if t.Held == nil || t.Gone {
			continue
		}
		rec, err := recordOf(k.Collection, t.Held)
		if err != nil {
			continue
		}
		m.Held = append(m.Held, rec)
		stands(rec, func(collection, id string) bool {
			wanted[Key{collection, id}] = true
			return true
		})
	}
	for k, t := range r.History.Of {
		if !t.Gone || t.Held == nil {
			continue
		}
		later := func(list []Version) bool { return list[0].Stamp.Compare(t.Made) > 0 }
		edited := false
		for _, versions := range t.Fields {
			edited = edited || later(versions)
		}
		if rec, err := recordOf(k.Collection, t.Held); err == nil && (edited || wanted[k]) {
			m.Deleted = append(m.Deleted, rec)
		}
	}
	sortRecords(m.Held)
	sortRecords(m.Deleted)
	return m
}

// Back lists the records to put, as one edit, to take a deletion back: the deleted
// record, what was deleted by the same action and what they cannot stand without, what
// was held back with them, and the references to them.
func Back(r Replica, k Key) ([]fieldkit.Record, error) {
	a := sideOf(r)
	if !a.bringBack(k) {
		return nil, &fieldkit.Error{Kind: fieldkit.NotFound, What: "it is not among the deleted", Do: "look at the kit: it may be back already"}
	}
	all, err := union(a, side{history: &History{}})
	if err != nil {
		return nil, err
	}
	kit := r.Kit
	all.project(&kit)
	var put []fieldkit.Record
	for _, c := range fieldkit.Collections {
		was := c.All(r.Kit)
		for _, rec := range c.All(kit) {
			i := slices.IndexFunc(was, func(old fieldkit.Record) bool { return old.Key() == rec.Key() })
			if i < 0 || !sameAs(was[i], rec) {
				put = append(put, rec)
			}
		}
	}
	if problems := kitfile.Check(kit); len(problems) > 0 {
		return nil, problems[0].Error("")
	}
	return put, nil
}

// bringBack marks a deleted record as there again, with all that one action deleted with
// it (a rig with its positions) and what these need. It reports whether it was deleted.
func (s side) bringBack(k Key) bool {
	first := s.records[k]
	if !first.trace.Gone {
		return false
	}
	var back []state
	for other, st := range s.records {
		if st.trace.Gone && st.trace.Made == first.trace.Made {
			st.trace.Gone = false
			s.records[other] = st
			st.record, _ = recordOf(other.Collection, st.raw) // nil if it is damaged: it stays away
			back = append(back, st)
		}
	}
	for _, st := range back {
		if st.record != nil {
			stands(st.record, func(collection, id string) bool {
				s.bringBack(Key{collection, id})
				return true
			})
		}
	}
	return true
}
