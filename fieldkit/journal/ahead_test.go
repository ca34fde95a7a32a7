package journal_test

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// countedReads notes how many photos each read asks for, and refuses reads from a
// certain one on.
type countedReads struct {
	journal.Store
	reads  chan int
	refuse int // 0 for none
}

var errCut = errors.New("connection cut")

func (s *countedReads) BlobsOf(ctx context.Context, hashes []string) ([]journal.Blob, error) {
	s.reads <- len(hashes)
	if len(s.reads) == s.refuse {
		return nil, errCut
	}
	return s.Store.BlobsOf(ctx, hashes)
}

func TestEachBlob(t *testing.T) {
	var photos []journal.Blob
	var hashes []string
	for i := range 20 {
		photos = append(photos, journal.NewBlob("image/jpeg", fmt.Append(nil, "photo ", i)))
		hashes = append(hashes, photos[i].Hash)
	}
	store := &countedReads{Store: journal.NewMemory(), reads: make(chan int, 100)}
	s := open(t, store)
	_, err := s.Do(ctx, "photos", now, counter("p"), func(e *journal.Edit) error {
		e.Put(fieldkit.Failure{ID: "f", Rig: s.Kit().Rigs[0].ID, On: fieldkit.Date{Year: 2026, Month: 5, Day: 1}, What: "gave way", Photos: hashes[1:]})
		return nil
	}, photos[1:]...)
	require.NoError(t, err)

	i := 0
	for b, err := range s.EachBlob(ctx, hashes) {
		if i == 0 {
			var e *fieldkit.Error
			require.ErrorAs(t, err, &e)
			require.Equal(t, fieldkit.NotFound, e.Kind)
		} else {
			require.NoError(t, err)
			require.Equal(t, photos[i], b)
		}
		i++
	}
	require.Equal(t, 20, i)
	require.Equal(t, []int{8, 8, 4}, []int{<-store.reads, <-store.reads, <-store.reads})

	for range s.EachBlob(ctx, nil) {
		require.Fail(t, "nothing was asked for")
	}
	for b, err := range s.EachBlob(ctx, hashes[1:]) {
		require.NoError(t, err)
		require.Equal(t, photos[1], b)
		break
	}
	require.Equal(t, []int{8, 8}, []int{<-store.reads, <-store.reads}, "the next ones were on their way")

	store.reads, store.refuse = make(chan int, 100), 2
	i = 0
	for _, err := range s.EachBlob(ctx, hashes[1:]) {
		if i++; i <= 8 {
			require.NoError(t, err)
		} else {
			require.ErrorIs(t, err, errCut)
			break
		}
	}
	require.Equal(t, 9, i)
}
