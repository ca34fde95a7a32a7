package journal_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// The bytes and the hash of an entry are a format: journals written by earlier
// versions must check for ever. The hash is recomputed here from its definition.
func TestSealedBytesStayTheSame(t *testing.T) {
	e := journal.Entry{Seq: 7, ID: "e7", At: now, What: "log <failure>: 40° & \"bent\"", Undoes: "e3", Changes: []journal.Change{
		{Collection: "parts", ID: "joint", Before: []byte(`{"id": "joint"}`), After: []byte(`{"id":"joint","note":"<b>"}`)},
		{Collection: "tools", ID: "hammer", Before: []byte(`{"id":"hammer"}`), Place: 3},
	}}
	r, err := journal.Seal(e, journal.Head{Seq: 6, Hash: "abc"})
	require.NoError(t, err)
	body := `{"seq":7,"id":"e7","at":"2026-05-14T18:05:00Z","what":"log <failure>: 40° & \"bent\"","changes":[` +
		`{"collection":"parts","id":"joint","before":{"id":"joint"},"after":{"id":"joint","note":"<b>"}},` +
		`{"collection":"tools","id":"hammer","before":{"id":"hammer"},"place":3}],"undoes":"e3"}`
	require.Equal(t, body, string(r.Body))
	sum := sha256.Sum256([]byte("abc\n" + body))
	require.Equal(t, hex.EncodeToString(sum[:]), r.Hash)
	require.Equal(t, "abc", r.Prev)
	require.Equal(t, uint64(7), r.Seq)
	back, err := r.Entry()
	require.NoError(t, err)
	e.Changes[0].Before = []byte(`{"id":"joint"}`)
	require.Equal(t, e, back)
}

// SHA-256 of "abc" is the first example of FIPS 180-2, appendix B.1.
func TestBlobHash(t *testing.T) {
	require.Equal(t, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", journal.BlobHash([]byte("abc")))
}

// FuzzRecord reads records with any body: no panic, and what is read seals to
// something that reads the same.
func FuzzRecord(f *testing.F) {
	for _, body := range []string{
		``, `{}`, `null`, `[]`, `{"seq":1}`, `{"seq":-1}`, `{"seq":1e99}`, `{"seq":1,"at":"yesterday"}`,
		`{"seq":1,"id":"a","at":"2026-05-14T18:05:00Z","what":"x","changes":[{"collection":"parts","id":"p","after":{}}]}`,
		`{"seq":1,"changes":[{}]}`, `{"seq":1,"kit":{"format":"trail-field-kit"}}`, `{"seq":1,"what":"\ud800"}`,
		`{"seq":1,"changes":[{"collection":"kit","id":"kit","after":null}]}`,
	} {
		f.Add([]byte(body))
	}
	f.Fuzz(func(t *testing.T, body []byte) {
		r := journal.Record{Seq: 1, Body: body}
		_, err := r.Entry()
		require.Error(t, err, "no checksum")
		r = journal.SealBody(1, journal.Head{}, body)
		store := journal.NewMemory()
		require.NoError(t, store.Append(ctx, r, nil))
		_, report, err := journal.Open(ctx, store, begin)
		require.NoError(t, err)
		e, unreadable := r.Entry()
		if unreadable != nil {
			require.Len(t, report.Damaged, 1)
			return
		}
		again, err := journal.Seal(e, journal.Head{})
		require.NoError(t, err)
		back, err := again.Entry()
		require.NoError(t, err)
		twice, err := journal.Seal(back, journal.Head{})
		require.NoError(t, err)
		require.Equal(t, again, twice)
	})
}

// A phone whose clock shows a moment that no calendar writes in four digits makes an
// entry without one, not one that is lost.
func TestMomentsBeyondTheCalendar(t *testing.T) {
	for name, at := range map[string]time.Time{
		"the year 1":      time.Date(1, 1, 3, 1, 0, 0, 0, time.UTC),
		"the year 275760": time.UnixMilli(8_640_000_000_000_000),
		"before Christ":   time.Date(-40, 1, 1, 0, 0, 0, 0, time.UTC),
	} {
		rec, err := journal.Seal(journal.Entry{Seq: 1, ID: "a", What: "log failure", At: fieldkit.Moment{Time: at}}, journal.Head{})
		require.NoError(t, err, name)
		e, err := rec.Entry()
		require.NoError(t, err, name)
		require.True(t, e.At.IsZero(), name)
	}
}

// An entry of a newer format is set aside by name, whatever it holds.
func TestEntryOfANewerFormat(t *testing.T) {
	rec, err := journal.Seal(journal.Entry{Seq: 1, ID: "a", What: "log failure"}, journal.Head{})
	require.NoError(t, err)
	_, err = rec.Entry()
	require.NoError(t, err)
	newer := bytes.Replace(rec.Body, []byte(`"seq":1`), []byte(`"seq":1,"format":7`), 1)
	_, err = journal.Reseal(rec, newer).Entry()
	require.ErrorContains(t, err, "update the app")
}

// What is left of a kit must not be taken for one that was never begun.
func TestNothingLeftButABrokenSnapshot(t *testing.T) {
	store := journal.NewMemory()
	broken := journal.NewSnapshot(journal.Head{Seq: 1 << 50, Hash: "x"}, []byte("{}"))
	broken.Sum = ""
	require.NoError(t, store.PutSnapshot(ctx, broken))
	_, _, err := journal.Open(ctx, store, begin)
	require.ErrorContains(t, err, "nothing of it can be read")
	tail, err := store.Since(ctx, 0)
	require.NoError(t, err)
	require.Empty(t, tail.Records, "nothing is begun over it")
}
