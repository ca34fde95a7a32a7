package journal

import (
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// Snapshots cost in proportion to what is written down: those of a large kit come
// seldom, and what is replayed at a start stays bounded.
func TestSnapshotsKeepPaceWithTheJournal(t *testing.T) {
	const entry = 1000 // bytes of one
	for _, c := range []struct {
		kit int   // its bytes
		at  []int // the entries after which there is a snapshot
	}{
		{10_000, []int{100, 200, 300}},
		{800_000, []int{100, 200, 300}},
		{2_000_000, []int{100, 350, 600}},
		{30_000_000, []int{100, 1100, 2100}},
	} {
		t.Run(fmt.Sprintf("%d bytes", c.kit), func(t *testing.T) {
			var p pace
			p.took(Entry{Kit: make(json.RawMessage, c.kit)}, c.kit)
			var at []int
			for n := 2; len(at) < len(c.at); n++ {
				if p.took(Entry{}, entry); p.due() {
					at = append(at, n)
					p.tried()
				}
			}
			require.Equal(t, c.at, at)
		})
	}
}
