package backup_test

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit/backup"
	"trailfieldkit/fieldkit/journal"
)

// The raw file holds every byte that could be read, damaged ones too, names the rest,
// and is not taken for a backup.
func TestWriteRaw(t *testing.T) {
	photo := journal.NewBlob("image/jpeg", []byte("the joint"))
	s := journal.Salvage{
		Head:      journal.Head{Seq: 3, Hash: "h"},
		Records:   []journal.Record{{Seq: 2, Prev: "a", Hash: "b", Body: []byte("{broken")}, {Seq: 2, Body: []byte("twice")}},
		Snapshots: []journal.Snapshot{journal.NewSnapshot(journal.Head{Seq: 1}, []byte("{}")).With([]byte("past"))},
		Photos:    []string{photo.Hash, "../gone"},
		Unread:    []string{"entry 3: the browser could not read it"},
	}
	var file bytes.Buffer
	missing, err := backup.WriteRaw(&file, s, func(hash string) (journal.Blob, error) {
		if hash != photo.Hash {
			return journal.Blob{}, errors.New("no bytes")
		}
		return photo, nil
	})
	require.NoError(t, err)
	require.Equal(t, []string{"../gone"}, missing)
	z, err := zip.NewReader(bytes.NewReader(file.Bytes()), int64(file.Len()))
	require.NoError(t, err)
	held := map[string]string{}
	for _, f := range z.File {
		r, err := f.Open()
		require.NoError(t, err)
		content, err := io.ReadAll(r)
		require.NoError(t, err)
		held[f.Name] = string(content)
	}
	require.Equal(t, "{broken", held["entries/000001-2.json"])
	require.Equal(t, "twice", held["entries/000002-2.json"])
	require.Equal(t, "{}", held["snapshots/000001-1.json"])
	require.Equal(t, "past", held["snapshots/000001-1.json.history"])
	require.Equal(t, "the joint", held["photos/"+photo.Hash+".jpg"])
	require.Contains(t, held["unread.txt"], "entry 3: the browser could not read it")
	require.Contains(t, held["unread.txt"], "photo ../gone: no bytes")
	require.Contains(t, held["index.json"], `"prev": "a"`)
	_, err = backup.Read(file.Bytes(), backup.Default)
	require.Error(t, err)
}
