package merge

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/order"
)

// Replica is one phone's copy of a kit with its history; nil is none.
type Replica struct {
	Kit     fieldkit.Kit
	History *History
}

// Join brings two copies of a kit together. The report is from the view of the
// first. Neither is changed. Errors of kind Conflict: the copies are not of one
// kit; or what they say together contradicts itself, which names the record.
func Join(mine, theirs Replica) (Replica, Report, error) {
	if mine.Kit.ID != theirs.Kit.ID {
		return Replica{}, Report{}, &fieldkit.Error{Kind: fieldkit.Conflict,
			What: fmt.Sprintf("%q is another kit, not a copy of %q", theirs.Kit.Name, mine.Kit.Name),
			Do:   "add its rigs beside yours, or restore it in place of yours"}
	}
	a, b := sideOf(mine), sideOf(theirs)
	all, err := union(a, b)
	if err != nil {
		return Replica{}, Report{}, err
	}
	kit := mine.Kit
	if newer(theirs.Kit.Version, kit.Version) {
		kit.Version = theirs.Kit.Version
	}
	h := &History{Clock: a.history.Clock, Seen: map[string]Stamp{}}
	if b.history.Clock.Compare(h.Clock) > 0 {
		h.Clock = b.history.Clock
	}
	for _, from := range []*History{a.history, b.history} {
		for by, s := range from.Seen {
			if s.Compare(h.Seen[by]) > 0 {
				h.Seen[by] = s
			}
		}
	}
	all.project(&kit)
	if problems := kitfile.Check(kit); len(problems) > 0 {
		return Replica{}, Report{}, &fieldkit.Error{Kind: fieldkit.Conflict, Where: problems[0].Where,
			What: "the two kits together contradict themselves: " + problems[0].What, Do: "correct that on one of the two phones, then merge again"}
	}
	all.seal(h)
	both := Replica{kit, h}
	return both, report(mine, theirs, both, all), nil
}

// newer compares versions "1.2"; what is none is older.
func newer(v, than string) bool {
	var a, b [2]int
	_, _ = fmt.Sscanf(v, "%d.%d", &a[0], &a[1])
	_, _ = fmt.Sscanf(than, "%d.%d", &b[0], &b[1])
	return slices.Compare(a[:], b[:]) > 0
}

// side is one copy, with its records at hand.
type side struct {
	history *History
	records map[Key]state
	keys    []Key // in the order of the kit, then those it does not hold
}

// state is one record as the edits made it, which the kit may not show: deleted or
// held back ones too.
type state struct {
	raw    json.RawMessage
	record fieldkit.Record // nil unless it is what raw says
	trace  Trace
	seat   int
}

func sideOf(r Replica) side {
	s := side{history: r.History, records: map[Key]state{}}
	if s.history == nil {
		s.history = &History{}
	}
	s.take(Key{kitCollection, kitCollection}, kitRaw(r.Kit), nil, 1)
	for _, c := range fieldkit.Collections {
		for i, rec := range c.All(r.Kit) {
			s.take(Key{c.Name, rec.Key()}, kitfile.EncodeRecord(rec), rec, i+1)
		}
	}
	for k, t := range s.history.Of {
		if _, here := s.records[k]; !here && t.Held != nil {
			s.records[k] = state{raw: t.meant(k, t.Held), trace: *t, seat: t.Seat}
			s.keys = append(s.keys, k)
		}
	}
	return s
}

func (s *side) take(k Key, raw json.RawMessage, rec fieldkit.Record, seat int) {
	if _, twice := s.records[k]; twice {
		return
	}
	st := state{raw: raw, record: rec, seat: seat}
	if t, ok := s.history.Of[k]; ok {
		st.trace = *t
		st.trace.Gone, st.trace.Held = false, nil
		if t.Seat > 0 {
			st.seat = t.Seat
		}
		if meant := t.meant(k, raw); !bytes.Equal(meant, raw) {
			st.raw, st.record = meant, nil
		}
	}
	s.records[k] = st
	s.keys = append(s.keys, k)
}

// meant is a record with the values that the kit could not show put back.
func (t *Trace) meant(k Key, raw json.RawMessage) json.RawMessage {
	var whole fields
	for name, versions := range t.Fields {
		v := versions[0].Value
		if v == nil {
			continue
		}
		if whole == nil {
			whole = split(k.Collection, raw)
		}
		whole.put(name, v)
	}
	if whole == nil {
		return raw
	}
	meant, err := assemble(k.Collection, k.ID, whole)
	if err != nil {
		return raw // values of a damaged history are left aside
	}
	return meant
}

// kitRaw is the kit's own fields as a record.
func kitRaw(k fieldkit.Kit) json.RawMessage {
	f := fields{"name": encode(k.Name), "currency": encode(k.Currency)}
	if len(k.Extra) > 0 {
		f["extra"] = encode(k.Extra)
	}
	return encode(f)
}

// values are the versions of all fields of a record, each with its value.
func (st state) values(collection string) map[string][]Version {
	all := map[string][]Version{}
	is := split(collection, st.raw)
	for name, v := range is {
		all[name] = []Version{{st.trace.Base, v}}
	}
	for name, versions := range st.trace.Fields {
		versions = slices.Clone(versions)
		for i := range versions {
			if versions[i].Value == nil {
				versions[i].Value = none
				if v, ok := is[name]; ok {
					versions[i].Value = v
				}
			}
		}
		all[name] = versions
	}
	return all
}

// joined is the records of both copies.
type joined struct {
	records map[Key]*state
	shown   map[Key]json.RawMessage // those the kit holds, as it shows them
	place   map[Key]int             // in the kit's lists, from 1
	a, b    side
}

func union(a, b side) (*joined, error) {
	all := &joined{records: make(map[Key]*state, len(a.records)), shown: map[Key]json.RawMessage{}, place: map[Key]int{}, a: a, b: b}
	for _, k := range a.keys {
		mine := a.records[k]
		theirs, both := b.records[k]
		st := mine
		if both && !same(mine, theirs) {
			var err error
			if st, err = all.join(k, mine, theirs); err != nil {
				return nil, err
			}
		} else if both {
			st.seat = max(mine.seat, theirs.seat)
		}
		all.records[k] = &st
	}
	for _, k := range b.keys {
		if _, done := all.records[k]; !done {
			st := b.records[k]
			all.records[k] = &st
		}
	}
	return all, nil
}

// same reports two records without a difference in value or history.
func same(a, b state) bool {
	return a.trace.Made == b.trace.Made && a.trace.Base == b.trace.Base && a.trace.Gone == b.trace.Gone &&
		len(a.trace.Fields) == 0 && len(b.trace.Fields) == 0 && bytes.Equal(a.raw, b.raw)
}

// join joins two states of one record field by field.
func (all *joined) join(k Key, a, b state) (state, error) {
	t := Trace{Made: a.trace.Made, Gone: a.trace.Gone, Base: a.trace.Base, Fields: map[string][]Version{}}
	switch c := b.trace.Made.Compare(t.Made); {
	case c > 0:
		t.Made, t.Gone = b.trace.Made, b.trace.Gone
	case c == 0:
		t.Gone = t.Gone || b.trace.Gone
	}
	if b.trace.Base.Compare(t.Base) > 0 {
		t.Base = b.trace.Base
	}
	mine, theirs := a.values(k.Collection), b.values(k.Collection)
	names := maps.Clone(mine)
	maps.Copy(names, theirs)
	whole := fields{}
	for name := range names {
		va, vb := mine[name], theirs[name]
		if va == nil {
			va = []Version{{a.trace.Base, none}}
		}
		if vb == nil {
			vb = []Version{{b.trace.Base, none}}
		}
		versions := all.versions(va, vb)
		if isOrder(k.Collection, name) {
			versions = versions[:1]
		}
		t.Fields[name] = versions
		whole.put(name, versions[0].Value)
	}
	raw, err := assemble(k.Collection, k.ID, whole)
	if err != nil {
		return state{}, &fieldkit.Error{Kind: fieldkit.Conflict, Where: k.Collection + " " + k.ID, What: "it cannot be joined", Cause: err}
	}
	return state{raw: raw, trace: t, seat: max(a.seat, b.seat)}, nil
}

// versions joins the versions of one field: the latest wins; of the others those
// stay that the other copy did not know when it wrote its own.
func (all *joined) versions(a, b []Version) []Version {
	var kept []Version
	latest := a[0]
	for _, v := range slices.Concat(a, b) {
		if v.compare(latest) > 0 {
			latest = v
		}
	}
	keep := func(from, other []Version, known func(Stamp) bool) {
		for _, v := range from {
			inBoth := slices.ContainsFunc(other, func(o Version) bool { return o.compare(v) == 0 })
			stays := inBoth || !known(v.Stamp) || v.compare(latest) == 0
			if v.Stamp.IsZero() { // unstamped values stand beside each other, and below all others
				stays = latest.Stamp.IsZero()
			}
			if stays && !slices.ContainsFunc(kept, func(o Version) bool { return o.compare(v) == 0 }) {
				kept = append(kept, v)
			}
		}
	}
	keep(a, b, all.b.history.knows)
	keep(b, a, all.a.history.knows)
	order.By(kept, func(x, y Version) int { return y.compare(x) })
	return kept
}

// compare orders versions, the latest last; of unstamped ones a value that is left
// out is first.
func (v Version) compare(o Version) int {
	if c := v.Stamp.Compare(o.Stamp); c != 0 {
		return c
	}
	switch out, other := bytes.Equal(v.Value, none), bytes.Equal(o.Value, none); {
	case out && !other:
		return -1
	case other && !out:
		return 1
	}
	return bytes.Compare(v.Value, o.Value)
}
