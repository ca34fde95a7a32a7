package backup_test

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/backup"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/merge"
)

// file is one file of a hand-made archive.
type file struct {
	name    string
	content string
	method  uint16
	change  func(*zip.FileHeader)
}

func packed(t testing.TB, files ...file) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, f := range files {
		h := &zip.FileHeader{Name: f.name, Method: f.method}
		if f.change != nil {
			f.change(h)
		}
		w, err := z.CreateHeader(h)
		require.NoError(t, err)
		_, err = w.Write([]byte(f.content))
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return b.Bytes()
}

// manifestOf lists the files as Write would.
func manifestOf(change func(m map[string]any), files ...file) file {
	type listed map[string]any
	var all []listed
	photos := 0
	for _, f := range files {
		mime := "application/json"
		if strings.HasSuffix(f.name, ".jpg") {
			mime = "image/jpeg"
			photos++
		}
		all = append(all, listed{"path": f.name, "type": mime, "size": len(f.content), "sha256": journal.BlobHash([]byte(f.content))})
	}
	m := map[string]any{"format": backup.Format, "version": "1.0", "made": "2026-05-14T18:05:00Z", "photos": photos, "files": all}
	if change != nil {
		change(m)
	}
	text, err := json.Marshal(m)
	if err != nil {
		panic(err)
	}
	return file{name: "manifest.json", content: string(text)}
}

func TestRefused(t *testing.T) {
	kit := file{name: "kit.json", content: string(kitfile.Save(onePhoto()))}
	photo := file{name: "photos/" + joint.Hash + ".jpg", content: string(joint.Data)}
	whole := func(files ...file) []byte {
		return packed(t, append([]file{kit, photo, manifestOf(nil, kit, photo)}, files...)...)
	}
	with := func(change func(m map[string]any), files ...file) []byte {
		return packed(t, append(files, manifestOf(change, files...))...)
	}
	_, err := backup.Read(whole(), backup.Default)
	require.NoError(t, err, "what the cases below spoil is sound")

	newer := strings.Replace(kit.content, `"version": "1.1"`, `"version": "2.0"`, 1)
	broken := strings.Replace(kit.content, `"rig": "bramble"`, `"rig": "nobody"`, 1)
	other := file{name: photo.name, content: "other bytes"}
	for name, c := range map[string]struct {
		data []byte
		kind fieldkit.ErrorKind
		says string
	}{
		"empty":                  {nil, fieldkit.BadInput, "empty"},
		"a photo":                {joint.Data, fieldkit.BadInput, "no backup"},
		"text":                   {[]byte("dear diary"), fieldkit.BadInput, "no backup"},
		"cut short":              {whole()[:len(whole())-30], fieldkit.BadInput, "cut short"},
		"an archive of nothing":  {packed(t), fieldkit.BadInput, `no "manifest.json"`},
		"no manifest":            {packed(t, kit, photo), fieldkit.BadInput, `no "manifest.json"`},
		"manifest is no JSON":    {packed(t, kit, file{name: "manifest.json", content: "{"}), fieldkit.BadInput, "manifest.json: it is not JSON"},
		"another program's":      {with(func(m map[string]any) { m["format"] = "photo album" }, kit, photo), fieldkit.BadInput, "photo album"},
		"version is no version":  {with(func(m map[string]any) { m["version"] = "one" }, kit, photo), fieldkit.BadInput, `"one" is not a version`},
		"of a newer app":         {with(func(m map[string]any) { m["version"] = "2.0" }, kit, photo), fieldkit.TooNew, "update the app"},
		"made at no moment":      {with(func(m map[string]any) { m["made"] = "yesterday" }, kit, photo), fieldkit.BadInput, `"yesterday"`},
		"photos counted wrongly": {with(func(m map[string]any) { m["photos"] = 7 }, kit, photo), fieldkit.BadInput, "7 photos"},
		"listed twice":           {packed(t, kit, photo, manifestOf(nil, kit, photo, kit)), fieldkit.BadInput, `lists "kit.json" twice`},
		"kit missing":            {with(nil, photo), fieldkit.BadInput, "lists no kit.json"},
		"kit listed, not there":  {packed(t, photo, manifestOf(nil, kit, photo)), fieldkit.BadInput, `"kit.json", which the archive does not hold`},
		"photo listed, not there": {packed(t, kit, manifestOf(nil, kit, photo)), fieldkit.BadInput,
			"which the archive does not hold"},
		"photo not listed":         {packed(t, kit, photo, manifestOf(nil, kit)), fieldkit.BadInput, "the manifest does not list it"},
		"photo shown, not there":   {with(nil, kit), fieldkit.BadInput, "shows photo " + joint.Hash[:12]},
		"photo's bytes changed":    {packed(t, kit, other, manifestOf(nil, kit, photo)), fieldkit.BadInput, photo.name},
		"photo under a wrong hash": {with(nil, kit, other), fieldkit.BadInput, "not a photo named by its own checksum"},
		"kit changed": {packed(t, file{name: "kit.json", content: strings.Replace(kit.content, "snapped", "snappee", 1)},
			photo, manifestOf(nil, kit, photo)), fieldkit.BadInput, "kit.json: its checksum does not match"},
		"kit of a newer app":     {with(nil, file{name: "kit.json", content: newer}, photo), fieldkit.TooNew, "2.0"},
		"kit with a problem":     {with(nil, file{name: "kit.json", content: broken}, photo), fieldkit.BadInput, "nobody"},
		"history that is none":   {with(nil, kit, photo, file{name: "history.json", content: "[]"}), fieldkit.BadInput, "history.json: it cannot be read"},
		"history of no record":   {with(nil, kit, photo, file{name: "history.json", content: `{"format":"trail-field-kit-history","version":"1.0","records":{"parts":{"x":{"held":{"id":"y"}}}}}`}), fieldkit.BadInput, `history.json, parts "x"`},
		"one file more":          {with(nil, kit, photo, file{name: "readme.txt"}), fieldkit.BadInput, "readme.txt: a backup holds no such file"},
		"one file more, hidden":  {whole(file{name: "run.exe"}), fieldkit.BadInput, "run.exe: the manifest does not list it"},
		"the same file twice":    {whole(kit), fieldkit.BadInput, "kit.json: it is in the archive twice"},
		"the same but for case":  {whole(file{name: "KIT.json"}), fieldkit.BadInput, "KIT.json: it is in the archive twice"},
		"path that climbs":       {whole(file{name: "../kit.json"}), fieldkit.BadInput, "leads out of the archive"},
		"path that climbs later": {whole(file{name: "photos/../../x"}), fieldkit.BadInput, "leads out of the archive"},
		"path from the root":     {whole(file{name: "/etc/passwd"}), fieldkit.BadInput, "leads out of the archive"},
		"path with a drive":      {whole(file{name: `C:\kit.json`}), fieldkit.BadInput, "not a file name"},
		"path with a zero byte":  {whole(file{name: "kit.json\x00.jpg"}), fieldkit.BadInput, "not a file name"},
		"path that is no text":   {whole(file{name: "photos/\xff.jpg"}), fieldkit.BadInput, "not a file name"},
		"path right to left":     {whole(file{name: "photos/\u202egpj.exe"}), fieldkit.BadInput, "not a file name"},
		"path very long":         {whole(file{name: strings.Repeat("x", 300)}), fieldkit.BadInput, "not a file name"},
		"link to elsewhere": {whole(file{name: "link", content: "/etc/passwd", change: func(h *zip.FileHeader) { h.SetMode(fs.ModeSymlink | 0o777) }}),
			fieldkit.BadInput, "link: it is not a plain file"},
		"locked": {whole(file{name: "secret", change: func(h *zip.FileHeader) { h.Flags |= 1 }}), fieldkit.BadInput, "password"},
	} {
		t.Run(name, func(t *testing.T) {
			got, err := backup.Read(c.data, backup.Default)
			require.Error(t, err)
			require.Zero(t, got, "refused whole")
			var e *fieldkit.Error
			require.True(t, errors.As(err, &e), "%v", err)
			require.Equal(t, c.kind, e.Kind, "%v", err)
			require.Contains(t, err.Error(), c.says)
			require.NotContains(t, err.Error(), "\x00")
			require.NotContains(t, err.Error(), "\u202e")
		})
	}
}

// onePhoto is a small kit whose log shows one photo.
func onePhoto() fieldkit.Kit {
	k := testKit()
	return fieldkit.Kit{Format: k.Format, Version: k.Version, ID: k.ID, Name: k.Name, Currency: k.Currency, Rigs: k.Rigs,
		Failures: fieldkit.ListOf([]fieldkit.Failure{{ID: "f", Rig: "bramble", On: k.Failures.At(0).On, What: "cross snapped", Photos: []string{joint.Hash}}})}
}

func TestLimits(t *testing.T) {
	zeros := strings.Repeat("0", 2<<20)
	kit := file{name: "kit.json", content: string(kitfile.Save(onePhoto()))}
	photo := file{name: "photos/" + joint.Hash + ".jpg", content: string(joint.Data)}
	sound := packed(t, kit, photo, manifestOf(nil, kit, photo))
	for name, c := range map[string]struct {
		data   []byte
		change func(l *backup.Limits)
		says   string
	}{
		"file too long":     {sound, func(l *backup.Limits) { l.Total = 100 }, "the file"},
		"unpacked too long": {packed(t, file{name: "a", content: zeros, method: zip.Deflate}), func(l *backup.Limits) { l.Total = 1 << 20; l.Ratio = 1e9 }, "2.1 MB long, more than the 1.0 MB"},
		"together too long": {packed(t, file{name: "a", content: zeros, method: zip.Deflate}, file{name: "b", content: zeros, method: zip.Deflate}),
			func(l *backup.Limits) { l.Total = 3 << 20; l.Ratio = 1e9 }, "the unpacked archive"},
		"too many files": {sound, func(l *backup.Limits) { l.Files = 2 }, "3 files"},
		"photo too long": {sound, func(l *backup.Limits) { l.Photo = 10 }, photo.name},
		"swells":         {packed(t, file{name: "kit.json", content: zeros, method: zip.Deflate}), func(*backup.Limits) {}, "swell"},
	} {
		t.Run(name, func(t *testing.T) {
			limits := backup.Default
			c.change(&limits)
			got, err := backup.Read(c.data, limits)
			require.Zero(t, got)
			var e *fieldkit.Error
			require.True(t, errors.As(err, &e), "%v", err)
			require.Equal(t, fieldkit.TooBig, e.Kind)
			require.Contains(t, err.Error(), c.says)
		})
	}
}

// An archive whose directory lies about sizes: the file says 10 bytes and holds
// two megabytes, or the other way round.
func TestSizesThatLie(t *testing.T) {
	kit := file{name: "kit.json", content: string(kitfile.Save(onePhoto())), method: zip.Deflate}
	photo := file{name: "photos/" + joint.Hash + ".jpg", content: string(joint.Data)}
	data := packed(t, kit, photo, manifestOf(nil, kit, photo))
	directory := bytes.Index(data, []byte("PK\x01\x02")) // PKWARE APPNOTE 4.3.12: sizes at offsets 20 and 24
	for _, offset := range []int{20, 24} {
		for _, size := range []uint32{0, 1, 10, 1 << 20, 1 << 30, 1<<32 - 1} {
			lying := bytes.Clone(data)
			for i := range 4 {
				lying[directory+offset+i] = byte(size >> (8 * i))
			}
			got, err := backup.Read(lying, backup.Default)
			require.Error(t, err, "offset %d, size %d", offset, size)
			require.Zero(t, got)
		}
	}
}

// A backup with a bit of any one byte changed is refused, or is what was written: bytes
// that matter are all covered by some check.
func TestEveryByteIsCovered(t *testing.T) {
	kit := onePhoto()
	data := write(t, kit, joint)
	for i := range data {
		spoiled := bytes.Clone(data)
		spoiled[i] ^= 1 << (i % 8)
		got, err := backup.Read(spoiled, backup.Default)
		if err != nil {
			require.Zero(t, got)
			continue
		}
		require.Equal(t, kitfile.Save(kit), kitfile.Save(got.Kit), "byte %d", i)
		require.Equal(t, []journal.Blob{joint}, got.Photos, "byte %d", i)
	}
	for n := range len(data) - 1 {
		_, err := backup.Read(data[:n], backup.Default)
		require.Error(t, err, "cut after %d bytes", n)
	}
}

// A later minor version may add files and fields; they are left aside.
func TestNewerMinorVersion(t *testing.T) {
	kit := file{name: "kit.json", content: string(kitfile.Save(onePhoto()))}
	photo := file{name: "photos/" + joint.Hash + ".jpg", content: string(joint.Data)}
	sound := file{name: "notes/voice.ogg", content: "hello"}
	files := []file{kit, photo, sound}
	newer := func(m map[string]any) { m["version"] = "1.3"; m["mood"] = "good" }
	c, err := backup.Read(packed(t, append(files, manifestOf(newer, files...))...), backup.Default)
	require.NoError(t, err)
	require.Equal(t, kitfile.Save(onePhoto()), kitfile.Save(c.Kit))
	files[2].content = "spoiled"
	_, err = backup.Read(packed(t, kit, photo, files[2], manifestOf(newer, kit, photo, sound)), backup.Default)
	require.Error(t, err)
}

// FuzzRead reads anything: no panic, refused whole or taken whole, and what is
// taken can be written and read again.
func FuzzRead(f *testing.F) {
	sound := write(f, onePhoto(), joint)
	f.Add(sound)
	f.Add(sound[:len(sound)/2])
	f.Add(write(f, testKit(), pad))
	f.Add(writeAll(f, merge.Replica{Kit: testKit(), History: testHistory()}, pad))
	f.Add(kitfile.Save(onePhoto()))
	f.Add([]byte("PK\x05\x06" + strings.Repeat("\x00", 18)))
	f.Add([]byte{})
	kit := file{name: "kit.json", content: string(kitfile.Save(onePhoto())), method: zip.Deflate}
	photo := file{name: "photos/" + joint.Hash + ".jpg", content: string(joint.Data)}
	f.Add(packed(f, kit, photo, manifestOf(nil, kit, photo)))
	f.Add(packed(f, kit, file{name: "photos/"}, photo, manifestOf(func(m map[string]any) { m["version"] = "1.1" }, kit, photo)))
	f.Add(packed(f, kit, file{name: "../x"}, manifestOf(nil, kit)))
	limits := backup.Limits{Files: 100, Total: 4 << 20, Photo: 1 << 20, Ratio: 100}
	f.Fuzz(func(t *testing.T, data []byte) {
		c, err := backup.Read(data, limits)
		if err != nil {
			require.Zero(t, c)
			require.NotEmpty(t, err.Error())
			return
		}
		var b bytes.Buffer
		missing, err := backup.WriteAll(&b, c.Replica(), backup.OneByOne(photos(c.Photos...)), c.Made, nil)
		require.NoError(t, err)
		require.Equal(t, fmt.Sprint(c.Missing), fmt.Sprint(missing))
		again, err := backup.Read(b.Bytes(), backup.Default)
		require.NoError(t, err)
		require.Equal(t, kitfile.Save(c.Kit), kitfile.Save(again.Kit))
	})
}

// gone is a file that was taken away after it was chosen, all but its first bytes.
type gone struct{ start string }

var errGone = &fieldkit.Error{Kind: fieldkit.BadInput, What: "kit.zip cannot be read", Do: "choose it again"}

func (g gone) ReadAt(b []byte, off int64) (int, error) {
	if off == 0 && len(b) <= len(g.start) {
		return copy(b, g.start), nil
	}
	return 0, errGone
}

// A file that cannot be read is not taken for a wrong one.
func TestUnreadableFileIsNoWrongOne(t *testing.T) {
	for _, start := range []string{"PK\x03\x04", "{}"} {
		_, err := backup.ReadFile(io.NewSectionReader(gone{start}, 0, 4000), backup.Default)
		require.ErrorIs(t, err, errGone)
		require.EqualError(t, err, errGone.Error())
	}
}

// An archive of many files is refused before its directory, which may be most of it, was
// read; so is one whose directory says it is short.
func TestDirectoryThatNeverEnds(t *testing.T) {
	const files = 400_000
	entry := append([]byte("PK\x01\x02"), make([]byte, 42)...) // PKWARE APPNOTE 4.3.12
	entry[28] = 1                                              // a name of one byte
	directory := bytes.Repeat(append(entry, 'x'), files)
	for name, says := range map[string]uint32{"as long as it is": uint32(len(directory)), "short": 47} {
		t.Run(name, func(t *testing.T) {
			end := append([]byte("PK\x05\x06"), make([]byte, 18)...) // 4.3.16
			count := files % (1 << 16)
			end[8], end[9], end[10], end[11] = byte(count), byte(count>>8), byte(count), byte(count>>8)
			binary.LittleEndian.PutUint32(end[12:], says)
			file := &counting{data: append(slices.Clone(directory), end...)}
			_, err := backup.ReadFile(io.NewSectionReader(file, 0, int64(len(file.data))), backup.Default)
			var e *fieldkit.Error
			require.ErrorAs(t, err, &e)
			if says > 47 {
				require.Equal(t, fieldkit.TooBig, e.Kind, "%v", err)
			}
			require.Less(t, file.read, len(file.data)/4)
		})
	}
}

// counting counts the bytes that are read of it.
type counting struct {
	data []byte
	read int
}

func (c *counting) ReadAt(b []byte, off int64) (int, error) {
	c.read += len(b)
	return bytes.NewReader(c.data).ReadAt(b, off)
}
