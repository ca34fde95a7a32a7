package journal

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/merge"
)

// Entry is one thing a person did, as kept for ever.
type Entry struct {
	Seq     uint64          // place in the journal, from 1, without gaps
	ID      string          // tells it apart from every other entry of any phone
	At      fieldkit.Moment // when, by the phone's clock; it may be wrong
	What    string          // in the user's words: "log failure: axle U-joint, left"
	Changes []Change        // applied in this order
	Kit     json.RawMessage // set when the kit starts anew from here: at first, at a restore, at a merge
	History json.RawMessage // of the kit that starts anew, as fieldkit/merge writes it; nil: none
	Undoes  string          // ID of the entry this one takes back
	Stamp   merge.Stamp     // of its changes, for merging; entries of before stamps have none
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
	// Settled names fields of which other phones' values are done with.
	Settled []string `json:"settled,omitempty"`
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
	// Format is the major version of the kit format that the records are written in; 0
	// is the first. A program that knows less sets the entry aside by name.
	Format  int             `json:"format,omitempty"`
	History json.RawMessage `json:"history,omitempty"`
	Stamp   string          `json:"stamp,omitempty"`
}

// encode writes the entry's canonical bytes: compact JSON in a fixed order of
// fields.
func (e Entry) encode() ([]byte, error) {
	var b bytes.Buffer
	w := json.NewEncoder(&b)
	w.SetEscapeHTML(false)
	stamp, err := e.Stamp.MarshalText()
	if err != nil {
		return nil, err
	}
	if err := w.Encode(entryJSON{e.Seq, e.ID, momentText(e.At), e.What, e.Changes, e.Kit, e.Undoes, formatStamp(), e.History, string(stamp)}); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), nil
}

// momentText writes a moment, nothing for one that cannot be read back: a phone whose
// clock shows the year 1 or 275760 must not make an entry that is lost.
func momentText(m fieldkit.Moment) string {
	text, err := m.MarshalText()
	if err != nil || new(fieldkit.Moment).UnmarshalText(text) != nil {
		return ""
	}
	return string(text)
}

// formatStamp is what entries of the present format are stamped with: the first major
// version is not written.
func formatStamp() int {
	if fieldkit.MajorVersion > 1 {
		return fieldkit.MajorVersion
	}
	return 0
}

var errNewerFormat = errors.New("a newer version of the app wrote it: update the app")

func decodeEntry(body []byte) (Entry, error) {
	rest, kit, history := lift(body)
	var j entryJSON
	if err := json.Unmarshal(rest, &j); err != nil {
		return Entry{}, err
	}
	if j.Kit == nil {
		j.Kit = kit
	}
	if j.History == nil {
		j.History = history
	}
	if j.Format > fieldkit.MajorVersion {
		return Entry{What: j.What}, errNewerFormat
	}
	e := Entry{Seq: j.Seq, ID: j.ID, What: j.What, Changes: j.Changes, Kit: j.Kit, Undoes: j.Undoes, History: j.History}
	if err := e.At.UnmarshalText([]byte(j.At)); err != nil {
		return Entry{}, err
	}
	if err := e.Stamp.UnmarshalText([]byte(j.Stamp)); err != nil {
		return Entry{}, err
	}
	for i, c := range e.Changes {
		if c.Collection == "" || c.ID == "" {
			return Entry{}, fmt.Errorf("change %d does not say what it changes", i+1)
		}
	}
	return e, nil
}
