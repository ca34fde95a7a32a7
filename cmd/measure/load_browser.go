package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"time"

	"trailfieldkit/cmd/internal/build"
	"trailfieldkit/cmd/internal/chromium"
	"trailfieldkit/cmd/internal/largekit"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/backup"
	"trailfieldkit/fieldkit/journal"
)

// loadLimit is how long one step may take before it counts as not working.
const loadLimit = 3 * time.Minute

// watchMemory keeps hold of the program's memory, which only ever grows.
const watchMemory = `
for (const name of ['instantiate', 'instantiateStreaming']) {
	const as = WebAssembly[name];
	WebAssembly[name] = async (...args) => {
		const program = await as.apply(WebAssembly, args);
		globalThis.programMemory = program.instance.exports.mem;
		return program;
	};
}
`

// watchWriting notes when a transaction that writes an entry of the journal is
// complete: then what was done is acknowledged.
const watchWriting = `
const begin = IDBDatabase.prototype.transaction;
IDBDatabase.prototype.transaction = function (stores, mode, ...rest) {
	const t = begin.call(this, stores, mode, ...rest);
	if (mode === 'readwrite' && Array.from(stores).includes('entries')) {
		t.addEventListener('complete', () => { globalThis.acknowledged = performance.now(); });
	}
	return t;
};
`

// printLoad measures kits of 1, 10 and 100 times the demo's size: the domain code
// natively, and the whole program in Chromium with its IndexedDB.
func printLoad(ctx context.Context, out io.Writer, say func(string)) error {
	if err := printDomainLoad(out, say); err != nil {
		return err
	}
	say("building the program")
	program := subject{name: "program"}
	var err error
	if program.out, err = build.WebAssembly(ctx, program.from); err != nil {
		return err
	}
	site, err := program.site()
	if err != nil {
		return err
	}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return err
	}
	server := &http.Server{Handler: site.Handler(nil)}
	go server.Serve(listener)
	defer server.Close()
	var table figures
	for _, size := range loadSizes {
		say(fmt.Sprintf("a kit of size %d, in Chromium", size))
		b := &loaded{ctx: ctx, address: "http://" + listener.Addr().String(), table: &table, size: size, say: say}
		if err := b.measure(); err != nil {
			table.print(out, "in Chromium, ms (as far as it got)")
			return fmt.Errorf("size %d: %w", size, err)
		}
	}
	table.print(out, "in Chromium, ms")
	return nil
}

// loaded is one phone with a large kit.
type loaded struct {
	ctx     context.Context
	address string
	table   *figures
	size    int
	say     func(string)
	page    *chromium.Page
}

func (l *loaded) measure() error {
	dir, err := os.MkdirTemp("", "fieldkit-load-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	file, err := l.archive(dir)
	if err != nil {
		return err
	}
	profile := filepath.Join(dir, "profile")
	if err := l.inBrowser(profile, "/rig", func() error { return l.restore(file) }); err != nil {
		return err
	}
	return l.inBrowser(profile, "/rig", l.use)
}

// archive writes the kit as a backup into a folder.
func (l *loaded) archive(dir string) (string, error) {
	kit := largekit.Kit(l.size)
	photos := map[string]journal.Blob{}
	for i := range largekit.Photos(l.size) {
		photo := largekit.Photo(i)
		photos[photo.Hash] = photo
	}
	var content bytes.Buffer
	made := fieldkit.Moment{Time: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)}
	if _, err := backup.Write(&content, kit, func(hash string) (journal.Blob, error) { return photos[hash], nil }, made); err != nil {
		return "", err
	}
	l.table.note("records", fmt.Sprint(records(kit)))
	l.table.note("backup, MB", fmt.Sprintf("%.1f", float64(content.Len())/1e6))
	file := filepath.Join(dir, "large.zip")
	return file, os.WriteFile(file, content.Bytes(), 0o600)
}

// inBrowser runs steps in a browser process of their own and notes how long the
// program took to show the kit.
func (l *loaded) inBrowser(profile, path string, do func() error) error {
	b, err := chromium.Start(l.ctx, chromium.Options{Phone: true, Profile: profile})
	if err != nil {
		return err
	}
	defer b.Close()
	if l.page, err = b.Blank(); err != nil {
		return err
	}
	l.page.Limit = loadLimit
	if err := errors.Join(l.page.OnEachDocument(moments), l.page.OnEachDocument(watchMemory), l.page.OnEachDocument(watchWriting), l.page.Goto(l.address+path)); err != nil {
		return err
	}
	if err := l.until("the program", `'running' in moments`); err != nil {
		return err
	}
	return do()
}

// until asks the page again and again.
func (l *loaded) until(what, holds string) error {
	for began := time.Now(); time.Since(began) < loadLimit; {
		if ok, err := chromium.Eval[bool](l.page, "Boolean("+holds+")"); err == nil && ok {
			return nil
		}
		select {
		case <-l.ctx.Done():
			return l.ctx.Err()
		case <-time.After(20 * time.Millisecond):
		}
	}
	said, _ := l.page.Text()
	return fmt.Errorf("no %s within %v; the page says: %.300s", what, loadLimit, said)
}

// timed notes how long something takes on the page.
func (l *loaded) timed(name, do, holds string) error {
	took, err := l.clock(name, do, holds)
	if err != nil {
		return err
	}
	l.table.note(name, fmt.Sprintf("%.0f", took))
	l.say(fmt.Sprintf("size %d, %s: %.0f ms", l.size, name, took))
	return nil
}

// clock does something on the page and gives the milliseconds until something holds
// there, taken from the page's own clock.
func (l *loaded) clock(name, do, holds string) (float64, error) {
	if err := l.page.Run(fmt.Sprintf(`(() => { globalThis.reached = 0; globalThis.began = performance.now(); globalThis.longest = 0;
		let last = began;
		(function look() {
			const now = performance.now();
			longest = Math.max(longest, now - last);
			last = now;
			if (%s) { reached = now; return; }
			requestAnimationFrame(look);
		})();
		setTimeout(() => { %s }, 0); })()`, holds, do)); err != nil {
		return 0, fmt.Errorf("%s: %w", name, err)
	}
	if err := l.until(name, "reached > 0"); err != nil {
		return 0, err
	}
	return chromium.Eval[float64](l.page, "reached - began")
}

func (l *loaded) memory(when string) error {
	bytes, err := chromium.Eval[float64](l.page, "programMemory.buffer.byteLength")
	l.table.note("memory of the program, MB, "+when, fmt.Sprintf("%.0f", bytes/1e6))
	return err
}

const press = `Array.from(document.querySelectorAll('button')).find((b) => b.innerText.trim().startsWith(%q)).click()`

func says(text string) string { return fmt.Sprintf("document.body.innerText.includes(%q)", text) }

func (l *loaded) restore(file string) error {
	const begin = "Begin with my rig"
	if err := l.until("the choice of a kit", says(begin)); err != nil {
		return err
	}
	if err := l.page.Run(fmt.Sprintf(press, begin)); err != nil {
		return err
	}
	if err := l.until("a kit", "!"+says(begin)+" && 'open' in moments"); err != nil {
		return err
	}
	if err := l.open("", "/kit"); err != nil {
		return err
	}
	if err := l.page.Upload("css:#file-restore", file); err != nil {
		return err
	}
	if err := l.timed("restore: the backup checked", "", says("is whole.")); err != nil {
		return err
	}
	if err := l.timed("restore: kept", fmt.Sprintf(press, "Restore it"), says("Restored large.zip")); err != nil {
		return err
	}
	return l.memory("after restoring")
}

// open follows a link to a screen and notes the time until it is drawn.
func (l *loaded) open(name, path string) error {
	do := fmt.Sprintf(`(() => { const link = document.createElement('a'); link.href = %q; document.body.append(link); link.click(); link.remove(); })()`, path)
	drawn := fmt.Sprintf(`(location.pathname + location.search) === %q && document.documentElement.dataset.drawn === location.href`, path)
	if name == "" {
		if err := l.page.Run(do); err != nil {
			return err
		}
		return l.until(path, drawn)
	}
	return l.timed(name, do, drawn)
}

// use opens the kept kit in a new process, as on any other day.
func (l *loaded) use() error {
	if err := l.until("the kit", "'open' in moments"); err != nil {
		return err
	}
	opened, err := chromium.Eval[float64](l.page, "moments.open")
	if err != nil {
		return err
	}
	l.table.note("start, until the kit is open", fmt.Sprintf("%.0f", opened))
	if err := l.memory("after the start"); err != nil {
		return err
	}
	for _, s := range []struct{ name, path string }{
		{"screen: a rig", "/rig?rig=rig-1"}, {"screen: what is missing", "/rig/gaps?rig=rig-1"}, {"screen: a position", "/rig/position?id=position-7"},
		{"screen: an interchange", "/rig/link/edit?id=link-7"},
		{"screen: search", "/counter?q=wheel"}, {"screen: a counter card", "/counter/card?position=position-7"}, {"screen: spares", "/pack/stock?what=spares"},
		{"screen: a packing list", "/pack/trip?id=trip"}, {"screen: the log", "/log"}, {"screen: repair", "/repair"},
	} {
		if err := l.open(s.name, s.path); err != nil {
			return err
		}
	}
	if err := l.edits(); err != nil {
		return err
	}
	if err := l.open("", "/kit"); err != nil {
		return err
	}
	if err := l.timed("backup, with photos", fmt.Sprintf(press, "Make a backup"), says("is in your downloads")); err != nil {
		return err
	}
	held, err := chromium.Eval[float64](l.page, "longest")
	if err != nil {
		return err
	}
	l.table.note("backup, longest between two frames", fmt.Sprintf("%.0f", held))
	return l.memory("after the backup")
}

// editsTried is how often each edit is made: one alone may meet a collection of garbage
// or not.
const editsTried = 15

// edits notes how long it takes from the press of a button until the entry is on disk,
// and until the screen that follows shows it: the median and the longest.
func (l *loaded) edits() error {
	write := `(() => { const field = Array.from(document.querySelectorAll('main label')).find((l) => l.innerText.trim() === %q).control;
		field.value = %q; field.dispatchEvent(new Event('input', { bubbles: true })); })()`
	for _, e := range []struct{ name, path, label, save, holds, then, shows string }{
		{"edit: a position", "/rig/position/edit?id=position-%d", "Note", "Save position", "location.pathname === '/rig/position'",
			"screen: search, after it", "/counter?q=wheel+bearing"},
		{"edit: an interchange", "/rig/link/edit?id=link-%d", "Note", "Save interchange", "location.pathname !== '/rig/link/edit'",
			"screen: a counter card, after it", "/counter/card?position=position-7"},
		{"edit: a failure logged", "/log/failure?position=position-%d", "What broke", "Save", "location.pathname !== '/log/failure'",
			"screen: the log, after it", "/log?show=failures"},
	} {
		var acknowledged, drawn []float64
		for i := range editsTried {
			if err := l.open("", fmt.Sprintf(e.path, i)); err != nil {
				return err
			}
			if err := l.page.Run(fmt.Sprintf(write, e.label, fmt.Sprint("looked at ", i))); err != nil {
				return err
			}
			took, err := l.clock(e.name, fmt.Sprintf(press, e.save), e.holds+" && document.documentElement.dataset.drawn === location.href")
			if err != nil {
				return err
			}
			drawn = append(drawn, took)
			kept, err := chromium.Eval[float64](l.page, "acknowledged - began")
			if err != nil {
				return err
			}
			acknowledged = append(acknowledged, kept)
		}
		if err := l.open(e.then, e.shows); err != nil {
			return err
		}
		l.noteMedian(e.name+", acknowledged", acknowledged)
		l.noteMedian(e.name+", next screen drawn", drawn)
	}
	return nil
}

func (l *loaded) noteMedian(name string, took []float64) {
	l.table.note(name, fmt.Sprintf("%.0f", median(took)))
	l.table.note(name+", longest", fmt.Sprintf("%.0f", slices.Max(took)))
	l.say(fmt.Sprintf("size %d, %s: %.0f", l.size, name, took))
}
