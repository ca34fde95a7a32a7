package main

import (
	"bytes"
	"compress/gzip"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/andybalholm/brotli"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/web"
)

func smallSite(t *testing.T) web.Site {
	t.Helper()
	site, err := web.Render(web.Input{Wasm: []byte(strings.Repeat("program ", 1000)), WasmExec: []byte("script")})
	require.NoError(t, err)
	return site
}

func TestCompressedFilesHoldTheSameBytes(t *testing.T) {
	site := smallSite(t)
	files := plainFiles(site)
	addCompressed(files, site)
	for name, file := range site.Files {
		assert.Equal(t, file.Body, files[name], name)
		zipped, squeezed := files[name+".gz"]
		assert.Equal(t, file.Squeezable(), squeezed, name)
		if !squeezed {
			continue
		}
		zip, err := gzip.NewReader(bytes.NewReader(zipped))
		require.NoError(t, err)
		body, err := io.ReadAll(zip)
		require.NoError(t, err)
		assert.Equal(t, file.Body, body, name)
		body, err = io.ReadAll(brotli.NewReader(bytes.NewReader(files[name+".br"])))
		require.NoError(t, err)
		assert.Equal(t, file.Body, body, name)
	}
	assert.Contains(t, files, "app.wasm.br")
	assert.NotContains(t, files, "icons/icon-192.png.gz")
}

func TestSiteIsWrittenAndReplaced(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "public")
	earlier, err := mayWrite(dir)
	require.NoError(t, err)
	require.NoError(t, replaceFiles(dir, map[string][]byte{"a.js": []byte("1"), "icons/old.png": []byte("2")}, earlier))

	earlier, err = mayWrite(dir)
	require.NoError(t, err)
	assert.ElementsMatch(t, []string{"a.js", "icons/old.png"}, earlier)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "CNAME"), []byte("kept"), 0o644))
	require.NoError(t, replaceFiles(dir, map[string][]byte{"a.js": []byte("3"), "worker.js": []byte("4")}, earlier))

	assert.Equal(t, "3", read(t, dir, "a.js"))
	assert.Equal(t, "4", read(t, dir, "worker.js"))
	assert.NoFileExists(t, filepath.Join(dir, "icons", "old.png"))
	assert.Equal(t, "kept", read(t, dir, "CNAME"), "a file someone else put there stays")
	assert.Equal(t, "a.js\nworker.js\n", read(t, dir, siteMarker))
	parts, err := filepath.Glob(filepath.Join(dir, "*.part"))
	require.NoError(t, err)
	assert.Empty(t, parts)
}

func TestFolderOfOtherThingsIsRefused(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "thesis.txt"), []byte("ten years"), 0o644))
	_, faults, status := say("site", dir)
	assert.Equal(t, notDone, status)
	assert.Contains(t, faults, "nothing was written")
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, entries, 1)
}

// A list of files that was tampered with must not reach outside the folder.
func TestMarkerNamesOnlyFilesInside(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, siteMarker), []byte("../../etc/passwd\n/etc/passwd\na.js\n"), 0o644))
	earlier, err := mayWrite(dir)
	require.NoError(t, err)
	assert.Equal(t, []string{"a.js"}, earlier)
}

func TestCutOffWriteCanBeRepeated(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(dir, "style.css"), 0o755)) // stands in the way
	require.NoError(t, os.WriteFile(filepath.Join(dir, siteMarker), nil, 0o644))
	files := map[string][]byte{"a.js": []byte("1"), "style.css": []byte("2")}
	err := replaceFiles(dir, files, nil)
	require.ErrorContains(t, err, "style.css")
	require.NoError(t, os.Remove(filepath.Join(dir, "style.css")))
	earlier, err := mayWrite(dir)
	require.NoError(t, err)
	require.NoError(t, replaceFiles(dir, files, earlier))
	assert.Equal(t, "2", read(t, dir, "style.css"))
}

func read(t *testing.T, dir, name string) string {
	t.Helper()
	body, err := os.ReadFile(filepath.Join(dir, name))
	require.NoError(t, err)
	return string(body)
}
