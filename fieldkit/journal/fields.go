package journal

import (
	"bytes"
	"encoding/json"
	"fmt"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// kitCollection holds one record, the kit's own fields.
const kitCollection = "kit"

// kitFields are the kit's own fields, which change like a record.
type kitFields struct {
	Name     string         `json:"name"`
	Currency string         `json:"currency"`
	Extra    fieldkit.Extra `json:"extra,omitempty"`
}

func fieldsOf(k fieldkit.Kit) json.RawMessage {
	var b bytes.Buffer
	w := json.NewEncoder(&b)
	w.SetEscapeHTML(false)
	if err := w.Encode(kitFields{k.Name, k.Currency, k.Extra}); err != nil {
		panic("journal: " + err.Error()) // text always encodes
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n"))
}

// recordIn returns a record's canonical JSON, nil if the kit does not hold it.
func recordIn(k fieldkit.Kit, collection, id string) json.RawMessage {
	if collection == kitCollection {
		return fieldsOf(k)
	}
	c, ok := fieldkit.CollectionNamed(collection)
	if !ok {
		return nil
	}
	r, ok := c.Get(k, id)
	if !ok {
		return nil
	}
	return kitfile.EncodeRecord(r)
}

// sameRecord reports whether the kit's record is the one kept as raw. Both go
// through the same reader, so that a program that writes a field differently than
// an earlier one did still sees them as equal.
func sameRecord(k fieldkit.Kit, collection, id string, raw json.RawMessage) bool {
	current := recordIn(k, collection, id)
	if len(raw) == 0 || current == nil {
		return len(raw) == 0 && current == nil
	}
	if collection == kitCollection {
		var f kitFields
		err := json.Unmarshal(raw, &f)
		return err == nil && bytes.Equal(current, fieldsOf(fieldkit.Kit{Name: f.Name, Currency: f.Currency, Extra: f.Extra}))
	}
	r, err := kitfile.DecodeRecord(collection, raw)
	return err == nil && bytes.Equal(current, kitfile.EncodeRecord(r))
}

// decodeKit reads a kit file kept by the journal. It is lenient where
// kitfile.Load is strict: a kit that was damaged and recovered must still open.
func decodeKit(raw []byte) (fieldkit.Kit, error) {
	var top map[string]json.RawMessage
	if err := json.Unmarshal(raw, &top); err != nil {
		return fieldkit.Kit{}, err
	}
	var k fieldkit.Kit
	for _, field := range []struct {
		name string
		into *string
	}{{"format", &k.Format}, {"version", &k.Version}, {"id", &k.ID}, {"name", &k.Name}, {"currency", &k.Currency}} {
		if err := json.Unmarshal(top[field.name], field.into); err != nil {
			return fieldkit.Kit{}, fmt.Errorf("%s: %w", field.name, err)
		}
		delete(top, field.name)
	}
	for _, c := range fieldkit.Collections {
		raw, ok := top[c.Name]
		if !ok {
			continue
		}
		delete(top, c.Name)
		var list []json.RawMessage
		if err := json.Unmarshal(raw, &list); err != nil {
			return fieldkit.Kit{}, fmt.Errorf("%s: %w", c.Name, err)
		}
		records := make([]fieldkit.Record, len(list))
		for i, raw := range list {
			r, err := kitfile.DecodeRecord(c.Name, raw)
			if err != nil {
				return fieldkit.Kit{}, fmt.Errorf("%s %d: %w", c.Name, i+1, err)
			}
			records[i] = r
		}
		c.Set(&k, records)
	}
	for name, raw := range top {
		if k.Extra == nil {
			k.Extra = fieldkit.Extra{}
		}
		k.Extra[name] = string(raw)
	}
	return k, nil
}
