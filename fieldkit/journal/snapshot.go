package journal

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
)

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
	h := sha256.New()
	fmt.Fprintf(h, "%d\n%s\n", s.Head.Seq, s.Head.Hash)
	h.Write(s.Kit)
	if len(s.History) > 0 {
		fmt.Fprintf(h, "\n%d\n", len(s.Kit))
		h.Write(s.History)
	}
	return hex.EncodeToString(h.Sum(nil))
}
