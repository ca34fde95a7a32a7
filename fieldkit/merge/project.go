package merge

import (
	"bytes"
	"cmp"
	"encoding/json"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/order"
)

// project fills the kit with what the joined records show: without those deleted,
// without those that cannot stand without a deleted one, and with references to
// these left out. It depends on the records alone, so that every phone that knows
// the same edits shows the same kit.
func (all *joined) project(kit *fieldkit.Kit) {
	own := split(kitCollection, all.records[Key{kitCollection, kitCollection}].raw)
	_ = json.Unmarshal(own["name"], &kit.Name) // texts, as kitRaw wrote them
	_ = json.Unmarshal(own["currency"], &kit.Currency)
	kit.Extra = nil
	_ = json.Unmarshal(own["extra"], &kit.Extra)

	held := map[Key]fieldkit.Record{}
	for k, st := range all.records {
		if k.Collection == kitCollection || st.trace.Gone {
			continue
		}
		if st.record == nil {
			st.record, _ = recordOf(k.Collection, st.raw)
		}
		if st.record != nil {
			held[k] = st.record
		}
	}
	has := func(collection, id string) bool { _, ok := held[Key{collection, id}]; return ok }
	for changed := true; changed; {
		changed = false
		for k, r := range held {
			if !stands(r, has) {
				delete(held, k)
				changed = true
			}
		}
	}
	for k, r := range held {
		if loose, changed := loosen(r, has); changed {
			held[k] = loose
		}
	}
	all.unring(held)
	for _, c := range fieldkit.Collections {
		var list []fieldkit.Record
		for k, r := range held {
			if k.Collection == c.Name {
				list = append(list, r)
			}
		}
		order.By(list, func(a, b fieldkit.Record) int {
			x, y := all.records[keyOf(a)], all.records[keyOf(b)]
			return cmp.Or(cmp.Compare(x.seat, y.seat), x.trace.Made.Compare(y.trace.Made), cmp.Compare(a.Key(), b.Key()))
		})
		c.SetAll(kit, list)
	}
	for _, r := range fieldkit.Relabelled(*kit, kit.Currency) {
		if c, ok := fieldkit.CollectionNamed(r.Collection()); ok && !sameAs(r, held[keyOf(r)]) {
			c.Put(kit, r)
		}
	}
	all.show(*kit)
}

// show notes how the kit shows each record, and where.
func (all *joined) show(kit fieldkit.Kit) {
	all.shown[Key{kitCollection, kitCollection}] = kitRaw(kit)
	all.place[Key{kitCollection, kitCollection}] = 1
	for _, c := range fieldkit.Collections {
		for i, r := range c.All(kit) {
			all.shown[keyOf(r)] = kitfile.EncodeRecord(r)
			all.place[keyOf(r)] = i + 1
		}
	}
}

func keyOf(r fieldkit.Record) Key { return Key{r.Collection(), r.Key()} }

func sameAs(a, b fieldkit.Record) bool {
	return bytes.Equal(kitfile.EncodeRecord(a), kitfile.EncodeRecord(b))
}

// unring takes positions that lie under themselves, after two moves made at the
// same time, out from under their parents: those moved last.
func (all *joined) unring(held map[Key]fieldkit.Record) {
	parent := func(k Key) Key {
		p, _ := held[k].(fieldkit.Position)
		return Key{"positions", p.Parent}
	}
	moved := func(k Key) Stamp {
		st := all.records[k]
		if versions := st.trace.Fields["system"]; len(versions) > 0 {
			return versions[0].Stamp
		}
		return st.trace.Base
	}
	seen := map[Key]int{} // the walk that came by
	walk := 0
	for k := range held {
		if k.Collection != "positions" {
			continue
		}
		walk++
		at := k
		for at.ID != "" && seen[at] == 0 {
			seen[at] = walk
			at = parent(at)
		}
		if at.ID == "" || seen[at] != walk {
			continue
		}
		last := at
		for next := parent(at); next != at; next = parent(next) {
			if c := moved(next).Compare(moved(last)); c > 0 || c == 0 && next.ID > last.ID {
				last = next
			}
		}
		p := held[last].(fieldkit.Position)
		p.Parent = ""
		held[last] = p
	}
}

// seal writes the history of the joined records down, as far as the kit does not
// say the same.
func (all *joined) seal(h *History) {
	h.Of = map[Key]*Trace{}
	for k, st := range all.records {
		t := &st.trace
		t.Held = nil
		t.Seat = st.seat
		shown, here := all.shown[k]
		if !here {
			t.Held, shown = st.raw, st.raw
		} else if all.place[k] == st.seat {
			t.Seat = 0
		}
		t.seal(k.Collection, st.raw, shown)
		if !t.empty() {
			h.Of[k] = t
		}
	}
}

// seal leaves out of a trace what the record as shown says by itself.
func (t *Trace) seal(collection string, meant, shown json.RawMessage) {
	kept := map[string][]Version{}
	var is, want fields
	if !bytes.Equal(meant, shown) || len(t.Fields) > 0 {
		is, want = split(collection, shown), split(collection, meant)
		for _, f := range []fields{is, want} {
			for name := range f {
				if t.Fields[name] == nil && !bytes.Equal(is.get(name), want.get(name)) {
					kept[name] = []Version{{t.Base, want.get(name)}}
				}
			}
		}
	}
	for name, versions := range t.Fields {
		value := versions[0].Value
		if value == nil {
			value = want.get(name)
		}
		// An order that entries are missing from is not what the record as shown says.
		asShown := bytes.Equal(value, is.get(name)) && (!isOrder(collection, name) || bytes.Equal(meant, shown))
		if asShown && len(versions) == 1 && versions[0].Stamp == t.Base {
			continue
		}
		list := append([]Version{}, versions...)
		if list[0].Value = nil; !asShown {
			list[0].Value = value
		}
		kept[name] = list
	}
	t.Fields = kept
}

// get is a field's value, none if it is left out.
func (f fields) get(name string) json.RawMessage {
	if v, ok := f[name]; ok {
		return v
	}
	return none
}

func (t *Trace) empty() bool {
	return t.Made.IsZero() && !t.Gone && t.Base.IsZero() && len(t.Fields) == 0 && t.Held == nil && t.Seat == 0
}
