package journal_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// Where there is no room for a photo, the words are kept without it, and photos of
// other records stay as they are.
func TestDropPhotos(t *testing.T) {
	store := journal.NewMemory()
	s := open(t, store)
	newID := counter("entry")
	photo := journal.NewBlob("image/jpeg", []byte("ok"))
	_, err := s.Do(ctx, "log failure", now, newID, logFailure("old", "with a photo", photo.Hash), photo)
	require.NoError(t, err)
	big := journal.NewBlob("image/jpeg", []byte("too big"))
	store.Fault = func(string) error { return nil }
	_, err = s.Do(ctx, "log failure", now, newID, func(ed *journal.Edit) error {
		if err := logFailure("new", "snapped", big.Hash, photo.Hash)(ed); err != nil {
			return err
		}
		ed.Put(fieldkit.Inspection{ID: "play", Position: "joint-left", On: fieldkit.DateOf(now.Time), Name: "play",
			Value: fieldkit.Value{Dim: fieldkit.DimLength, Base: 1}, Photos: []string{big.Hash}})
		ed.DropPhotos([]journal.Blob{big})
		return nil
	})
	require.NoError(t, err)
	fresh, _ := s.Kit().Failures.Find("new")
	require.Equal(t, []string{photo.Hash}, fresh.Photos)
	old, _ := s.Kit().Failures.Find("old")
	require.Equal(t, []string{photo.Hash}, old.Photos)
	play, _ := s.Kit().Inspections.Find("play")
	require.Empty(t, play.Photos)
	require.True(t, errors.Is(&fieldkit.Error{Cause: journal.ErrFull}, journal.ErrFull))
}
