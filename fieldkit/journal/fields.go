package journal

import (
	"bytes"
	"encoding/json"

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
