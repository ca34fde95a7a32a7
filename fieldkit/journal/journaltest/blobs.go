package journaltest

import (
	"context"
	"errors"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// photoIn reads one photo of a store.
func photoIn(s journal.Store, hash string) (journal.Blob, error) {
	found, err := s.BlobsOf(context.Background(), []string{hash})
	if err != nil {
		return journal.Blob{}, err
	}
	if found[0].Hash == "" {
		return journal.Blob{}, journal.NoBlob(hash)
	}
	return found[0], nil
}

func severalBlobs(t *testing.T, open func() journal.Store) {
	ctx, s := context.Background(), open()
	a, b := journal.NewBlob("image/jpeg", []byte("the joint")), journal.NewBlob("image/png", []byte("the pump"))
	require.NoError(t, s.Append(ctx, record(t, 1, journal.Head{}, a, b), []journal.Blob{a, b}))
	none := journal.BlobHash([]byte("none"))
	found, err := open().BlobsOf(ctx, []string{b.Hash, none, a.Hash, b.Hash})
	require.NoError(t, err)
	require.Equal(t, []journal.Blob{b, {}, a, b}, found)
	found, err = open().BlobsOf(ctx, nil)
	require.NoError(t, err)
	require.Empty(t, found)
}

func blobsWithEntry(t *testing.T, open func() journal.Store) {
	ctx, s := context.Background(), open()
	photos := []journal.Blob{
		journal.NewBlob("image/jpeg", []byte("the joint")),
		journal.NewBlob("image/png", []byte{0, 255, 1, 254, 128}),
		journal.NewBlob("image/jpeg", []byte{}),
	}
	r := record(t, 1, journal.Head{}, photos...)
	require.NoError(t, s.Append(ctx, r, photos))
	want := []string{photos[0].Hash, photos[1].Hash, photos[2].Hash}
	slices.Sort(want)
	hashes, err := open().Blobs(ctx)
	require.NoError(t, err)
	require.Equal(t, want, hashes)
	for _, p := range photos {
		back, err := photoIn(open(), p.Hash)
		require.NoError(t, err)
		require.Equal(t, p.Type, back.Type)
		require.Equal(t, p.Hash, back.Hash)
		require.Equal(t, p.Hash, journal.BlobHash(back.Data))
	}
	holds(t, s, []journal.Record{r})
}

// Blobs that are read when they are kept come with their entry too; if one cannot be
// read or is not what its hash says, nothing is kept.
func blobsFromElsewhere(t *testing.T, open func() journal.Store) {
	ctx, s := context.Background(), open()
	gone := errors.New("the backup is gone")
	elsewhere := func(text string, data []byte, err error) journal.Blob {
		b := journal.NewBlob("image/jpeg", []byte(text))
		b.Data, b.Read = nil, func() ([]byte, error) { return data, err }
		return b
	}
	whole := elsewhere("the joint", []byte("the joint"), nil)
	r := record(t, 1, journal.Head{}, whole)
	require.ErrorIs(t, s.Append(ctx, r, []journal.Blob{whole, elsewhere("the pump", nil, gone)}), gone)
	isKind(t, s.Append(ctx, r, []journal.Blob{whole, elsewhere("the pump", []byte("the jack"), nil)}), fieldkit.BadInput)
	holds(t, s, nil)
	hasNoBlobs(t, s)
	require.NoError(t, s.Append(ctx, r, []journal.Blob{whole}))
	back, err := photoIn(open(), whole.Hash)
	require.NoError(t, err)
	require.Equal(t, "the joint", string(back.Data))
}

func refusedAppend(t *testing.T, open func() journal.Store) {
	ctx, s := context.Background(), open()
	want := fill(t, s, 3)
	photo := journal.NewBlob("image/jpeg", []byte("of a refused entry"))
	require.ErrorIs(t, s.Append(ctx, record(t, 3, want[1].Head(), photo), []journal.Blob{photo}), journal.ErrBehind)
	holds(t, s, want)
	hasNoBlobs(t, s)
}

func sameBlobTwice(t *testing.T, open func() journal.Store) {
	ctx, s := context.Background(), open()
	photo := journal.NewBlob("image/jpeg", []byte("twice"))
	one := record(t, 1, journal.Head{}, photo)
	require.NoError(t, s.Append(ctx, one, []journal.Blob{photo, photo}))
	other := photo
	other.Type = "image/other"
	require.NoError(t, s.Append(ctx, record(t, 2, one.Head(), photo), []journal.Blob{other}))
	hashes, err := s.Blobs(ctx)
	require.NoError(t, err)
	require.Equal(t, []string{photo.Hash}, hashes)
	back, err := photoIn(s, photo.Hash)
	require.NoError(t, err)
	require.Equal(t, photo, back)
}

// Blobs that follow an entry are kept without one, all of them or none, and never in a
// journal that is not there (any more).
func blobsAlone(t *testing.T, open func() journal.Store) {
	ctx, s := context.Background(), open()
	a, b := journal.NewBlob("image/jpeg", []byte("the joint")), journal.NewBlob("image/png", []byte("the pump"))
	require.ErrorIs(t, s.PutBlobs(ctx, []journal.Blob{a}), journal.ErrBehind)
	hasNoBlobs(t, s)
	want := fill(t, s, 2)
	gone := errors.New("the backup is gone")
	elsewhere := journal.Blob{Hash: b.Hash, Type: b.Type, Read: func() ([]byte, error) { return b.Data, gone }}
	require.ErrorIs(t, s.PutBlobs(ctx, []journal.Blob{a, elsewhere}), gone)
	hasNoBlobs(t, s)
	gone = nil
	require.NoError(t, s.PutBlobs(ctx, []journal.Blob{a, elsewhere}))
	other := a
	other.Type = "image/other"
	require.NoError(t, s.PutBlobs(ctx, []journal.Blob{other}), "kept already")
	require.NoError(t, s.PutBlobs(ctx, nil))
	damaged := b
	damaged.Data = []byte("the pumq")
	require.NoError(t, s.PutBlobs(ctx, []journal.Blob{damaged}))
	require.NoError(t, s.PutBlobs(ctx, []journal.Blob{b}), "what is damaged is mended")
	found, err := open().BlobsOf(ctx, []string{a.Hash, b.Hash})
	require.NoError(t, err)
	require.Equal(t, []journal.Blob{a, b}, found)
	holds(t, s, want)
	require.NoError(t, s.Close())
	require.ErrorIs(t, s.PutBlobs(ctx, []journal.Blob{a}), journal.ErrClosed)
}

// blobsGivenUp is for stores that are second copies; the kit's own place gives up none.
func blobsGivenUp(t *testing.T, open func() journal.Store) {
	s, ok := open().(journal.Copy)
	if !ok {
		t.Skip("not a second copy")
	}
	ctx := context.Background()
	a, b := journal.NewBlob("image/jpeg", []byte("the joint")), journal.NewBlob("image/png", []byte("the pump"))
	r := record(t, 1, journal.Head{}, a, b)
	require.NoError(t, s.Append(ctx, r, []journal.Blob{a, b}))
	require.NoError(t, s.DropBlobs(ctx, []string{a.Hash, journal.BlobHash([]byte("none"))}))
	hashes, err := open().Blobs(ctx)
	require.NoError(t, err)
	require.Equal(t, []string{b.Hash}, hashes)
	holds(t, s, []journal.Record{r})
	require.NoError(t, s.PutBlobs(ctx, []journal.Blob{a}), "it may come back")
	back, err := photoIn(s, a.Hash)
	require.NoError(t, err)
	require.Equal(t, a, back)
}

func bigBlob(t *testing.T, open func() journal.Store) {
	ctx, s := context.Background(), open()
	data := make([]byte, 1<<20)
	for i := range data {
		data[i] = byte(i*i>>8 ^ i)
	}
	photo := journal.NewBlob("image/jpeg", data)
	require.NoError(t, s.Append(ctx, record(t, 1, journal.Head{}, photo), []journal.Blob{photo}))
	require.NoError(t, s.Close())
	back, err := photoIn(open(), photo.Hash)
	require.NoError(t, err)
	require.Len(t, back.Data, 1<<20)
	require.Equal(t, photo.Hash, journal.BlobHash(back.Data))
}
