package merge

import (
	"bytes"
	"encoding/json"
	"maps"
	"slices"

	"trailfieldkit/fieldkit"
)

// History is what joining needs to know beyond the kit itself. The zero value is
// the history of a kit nobody has edited yet.
type History struct {
	Clock Stamp            // the latest stamp known
	By    string           // the line of edits made here; none before the first
	Seen  map[string]Stamp // the latest stamp known of each line of edits
	Of    map[Key]*Trace   // records that were edited, deleted or held back
}

// Key names a record.
type Key struct{ Collection, ID string }

// Trace is the history of one record.
type Trace struct {
	Made   Stamp                // when it was last added, deleted or brought back
	Gone   bool                 // it was deleted
	Base   Stamp                // of the fields that are not listed
	Fields map[string][]Version // edited later than Base, or differing from the kit; the winner first
	// Held is the record as it was where the kit does not hold it: deleted, or held
	// back because something it needs was.
	Held json.RawMessage
	Seat int // place in its list, from 1, for joining; 0 is its place in the kit
}

// Version is one value of a field.
type Version struct {
	Stamp Stamp
	Value json.RawMessage // nil: as the kit has it; "null": left out
}

// Change is what an edit did to one record: the whole record before and after, nil
// where it did not exist. Settled names fields whose other versions are done with.
type Change struct {
	Collection, ID string
	Before, After  json.RawMessage
	Settled        []string
}

// Next gives the stamp of an edit made now. Line names the line of edits if this is
// its first.
func (h *History) Next(now fieldkit.Moment, line string) Stamp {
	s := Stamp{At: min(max(now.Unix(), 1), maxAt), By: h.By}
	if s.By == "" {
		s.By = line
	}
	if s.At <= h.Clock.At {
		s.At, s.Turn = h.Clock.At, h.Clock.Turn+1
	}
	return s
}

// Record notes an edit. It costs time by the size of the records changed.
func (h *History) Record(s Stamp, changes []Change) {
	if s.Compare(h.Clock) > 0 {
		h.Clock = s
	}
	h.By = s.By
	if h.Seen == nil {
		h.Seen = map[string]Stamp{}
	}
	h.Seen[s.By] = s
	for _, c := range changes {
		h.record(s, c)
	}
}

func (h *History) record(s Stamp, c Change) {
	t := h.trace(Key{c.Collection, c.ID})
	before := c.Before
	switch {
	case len(c.After) == 0:
		t.Made, t.Gone, t.Held = s, true, bytes.Clone(c.Before)
		return
	case len(before) == 0 && t.Held == nil: // added
		*t = Trace{Made: s, Base: s}
		return
	case len(before) == 0: // brought back
		before = t.Held
		t.Made, t.Gone, t.Held = s, false, nil
	}
	was, is := split(c.Collection, before), split(c.Collection, c.After)
	for name := range is {
		if !bytes.Equal(was[name], is[name]) {
			t.set(name, s)
		}
	}
	for name := range was {
		if _, ok := is[name]; !ok {
			t.set(name, s)
		}
	}
	for _, name := range c.Settled {
		t.set(name, s)
	}
}

// trace returns the trace of a record, a new one if there is none.
func (h *History) trace(k Key) *Trace {
	if t, ok := h.Of[k]; ok {
		return t
	}
	if h.Of == nil {
		h.Of = map[Key]*Trace{}
	}
	t := &Trace{}
	h.Of[k] = t
	return t
}

// set notes that a field has the kit's value since s.
func (t *Trace) set(field string, s Stamp) {
	if t.Fields == nil {
		t.Fields = map[string][]Version{}
	}
	t.Fields[field] = []Version{{Stamp: s}}
}

// knows reports whether an edit was known here.
func (h *History) knows(s Stamp) bool {
	if s.IsZero() {
		return true
	}
	seen, ok := h.Seen[s.By]
	return ok && s.Compare(seen) <= 0
}

// Clone copies a history, so that the copy can be kept while edits go on.
func (h *History) Clone() *History {
	c := &History{Clock: h.Clock, By: h.By, Seen: maps.Clone(h.Seen)}
	if h.Of != nil {
		c.Of = make(map[Key]*Trace, len(h.Of))
	}
	for k, t := range h.Of {
		c.Of[k] = t.clone()
	}
	return c
}

func (t *Trace) clone() *Trace {
	c := *t
	c.Fields = maps.Clone(t.Fields)
	for name, versions := range c.Fields {
		c.Fields[name] = slices.Clone(versions)
	}
	return &c
}
