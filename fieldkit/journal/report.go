package journal

import (
	"fmt"
	"strings"
)

// Report says what opening found.
type Report struct {
	New           bool     // nothing was kept here; a kit was begun
	Replayed      int      // entries applied after the snapshot
	Damaged       []Damage // to be shown: entries that could not be read or used
	LostSnapshots int      // snapshots that were not whole; nothing is lost by that
	// BaseLost is set when neither a snapshot nor the first entry could be read: the
	// kit holds only what later entries say, and must not be taken for all there was.
	BaseLost bool
	Regained int // entries that came back from the second copy; see OpenDoubled
}

// Whole reports whether everything that was ever written down is in the kit.
func (r Report) Whole() bool {
	for _, d := range r.Damaged {
		if !d.Used {
			return false
		}
	}
	return !r.BaseLost
}

// String names everything that was set aside, nothing if the kit is whole.
func (r Report) String() string {
	var lines []string
	if r.BaseLost {
		lines = append(lines, "the beginning of the journal cannot be read")
	}
	for _, d := range r.Damaged {
		lines = append(lines, d.String())
	}
	return strings.Join(lines, "; ")
}

// Damage is an entry that could not be read or used. It stays in the store as it
// is.
type Damage struct {
	Seq  uint64
	Last uint64 // of a run of entries that are missing; otherwise Seq
	What string // the user's words of that entry; empty if they cannot be read
	Why  string // "its checksum does not match"
	Used bool   // the entry itself is sound and is in the kit; only what led to it is not
	Left []byte // what is left of it
}

// String names the damage in one line.
func (d Damage) String() string {
	text := fmt.Sprintf("entry %d", d.Seq)
	if d.Last > d.Seq {
		text = fmt.Sprintf("entries %d to %d", d.Seq, d.Last)
	}
	if d.What != "" {
		text += fmt.Sprintf(" (%q)", d.What)
	}
	return text + ": " + d.Why
}
