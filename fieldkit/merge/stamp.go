package merge

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"time"

	"trailfieldkit/fieldkit"
)

// Stamp says when an edit was made, as a hybrid logical clock: the zero Stamp is
// before all others.
type Stamp struct {
	At   int64  // seconds since 1970 UTC by the most advanced clock known at the edit
	Turn int64  // tells edits of one second apart
	By   string // the line of edits it belongs to: one phone's, between two joins
}

// Bounds on stamps read from outside; the room above maxTurn is never used up.
const (
	maxAt   = 253_402_300_799 // the end of the year 9999
	maxTurn = 1 << 53
)

// IsZero reports whether nothing was stamped.
func (s Stamp) IsZero() bool { return s == Stamp{} }

// Compare orders stamps of all phones in the same way.
func (s Stamp) Compare(t Stamp) int {
	return cmp.Or(cmp.Compare(s.At, t.At), cmp.Compare(s.Turn, t.Turn), cmp.Compare(s.By, t.By))
}

// Moment is the time of the edit as its phone saw it.
func (s Stamp) Moment() fieldkit.Moment {
	if s.IsZero() {
		return fieldkit.Moment{}
	}
	return fieldkit.Moment{Time: time.Unix(s.At, 0).UTC()}
}

// MarshalText writes "1779000000.3.f00d", nothing for the zero Stamp.
func (s Stamp) MarshalText() ([]byte, error) {
	if s.IsZero() {
		return nil, nil
	}
	return fmt.Appendf(nil, "%d.%d.%s", s.At, s.Turn, s.By), nil
}

// UnmarshalText reads what MarshalText writes; an empty text is the zero Stamp.
func (s *Stamp) UnmarshalText(text []byte) error {
	*s = Stamp{}
	if len(text) == 0 {
		return nil
	}
	words := strings.SplitN(string(text), ".", 3)
	if len(words) == 3 {
		at, errAt := strconv.ParseInt(words[0], 10, 64)
		turn, errTurn := strconv.ParseInt(words[1], 10, 64)
		if errAt == nil && errTurn == nil && at > 0 && at <= maxAt && turn >= 0 && turn <= maxTurn && isName(words[2]) {
			*s = Stamp{at, turn, words[2]}
			return nil
		}
	}
	return &fieldkit.Error{Kind: fieldkit.BadInput, What: fmt.Sprintf("%.60q is not the stamp of an edit", text)}
}

// isName tests the name of a line of edits, which is the ID of an entry.
func isName(s string) bool {
	return s != "" && len(s) <= fieldkit.MaxID && !strings.ContainsFunc(s, func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < 'A' || r > 'Z') && (r < '0' || r > '9') && r != '-' && r != '_' && r != '.'
	})
}
