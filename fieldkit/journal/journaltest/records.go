package journaltest

import (
	"context"
	"fmt"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

func emptyStore(t *testing.T, open func() journal.Store) {
	ctx, s := context.Background(), open()
	saved, err := s.Load(ctx, everything)
	require.NoError(t, err)
	require.Nil(t, saved.Snapshot)
	require.Empty(t, saved.Records)
	require.Zero(t, saved.Head)
	tail, err := s.Since(ctx, 0)
	require.NoError(t, err)
	require.Empty(t, tail.Records)
	require.Zero(t, tail.Head)
	tail, err = s.Since(ctx, 7)
	require.NoError(t, err)
	require.Empty(t, tail.Records)
	hasNoBlobs(t, s)
	_, err = photoIn(s, journal.BlobHash([]byte("none")))
	isKind(t, err, fieldkit.NotFound)
}

func appendAndLoad(t *testing.T, open func() journal.Store) {
	ctx, s := context.Background(), open()
	want := fill(t, s, 12) // past nine: numbers must not sort as text
	holds(t, s, want)
	saved, err := s.Load(ctx, everything)
	require.NoError(t, err)
	require.Nil(t, saved.Snapshot)
	require.Equal(t, want, saved.Records)
	require.Equal(t, want[11].Head(), saved.Head)
	tail, err := s.Since(ctx, 9)
	require.NoError(t, err)
	require.Equal(t, want[9:], tail.Records)
	require.Equal(t, want[11].Head(), tail.Head)
	tail, err = s.Since(ctx, 12)
	require.NoError(t, err)
	require.Empty(t, tail.Records)
	require.Equal(t, want[11].Head(), tail.Head)
	tail, err = s.Since(ctx, 99)
	require.NoError(t, err)
	require.Empty(t, tail.Records)
	require.Equal(t, want[11].Head(), tail.Head)
}

// exactBytes keeps a record whose body is no JSON and no text: stores do not look
// inside, and a damaged record must come back as it is.
func exactBytes(t *testing.T, open func() journal.Store) {
	s := open()
	body := make([]byte, 256)
	for i := range body {
		body[i] = byte(i)
	}
	want := journal.Record{Seq: 1, Hash: "not a hash: \u00b5", Body: body}
	require.NoError(t, s.Append(context.Background(), want, nil))
	tail, err := s.Since(context.Background(), 0)
	require.NoError(t, err)
	require.Equal(t, []journal.Record{want}, tail.Records)
	tail.Records[0].Body[0] = 77 // the caller's copy is its own
	again, err := s.Since(context.Background(), 0)
	require.NoError(t, err)
	require.Equal(t, body, again.Records[0].Body)
}

func behind(t *testing.T, open func() journal.Store) {
	ctx, s := context.Background(), open()
	require.ErrorIs(t, s.Append(ctx, record(t, 2, journal.Head{}), nil), journal.ErrBehind, "gap at the start")
	want := fill(t, s, 5)
	head := want[4].Head()
	for name, r := range map[string]journal.Record{
		"the last once more":      want[4],
		"an old number":           record(t, 2, want[0].Head()),
		"a gap":                   record(t, 7, head),
		"number nought":           record(t, 0, head),
		"after a different fifth": record(t, 6, journal.Head{Seq: 5, Hash: want[3].Hash}),
		"after nothing":           record(t, 6, journal.Head{}),
	} {
		err := s.Append(ctx, r, nil)
		require.ErrorIs(t, err, journal.ErrBehind, name)
		isKind(t, err, fieldkit.Conflict)
	}
	holds(t, s, want)
	require.NoError(t, s.Append(ctx, record(t, 6, head), nil))
}

// racing lets handles append at the same time: every acknowledged record must be
// there, once, in one unbroken chain.
func racing(t *testing.T, open func() journal.Store) {
	const handles, each = 3, 12
	ctx := context.Background()
	acknowledged := make([]map[string]bool, handles)
	var wg sync.WaitGroup
	for i := range handles {
		s := open()
		acknowledged[i] = map[string]bool{}
		wg.Go(func() {
			for n := 0; n < each; {
				tail, err := s.Since(ctx, 0)
				if err != nil {
					t.Errorf("since: %v", err)
					return
				}
				e := entryAt(tail.Head.Seq + 1)
				e.ID = fmt.Sprintf("handle %d, %d", i, n)
				r, err := journal.Seal(e, tail.Head)
				if err != nil {
					t.Errorf("seal: %v", err)
					return
				}
				switch err := s.Append(ctx, r, nil); err {
				case nil:
					acknowledged[i][r.Hash] = true
					n++
				case journal.ErrBehind:
				default:
					t.Errorf("append: %v", err)
					return
				}
			}
		})
	}
	wg.Wait()
	tail, err := open().Since(ctx, 0)
	require.NoError(t, err)
	require.Len(t, tail.Records, handles*each)
	head := journal.Head{}
	for _, r := range tail.Records {
		require.Equal(t, head.Seq+1, r.Seq)
		require.Equal(t, head.Hash, r.Prev)
		head = r.Head()
		for i := range handles {
			delete(acknowledged[i], r.Hash)
		}
	}
	for i := range handles {
		require.Empty(t, acknowledged[i], "handle %d", i)
	}
}

func cancelledAppend(t *testing.T, open func() journal.Store) {
	s := open()
	want := fill(t, s, 3)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	photo := journal.NewBlob("image/jpeg", []byte("not kept"))
	require.ErrorIs(t, s.Append(ctx, record(t, 4, want[2].Head(), photo), []journal.Blob{photo}), context.Canceled)
	_, err := s.Load(ctx, everything)
	require.ErrorIs(t, err, context.Canceled)
	holds(t, s, want)
	hasNoBlobs(t, s)
}

func reopened(t *testing.T, open func() journal.Store) {
	ctx, s := context.Background(), open()
	want := fill(t, s, 9)
	photo := journal.NewBlob("image/jpeg", []byte("a photo"))
	last := record(t, 10, want[8].Head(), photo)
	require.NoError(t, s.Append(ctx, last, []journal.Blob{photo}))
	snapshot := journal.NewSnapshot(want[4].Head(), []byte(`{"name":"kit"}`))
	require.NoError(t, s.PutSnapshot(ctx, snapshot))
	require.NoError(t, s.Close())

	again := open()
	holds(t, again, append(want, last))
	saved, err := again.Load(ctx, everything)
	require.NoError(t, err)
	require.Equal(t, &snapshot, saved.Snapshot)
	back, err := photoIn(again, photo.Hash)
	require.NoError(t, err)
	require.Equal(t, photo, back)
	fill(t, again, 12)
}

func manyEntries(t *testing.T, open func() journal.Store) {
	s := open()
	want := fill(t, s, 500)
	holds(t, open(), want)
}

func deletedTwice(t *testing.T, open func() journal.Store) {
	ctx, s := context.Background(), open()
	fill(t, s, 3)
	require.NoError(t, s.PutSnapshot(ctx, journal.NewSnapshot(journal.Head{Seq: 2}, []byte("{}"))))
	require.NoError(t, s.Delete(ctx))
	require.NoError(t, s.Delete(ctx))
	require.ErrorIs(t, s.Append(ctx, record(t, 4, journal.Head{}), nil), journal.ErrClosed)
	emptyStore(t, open)
	fill(t, open(), 2)
}

func deletedElsewhere(t *testing.T, open func() journal.Store) {
	ctx, here, there := context.Background(), open(), open()
	want := fill(t, here, 3)
	holds(t, there, want)
	require.NoError(t, here.Delete(ctx))
	tail, err := there.Since(ctx, 3)
	require.NoError(t, err)
	require.Zero(t, tail.Head)
	require.ErrorIs(t, there.Append(ctx, record(t, 4, want[2].Head()), nil), journal.ErrBehind)
	emptyStore(t, open)
}

func closed(t *testing.T, open func() journal.Store) {
	ctx, s, other := context.Background(), open(), open()
	want := fill(t, s, 2)
	require.NoError(t, s.Close())
	require.NoError(t, s.Close())
	_, err := s.Load(ctx, everything)
	require.ErrorIs(t, err, journal.ErrClosed)
	isKind(t, err, fieldkit.Storage)
	_, err = s.Since(ctx, 0)
	require.ErrorIs(t, err, journal.ErrClosed)
	require.ErrorIs(t, s.Append(ctx, record(t, 3, want[1].Head()), nil), journal.ErrClosed)
	require.ErrorIs(t, s.PutSnapshot(ctx, journal.NewSnapshot(want[1].Head(), nil)), journal.ErrClosed)
	_, err = photoIn(s, "")
	require.ErrorIs(t, err, journal.ErrClosed)
	_, err = s.Blobs(ctx)
	require.ErrorIs(t, err, journal.ErrClosed)
	holds(t, other, want)
}
