package main

import (
	"bytes"
	"compress/gzip"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"

	"github.com/andybalholm/brotli"

	"trailfieldkit/fieldkit"
	"trailfieldkit/web"
)

const siteHelp = `
fieldkit site [-base /PATH/] [-plain] DIR

Writes the program as a static site into DIR: put that folder on any web host that
serves https, open it once on the phone, and it works there with no signal.

  -base /PATH/   the path the site will live under (default /)
  -plain         no compressed files: for hosts that compress by themselves

Beside each large file lie the same bytes compressed (.br and .gz) for hosts that
hand those out. 404.html is the page for hosts that answer unknown addresses with
it, so that a link to a part opens. DIR must be new, empty, or a site written
before; then its files are replaced and those no longer used are removed.

Examples:
  fieldkit site public
  fieldkit site -base /field-kit/ public
`

// siteMarker lists the files of a site beside it, so that a later run knows what it
// may replace.
const siteMarker = ".trail-field-kit-site"

func writeSite(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	set := options("site")
	base := set.String("base", "/", "")
	plain := set.Bool("plain", false, "")
	if !parse(set, args, 1, stderr) {
		return askedWrong
	}
	dir := set.Arg(0)
	earlier, err := mayWrite(dir)
	if err != nil {
		return complain(stderr, "site", err)
	}
	if _, err := web.Render(web.Input{Wasm: []byte("x"), WasmExec: []byte("x"), Base: *base}); err != nil {
		fmt.Fprintf(stderr, "fieldkit site: %v\n", err) // before a long build
		return askedWrong
	}
	if err := tryWriting(dir); err != nil {
		return complain(stderr, "site", err)
	}
	out, err := compile(ctx, stderr)
	if err != nil {
		return complain(stderr, "site", err)
	}
	site, err := web.Render(web.Input{Wasm: out.Wasm, WasmExec: out.WasmExec, Base: *base})
	if err != nil {
		return complain(stderr, "site", err)
	}
	files := plainFiles(site)
	if !*plain {
		fmt.Fprintln(stderr, "compressing as hard as it goes, about a minute")
		addCompressed(files, site)
	}
	if err := replaceFiles(dir, files, earlier); err != nil {
		return complain(stderr, "site", err)
	}
	printSizes(stdout, site, files)
	fmt.Fprintf(stdout, "version %s for %s is in %s\n", site.Version, site.Base, dir)
	return done
}

// mayWrite says whether a folder can take the site, and which files an earlier
// site left there.
func mayWrite(dir string) (earlier []string, err error) {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, os.ErrNotExist) || err == nil && len(entries) == 0 {
		return nil, nil
	}
	if err != nil {
		return nil, &fieldkit.Error{Kind: fieldkit.BadInput, Cause: err,
			What: fmt.Sprintf("%q is not a folder that can be read", dir), Do: "name a new folder"}
	}
	marker, err := os.ReadFile(filepath.Join(dir, siteMarker))
	if err != nil {
		return nil, &fieldkit.Error{Kind: fieldkit.Conflict,
			What: fmt.Sprintf("%q holds files that are no site of this program", dir),
			Do:   "name a new or empty folder; nothing was written"}
	}
	for line := range strings.Lines(string(marker)) {
		name := strings.TrimSpace(line)
		if name != "" && filepath.IsLocal(name) {
			earlier = append(earlier, name)
		}
	}
	return earlier, nil
}

// tryWriting makes the folder and writes a file into it, so that a folder that
// takes nothing is known before the minutes of building and compressing.
func tryWriting(dir string) error {
	err := os.MkdirAll(dir, 0o755)
	if err == nil {
		var trial *os.File
		if trial, err = os.CreateTemp(dir, ".trial-*"); err == nil {
			err = errors.Join(trial.Close(), os.Remove(trial.Name()))
		}
	}
	if err != nil {
		return &fieldkit.Error{Kind: fieldkit.Storage, Cause: err, What: fmt.Sprintf("nothing can be written into %q", dir), Do: "name a folder of yours"}
	}
	return nil
}

// plainFiles gives the bytes of each file by path.
func plainFiles(site web.Site) map[string][]byte {
	files := map[string][]byte{}
	for name, file := range site.Files {
		files[name] = file.Body
	}
	return files
}

// addCompressed puts beside each large file the same squeezed as hard as it goes.
func addCompressed(files map[string][]byte, site web.Site) {
	var mu sync.Mutex
	var all sync.WaitGroup
	slots := make(chan struct{}, runtime.GOMAXPROCS(0))
	for name, file := range site.Files {
		if !file.Squeezable() {
			continue
		}
		for suffix, squeeze := range map[string]func([]byte) []byte{".br": squeezeBrotli, ".gz": squeezeGzip} {
			all.Go(func() {
				slots <- struct{}{}
				defer func() { <-slots }()
				small := squeeze(file.Body)
				mu.Lock()
				defer mu.Unlock()
				files[name+suffix] = small
			})
		}
	}
	all.Wait()
}

func squeezeBrotli(body []byte) []byte {
	var out bytes.Buffer
	w := brotli.NewWriterLevel(&out, brotli.BestCompression)
	w.Write(body)
	w.Close()
	return out.Bytes()
}

func squeezeGzip(body []byte) []byte {
	var out bytes.Buffer
	w, _ := gzip.NewWriterLevel(&out, gzip.BestCompression)
	w.Write(body)
	w.Close()
	return out.Bytes()
}

// replaceFiles writes each file beside its place and then moves it there, the
// worker last: someone who opens the site meanwhile gets the old version or the new
// one. Then it removes what only the earlier site had.
func replaceFiles(dir string, files map[string][]byte, earlier []string) error {
	names := make([]string, 0, len(files))
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	marker := []byte(strings.Join(names, "\n") + "\n")
	// The marker names old and new files before the first is written: a run that is
	// cut off can be repeated.
	both := slices.Compact(slices.Sorted(slices.Values(slices.Concat(names, earlier))))
	if err := place(dir, siteMarker, []byte(strings.Join(both, "\n")+"\n")); err != nil {
		return err
	}
	slices.SortStableFunc(names, func(a, b string) int { return workerLast(a) - workerLast(b) })
	for _, name := range names {
		if err := place(dir, name, files[name]); err != nil {
			return err
		}
	}
	for _, name := range earlier {
		if _, used := files[name]; !used {
			os.Remove(filepath.Join(dir, filepath.FromSlash(name)))
		}
	}
	return place(dir, siteMarker, marker)
}

func workerLast(name string) int {
	if strings.HasPrefix(name, web.Worker) {
		return 1
	}
	return 0
}

func place(dir, name string, body []byte) error {
	path := filepath.Join(dir, filepath.FromSlash(name))
	err := os.MkdirAll(filepath.Dir(path), 0o755)
	if err == nil {
		err = os.WriteFile(path+".part", body, 0o644)
	}
	if err == nil {
		err = os.Rename(path+".part", path)
	}
	if err != nil {
		os.Remove(path + ".part")
		return &fieldkit.Error{Kind: fieldkit.Storage, Where: path, Cause: err,
			What: "cannot be written: " + err.Error(), Do: "make room or choose another folder, then run this again"}
	}
	return nil
}

// printSizes shows what a phone will fetch.
func printSizes(stdout io.Writer, site web.Site, files map[string][]byte) {
	fmt.Fprintf(stdout, "%-28s %10s %10s %10s\n", "file", "bytes", "gzip", "brotli")
	raw, best := 0, 0
	for _, name := range site.Paths() {
		whole := files[name]
		line := fmt.Sprintf("%-28s %10d", name, len(whole))
		least := len(whole)
		for _, suffix := range []string{".gz", ".br"} {
			if small, there := files[name+suffix]; there {
				line += fmt.Sprintf(" %10d", len(small))
				least = min(least, len(small))
			}
		}
		fmt.Fprintln(stdout, line)
		if name != web.ShellDeep {
			raw += len(whole)
			best += least
		}
	}
	if best < raw {
		fmt.Fprintf(stdout, "a first visit fetches %s, %s compressed\n", size(raw), size(best))
	} else {
		fmt.Fprintf(stdout, "a first visit fetches %s, less where the host compresses\n", size(raw))
	}
}
