package backup_test

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/backup"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/merge"
)

var update = flag.Bool("update", false, "write golden files that are not there yet; a backup once released is never written again")

var made = fieldkit.Moment{Time: time.Date(2026, 5, 14, 18, 5, 0, 0, time.UTC)}

// Three photos: bytes that look like each kind, none a real picture.
var (
	joint = journal.NewBlob("image/jpeg", []byte("\xff\xd8\xff\xe0 the snapped joint \xff\xd9"))
	pad   = journal.NewBlob("image/png", []byte("\x89PNG\r\n\x1a\n the brake pad"))
	stray = journal.NewBlob("image/webp", []byte("RIFF\x00\x00\x00\x00WEBP a photo of nothing in particular"))
)

// testKit has a record in every collection, text that needs care, and two photos.
func testKit() fieldkit.Kit {
	price := fieldkit.Money{Cents: 2450, Currency: "USD"}
	proof := &fieldkit.Proof{How: fieldkit.Measured, On: fieldkit.Date{Year: 2026, Month: 3, Day: 2}, By: "Ines"}
	width, _ := fieldkit.ParseValue("1-3/8 in")
	lining, _ := fieldkit.ParseValue("4.5 mm")
	size, _ := fieldkit.ParseValue("500 mL")
	day := fieldkit.Date{Year: 2026, Month: 5, Day: 14}
	return fieldkit.Kit{
		Format: fieldkit.Format, Version: "1.1", ID: "dry-fork", Name: "Dry Fork <crew> & co, größer", Currency: "USD",
		Rigs:    []fieldkit.Rig{{ID: "bramble", Name: "Bramble", Odometer: 120_000 * fieldkit.Mile, Oversize: 12, Traits: map[string]string{"rear-axle": "full-float"}}},
		Systems: []fieldkit.Assembly{{ID: "front-axle", Rig: "bramble", Name: "front axle"}},
		Positions: fieldkit.ListOf([]fieldkit.Position{
			{ID: "wheel-end", System: "front-axle", Name: "wheel end", Side: fieldkit.Left, Kind: "hub", Quantity: 1},
			{ID: "joint-left", System: "front-axle", Parent: "wheel-end", Name: "axle U-joint", Side: fieldkit.Left, Kind: "u-joint", Quantity: 1, Part: "joint", Fitted: day, FittedAt: 118_000 * fieldkit.Mile, Proof: proof},
		}),
		Donors: []fieldkit.Donor{{ID: "tusker", Make: "Orvane", Model: "Tusker 30", YearFrom: 1988, YearTo: 1991, Drive: "4x4", RearWheels: "single"}},
		Parts: fieldkit.ListOf([]fieldkit.Part{
			{ID: "joint", Kind: "u-joint", Name: "axle U-joint, 1-3/8 in", Donor: "tusker", Price: &price, Mass: 600 * fieldkit.Gram,
				Numbers:      []fieldkit.Number{{Value: "HD-2241 B", Issuer: fieldkit.ReplacementNumber, From: "Halden", Proof: proof}},
				Measurements: []fieldkit.Measurement{{Name: "cap diameter", Value: width, How: "caliper", On: day}},
				LookAlikes:   []fieldkit.LookAlike{{Name: "the narrow one", Tell: "outer clips instead of inner", Part: "joint-b"}}},
			{ID: "joint-b", Kind: "u-joint", Name: "axle U-joint, greasable"},
		}),
		Links:       fieldkit.ListOf([]fieldkit.Link{{ID: "l1", For: "joint", With: "joint-b", Grade: fieldkit.WithChanges, Changes: []string{"file the yoke \"a little\""}, Evidence: fieldkit.TestFitted, On: day}}),
		Bins:        []fieldkit.Bin{{ID: "box", Rig: "bramble", Name: "drawer, left", MassLimit: 30 * fieldkit.Kilogram}},
		Spares:      fieldkit.ListOf([]fieldkit.Spare{{ID: "s1", Part: "joint", Count: 2, Bin: "box"}}),
		Consumables: []fieldkit.Consumable{{ID: "c1", Kind: "brake-fluid", Name: "brake fluid", Size: size, Count: 2, Bin: "box"}},
		Tools:       []fieldkit.Tool{{ID: "t1", Kind: "circlip-pliers", Name: "circlip pliers", Owned: true, Bin: "box"}},
		Trips: []fieldkit.Trip{{ID: "trip", Name: "Salt Pan loop", Rigs: []string{"bramble"}, Start: day, Days: 5, Distance: 410 * fieldkit.Kilometre, Terrain: fieldkit.Rock,
			Towns: []fieldkit.Town{{Name: "Harrow Wells", Away: 150, Stores: []string{"parts-store"}}}}},
		Packs: []fieldkit.Pack{{ID: "pack", Trip: "trip", Lines: []fieldkit.PackLine{{Type: fieldkit.SpareItem, Item: "joint", Count: 1, Bin: "box"}}}},
		Runs:  []fieldkit.Run{{ID: "run", Guide: "u-joint", Rig: "bramble", Position: "joint-left", Started: made, Step: "press", Path: []string{"jack"}}},
		Failures: fieldkit.ListOf([]fieldkit.Failure{{ID: "f1", Rig: "bramble", On: day, At: made, Trip: "trip", Position: "joint-left", Part: "joint",
			Place: fieldkit.Place{Text: "second ford", Lat: 38_500_001, Lon: -110_250_000, FixedAt: made},
			What:  "cross snapped\nunder load", Used: []fieldkit.Item{{Type: fieldkit.SpareItem, Item: "joint", Count: 1}}, Lost: 95, Photos: []string{joint.Hash}, Run: "run"}}),
		Inspections: fieldkit.ListOf([]fieldkit.Inspection{{ID: "i1", Position: "wheel-end", On: day, Name: "lining thickness", Value: lining, Photos: []string{pad.Hash, joint.Hash}}}),
	}
}

func photos(all ...journal.Blob) func(string) (journal.Blob, error) {
	return func(hash string) (journal.Blob, error) {
		for _, b := range all {
			if b.Hash == hash {
				return b, nil
			}
		}
		return journal.Blob{}, journal.NoBlob(hash)
	}
}

func write(t testing.TB, kit fieldkit.Kit, all ...journal.Blob) []byte {
	t.Helper()
	return writeAll(t, merge.Replica{Kit: kit}, all...)
}

// testHistory is what the history of the test kit may look like: a note edited on two
// phones, a part deleted.
func testHistory() *merge.History {
	at := merge.Stamp{At: made.Unix(), Turn: 1, By: "a"}
	return &merge.History{Clock: at, By: "a", Seen: map[string]merge.Stamp{"a": at, "b": {At: made.Unix(), By: "b"}},
		Of: map[merge.Key]*merge.Trace{
			{Collection: "rigs", ID: "bramble"}: {Fields: map[string][]merge.Version{"note": {{Stamp: at}, {Stamp: merge.Stamp{At: made.Unix(), By: "b"}, Value: []byte(`"pulls left"`)}}}},
			{Collection: "parts", ID: "old"}:    {Made: at, Gone: true, Held: []byte(`{"id":"old","kind":"u-joint","name":"axle U-joint, worn"}`)},
		}}
}

func writeAll(t testing.TB, r merge.Replica, all ...journal.Blob) []byte {
	t.Helper()
	var b bytes.Buffer
	_, err := backup.WriteAll(&b, r, backup.OneByOne(photos(all...)), made, nil)
	require.NoError(t, err)
	return b.Bytes()
}

func TestRoundTrip(t *testing.T) {
	kit := testKit()
	require.Empty(t, kitfile.Check(kit))
	data := write(t, kit, joint, pad, stray)
	c, err := backup.Read(data, backup.Default)
	require.NoError(t, err)
	require.Equal(t, string(kitfile.Save(kit)), string(kitfile.Save(c.Kit)))
	require.Equal(t, made.Time, c.Made.Time)
	require.Empty(t, c.Missing)
	require.Len(t, c.Photos, 2, "only those the kit shows")
	for _, want := range []journal.Blob{joint, pad} {
		require.Contains(t, c.Photos, want)
	}
	require.Equal(t, data, write(t, c.Kit, joint, pad), "the same kit gives the same file")
}

func TestEmptyKit(t *testing.T) {
	c, err := backup.Read(write(t, fieldkit.Kit{Format: fieldkit.Format, Version: "1.1", ID: "k", Name: "new", Currency: "EUR"}), backup.Default)
	require.NoError(t, err)
	require.Equal(t, "new", c.Kit.Name)
	require.Empty(t, c.Photos)
}

// Any unzip program and any checksum program can check a backup: this reads one
// with nothing of this package.
func TestArchiveIsPlain(t *testing.T) {
	data := write(t, testKit(), joint, pad)
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	files := map[string][]byte{}
	for _, f := range z.File {
		r, err := f.Open()
		require.NoError(t, err)
		files[f.Name], err = io.ReadAll(r)
		require.NoError(t, err)
		require.Equal(t, made.Unix(), f.Modified.Unix())
		if strings.HasPrefix(f.Name, "photos/") {
			require.Equal(t, zip.Store, f.Method)
		} else {
			require.Equal(t, zip.Deflate, f.Method)
		}
	}
	require.Equal(t, kitfile.Save(testKit()), files["kit.json"])
	require.Equal(t, joint.Data, files["photos/"+joint.Hash+".jpg"])
	require.Equal(t, pad.Data, files["photos/"+pad.Hash+".png"])
	var m struct {
		Format, Version, Made, Kit string
		Records, Photos            int
		Files                      []struct {
			Path, Type string
			Size       int
			SHA256     string `json:"sha256"`
		}
	}
	require.NoError(t, json.Unmarshal(files["manifest.json"], &m))
	require.Equal(t, "trail-field-kit-backup", m.Format)
	require.Equal(t, "1.1", m.Version)
	require.Equal(t, "2026-05-14T18:05:00Z", m.Made)
	require.Equal(t, 17, m.Records)
	require.Equal(t, 2, m.Photos)
	require.Len(t, m.Files, 3)
	for _, f := range m.Files {
		sum := sha256.Sum256(files[f.Path])
		require.Equal(t, hex.EncodeToString(sum[:]), f.SHA256)
		require.Len(t, files[f.Path], f.Size)
	}
}

// A photo that is lost or damaged is said so and does not stop the backup, nor
// the restore.
func TestLostPhotos(t *testing.T) {
	spoiled := joint
	spoiled.Data = []byte("other bytes")
	odd := joint
	odd.Type = "text/html"
	for name, all := range map[string][]journal.Blob{
		"not there": {pad}, "damaged": {spoiled, pad}, "no photo": {odd, pad},
	} {
		t.Run(name, func(t *testing.T) {
			var b bytes.Buffer
			missing, err := backup.Write(&b, testKit(), photos(all...), made)
			require.NoError(t, err)
			require.Equal(t, []string{joint.Hash}, missing)
			c, err := backup.Read(b.Bytes(), backup.Default)
			require.NoError(t, err)
			require.Equal(t, []string{joint.Hash}, c.Missing)
			require.Equal(t, []journal.Blob{pad}, c.Photos)
		})
	}
}

func TestWriteFails(t *testing.T) {
	broken := errors.New("connection lost")
	_, err := backup.Write(io.Discard, testKit(), func(string) (journal.Blob, error) { return journal.Blob{}, broken }, made)
	require.ErrorIs(t, err, broken)
	for n := 0; n < len(write(t, testKit(), joint, pad)); n += 200 {
		_, err := backup.Write(&fullAfter{n}, testKit(), photos(joint, pad), made)
		require.ErrorIs(t, err, errFull, "after %d bytes", n)
	}
}

var errFull = errors.New("disk full")

type fullAfter struct{ left int }

func (w *fullAfter) Write(p []byte) (int, error) {
	if w.left -= len(p); w.left < 0 {
		return 0, errFull
	}
	return len(p), nil
}

func TestPlainKitFile(t *testing.T) {
	for name, prefix := range map[string]string{"as saved": "", "after a byte order mark": "\ufeff", "after blank lines": "\r\n  "} {
		t.Run(name, func(t *testing.T) {
			c, err := backup.Read(append([]byte(prefix), kitfile.Save(testKit())...), backup.Default)
			require.NoError(t, err)
			require.Equal(t, kitfile.Save(testKit()), kitfile.Save(c.Kit))
			require.Empty(t, c.Photos)
			require.ElementsMatch(t, []string{joint.Hash, pad.Hash}, c.Missing)
			require.True(t, c.Made.IsZero())
		})
	}
	_, err := backup.Read([]byte(`{"format":"trail-field-kit"`), backup.Default)
	var problems *kitfile.Problems
	require.ErrorAs(t, err, &problems)
}

// Backups of every version ever released load for ever. The files are never written
// again; a new version, of the archive or of the kit in it, must get a new file (-update).
func TestOldBackupsLoad(t *testing.T) {
	today := testKit()
	today.Version = fmt.Sprintf("%d.%d", fieldkit.MajorVersion, fieldkit.MinorVersion)
	written := fmt.Sprintf("%d.%d-kit-%s", backup.MajorVersion, backup.MinorVersion, today.Version)
	archives, err := filepath.Glob("testdata/backup-*.zip")
	require.NoError(t, err)
	versions := []string{written}
	for _, name := range archives {
		if version := strings.TrimSuffix(strings.TrimPrefix(filepath.Base(name), "backup-"), ".zip"); version != written {
			versions = append(versions, version)
		}
	}
	require.Subset(t, versions, []string{"1.0", "1.1", "1.1-kit-1.1"})
	for _, version := range versions {
		t.Run(version, func(t *testing.T) {
			archive, kit := "testdata/backup-"+version+".zip", "testdata/backup-"+version+".kit.json"
			if _, err := os.Stat(archive); *update && errors.Is(err, os.ErrNotExist) {
				require.NoError(t, os.WriteFile(archive, writeAll(t, merge.Replica{Kit: today, History: testHistory()}, joint, pad), 0o644))
				require.NoError(t, os.WriteFile(kit, kitfile.Save(today), 0o644))
			}
			data, err := os.ReadFile(archive)
			require.NoError(t, err)
			want, err := os.ReadFile(kit)
			require.NoError(t, err)
			c, err := backup.Read(data, backup.Default)
			require.NoError(t, err)
			wanted, err := kitfile.Load(kit, want)
			require.NoError(t, err)
			require.Equal(t, string(kitfile.Save(wanted)), string(kitfile.Save(c.Kit)))
			require.ElementsMatch(t, []journal.Blob{joint, pad}, c.Photos)
			require.Equal(t, made.Time, c.Made.Time)
			if version == "1.0" {
				require.Nil(t, c.History)
			} else {
				require.Equal(t, string(testHistory().Encode()), string(c.History.Encode()))
			}
			both, _, err := merge.Join(merge.Replica{Kit: testKit(), History: testHistory()}, c.Replica())
			require.NoError(t, err)
			require.Equal(t, string(kitfile.Save(wanted)), string(kitfile.Save(both.Kit)), "it merges with the same kit")
			plain, err := backup.Read(want, backup.Default)
			require.NoError(t, err)
			require.Equal(t, kitfile.Save(c.Kit), kitfile.Save(plain.Kit))
		})
	}
}

// The whole way: a kit with photos is backed up, restored into an empty journal,
// and the restore is undone.
func TestRestoreIntoAJournal(t *testing.T) {
	data := write(t, testKit(), joint, pad)
	c, err := backup.Read(data, backup.Default)
	require.NoError(t, err)
	blank := func() fieldkit.Kit {
		return fieldkit.Kit{Format: fieldkit.Format, Version: "1.1", ID: "b", Name: "blank", Currency: "USD"}
	}
	s, _, err := journal.Open(t.Context(), journal.NewMemory(), blank)
	require.NoError(t, err)
	id := func() string { return "restore" }
	_, err = s.Replace(t.Context(), "restore", made, id, c.Kit, c.Photos...)
	require.NoError(t, err)
	again := write(t, s.Kit(), c.Photos...)
	require.Equal(t, data, again)
	back, err := s.Blob(t.Context(), pad.Hash)
	require.NoError(t, err)
	require.Equal(t, pad, back)
	_, err = s.Undo(t.Context(), "restore", made, func() string { return "undo" })
	require.NoError(t, err)
	require.Equal(t, "blank", s.Kit().Name)
}
