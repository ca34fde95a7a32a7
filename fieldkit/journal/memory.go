package journal

import (
	"bytes"
	"cmp"
	"context"
	"maps"
	"slices"
	"sync"
)

// Memory is a Store that lasts as long as the program: for tests, for looking
// around without keeping anything, and where the browser keeps nothing.
type Memory struct {
	// Fault, if set, is asked before each call ("load", "since", "append",
	// "snapshot", "blob", "blobs", "put blobs", "drop blobs", "delete") and once more after an append was kept
	// but before it is acknowledged ("acknowledge"). Its error becomes the call's.
	Fault func(op string) error

	kept   *kept
	closed bool // guarded by kept.mu
}

// kept is shared by all handles.
type kept struct {
	mu        sync.Mutex
	head      Head
	records   []Record
	snapshots []Snapshot // rising
	blobs     map[string]Blob
}

// NewMemory returns an empty store.
func NewMemory() *Memory { return &Memory{kept: &kept{blobs: map[string]Blob{}}} }

// Handle opens the same kept data once more, as another tab would.
func (m *Memory) Handle() *Memory { return &Memory{kept: m.kept} }

// begin locks the kept data for one call.
func (m *Memory) begin(ctx context.Context, op string) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	if m.Fault != nil {
		if err := m.Fault(op); err != nil {
			return err
		}
	}
	m.kept.mu.Lock()
	if m.closed {
		m.kept.mu.Unlock()
		return ErrClosed
	}
	return nil
}

// Load implements Store.
func (m *Memory) Load(ctx context.Context, upTo uint64) (Saved, error) {
	if err := m.begin(ctx, "load"); err != nil {
		return Saved{}, err
	}
	defer m.kept.mu.Unlock()
	var saved Saved
	for _, s := range m.kept.snapshots {
		if s.Head.Seq <= upTo {
			s.Kit, s.History = bytes.Clone(s.Kit), bytes.Clone(s.History)
			saved.Snapshot = &s
		}
	}
	from := uint64(0)
	if saved.Snapshot != nil {
		from = saved.Snapshot.Head.Seq
	}
	saved.Tail = m.kept.tail(from)
	return saved, nil
}

// Since implements Store.
func (m *Memory) Since(ctx context.Context, seq uint64) (Tail, error) {
	if err := m.begin(ctx, "since"); err != nil {
		return Tail{}, err
	}
	defer m.kept.mu.Unlock()
	return m.kept.tail(seq), nil
}

func (k *kept) tail(seq uint64) Tail {
	t := Tail{Head: k.latest()}
	for _, r := range k.records {
		if r.Seq > seq {
			r.Body = bytes.Clone(r.Body)
			t.Records = append(t.Records, r)
		}
	}
	return t
}

func (k *kept) latest() Head {
	var last Record
	if n := len(k.records); n > 0 {
		last = k.records[n-1]
	}
	var newest Snapshot
	if n := len(k.snapshots); n > 0 {
		newest = k.snapshots[n-1]
	}
	return Latest(k.head, last, newest)
}

// Append implements Store.
func (m *Memory) Append(ctx context.Context, r Record, blobs []Blob) error {
	blobs, err := loaded(blobs)
	if err != nil {
		return err
	}
	if err := m.begin(ctx, "append"); err != nil {
		return err
	}
	defer m.kept.mu.Unlock()
	if head := m.kept.latest(); r.Seq != head.Seq+1 || r.Prev != head.Hash {
		return ErrBehind
	}
	r.Body = bytes.Clone(r.Body)
	m.kept.records = append(m.kept.records, r)
	m.kept.head = r.Head()
	m.kept.put(blobs)
	if m.Fault != nil {
		return m.Fault("acknowledge")
	}
	return nil
}

func (k *kept) put(blobs []Blob) {
	for _, b := range blobs {
		if kept, ok := k.blobs[b.Hash]; !ok || !bytes.Equal(kept.Data, b.Data) {
			b.Data = bytes.Clone(b.Data)
			k.blobs[b.Hash] = b
		}
	}
}

// PutBlobs implements Store.
func (m *Memory) PutBlobs(ctx context.Context, blobs []Blob) error {
	blobs, err := loaded(blobs)
	if err != nil {
		return err
	}
	if err := m.begin(ctx, "put blobs"); err != nil {
		return err
	}
	defer m.kept.mu.Unlock()
	if m.kept.latest().Seq == 0 {
		return ErrBehind
	}
	m.kept.put(blobs)
	return nil
}

// DropBlobs implements Copy.
func (m *Memory) DropBlobs(ctx context.Context, hashes []string) error {
	if err := m.begin(ctx, "drop blobs"); err != nil {
		return err
	}
	defer m.kept.mu.Unlock()
	for _, hash := range hashes {
		delete(m.kept.blobs, hash)
	}
	return nil
}

// PutSnapshot implements Store.
func (m *Memory) PutSnapshot(ctx context.Context, s Snapshot) error {
	if err := m.begin(ctx, "snapshot"); err != nil {
		return err
	}
	defer m.kept.mu.Unlock()
	s.Kit, s.History = bytes.Clone(s.Kit), bytes.Clone(s.History)
	bySeq := func(s Snapshot, seq uint64) int { return cmp.Compare(s.Head.Seq, seq) }
	i, found := slices.BinarySearchFunc(m.kept.snapshots, s.Head.Seq, bySeq)
	if found {
		m.kept.snapshots[i] = s
	} else {
		m.kept.snapshots = slices.Insert(m.kept.snapshots, i, s)
	}
	if extra := len(m.kept.snapshots) - SnapshotsKept; extra > 0 {
		m.kept.snapshots = slices.Delete(m.kept.snapshots, 0, extra)
	}
	return nil
}

// BlobsOf implements Store.
func (m *Memory) BlobsOf(ctx context.Context, hashes []string) ([]Blob, error) {
	if err := m.begin(ctx, "blob"); err != nil {
		return nil, err
	}
	defer m.kept.mu.Unlock()
	found := make([]Blob, len(hashes))
	for i, hash := range hashes {
		found[i] = m.kept.blobs[hash]
		found[i].Data = bytes.Clone(found[i].Data)
	}
	return found, nil
}

// Blobs implements Store.
func (m *Memory) Blobs(ctx context.Context) ([]string, error) {
	if err := m.begin(ctx, "blobs"); err != nil {
		return nil, err
	}
	defer m.kept.mu.Unlock()
	return slices.Sorted(maps.Keys(m.kept.blobs)), nil
}

// Delete implements Store.
func (m *Memory) Delete(ctx context.Context) error {
	switch err := m.begin(ctx, "delete"); err {
	case nil:
	case ErrClosed: // closed handles may still delete
		m.kept.mu.Lock()
	default:
		return err
	}
	defer m.kept.mu.Unlock()
	m.kept.head, m.kept.records, m.kept.snapshots = Head{}, nil, nil
	clear(m.kept.blobs)
	m.closed = true
	return nil
}

// GiveUp implements Copy.
func (m *Memory) GiveUp(ctx context.Context) error { return m.Delete(ctx) }

// Close implements Store.
func (m *Memory) Close() error {
	m.kept.mu.Lock()
	defer m.kept.mu.Unlock()
	m.closed = true
	return nil
}

func loaded(blobs []Blob) ([]Blob, error) {
	all := make([]Blob, len(blobs))
	for i, b := range blobs {
		var err error
		if all[i], err = b.Loaded(); err != nil {
			return nil, err
		}
	}
	return all, nil
}
