package merge

import (
	"bytes"
	"encoding/json"
	"maps"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// kitCollection holds one record, the kit's own name and currency, as in the
// journal.
const kitCollection = "kit"

// together lists by collection the fields that only make sense together; the first
// names the group.
var together = map[string][][]string{
	"rigs":        {{"odometer", "odometerOn"}, {"engineHours", "engineHoursOn"}, {"tyre", "oversize"}},
	"positions":   {{"part", "fitted", "fittedAt", "proof"}, {"system", "parent"}},
	"donors":      {{"yearFrom", "yearTo"}},
	"links":       {{"for", "with", "grade", "changes"}, {"evidence", "on", "by"}},
	"trips":       {{"start", "days"}},
	"runs":        {{"step", "path", "answers", "used", "finished", "left"}},
	"inspections": {{"name", "value", "how", "on", "odometer", "engineHours"}},
	"visits":      {{"store", "kind", "had"}},
}

// oneByOne lists by collection the lists whose entries are joined one by one, and
// what tells the entries apart. No fields: the entry itself does.
var oneByOne = map[string]map[string][]string{
	"packs":       {"lines": {"type", "item"}, "never": {"type", "item"}},
	"rigs":        {"services": {"id"}},
	"positions":   {"compared": nil},
	"parts":       {"numbers": {"issuer", "value"}, "measurements": {"name"}, "buyWith": nil},
	"trips":       {"towns": {"name"}, "rigs": nil, "costs": {"position"}, "carries": {"rig"}, "friends": {"type", "item", "who"}},
	"failures":    {"photos": nil},
	"inspections": {"photos": nil},
}

// byName lists by collection the tables whose entries are joined one by one.
var byName = map[string][]string{"rigs": {"traits"}}

// none is the value of a field that is left out.
var none = json.RawMessage("null")

// fields are the values of a record by what is joined as one: a field, a group, an
// entries of a list that go by one name ("lines/spare joint"). A list whose entries are joined one by one
// has its order under its own name. What is left out is not in it.
type fields map[string]json.RawMessage

// put sets a field; none leaves it out.
func (f fields) put(name string, v json.RawMessage) {
	if bytes.Equal(v, none) {
		delete(f, name)
		return
	}
	f[name] = v
}

// split takes a record apart. A record that is no JSON object has no fields.
func split(collection string, raw json.RawMessage) fields {
	all := fields{}
	if len(raw) == 0 || json.Unmarshal(raw, &all) != nil {
		return fields{}
	}
	delete(all, "id")
	for _, group := range together[collection] {
		held := fields{}
		for _, name := range group {
			if v, ok := all[name]; ok {
				held[name] = v
				delete(all, name)
			}
		}
		if len(held) > 0 {
			all[group[0]] = encode(held)
		}
	}
	for list, keys := range oneByOne[collection] {
		all.splitList(list, keys)
	}
	for _, table := range byName[collection] {
		var entries fields
		if json.Unmarshal(all[table], &entries) != nil {
			continue
		}
		delete(all, table)
		for name, v := range entries {
			all[table+"/"+name] = v
		}
	}
	return all
}

func (f fields) splitList(list string, keys []string) {
	var entries []json.RawMessage
	if json.Unmarshal(f[list], &entries) != nil || len(entries) == 0 {
		return
	}
	var order []string
	alike := map[string][]json.RawMessage{}
	for _, e := range entries {
		name := entryName(e, keys)
		if alike[name] == nil {
			order = append(order, name)
		}
		alike[name] = append(alike[name], e)
	}
	for name, same := range alike {
		f[list+"/"+name] = encode(same)
	}
	f[list] = encode(order)
}

// entryName names an entry of a list by what tells it apart.
func entryName(entry json.RawMessage, keys []string) string {
	if keys == nil {
		var text string
		if json.Unmarshal(entry, &text) != nil {
			return string(entry)
		}
		return text
	}
	var whole map[string]any
	_ = json.Unmarshal(entry, &whole) // an entry that is no object has no name and counts by its place
	var words []string
	for _, key := range keys {
		word, _ := whole[key].(string)
		words = append(words, word)
	}
	return strings.Join(words, " ")
}

// assemble puts a record together again, in the canonical form of the kit file.
// Error if the fields do not make a record.
func assemble(collection, id string, f fields) (json.RawMessage, error) {
	whole := maps.Clone(f)
	for list := range oneByOne[collection] {
		whole.joinList(list)
	}
	for _, table := range byName[collection] {
		entries := fields{}
		for name, v := range whole {
			if key, ok := strings.CutPrefix(name, table+"/"); ok {
				entries[key] = v
				delete(whole, name)
			}
		}
		if len(entries) > 0 {
			whole[table] = encode(entries)
		}
	}
	for _, group := range together[collection] {
		var held fields
		if v, ok := whole[group[0]]; ok && json.Unmarshal(v, &held) == nil {
			delete(whole, group[0])
			maps.Copy(whole, held)
		}
	}
	if collection == kitCollection {
		return encode(whole), nil
	}
	whole["id"] = encode(id)
	r, err := kitfile.DecodeRecord(collection, encode(whole))
	if err != nil {
		return nil, err
	}
	return kitfile.EncodeRecord(r), nil
}

// joinList gathers the entries of a list: in the order that is kept, then those it
// does not know.
func (f fields) joinList(list string) {
	var order []string
	_ = json.Unmarshal(f[list], &order) // no order: by name
	delete(f, list)
	entries := fields{}
	for name, v := range f {
		if key, ok := strings.CutPrefix(name, list+"/"); ok {
			entries[key] = v
			delete(f, name)
		}
	}
	var all []json.RawMessage
	for _, key := range append(order, slices.Sorted(maps.Keys(entries))...) {
		var alike []json.RawMessage
		if json.Unmarshal(entries[key], &alike) == nil {
			all = append(all, alike...)
		}
		delete(entries, key)
	}
	if len(all) > 0 {
		f[list] = encode(all)
	}
}

// isOrder reports whether a field is the order of a list whose entries are joined
// one by one: nothing a person decides on.
func isOrder(collection, field string) bool {
	_, ok := oneByOne[collection][field]
	return ok
}

// recordOf reads a record that assemble made.
func recordOf(collection string, raw json.RawMessage) (fieldkit.Record, error) {
	return kitfile.DecodeRecord(collection, raw)
}

// encode writes texts, lists and tables of raw JSON; names are sorted.
func encode(v any) json.RawMessage {
	var b bytes.Buffer
	w := encoderTo(&b)
	if err := w.Encode(v); err != nil {
		panic("merge: " + err.Error()) // raw values were read as JSON before
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n"))
}

func encoderTo(b *bytes.Buffer) *json.Encoder {
	w := json.NewEncoder(b)
	w.SetEscapeHTML(false)
	return w
}
