package backup_test

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/backup"
	"trailfieldkit/fieldkit/journal"
)

// wrecked is a raw file of a kit of three entries with a photo: its second entry is
// damaged, and one photo is lost.
func wrecked(t testing.TB) (file []byte, photo journal.Blob) {
	t.Helper()
	photo = journal.NewBlob("image/png", []byte("\x89PNG\r\n\x1a\nthe joint"))
	store := journal.NewMemory()
	begin := func() fieldkit.Kit {
		return fieldkit.Kit{Format: fieldkit.Format, Version: "1.1", ID: "k", Name: "Ridge crew", Currency: "USD"}
	}
	s, _, err := journal.Open(context.Background(), store, begin)
	require.NoError(t, err)
	for _, id := range []string{"first", "second"} {
		_, err = s.Do(context.Background(), "Added "+id, fieldkit.Moment{}, func() string { return id }, func(e *journal.Edit) error {
			e.Put(fieldkit.Rig{ID: id, Name: id})
			return nil
		})
		require.NoError(t, err)
	}
	tail, err := store.Since(context.Background(), 0)
	require.NoError(t, err)
	salvage := journal.Salvage{Head: tail.Head, Records: tail.Records, Photos: []string{photo.Hash, "gone"}}
	salvage.Records[1].Body = append(bytes.Clone(salvage.Records[1].Body[:20]), '?')
	var out bytes.Buffer
	_, err = backup.WriteRaw(&out, salvage, func(hash string) (journal.Blob, error) {
		if hash != photo.Hash {
			return journal.Blob{}, errors.New("no bytes")
		}
		return photo, nil
	})
	require.NoError(t, err)
	return out.Bytes(), photo
}

func empty() fieldkit.Kit {
	return fieldkit.Kit{Format: fieldkit.Format, Version: "1.1", ID: "new", Name: "Recovered", Currency: "USD"}
}

// What was written of a damaged store gives the same kit again, names the same damage,
// and gives back the photos that are whole.
func TestReadRaw(t *testing.T) {
	file, photo := wrecked(t)
	require.True(t, backup.IsRaw(backup.InMemory(file)))
	s, photos, err := backup.ReadRaw(backup.InMemory(file), backup.Default)
	require.NoError(t, err)
	require.Equal(t, []journal.Blob{photo}, loaded(t, photos))
	require.Len(t, s.Records, 3)
	require.Contains(t, s.Unread, "photo gone: no bytes")
	got, report, err := s.Recover(context.Background(), empty)
	require.NoError(t, err)
	require.Equal(t, "Ridge crew", got.Kit.Name)
	require.Len(t, got.Kit.Rigs, 1)
	require.Equal(t, "second", got.Kit.Rigs[0].ID)
	require.False(t, report.Whole())
	require.Equal(t, uint64(2), report.Damaged[0].Seq)
}

// loaded reads photos that lie in the file.
func loaded(t *testing.T, photos []journal.Blob) (whole []journal.Blob) {
	t.Helper()
	for _, p := range photos {
		b, err := p.Loaded()
		require.NoError(t, err)
		whole = append(whole, b)
	}
	return whole
}

// A raw file that is itself damaged gives what it still holds; what is no raw file is
// refused.
func TestReadRawOfLess(t *testing.T) {
	file, photo := wrecked(t)
	without := func(drop string, swap map[string]string) []byte {
		z, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
		require.NoError(t, err)
		var out bytes.Buffer
		w := zip.NewWriter(&out)
		for _, f := range z.File {
			switch text, other := swap[f.Name]; {
			case f.Name == drop:
			case other:
				p, err := w.Create(f.Name)
				require.NoError(t, err)
				_, err = p.Write([]byte(text))
				require.NoError(t, err)
			default:
				require.NoError(t, w.Copy(f))
			}
		}
		require.NoError(t, w.Close())
		return out.Bytes()
	}
	s, photos, err := backup.ReadRaw(backup.InMemory(without("entries/000003-3.json", map[string]string{"photos/" + photo.Hash + ".jpg": "other bytes"})), backup.Default)
	require.NoError(t, err)
	require.Empty(t, photos)
	require.Len(t, s.Records, 2)
	require.Len(t, s.Unread, 3) // the photo lost before, the entry, the photo's bytes

	for name, broken := range map[string][]byte{
		"no archive":    []byte("PK nonsense"),
		"no index":      without("index.json", nil),
		"index no JSON": without("", map[string]string{"index.json": "{"}),
		"another file":  without("", map[string]string{"index.json": `{"what":"a letter"}`}),
	} {
		_, _, err := backup.ReadRaw(backup.InMemory(broken), backup.Default)
		require.Error(t, err, name)
	}
	require.False(t, backup.IsRaw(backup.InMemory(without("index.json", nil))))
	_, _, err = backup.ReadRaw(backup.InMemory(file), backup.Limits{Files: 3, Total: 1 << 20, Photo: 1 << 20, Ratio: 200})
	require.ErrorContains(t, err, "files, more than 3")
}

// FuzzReadRaw holds that whatever a raw file says, reading and replaying it ends, and
// that photos are handed out under the checksum of their bytes only.
func FuzzReadRaw(f *testing.F) {
	file, _ := wrecked(f)
	f.Add(file)
	f.Add([]byte("PK\x05\x06" + string(make([]byte, 18))))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, photos, err := backup.ReadRaw(backup.InMemory(data), backup.Limits{Files: 50, Total: 1 << 20, Photo: 1 << 16, Ratio: 200})
		if err != nil {
			require.Empty(t, s.Records)
			return
		}
		for _, p := range loaded(t, photos) {
			require.True(t, p.Whole())
		}
		_, _, _ = s.Recover(context.Background(), empty)
	})
}

// A record that is listed again and again is held once.
func TestRawRecordListedAgain(t *testing.T) {
	file, _ := wrecked(t)
	z, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	require.NoError(t, err)
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, f := range z.File {
		if f.Name != "index.json" {
			require.NoError(t, w.Copy(f))
			continue
		}
		r, err := f.Open()
		require.NoError(t, err)
		var index map[string]any
		require.NoError(t, json.NewDecoder(r).Decode(&index))
		entries := index["entries"].([]any)
		for range 50 {
			entries = append(entries, entries[0])
		}
		index["entries"] = entries
		p, err := w.Create(f.Name)
		require.NoError(t, err)
		require.NoError(t, json.NewEncoder(p).Encode(index))
	}
	require.NoError(t, w.Close())
	s, _, err := backup.ReadRaw(backup.InMemory(out.Bytes()), backup.Raw)
	require.NoError(t, err)
	require.Len(t, s.Records, 3)
	require.Contains(t, s.Unread, "entries/000001-1.json is listed twice")
	_, _, err = backup.ReadRaw(backup.InMemory(out.Bytes()), backup.Limits{Files: 20, Total: 1 << 20, Photo: 1 << 20, Ratio: 200})
	require.ErrorContains(t, err, "lists 53 records, more than 20")
}

// The journal of many years, of which more entries are written than a backup has files,
// can be read back.
func TestRawJournalOfManyYears(t *testing.T) {
	salvage := journal.Salvage{}
	for seq := range uint64(backup.Default.Files + 500) {
		salvage.Records = append(salvage.Records, journal.Record{Seq: seq + 1, Body: []byte("{}")})
	}
	var out bytes.Buffer
	_, err := backup.WriteRaw(&out, salvage, nil)
	require.NoError(t, err)
	require.True(t, backup.IsRaw(backup.InMemory(out.Bytes())))
	s, _, err := backup.ReadRaw(backup.InMemory(out.Bytes()), backup.Raw)
	require.NoError(t, err)
	require.Len(t, s.Records, len(salvage.Records))
}
