//go:build browser

package browsertest

import (
	"bytes"
	"net/http"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/web"
)

// A file of the stored copy is lost: the program says so, and mends it with signal.
func TestLostFileIsReportedAndMended(t *testing.T) {
	s := serve(t)
	p := visited(t, s)
	p.Run(openStored + ".then((c) => c.delete('style.css'))")
	p.WaitFor("the loss to show", "fieldkitOfflineReady().then((copy) => copy.missing.includes('style.css'))")
	assert.False(t, p.Stored().Ready)
	p.Reload()
	p.WaitRunning()
	p.WaitStored()
	s.Stop()
	p.Open("/")
	assert.True(t, p.Stored().Ready)
}

// A damaged file counts as missing: only its bytes tell.
func TestDamagedFileIsNoticed(t *testing.T) {
	p := visited(t, serve(t))
	p.Run(openStored + ".then((c) => c.put('style.css', new Response('body {}')))")
	p.WaitFor("the damage to show", "fieldkitOfflineReady().then((copy) => copy.missing.includes('style.css'))")
}

// A file is lost while the page stays open: it is ready for no signal no more as soon as
// it is looked at again after a while.
func TestCopyIsCheckedAgain(t *testing.T) {
	s := serve(t)
	p := visited(t, s)
	p.See("Ready for no signal")
	s.Stop()
	p.Run(openStored + ".then((c) => c.delete('icons/icon-512.png'))")
	p.Run("(() => { const now = Date.now; Date.now = () => now() + 3_600_000; })()")
	p.Run("document.dispatchEvent(new Event('visibilitychange'))")
	p.See("Not ready for no signal.")
	s.Start()
	p.Run("dispatchEvent(new Event('online'))")
	p.SeeNot("Not ready for no signal.")
	assert.True(t, p.Stored().Ready)
}

// The page and its start script are what mends the rest. Damaged in the store, they come
// back themselves at the next visit with signal.
func TestDamagedStartComesBack(t *testing.T) {
	for file, path := range map[string]string{"the page": "/", "the start script": "/start.js"} {
		t.Run(file, func(t *testing.T) {
			s := serve(t)
			p := visited(t, s)
			require.True(t, ask[bool](p, openStored+".then(async (c) => {"+`
				const stored = await c.match('`+path+`');
				await c.put('`+path+`', new Response('<p>damaged</p>', { headers: stored.headers }));
				return true;
			})`))
			p.Open("/rig")
			p.WaitFor("all of it", "fieldkitOffline.state === 'ready'")
			s.Stop()
			p.Open("/counter")
			assert.True(t, p.Stored().Ready)
		})
	}
}

// A worker that arrives damaged on a first visit and runs all the same does not install,
// for its sum is not the one its version's start script names; were that check itself
// damaged, the page finds it out by what the worker says of itself. The page is not ready
// for no signal, and the next look with signal puts the right one in its place.
func TestDamagedWorkerThatRunsIsNoticed(t *testing.T) {
	for name, damage := range map[string][2]string{
		"in its code":           {"const changeLimit = 15_000", "const changeLimit = 15_001"},
		"in the type of a file": {`"type":"text/css; charset=utf-8"`, `"type":"text/csr; charset=utf-8"`},
		"in what it says":       {"self: await ownSum()", "sElf: await ownSum()"},
		"in the build it says":  {"build: build.version", "buIld: build.version"},
		"in the check itself":   {"!(await faithful())", "!(await faithful )"},
	} {
		t.Run(name, func(t *testing.T) {
			s := serve(t)
			s.Break("worker.js", func(w http.ResponseWriter, _ *http.Request, file web.File) bool {
				require.Equal(t, 1, bytes.Count(file.Body, []byte(damage[0])))
				w.Header().Set("Content-Type", file.Type)
				w.Write(bytes.Replace(file.Body, []byte(damage[0]), []byte(damage[1]), 1))
				return true
			})
			p := newPhone(t, s)
			p.Open("/")
			shows := "fieldkitOffline.state === 'failed' && fieldkitOffline.why.includes('arrived damaged')"
			if name == "in the check itself" {
				shows = "fieldkitOffline.state === 'missing' && fieldkitOffline.path === 'worker.js'"
			}
			p.WaitFor("the damage to show", shows)
			assert.False(t, p.Stored().Ready)
			s.Mend()
			p.Run("dispatchEvent(new Event('online'))")
			// The page says it by itself. The worker is not asked over and over: one that has
			// questions to answer is not replaced. If the browser was looking already, it is
			// the page's next try that finds the right one.
			p.page.Limit = 2 * time.Minute
			p.WaitFor("the page to be ready again", "fieldkitOffline.state === 'ready'")
			p.WaitStored()
			s.Stop()
			p.Open("/counter")
			assert.True(t, p.Stored().Ready)
		})
	}
}

// A worker that is replaced before it has answered is asked no more: the one in its place
// is.
func TestWorkerThatIsReplacedIsNotWaitedFor(t *testing.T) {
	p := visited(t, serve(t))
	p.Run(`(() => {
		const replaced = new EventTarget();
		replaced.state = 'activated';
		replaced.postMessage = () => setTimeout(() => {
			delete navigator.serviceWorker.controller;
			replaced.state = 'redundant';
			replaced.dispatchEvent(new Event('statechange'));
		});
		Object.defineProperty(navigator.serviceWorker, 'controller', { configurable: true, get: () => replaced });
	})()`)
	assert.True(t, p.Stored().Ready)
}
