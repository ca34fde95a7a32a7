package build

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

// A module of its own, without dependencies, so that a build takes a moment only.
func smallModule(t *testing.T) (dir string) {
	t.Helper()
	dir = t.TempDir()
	write(t, dir, "go.mod", "module small\n\ngo 1.26\n")
	write(t, dir, "main.go", "package main\n\nimport _ \"embed\"\n\n//go:embed table.txt\nvar table string\n\nfunc main() { println(table) }\n")
	write(t, dir, "table.txt", "one")
	write(t, dir, "main_test.go", "package main\n")
	return dir
}

func write(t *testing.T, dir, name, text string) {
	t.Helper()
	require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
}

func kindOf(err error) fieldkit.ErrorKind {
	var fault *fieldkit.Error
	if errors.As(err, &fault) {
		return fault.Kind
	}
	return ""
}

func TestBuildsOnlyWhatChanged(t *testing.T) {
	ctx := context.Background()
	dir, cacheDir := smallModule(t), t.TempDir()
	var said []string
	build := func() Output {
		t.Helper()
		out, err := WebAssembly(ctx, Options{Dir: dir, Package: ".", Cache: cacheDir,
			Report: func(line string) { said = append(said, line) }})
		require.NoError(t, err)
		assert.True(t, strings.HasPrefix(string(out.Wasm), "\x00asm"), "WebAssembly begins so")
		assert.Contains(t, string(out.WasmExec), "globalThis.Go")
		return out
	}
	first := build()
	assert.True(t, first.Fresh)
	assert.Contains(t, strings.Join(said, "\n"), "building the program")

	again := build()
	assert.False(t, again.Fresh)
	assert.Equal(t, first.Wasm, again.Wasm)

	write(t, dir, "main_test.go", "package main\n\n// changed\n")
	assert.False(t, build().Fresh, "a test is no part of the program")

	write(t, dir, "table.txt", "two")
	embedded := build()
	assert.True(t, embedded.Fresh, "an embedded file is part of the program")
	assert.NotEqual(t, first.Key, embedded.Key)

	write(t, dir, "table.txt", "one")
	assert.False(t, build().Fresh, "the first result is still kept")

	require.NoError(t, os.Truncate(filepath.Join(cacheDir, first.Key, wasmName), 100))
	mended := build()
	assert.True(t, mended.Fresh, "a damaged result is not used")
	assert.Equal(t, first.Wasm, mended.Wasm)

	left, err := filepath.Glob(filepath.Join(cacheDir, "building-*"))
	require.NoError(t, err)
	assert.Empty(t, left)
}

func TestBuildFaultsAreOneLine(t *testing.T) {
	ctx := context.Background()
	t.Run("does not compile", func(t *testing.T) {
		dir := smallModule(t)
		write(t, dir, "main.go", "package main\n\nfunc main() { undefinedName() }\n")
		_, err := WebAssembly(ctx, Options{Dir: dir, Package: ".", Cache: t.TempDir()})
		require.Equal(t, fieldkit.BadInput, kindOf(err))
		assert.Contains(t, err.Error(), "main.go:3:15: undefined: undefinedName")
		assert.NotContains(t, err.Error(), "\n")
	})
	t.Run("no such package", func(t *testing.T) {
		_, err := WebAssembly(ctx, Options{Dir: smallModule(t), Package: "./nowhere", Cache: t.TempDir()})
		require.Equal(t, fieldkit.NotFound, kindOf(err))
		assert.NotContains(t, err.Error(), "\n")
	})
	t.Run("outside the repository", func(t *testing.T) {
		_, err := WebAssembly(ctx, Options{Dir: t.TempDir(), Cache: t.TempDir()})
		require.Equal(t, fieldkit.NotFound, kindOf(err))
		assert.Contains(t, err.Error(), "change to the folder of the repository")
	})
	t.Run("cache not writable", func(t *testing.T) {
		file := filepath.Join(t.TempDir(), "file")
		require.NoError(t, os.WriteFile(file, nil, 0o644))
		_, err := WebAssembly(ctx, Options{Dir: smallModule(t), Package: ".", Cache: filepath.Join(file, "cache")})
		require.Equal(t, fieldkit.Storage, kindOf(err))
		assert.Contains(t, err.Error(), "XDG_CACHE_HOME")
	})
	t.Run("no toolchain", func(t *testing.T) {
		t.Setenv("PATH", t.TempDir())
		_, err := WebAssembly(ctx, Options{Cache: t.TempDir()})
		require.Equal(t, fieldkit.NotFound, kindOf(err))
		assert.Contains(t, err.Error(), "go.dev/dl")
	})
	t.Run("asked to stop", func(t *testing.T) {
		stopped, cancel := context.WithCancel(ctx)
		dir := smallModule(t)
		_, err := WebAssembly(stopped, Options{Dir: dir, Package: ".", Cache: t.TempDir(),
			Report: func(line string) {
				if strings.HasPrefix(line, "building") {
					cancel()
				}
			}})
		assert.ErrorIs(t, err, context.Canceled)
	})
}

func TestOldResultsMakeRoom(t *testing.T) {
	kept, err := openCache(t.TempDir())
	require.NoError(t, err)
	for _, key := range []string{"a", "b", "c", "d", "e", "f", "g", "h"} {
		work, err := kept.begin(key)
		require.NoError(t, err)
		write(t, work, wasmName, "wasm "+key)
		write(t, work, execName, "exec")
		require.NoError(t, kept.finish(work, key))
		kept.get("a") // used again and again
	}
	entries, err := os.ReadDir(kept.dir)
	require.NoError(t, err)
	assert.Len(t, entries, keepBuilds)
	_, there := kept.get("a")
	assert.True(t, there, "what is used stays")
	_, there = kept.get("b")
	assert.False(t, there)
}

func TestProgressReadsGoBuild(t *testing.T) {
	var last string
	p := newProgress(func(line string) { last = line }, 300)
	p.Write([]byte("internal/goarch\nruntime\nexample.org/a/b"))
	p.Write([]byte("\n# example.org/a\n./x.go:3:1: undefined: y\n"))
	p.stop()
	assert.Contains(t, p.line(), "3 of at most 300 packages")
	assert.Contains(t, last, "building the program")
	assert.Equal(t, "./x.go:3:1: undefined: y", firstFault(p.text()))
}
