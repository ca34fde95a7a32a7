package journal_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit/journal"
)

// disk is the room that both places of a kit share.
type disk struct {
	mu     sync.Mutex
	limit  int
	places []*place
}

func (d *disk) used(places ...*place) (bytes int) {
	for _, p := range places {
		s := p.store()
		tail, _ := s.Since(context.Background(), 0) // memory does not fail
		for _, r := range tail.Records {
			bytes += len(r.Body)
		}
		hashes, _ := s.Blobs(context.Background())
		blobs, _ := s.BlobsOf(context.Background(), hashes)
		for _, b := range blobs {
			bytes += len(b.Data)
		}
	}
	return bytes
}

// onDisk is a store that refuses what the disk has no room for.
type onDisk struct {
	journal.Copy
	disk *disk
	at   *place
}

func (s onDisk) put(bytes int, blobs []journal.Blob, do func() error) error {
	s.disk.mu.Lock()
	defer s.disk.mu.Unlock()
	here, _ := s.at.store().Blobs(context.Background()) // memory does not fail
	kept := map[string]bool{}
	for _, hash := range here {
		kept[hash] = true
	}
	for _, b := range blobs {
		if !kept[b.Hash] {
			kept[b.Hash], bytes = true, bytes+len(b.Data)
		}
	}
	if s.disk.used(s.disk.places...)+bytes > s.disk.limit {
		return fmt.Errorf("disk: %w", journal.ErrFull)
	}
	return do()
}

func (s onDisk) Append(ctx context.Context, r journal.Record, blobs []journal.Blob) error {
	return s.put(len(r.Body), blobs, func() error { return s.Copy.Append(ctx, r, blobs) })
}

func (s onDisk) PutBlobs(ctx context.Context, blobs []journal.Blob) error {
	return s.put(0, blobs, func() error { return s.Copy.PutBlobs(ctx, blobs) })
}

// A copy is never why an entry or a photo is refused: whatever the disk has no room for, it
// would have had none for it without a copy. And the copy gives up only what the first has.
func TestCopyIsNeverInTheWay(t *testing.T) {
	refused, gaveUp, gaveAll := 0, 0, 0
	for seed := range uint64(60) {
		random := rand.New(rand.NewPCG(seed, 5))
		first, second := newPlace(), newPlace()
		d := &disk{limit: 2000 + random.IntN(18_000), places: []*place{first, second}}
		var photos []string
		for start := range 3 {
			told := 0
			how := copyingTo(func() journal.Copy { return onDisk{second.store(), d, second} })
			how.WithoutPhotos = start == 2
			how.Told = func(n journal.News) {
				if assert.Equal(t, journal.News{NoRoom: true}, n) {
					told++
				}
			}
			s, _, err := journal.OpenDoubled(t.Context(), onDisk{first.store(), d, first}, how)
			require.NoError(t, err)
			_ = s.Follow(t.Context()) // where it has no room is nobody's trouble
			for range 12 {
				photo := make([]byte, random.IntN(900))
				for i := range photo {
					photo[i] = byte(random.Uint32())
				}
				blob := journal.NewBlob("image/jpeg", photo)
				r := next(t, s, "noted", blob)
				before := d.used(first)
				err = s.Append(t.Context(), r, []journal.Blob{blob})
				if err != nil {
					refused++
					require.ErrorIs(t, err, journal.ErrFull)
					require.Greater(t, before+len(r.Body)+len(photo), d.limit, "seed %d: refused, and the copy is why", seed)
				} else {
					photos = append(photos, blob.Hash)
				}
				if random.IntN(3) == 0 {
					_ = s.Follow(t.Context())
				}
			}
			_ = s.Follow(t.Context())
			switch s.Copied() {
			case journal.CopyNoRoom:
				gaveAll++
				fallthrough
			case journal.CopyNoPhotos:
				gaveUp++
				if !how.WithoutPhotos {
					require.Equal(t, 1, told, "seed %d: said once", seed)
				}
			case journal.CopyWhole:
				require.Equal(t, first.photos(t), second.photos(t), "seed %d", seed)
				require.Zero(t, told)
			}
			require.NoError(t, s.Close())
			for _, hash := range photos {
				require.Contains(t, first.photos(t), hash)
			}
		}
	}
	t.Logf("%d refused, copies without photos %d, without anything %d", refused, gaveUp, gaveAll)
	require.Positive(t, refused)
	require.Positive(t, gaveUp-gaveAll)
	require.Positive(t, gaveAll)
}

// What the first lost and had no room to take back stays in the copy, whatever is refused.
func TestRoomIsNotMadeOfWhatOnlyTheCopyHas(t *testing.T) {
	photo := journal.NewBlob("image/jpeg", []byte("too large to come back"))
	first, second := newPlace(), newPlace()
	jot(t, second.store(), 1, photo)
	jot(t, first.store(), 1)
	d := &disk{limit: 0, places: []*place{first, second}}
	for name, begin := range map[string]func(){
		"a photo": func() {
			first.throwAway(t)
			first.takeBack(t, second.entries(t)[0])
		},
		"entries": func() { first.throwAway(t); jot(t, first.store(), 1) },
	} {
		t.Run(name, func(t *testing.T) {
			begin()
			s, _, err := journal.OpenDoubled(t.Context(), onDisk{first.store(), d, first}, copyingTo(func() journal.Copy { return onDisk{second.store(), d, second} }))
			require.NoError(t, err)
			require.ErrorIs(t, s.Append(t.Context(), next(t, s, "more"), nil), journal.ErrFull)
			assert.EqualValues(t, 1, second.head(t))
			assert.Equal(t, []string{photo.Hash}, second.photos(t))
		})
	}
}
