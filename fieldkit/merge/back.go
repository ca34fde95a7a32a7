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
// record, what was held back with it, and the references to it.
func Back(r Replica, k Key) ([]fieldkit.Record, error) {
	a := sideOf(r)
	st, ok := a.records[k]
	if !ok || !st.trace.Gone {
		return nil, &fieldkit.Error{Kind: fieldkit.NotFound, What: "it is not among the deleted", Do: "look at the kit: it may be back already"}
	}
	st.trace.Gone = false
	a.records[k] = st
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
