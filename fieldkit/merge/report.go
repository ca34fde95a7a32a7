package merge

import (
	"bytes"
	"cmp"
	"encoding/json"
	"maps"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/order"
)

// Report says what joining brings to the first copy. Records are in the order of the
// kit file.
type Report struct {
	New     []fieldkit.Record // that mine had not
	Changed []Changed         // that mine had otherwise
	Gone    []fieldkit.Record // that mine had and the other phone deleted, or that hang on such a one
	Clashes []Clash           // fields both edited, not known to mine before
	Edited  []fieldkit.Record // deleted by one phone while the other edited them
	Held    []fieldkit.Record // kept in the history only: what they hang on was deleted
	Name    string            // the kit's, if it changes
	Nothing bool              // mine knows everything the other says
}

// Changed is a record as it will be, and the names of the fields that change.
type Changed struct {
	Record fieldkit.Record
	Fields []string
}

// Clash is a field that both phones edited without knowing of each other.
type Clash struct {
	Key    Key
	Record fieldkit.Record // as the kit has it; nil for the kit's own fields
	Field  string
	Wins   Version
	Lost   []Version // the latest first
	Mine   bool      // in a report: the value that wins is of the first copy
}

func report(mine, theirs, both Replica, all *joined) Report {
	var r Report
	for _, c := range fieldkit.Collections {
		was := map[string]fieldkit.Record{}
		for _, rec := range c.All(mine.Kit) {
			was[rec.Key()] = rec
		}
		for _, rec := range c.All(both.Kit) {
			old, known := was[rec.Key()]
			delete(was, rec.Key())
			if !known {
				r.New = append(r.New, rec)
				continue
			}
			a, b := kitfile.EncodeRecord(old), kitfile.EncodeRecord(rec)
			if !bytes.Equal(a, b) {
				r.Changed = append(r.Changed, Changed{rec, differing(split(c.Name, a), split(c.Name, b))})
			}
		}
		for _, rec := range c.All(mine.Kit) {
			if _, gone := was[rec.Key()]; gone {
				r.Gone = append(r.Gone, rec)
			}
		}
	}
	known := map[string]bool{}
	for _, c := range Clashes(mine) {
		known[c.name()] = true
	}
	for _, c := range Clashes(both) {
		if known[c.name()] {
			continue
		}
		a, had := all.a.records[c.Key]
		if had {
			versions := a.values(c.Key.Collection)[c.Field]
			if versions == nil {
				versions = []Version{{a.trace.Base, none}}
			}
			c.Mine = versions[0].compare(c.Wins) == 0
		}
		r.Clashes = append(r.Clashes, c)
	}
	for k, st := range all.records {
		_, shown := all.shown[k]
		if shown || st.record == nil && !st.trace.Gone {
			continue
		}
		rec, err := recordOf(k.Collection, st.raw)
		if err != nil {
			continue
		}
		switch {
		case st.trace.Gone && all.editedElsewhere(k):
			r.Edited = append(r.Edited, rec)
		case !st.trace.Gone && mine.History.trail(k).Held == nil:
			r.Held = append(r.Held, rec)
		}
	}
	if both.Kit.Name != mine.Kit.Name {
		r.Name = both.Kit.Name
	}
	sortRecords(r.Edited)
	sortRecords(r.Held)
	r.Nothing = len(r.New)+len(r.Changed)+len(r.Gone)+len(r.Clashes)+len(r.Edited)+len(r.Held) == 0 && r.Name == "" && mine.Kit.Currency == both.Kit.Currency && all.knowsAll()
	return r
}

// trail is the trace of a record, an empty one if there is none.
func (h *History) trail(k Key) Trace {
	if h != nil {
		if t, ok := h.Of[k]; ok {
			return *t
		}
	}
	return Trace{}
}

// knowsAll reports whether the first copy knew all edits of the second before.
func (all *joined) knowsAll() bool {
	for _, s := range all.b.history.Seen {
		if !all.a.history.knows(s) {
			return false
		}
	}
	return true
}

// editedElsewhere reports whether one copy deleted a record and the other has an
// edit of it that the first did not know.
func (all *joined) editedElsewhere(k Key) bool {
	a, okA := all.a.records[k]
	b, okB := all.b.records[k]
	if !okA || !okB || a.trace.Gone == b.trace.Gone {
		return false
	}
	alive, other := a, all.b.history
	if a.trace.Gone {
		alive, other = b, all.a.history
	}
	for _, versions := range alive.values(k.Collection) {
		if !other.knows(versions[0].Stamp) {
			return true
		}
	}
	return false
}

func differing(a, b fields) []string {
	names := maps.Clone(a)
	maps.Copy(names, b)
	var changed []string
	for _, name := range slices.Sorted(maps.Keys(names)) {
		if !bytes.Equal(a.get(name), b.get(name)) {
			changed = append(changed, name)
		}
	}
	return changed
}

func (c Clash) name() string {
	text := c.Key.Collection + " " + c.Key.ID + " " + c.Field
	for _, v := range append([]Version{c.Wins}, c.Lost...) {
		at, _ := v.Stamp.MarshalText() // stamps always print
		text += " " + string(at)
	}
	return text
}

// Clashes lists the fields of a kit that were edited on two phones at the same time
// and that nobody has edited or settled since, in the order of the kit file. Counts
// are listed even if both phones came to the same figure: each may have taken one.
func Clashes(r Replica) []Clash {
	if r.History == nil {
		return nil
	}
	var found []Clash
	for k, t := range r.History.Of {
		if t.Held != nil {
			continue
		}
		raw := kitRaw(r.Kit)
		var rec fieldkit.Record
		if c, ok := fieldkit.CollectionNamed(k.Collection); ok {
			if rec, ok = c.Get(r.Kit, k.ID); !ok {
				continue
			}
			raw = nil
		} else if k.Collection != kitCollection {
			continue
		}
		for name, versions := range t.Fields {
			if len(versions) < 2 || isOrder(k.Collection, name) {
				continue
			}
			if raw == nil {
				raw = kitfile.EncodeRecord(rec)
			}
			shown := split(k.Collection, raw).get(name)
			c := Clash{Key: k, Record: rec, Field: name, Wins: Version{versions[0].Stamp, shown}}
			for _, v := range versions[1:] {
				if !bytes.Equal(v.Value, shown) || strings.HasSuffix(name, "count") {
					c.Lost = append(c.Lost, v)
				}
			}
			if len(c.Lost) > 0 {
				found = append(found, c)
			}
		}
	}
	order.By(found, func(a, b Clash) int {
		return cmp.Or(cmp.Compare(rank(a.Key), rank(b.Key)), cmp.Compare(a.Key.ID, b.Key.ID), cmp.Compare(a.Field, b.Field))
	})
	return found
}

// rank is the place of a record's collection in the kit file.
func rank(k Key) int {
	return slices.IndexFunc(fieldkit.Collections, func(c fieldkit.Collection) bool { return c.Name == k.Collection })
}

func sortRecords(list []fieldkit.Record) {
	order.By(list, func(a, b fieldkit.Record) int {
		return cmp.Or(cmp.Compare(rank(keyOf(a)), rank(keyOf(b))), cmp.Compare(a.Key(), b.Key()))
	})
}

// Take gives the record with a value that lost in place of the one that won, to be
// put as an edit of its own. Error of kind Conflict if the kit has changed so that
// it no longer can be.
func Take(kit fieldkit.Kit, c Clash, lost Version) (fieldkit.Record, error) {
	gone := &fieldkit.Error{Kind: fieldkit.Conflict, What: "this was changed since", Do: "correct it by hand"}
	list, ok := fieldkit.CollectionNamed(c.Key.Collection)
	if !ok {
		return nil, gone
	}
	rec, ok := list.Get(kit, c.Key.ID)
	if !ok {
		return nil, gone
	}
	whole := split(c.Key.Collection, kitfile.EncodeRecord(rec))
	whole.put(c.Field, lost.Value)
	raw, err := assemble(c.Key.Collection, c.Key.ID, whole)
	if err != nil {
		gone.Cause = err
		return nil, gone
	}
	return recordOf(c.Key.Collection, raw)
}

// Text is a value that lost or won, of the kit's own fields, as text.
func (v Version) Text() string {
	var text string
	if json.Unmarshal(v.Value, &text) != nil {
		return string(v.Value)
	}
	return text
}
