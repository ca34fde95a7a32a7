package build

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"trailfieldkit/fieldkit"
)

const (
	wasmName = "app.wasm"
	execName = "wasm_exec.js"
	sumsName = "sums"
	// keepBuilds is how many results stay: going back and forth between two states
	// of the source, and the measuring build, should not compile each time.
	keepBuilds = 6
)

// cache is a folder of results, one folder a key.
type cache struct{ dir string }

func openCache(dir string) (cache, error) {
	if dir == "" {
		user, err := os.UserCacheDir()
		if err != nil {
			return cache{}, &fieldkit.Error{Kind: fieldkit.Storage, Cause: err,
				What: "no folder for the compiled program: " + err.Error(),
				Do:   "set XDG_CACHE_HOME to a folder that can be written"}
		}
		dir = filepath.Join(user, "trail-field-kit", "builds")
	}
	c := cache{dir: dir}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return cache{}, c.fault(err)
	}
	return c, nil
}

func (c cache) fault(err error) error {
	return &fieldkit.Error{Kind: fieldkit.Storage, Where: c.dir, Cause: err,
		What: "cannot keep the compiled program: " + err.Error(),
		Do:   "free the folder, or set XDG_CACHE_HOME to one that can be written"}
}

// get returns a result whose files are whole.
func (c cache) get(key string) (Output, bool) {
	dir := filepath.Join(c.dir, key)
	wasm, err1 := os.ReadFile(filepath.Join(dir, wasmName))
	script, err2 := os.ReadFile(filepath.Join(dir, execName))
	sums, err3 := os.ReadFile(filepath.Join(dir, sumsName))
	if err1 != nil || err2 != nil || err3 != nil || string(sums) != sumLine(wasm, script) {
		return Output{}, false
	}
	now := time.Now()
	os.Chtimes(dir, now, now) // used last, so removed last
	return Output{Wasm: wasm, WasmExec: script, Key: key}, true
}

// begin gives a folder to build in, on the same disk as the cache.
func (c cache) begin(key string) (string, error) {
	work, err := os.MkdirTemp(c.dir, "building-"+key+"-")
	if err != nil {
		return "", c.fault(err)
	}
	return work, nil
}

// finish seals a folder and puts it in place in one step.
func (c cache) finish(work, key string) error {
	wasm, err := os.ReadFile(filepath.Join(work, wasmName))
	if err != nil {
		return c.fault(err)
	}
	script, err := os.ReadFile(filepath.Join(work, execName))
	if err != nil {
		return c.fault(err)
	}
	if err := os.WriteFile(filepath.Join(work, sumsName), []byte(sumLine(wasm, script)), 0o644); err != nil {
		return c.fault(err)
	}
	place := filepath.Join(c.dir, key)
	if _, whole := c.get(key); !whole {
		os.RemoveAll(place) // damaged, or not there
	}
	if err := os.Rename(work, place); err != nil {
		if _, whole := c.get(key); !whole { // else another run was faster
			return c.fault(err)
		}
	}
	c.prune()
	return nil
}

// prune removes the results not used for longest, and work left by a run that was
// cut off more than a day ago.
func (c cache) prune() {
	entries, err := os.ReadDir(c.dir)
	if err != nil {
		return
	}
	type aged struct {
		path string
		used time.Time
	}
	var results []aged
	for _, e := range entries {
		info, err := e.Info()
		if err != nil || !e.IsDir() {
			continue
		}
		path := filepath.Join(c.dir, e.Name())
		switch {
		case !strings.HasPrefix(e.Name(), "building-"):
			results = append(results, aged{path, info.ModTime()})
		case time.Since(info.ModTime()) > 24*time.Hour:
			os.RemoveAll(path)
		}
	}
	slices.SortFunc(results, func(a, b aged) int {
		return cmp.Or(b.used.Compare(a.used), strings.Compare(a.path, b.path))
	})
	for _, old := range results[min(keepBuilds, len(results)):] {
		os.RemoveAll(old.path)
	}
}

func sumLine(wasm, script []byte) string {
	line := ""
	for _, body := range [][]byte{wasm, script} {
		sum := sha256.Sum256(body)
		line += fmt.Sprintf("%s %d\n", hex.EncodeToString(sum[:]), len(body))
	}
	return line
}
