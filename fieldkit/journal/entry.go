package journal

import (
	"bytes"
	"encoding/json"
	"fmt"

	"trailfieldkit/fieldkit"
)

// Entry is one thing a person did, as kept for ever.
type Entry struct {
	Seq     uint64          // place in the journal, from 1, without gaps
	ID      string          // tells it apart from every other entry of any phone
	At      fieldkit.Moment // when, by the phone's clock; it may be wrong
	What    string          // in the user's words: "log failure: axle U-joint, left"
	Changes []Change        // applied in this order
	Kit     json.RawMessage // set when the kit starts anew from here: at first and at a restore
	Undoes  string          // ID of the entry this one takes back
}

// Change is what happened to one record: the whole record before and after, nil
// where it did not exist. The kit's own fields are the record "kit" of the
// collection "kit".
type Change struct {
	Collection string          `json:"collection"`
	ID         string          `json:"id"`
	Before     json.RawMessage `json:"before,omitempty"`
	After      json.RawMessage `json:"after,omitempty"`
	// Place counts from 1 in the collection's list: where a deleted record was, or
	// where an undone deletion puts it back. 0 is the end.
	Place int `json:"place,omitempty"`
}

// entryJSON is how an entry is written; fields may be added, never renamed.
type entryJSON struct {
	Seq     uint64          `json:"seq"`
	ID      string          `json:"id"`
	At      string          `json:"at,omitempty"`
	What    string          `json:"what"`
	Changes []Change        `json:"changes,omitempty"`
	Kit     json.RawMessage `json:"kit,omitempty"`
	Undoes  string          `json:"undoes,omitempty"`
}

// encode writes the entry's canonical bytes: compact JSON in a fixed order of
// fields.
func (e Entry) encode() ([]byte, error) {
	at, err := e.At.MarshalText()
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	w := json.NewEncoder(&b)
	w.SetEscapeHTML(false)
	if err := w.Encode(entryJSON{e.Seq, e.ID, string(at), e.What, e.Changes, e.Kit, e.Undoes}); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), nil
}

func decodeEntry(body []byte) (Entry, error) {
	var j entryJSON
	if err := json.Unmarshal(body, &j); err != nil {
		return Entry{}, err
	}
	e := Entry{Seq: j.Seq, ID: j.ID, What: j.What, Changes: j.Changes, Kit: j.Kit, Undoes: j.Undoes}
	if err := e.At.UnmarshalText([]byte(j.At)); err != nil {
		return Entry{}, err
	}
	for i, c := range e.Changes {
		if c.Collection == "" || c.ID == "" {
			return Entry{}, fmt.Errorf("change %d does not say what it changes", i+1)
		}
	}
	return e, nil
}
