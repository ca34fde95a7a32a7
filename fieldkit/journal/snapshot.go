package journal

import "fmt"

// Snapshot is the whole kit as it was after the record Head. It shortens the
// replay and may be lost.
type Snapshot struct {
	Head Head
	Kit  []byte // the kit file as JSON
	// History is the kit's, as fieldkit/merge writes it; snapshots of before histories
	// have none.
	History []byte
	Sum     string // SHA-256 over Head, Kit and History, in hex
}

// SnapshotsKept is how many snapshots a store keeps: the newest, and two to fall
// back on.
const SnapshotsKept = 3

// NewSnapshot makes the snapshot of a kit file after the record head.
func NewSnapshot(head Head, kit []byte) Snapshot {
	return Snapshot{Head: head, Kit: kit}.With(nil)
}

// With returns the snapshot with the kit's history.
func (s Snapshot) With(history []byte) Snapshot {
	s.History = history
	s.Sum = s.sum()
	return s
}

// Whole reports whether the snapshot's checksum matches.
func (s Snapshot) Whole() bool { return s.Sum == s.sum() }

func (s Snapshot) sum() string {
	parts := [][]byte{fmt.Appendf(nil, "%d\n%s\n", s.Head.Seq, s.Head.Hash), s.Kit}
	if len(s.History) > 0 {
		parts = append(parts, fmt.Appendf(nil, "\n%d\n", len(s.Kit)), s.History)
	}
	return hexSum(parts...)
}
