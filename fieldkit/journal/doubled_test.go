package journal_test

import (
	"context"
	"math/rand/v2"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/journal/journaltest"
)

func TestDoubledIsAStore(t *testing.T) {
	first, second := map[string]*place{}, map[string]*place{}
	journaltest.Run(t, func(t *testing.T, name string) journal.Store {
		if first[name] == nil {
			first[name], second[name] = newPlace(), newPlace()
		}
		d, _ := doubled(t, first[name], second[name])
		return d
	})
}

func TestThrownAwayComesBack(t *testing.T) {
	first, second := newPlace(), newPlace()
	d, regained := doubled(t, first, second)
	assert.Zero(t, regained)
	photo := journal.NewBlob("image/jpeg", []byte("a bent tie rod"))
	jot(t, d, 3)
	jot(t, d, 1, photo)
	jot(t, d, 2)
	require.NoError(t, d.Follow(t.Context()))
	assert.EqualValues(t, 6, second.head(t))
	before, err := first.store().Since(t.Context(), 0)
	require.NoError(t, err)

	require.NoError(t, d.Close())
	first.throwAway(t)
	d, regained = doubled(t, first, second)
	assert.Equal(t, 6, regained)
	after, err := d.Since(t.Context(), 0)
	require.NoError(t, err)
	assert.Equal(t, before, after, "to the byte")
	blobs, err := d.BlobsOf(t.Context(), []string{photo.Hash})
	require.NoError(t, err)
	assert.Equal(t, photo.Data, blobs[0].Data)

	// Either may go, one after the other.
	second.throwAway(t)
	jot(t, d, 1)
	require.NoError(t, d.Follow(t.Context()))
	assert.EqualValues(t, 7, second.head(t))
}

// A restored backup brings many photos with one entry: they are copied a few at a time,
// all of them by the same run, and all come back at once.
func TestManyPhotosAtOnce(t *testing.T) {
	first, second := newPlace(), newPlace()
	d, _ := doubled(t, first, second)
	photos := make([]journal.Blob, 100)
	for i := range photos {
		photos[i] = journal.NewBlob("image/jpeg", []byte{byte(i), 1, 2, 3})
	}
	jot(t, d, 1, photos...)
	require.NoError(t, d.Follow(t.Context()))
	assert.Len(t, second.photos(t), 100)
	assert.Equal(t, journal.CopyWhole, d.Copied())
	for i := range photos {
		photos[i] = journal.NewBlob("image/jpeg", []byte{byte(i), 5})
	}
	jot(t, first.store(), 1, photos...) // in another tab
	require.NoError(t, d.Follow(t.Context()))
	assert.Len(t, second.photos(t), 200)
	require.NoError(t, d.Close())
	first.throwAway(t)
	_, regained := doubled(t, first, second)
	assert.Equal(t, 2, regained)
	assert.Len(t, first.photos(t), 200)
}

// The phone died when a few of many photos were copied, or had come back: the rest follows
// after the next start, with nothing written down.
func TestPhotosFollowAtTheNextStart(t *testing.T) {
	for name, direction := range map[string]func(first, second *place) (whole, part *place){
		"to the copy": func(first, second *place) (*place, *place) { return first, second },
		"back":        func(first, second *place) (*place, *place) { return second, first },
	} {
		t.Run(name, func(t *testing.T) {
			first, second := newPlace(), newPlace()
			whole, part := direction(first, second)
			photos := make([]journal.Blob, 30)
			for i := range photos {
				photos[i] = journal.NewBlob("image/jpeg", []byte{byte(i), 7})
			}
			jot(t, whole.store(), 1, photos...)
			jot(t, part.store(), 1, photos...)
			require.NoError(t, part.store().DropBlobs(t.Context(), part.photos(t)[8:]))
			d, _ := doubled(t, first, second)
			require.NoError(t, d.Follow(t.Context()))
			assert.Len(t, first.photos(t), 30)
			assert.Len(t, second.photos(t), 30)
		})
	}
}

// What is deleted on purpose never comes back.
func TestDeletedOnPurposeStaysAway(t *testing.T) {
	first, second := newPlace(), newPlace()
	d, _ := doubled(t, first, second)
	jot(t, d, 5)
	require.NoError(t, d.Follow(t.Context()))
	require.NoError(t, d.Delete(t.Context()))
	_, regained := doubled(t, first, second)
	assert.Zero(t, regained)
	assert.Zero(t, first.head(t))
	assert.Zero(t, second.head(t))
}

// A copy of another kit, which should not be there, is not taken; where nothing sets it
// aside it is not touched.
func TestCopyOfAnotherKit(t *testing.T) {
	first, second := newPlace(), newPlace()
	jot(t, second.store(), 4)
	jotDown(t, first.store(), "another kit")
	d, regained := doubled(t, first, second)
	assert.Zero(t, regained)
	jot(t, d, 6)
	require.NoError(t, d.Follow(t.Context()))
	assert.EqualValues(t, 7, first.head(t))
	assert.EqualValues(t, 4, second.head(t))
}

// The phone died while entries were being taken back: the rest comes at the next start,
// and so do the last ones of a database that lost only those.
func TestRestComesBack(t *testing.T) {
	first, second := lost(t, 6)
	whole := second.entries(t)
	first.takeBack(t, whole[:2]...)
	_, regained := doubled(t, first, second)
	assert.Equal(t, 4, regained)
	assert.Equal(t, whole, first.entries(t))
	assert.Equal(t, headOf(t, second.store()), headOf(t, first.store()))
}

// A copy that does not answer holds nobody up, unless there is nothing else.
func TestCopyThatIsSlow(t *testing.T) {
	first, second := newPlace(), newPlace()
	jot(t, first.store(), 2)
	jot(t, second.store(), 3)
	answer := make(chan struct{})
	slow := copying(func() (journal.Copy, error) { <-answer; return second.store(), nil })
	slow.Patience = time.Millisecond
	d, regained, err := journal.OpenDoubled(t.Context(), first.store(), slow)
	require.NoError(t, err)
	assert.Zero(t, regained)
	require.NoError(t, d.Store.Close())
	first.throwAway(t)
	time.AfterFunc(20*time.Millisecond, func() { close(answer) })
	_, regained, err = journal.OpenDoubled(t.Context(), first.store(), slow)
	require.NoError(t, err)
	assert.Equal(t, 3, regained)
}

func TestWithoutASecondPlace(t *testing.T) {
	first := newPlace()
	d, _ := doubled(t, first, nil)
	jot(t, d, 2)
	require.NoError(t, d.Follow(t.Context()))
	require.NoError(t, d.Delete(t.Context()))
	assert.Zero(t, first.head(t))
}

// A copy that has no room, or fails, is nobody's trouble: the entry is kept, and the
// next one tries again; a photo that has no room in the copy leaves its entry there.
func TestCopyThatFails(t *testing.T) {
	first, second := newPlace(), newPlace()
	var failing atomic.Bool
	failing.Store(true)
	d, _, err := journal.OpenDoubled(t.Context(), first.store(), copyingTo(func() journal.Copy { return refusing{second.store(), &failing} }))
	require.NoError(t, err)
	jot(t, d, 3)
	require.ErrorIs(t, d.Follow(t.Context()), journal.ErrFull)
	assert.EqualValues(t, 3, first.head(t))
	assert.Zero(t, second.head(t))
	failing.Store(false)
	jot(t, d, 1, journal.NewBlob("image/jpeg", []byte("too large")))
	_ = d.Follow(t.Context())
	assert.EqualValues(t, 4, second.head(t))
	assert.Empty(t, second.photos(t))
	assert.Equal(t, journal.CopyNoPhotos, d.Copied(), "and that can be seen")
}

// refusing is a store without room: for anything, or for photos.
type refusing struct {
	journal.Copy
	anything *atomic.Bool // else only photos
}

func (r refusing) Append(ctx context.Context, rec journal.Record, blobs []journal.Blob) error {
	if r.anything.Load() || len(blobs) > 0 {
		return journal.ErrFull
	}
	return r.Copy.Append(ctx, rec, blobs)
}

func (r refusing) PutBlobs(context.Context, []journal.Blob) error { return journal.ErrFull }

// Two tabs write and copy, either place is thrown away now and then while all is closed,
// and never both: nothing acknowledged is lost.
func TestDoubledLosesNothing(t *testing.T) {
	for seed := range uint64(40) {
		random := rand.New(rand.NewPCG(seed, 1))
		first, second := newPlace(), newPlace()
		acknowledged := uint64(0)
		for range 12 {
			a, _ := doubled(t, first, second)
			b, _ := doubled(t, first, second)
			require.Equal(t, acknowledged, first.head(t), "seed %d", seed)
			for range random.IntN(6) {
				d := a
				if random.IntN(2) == 0 {
					d = b
				}
				jot(t, d, 1)
				acknowledged++
				if random.IntN(3) == 0 {
					go d.Follow(t.Context())
				}
			}
			for _, d := range []*journal.Doubled{a, b} {
				require.NoError(t, d.Follow(t.Context()))
			}
			for second.head(t) < acknowledged { // the other tab copied at the same time
				require.NoError(t, a.Follow(t.Context()))
			}
			require.NoError(t, a.Close())
			require.NoError(t, b.Close())
			switch random.IntN(3) {
			case 0:
				first.throwAway(t)
			case 1:
				second.throwAway(t)
			}
		}
	}
}
