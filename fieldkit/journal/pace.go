package journal

const (
	// SnapshotEvery is how many entries there are at least from one snapshot to the
	// next: so many are replayed in a moment.
	SnapshotEvery = 100
	// SnapshotLatest is how many there are at most, however large the kit: so many are
	// replayed at most when the last snapshot is whole.
	SnapshotLatest = 1000
	// snapshotShare is how many times a snapshot may be as long as the entries it is
	// written after. What snapshots cost is so in proportion to what is written down,
	// not to the kit.
	snapshotShare = 8
)

// pace says when the next snapshot is due.
type pace struct {
	entries int // since the last snapshot was tried
	grown   int // bytes of those entries
	whole   int // bytes of the last snapshot known, or of the last whole kit in an entry
}

func (p *pace) took(e Entry, body int) {
	p.entries++
	p.grown += body
	if len(e.Kit) > 0 {
		p.whole = len(e.Kit)
	}
}

func (p *pace) due() bool {
	return p.entries >= SnapshotLatest || p.entries >= SnapshotEvery && p.grown*snapshotShare >= p.whole
}

// tried begins to count anew, whether or not the snapshot could be kept.
func (p *pace) tried() { p.entries, p.grown = 0, 0 }
