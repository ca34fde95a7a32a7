//go:build browser

package browsertest

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A backup that is not whole is refused with words, whatever is wrong with it, and
// not a byte of the kit on disk changes. The whole one is described and asked about,
// takes the kit's place, and can be taken back.
func TestRestoreOfDamagedBackupRefuses(t *testing.T) {
	v := withDemo(t, "/kit")
	v.See("Ready for no signal")
	name, whole := v.Saved("button:Make a backup")
	v.See(name + " is in your downloads.")
	assert.Regexp(t, `^trail-field-kit-\d{4}-\d{2}-\d{2}\.zip$`, name)

	backedUp := v.OnDisk(demoDatabase)
	v.Fill("Name of the kit", "After the backup")
	v.Tap("button:Save name and currency")
	v.See("Named the kit After the backup")
	before := v.OnDisk(demoDatabase)
	require.NotEqual(t, backedUp, before)

	folder := t.TempDir()
	upload := func(name string, content []byte) {
		t.Helper()
		file := filepath.Join(folder, name)
		require.NoError(t, os.WriteFile(file, content, 0o644))
		v.Upload("css:#file-restore", file)
	}
	for _, c := range []struct {
		name    string
		content []byte
		says    string
	}{
		{"cut-in-half.zip", whole[:len(whole)/2], "zip"},
		{"cut-at-the-end.zip", whole[:len(whole)-1], "zip"},
		{"one-byte.zip", flipped(t, whole, "kit.json"), "kit.json"},
		{"manifest-byte.zip", flipped(t, whole, "manifest.json"), "manifest.json"},
		{"other-kit.zip", rezipped(t, whole, func(files map[string][]byte) {
			files["kit.json"] = bytes.Replace(files["kit.json"], []byte(`"Hobnail"`), []byte(`"Hobmail"`), 1)
		}), "checksum"},
		{"newer-kit.zip", rezipped(t, whole, func(files map[string][]byte) {
			files["kit.json"] = bytes.Replace(files["kit.json"], []byte(`"version": "1.`), []byte(`"version": "2.`), 1)
			list(t, files)
		}), "newer"},
		{"newer-backup.zip", rezipped(t, whole, func(files map[string][]byte) {
			files["manifest.json"] = bytes.Replace(files["manifest.json"], []byte(`"version": "1.`), []byte(`"version": "2.`), 1)
		}), "newer"},
		{"dangling.zip", rezipped(t, whole, func(files map[string][]byte) {
			files["kit.json"] = bytes.Replace(files["kit.json"], []byte(`"part": "pads-front"`), []byte(`"part": "pads-frunt"`), 1)
			list(t, files)
		}), "pads-frunt"},
		{"no-manifest.zip", rezipped(t, whole, func(files map[string][]byte) { delete(files, "manifest.json") }), "manifest"},
		{"a-letter.zip", []byte("Dear Desh, the pads are on the bench."), "zip"},
		{"nothing.zip", nil, "empty"},
		{"half-a-kit.json", []byte(`{"format": "trail-field-kit", "version": "1.0", "id": "x"`), "line 1"},
	} {
		upload(c.name, c.content)
		v.See(c.name, "Nothing in your kit was changed.")
		said := v.TextOf("css:.note.bad")
		assert.Contains(t, strings.ToLower(said), c.says, c.name)
		assert.NotContains(t, v.Text(), "Restore it in place of this kit", c.name)
		assert.Equal(t, before, v.OnDisk(demoDatabase), c.name)
		t.Logf("%s: %s", c.name, strings.Join(strings.Fields(said), " "))
	}

	upload("whole.zip", whole)
	v.See("whole.zip is whole.", "Hobnail and Wicket: 2 rigs, 117 positions, 100 parts, 26 failures, 62 readings, 0 photos.",
		"Now kept: After the backup: 2 rigs")
	v.SeeNot("Nothing in your kit was changed.")
	v.Tap("button:Leave everything as it is")
	v.SeeNot("whole.zip is whole.")
	assert.Equal(t, before, v.OnDisk(demoDatabase))

	upload("turned\u202eround.zip", whole)
	v.See("turnedround.zip is whole.")

	upload("whole.zip", whole)
	v.See("whole.zip is whole.")
	v.Tap("button:Restore it in place of this kit")
	v.See("Restored whole.zip")
	assert.Equal(t, "Hobnail and Wicket", v.kitName())
	v.Tap("button:Undo")
	v.See("Taken back.")
	assert.Equal(t, "After the backup", v.kitName())
	v.Reload()
	assert.Equal(t, "After the backup", v.kitName())
}

// kitName is the name under the heading of the screen Kit.
func (v *traveller) kitName() string { v.t.Helper(); return v.TextOf("css:.head h1 small") }

// flipped turns over one bit in the packed bytes of a file in the archive.
func flipped(t *testing.T, archive []byte, name string) []byte {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(archive), int64(len(archive)))
	require.NoError(t, err)
	for _, f := range z.File {
		if f.Name == name {
			at, err := f.DataOffset()
			require.NoError(t, err)
			damaged := bytes.Clone(archive)
			damaged[at+int64(f.CompressedSize64)/2] ^= 1
			return damaged
		}
	}
	require.Fail(t, "no "+name)
	return nil
}

// rezipped packs an archive anew with other files in it, so that the zip itself is
// sound.
func rezipped(t *testing.T, archive []byte, change func(files map[string][]byte)) []byte {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(archive), int64(len(archive)))
	require.NoError(t, err)
	files := map[string][]byte{}
	var order []string
	for _, f := range z.File {
		r, err := f.Open()
		require.NoError(t, err)
		files[f.Name], err = io.ReadAll(r)
		require.NoError(t, err)
		order = append(order, f.Name)
	}
	change(files)
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, name := range order {
		if content, stays := files[name]; stays {
			f, err := w.Create(name)
			require.NoError(t, err)
			_, err = f.Write(content)
			require.NoError(t, err)
		}
	}
	require.NoError(t, w.Close())
	require.NotEqual(t, archive, out.Bytes())
	return out.Bytes()
}

// list makes the manifest agree with the kit again, so that only what the kit says
// is at fault.
func list(t *testing.T, files map[string][]byte) {
	t.Helper()
	var manifest map[string]any
	require.NoError(t, json.Unmarshal(files["manifest.json"], &manifest))
	sum := sha256.Sum256(files["kit.json"])
	for _, entry := range manifest["files"].([]any) {
		if f := entry.(map[string]any); f["path"] == "kit.json" {
			f["size"], f["sha256"] = len(files["kit.json"]), hex.EncodeToString(sum[:])
		}
	}
	var err error
	files["manifest.json"], err = json.Marshal(manifest)
	require.NoError(t, err)
}
