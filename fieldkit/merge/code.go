package merge

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/order"
)

// Format names the history's format; a newer minor version may add fields, which
// are left aside.
const Format = "trail-field-kit-history"

// version of the histories written here.
const majorVersion, minorVersion = 1, 0

// Bounds on histories read from outside, far above any real one.
const (
	maxLines    = 100_000 // lines of edits
	maxVersions = 1_000   // of one field
	maxField    = 2_000   // bytes of a field's name
)

type historyJSON struct {
	Format  string                          `json:"format"`
	Version string                          `json:"version"`
	Clock   Stamp                           `json:"clock"`
	By      string                          `json:"by,omitempty"`
	Seen    []Stamp                         `json:"seen,omitempty"`
	Records map[string]map[string]traceJSON `json:"records,omitempty"`
}

type traceJSON struct {
	Made   *Stamp                   `json:"made,omitempty"`
	Gone   bool                     `json:"gone,omitempty"`
	Base   *Stamp                   `json:"base,omitempty"`
	Fields map[string][]versionJSON `json:"fields,omitempty"`
	Held   json.RawMessage          `json:"held,omitempty"`
	Seat   int                      `json:"seat,omitempty"`
}

type versionJSON struct {
	At    Stamp           `json:"at"`
	Value json.RawMessage `json:"value,omitempty"`
	Out   bool            `json:"out,omitempty"` // the field was left out
}

// Encode writes a history as JSON; the same history gives the same bytes.
func (h *History) Encode() []byte { return h.EncodeInTurns(func() {}) }

// turnAfter is how many records are written in one go: about a millisecond's work in a
// browser.
const turnAfter = 16

// EncodeInTurns is Encode, and calls turn every few records: others can have theirs
// meanwhile, as long as they leave the history as it is.
func (h *History) EncodeInTurns(turn func()) []byte {
	j := historyJSON{Format: Format, Version: fmt.Sprintf("%d.%d", majorVersion, minorVersion), Clock: h.Clock, By: h.By}
	for _, s := range h.Seen {
		j.Seen = append(j.Seen, s)
	}
	order.By(j.Seen, Stamp.Compare)
	var b bytes.Buffer
	w := encoderTo(&b)
	write := func(v any) {
		if err := w.Encode(v); err != nil {
			panic("merge: " + err.Error()) // raw values were read as JSON before
		}
		b.Truncate(b.Len() - len("\n"))
	}
	write(j)
	keys := make([]Key, 0, len(h.Of))
	for k := range h.Of {
		keys = append(keys, k)
	}
	order.By(keys, func(a, b Key) int {
		return cmp.Or(strings.Compare(a.Collection, b.Collection), strings.Compare(a.ID, b.ID))
	})
	for i, k := range keys {
		switch {
		case i > 0 && k.Collection == keys[i-1].Collection:
			b.WriteByte(',')
		case i > 0:
			b.WriteString("},")
			write(k.Collection)
			b.WriteString(":{")
		default:
			b.Truncate(b.Len() - len("}"))
			b.WriteString(`,"records":{`)
			write(k.Collection)
			b.WriteString(":{")
		}
		write(k.ID)
		b.WriteByte(':')
		write(h.Of[k].written())
		if i%turnAfter == turnAfter-1 {
			turn()
		}
	}
	if len(keys) > 0 {
		b.WriteString("}}}")
	}
	return b.Bytes()
}

// written is the trace as it is written.
func (t *Trace) written() traceJSON {
	one := traceJSON{Made: given(t.Made), Gone: t.Gone, Base: given(t.Base), Held: t.Held, Seat: t.Seat}
	for name, versions := range t.Fields {
		if one.Fields == nil {
			one.Fields = map[string][]versionJSON{}
		}
		for _, v := range versions {
			w := versionJSON{At: v.Stamp, Value: v.Value}
			if bytes.Equal(v.Value, none) {
				w.Value, w.Out = nil, true
			}
			one.Fields[name] = append(one.Fields[name], w)
		}
	}
	return one
}

func given(s Stamp) *Stamp {
	if s.IsZero() {
		return nil
	}
	return &s
}

func (s *Stamp) value() Stamp {
	if s == nil {
		return Stamp{}
	}
	return *s
}

// Decode reads what Encode writes; no bytes are the history of a kit nobody has
// edited. Errors: kind BadInput, naming the record; TooNew; TooBig.
func Decode(raw []byte) (*History, error) {
	if len(raw) == 0 {
		return &History{}, nil
	}
	if len(raw) > fieldkit.MaxFileSize {
		return nil, &fieldkit.Error{Kind: fieldkit.TooBig, What: "the history is too long", Do: "choose a backup file"}
	}
	var j historyJSON
	if err := json.Unmarshal(raw, &j); err != nil {
		return nil, wrong("", "it cannot be read: "+err.Error())
	}
	if j.Format != Format {
		return nil, wrong("", fmt.Sprintf("it says it is a %.40q", j.Format))
	}
	var major, minor int
	if n, err := fmt.Sscanf(j.Version, "%d.%d", &major, &minor); n != 2 || err != nil || major < 1 {
		return nil, wrong("", fmt.Sprintf("%.40q is not a version", j.Version))
	}
	if major > majorVersion {
		return nil, &fieldkit.Error{Kind: fieldkit.TooNew, What: fmt.Sprintf("the history is of version %.40q, made by a newer app", j.Version), Do: "update the app"}
	}
	if len(j.Seen) > maxLines {
		return nil, &fieldkit.Error{Kind: fieldkit.TooBig, What: "the history knows of too many phones"}
	}
	if j.By != "" && !isName(j.By) {
		return nil, wrong("", fmt.Sprintf("%.40q is not the name of a line of edits", j.By))
	}
	h := &History{Clock: j.Clock, By: j.By}
	for _, s := range j.Seen {
		if h.Seen == nil {
			h.Seen = map[string]Stamp{}
		}
		if s.Compare(h.Seen[s.By]) > 0 {
			h.Seen[s.By] = s
		}
	}
	for collection, records := range j.Records {
		if _, known := fieldkit.CollectionNamed(collection); !known && collection != kitCollection {
			continue // of a newer version of the program
		}
		if len(records) > 2*fieldkit.MaxRecords {
			return nil, &fieldkit.Error{Kind: fieldkit.TooBig, Where: collection, What: "the history holds too many records"}
		}
		for id, one := range records {
			t, err := one.trace(collection, id)
			if err != nil {
				return nil, err
			}
			if h.Of == nil {
				h.Of = map[Key]*Trace{}
			}
			h.Of[Key{collection, id}] = t
		}
	}
	return h, nil
}

func (one traceJSON) trace(collection, id string) (*Trace, error) {
	where := fmt.Sprintf("%s %.80q", collection, id)
	t := &Trace{Made: one.Made.value(), Gone: one.Gone, Base: one.Base.value(), Seat: one.Seat}
	if len(id) > fieldkit.MaxID || one.Seat < 0 || one.Seat > 4*fieldkit.MaxRecords {
		return nil, wrong(where, "it is out of range")
	}
	if len(one.Held) > 0 && !bytes.Equal(one.Held, none) {
		if collection == kitCollection {
			return nil, wrong(where, "the kit cannot be deleted")
		}
		r, err := kitfile.DecodeRecord(collection, one.Held)
		if err != nil || r.Key() != id {
			return nil, &fieldkit.Error{Kind: fieldkit.BadInput, Where: where, What: "what is held of it cannot be read", Do: again, Cause: err}
		}
		t.Held = kitfile.EncodeRecord(r)
	}
	for name, versions := range one.Fields {
		if len(name) > maxField || len(versions) == 0 || len(versions) > maxVersions {
			return nil, wrong(where, fmt.Sprintf("the versions of %.40q are out of range", name))
		}
		var list []Version
		for i, v := range versions {
			w := Version{Stamp: v.At}
			switch {
			case v.Out:
				w.Value = none
			case len(v.Value) > 0:
				var b bytes.Buffer
				_ = json.Compact(&b, v.Value) // it was read as JSON
				w.Value = b.Bytes()
			case i > 0:
				w.Value = none
			}
			list = append(list, w)
		}
		if !slices.IsSortedFunc(list, func(a, b Version) int { return b.Stamp.Compare(a.Stamp) }) {
			return nil, wrong(where, fmt.Sprintf("the versions of %.40q are not in order", name))
		}
		if t.Fields == nil {
			t.Fields = map[string][]Version{}
		}
		t.Fields[name] = list
	}
	return t, nil
}

const again = "use another backup; nothing was changed"

func wrong(where, what string) *fieldkit.Error {
	return &fieldkit.Error{Kind: fieldkit.BadInput, Where: where, What: what, Do: again}
}
