//go:build browser

package browsertest

import (
	"bytes"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/web"
)

// What is said of the copy while it is being stored comes, grows and goes: what is there
// to be pressed stays where it is.
func TestFirstChoiceStandsStill(t *testing.T) {
	s := serve(t)
	s.Break("style.css", cut)
	p := newPhone(t, s)
	p.Open("/")
	stands := func() float64 {
		return ask[float64](p, `[...document.querySelectorAll('main.start button')].find((b) => b.textContent.includes('demo')).getBoundingClientRect().top`)
	}
	p.WaitFor("the choice, and that it is not stored", "document.querySelector('main.start[data-phase=choosing]') && fieldkitOffline.state === 'failed' && document.querySelector('main.start .note')")
	unready := stands()
	s.Mend()
	p.Run("dispatchEvent(new Event('online'))")
	p.WaitStored()
	p.See("Ready for no signal")
	assert.Equal(t, unready, stands())
}

// The signal goes away while the first visit is being stored. What was stored and
// checked is kept; the next visit fetches the rest only.
func TestFirstVisitBrokenOffIsCompleted(t *testing.T) {
	const last = "style.css" // the file at which the signal goes
	goesOn := map[string]func(*server, *phone){
		"in the same page when the signal returns": func(s *server, p *phone) {
			s.Start()
			p.Run("dispatchEvent(new Event('online'))")
		},
		"in a later visit": func(s *server, p *phone) {
			p.Die()
			s.Start()
			p.Wake()
			p.Open("/")
		},
	}
	for name, goOn := range goesOn {
		t.Run(name, func(t *testing.T) {
			s := serve(t)
			s.Break(last, cut)
			p := newPhone(t, s)
			p.Open("/")
			p.WaitFor("the visit to break off", "fieldkitOffline.state === 'failed'")
			s.Stop()
			assert.False(t, p.Stored().Ready)
			assert.NotEmpty(t, ask[string](p, "fieldkitOffline.why"))

			s.Mend()
			s.Forget()
			goOn(s, p)
			p.WaitStored()
			for _, done := range s.files.Paths() {
				// The pictures come first, and only the worker asks for them.
				if strings.HasSuffix(done, ".png") {
					assert.Zero(t, s.Asked(done, 0), "%s was stored in the first visit", done)
				}
			}

			s.Stop()
			p.Open("/counter?from=home")
			assert.Equal(t, s.Version(), p.Version())
			p.Die()
			p.Wake()
			p.Open("/")
			assert.True(t, p.Stored().Ready)
		})
	}
}

// The browser fetches the picture for the tab outside of page and worker.
const favicon = "icons/icon.svg"

// A new version that does not arrive whole leaves the old one in charge, with and
// without signal, whatever comes instead of a file.
func TestBrokenUpdateLeavesTheOldVersion(t *testing.T) {
	s := serve(t)
	p := newPhone(t, s)
	p.Open("/")
	p.WaitStored()
	old := p.Version()
	s.Publish(2)
	require.NotEqual(t, old, s.Version())

	for _, c := range []struct {
		name string
		how  fault
	}{
		{"the connection breaks", cut},
		{"half the file", short},
		{"one wrong byte", altered},
		{"the file is gone", gone},
		{"a log-in page in between", portal},
	} {
		t.Run(c.name, func(t *testing.T) {
			s.Break(web.ProgramStart, c.how) // the one large file that differs
			s.Forget()
			p.Run("goappTryUpdate()")
			s.WaitAsked(web.ProgramStart)
			p.WaitFor("the update to fail", `navigator.serviceWorker.getRegistration().then((r) => !r.installing)`)
			assert.False(t, ask[bool](p, "fieldkitUpdateReady"))
			s.Stop()
			p.Open("/rig/some-part")
			assert.Equal(t, old, p.Version())
			assert.True(t, p.Stored().Ready)
			s.Start()
		})
	}

	s.Stop()
	p.Die()
	p.Wake()
	p.Open("/log")
	assert.Equal(t, old, p.Version())

	s.Mend()
	s.Start()
	p.LookForUpdate()
	assert.Equal(t, old, p.Version(), "nothing changes under an open page")
}

// A new version waits until it is asked for, takes only what changed over the link,
// and then works without signal; the store of the old one is cleared.
func TestUpdateIsOfferedAndApplied(t *testing.T) {
	s := serve(t)
	p := newPhone(t, s)
	p.Open("/log")
	p.WaitStored()
	old := p.Version()
	p.Open("/rig") // a second tab of the same phone
	rig := p.page

	s.Publish(2)
	s.Forget()
	p.LookForUpdate()
	assert.Equal(t, old, p.Version())
	assert.Zero(t, s.Asked(web.Program, 0), "the program is the same and is not fetched again")
	p.Reload()
	p.WaitRunning()
	assert.Equal(t, old, p.Version(), "a reload is no consent")
	p.WaitFor("the offer to stay", "fieldkitUpdateReady")

	p.Open("/counter?q=pads")
	p.WaitFor("the offer in a new tab", "fieldkitUpdateReady")
	p.Run("fieldkitApplyUpdate()")
	p.WaitFor("the new version", "globalThis.goappGetenv && goappGetenv('GOAPP_VERSION') === '"+s.Version()+"'")
	p.WaitRunning()
	assert.Equal(t, "/counter?q=pads", p.Path(), "on the page where one was")
	assert.True(t, p.Stored().Ready)
	p.WaitFor("the store of the old version to go", "caches.keys().then((names) => names.filter((n) => n.startsWith('trail-field-kit:')).length === 1)")
	assert.Equal(t, []string{"trail-field-kit:/:" + s.Version()}, p.Stores())

	p.page = rig // the other tab is told, and not reloaded under the hand
	p.WaitFor("the offer in the other tab", "fieldkitUpdateReady")
	assert.Equal(t, old, p.Version())
	p.Run("fieldkitApplyUpdate()")
	p.WaitFor("the new version", "globalThis.goappGetenv && goappGetenv('GOAPP_VERSION') === '"+s.Version()+"'")

	s.Stop()
	p.Open("/repair")
	assert.Equal(t, s.Version(), p.Version())
}

func TestAnyAddressOpensWithoutSignal(t *testing.T) {
	s := serve(t)
	p := newPhone(t, s)
	p.Open("/")
	p.WaitStored()
	s.Stop()
	p.Die()
	for _, address := range []string{"/", "/?src=home", "/counter", "/rig/front-axle/left.hub?tab=2#torque", "/index.html"} {
		p.Wake()
		p.Open(address) // a fresh tab of a fresh process
		assert.Equal(t, s.Version(), p.Version(), address)
		for _, r := range p.page.Requests() {
			if strings.HasSuffix(r.URL, favicon) || strings.HasSuffix(r.URL, web.OfferedKit) {
				continue
			}
			assert.True(t, r.FromWorker, "%s was not answered from the store", r.URL)
		}
		p.Die()
	}
}

// A file of the stored copy is lost: the program says so, and mends it with signal.
func TestLostFileIsReportedAndMended(t *testing.T) {
	s := serve(t)
	p := newPhone(t, s)
	p.Open("/")
	p.WaitStored()
	p.Run("caches.open(`trail-field-kit:/:${goappGetenv('GOAPP_VERSION')}`).then((c) => c.delete('style.css'))")
	p.WaitFor("the loss to show", "fieldkitOfflineReady().then((copy) => copy.missing.includes('style.css'))")
	assert.False(t, p.Stored().Ready)
	p.Reload()
	p.WaitRunning()
	p.WaitStored()
	s.Stop()
	p.Open("/")
	assert.True(t, p.Stored().Ready)
}

// A file is lost while the page stays open: it is ready for no signal no more as soon as
// it is looked at again after a while.
func TestCopyIsCheckedAgain(t *testing.T) {
	s := serve(t)
	p := newPhone(t, s)
	p.Open("/")
	p.WaitStored()
	p.See("Ready for no signal")
	s.Stop()
	p.Run("caches.open(`trail-field-kit:/:${goappGetenv('GOAPP_VERSION')}`).then((c) => c.delete('icons/icon-512.png'))")
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
			p := newPhone(t, s)
			p.Open("/")
			p.WaitStored()
			require.True(t, ask[bool](p, "caches.open(`trail-field-kit:/:${goappGetenv('GOAPP_VERSION')}`).then(async (c) => {"+`
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

// A worker that is replaced before it has answered is asked no more: the one in its place
// is.
func TestWorkerThatIsReplacedIsNotWaitedFor(t *testing.T) {
	p := newPhone(t, serve(t))
	p.Open("/")
	p.WaitStored()
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

// A damaged file counts as missing: only its bytes tell.
func TestDamagedFileIsNoticed(t *testing.T) {
	s := serve(t)
	p := newPhone(t, s)
	p.Open("/")
	p.WaitStored()
	p.Run("caches.open(`trail-field-kit:/:${goappGetenv('GOAPP_VERSION')}`).then((c) => c.put('style.css', new Response('body {}')))")
	p.WaitFor("the damage to show", "fieldkitOfflineReady().then((copy) => copy.missing.includes('style.css'))")
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
			// questions to answer is not replaced.
			p.WaitFor("the page to be ready again", "fieldkitOffline.state === 'ready'")
			p.WaitStored()
			s.Stop()
			p.Open("/counter")
			assert.True(t, p.Stored().Ready)
		})
	}
}

// A host that redirects a file, as many do with /index.html, still gives a store
// that opens: a redirected answer as such could not.
func TestRedirectingHostStillOpensWithoutSignal(t *testing.T) {
	s := serve(t)
	s.Break("", redirected)
	p := newPhone(t, s)
	p.Open("/")
	p.WaitStored()
	s.Stop()
	p.Open("/counter")
	assert.Equal(t, s.Version(), p.Version())
}

// The program crosses the link once in a first visit: the worker gets it from the
// browser's own cache.
func TestFirstVisitFetchesTheProgramOnce(t *testing.T) {
	s := serve(t)
	p := newPhone(t, s)
	p.Open("/")
	p.WaitStored()
	assert.Equal(t, 1, s.Asked(web.Program, 200))
}

func TestProgramThatDoesNotLoadSaysSo(t *testing.T) {
	for name, how := range map[string]fault{"gone": gone, "half": short, "broken off": cut, "log-in page": portal} {
		t.Run(name, func(t *testing.T) {
			s := serve(t)
			s.Break(web.Program, how)
			p := newPhone(t, s)
			p.Visit("/rig")
			p.See("Could not load the program", "Open it again when you have signal", "Trail Field Kit")
			assert.Equal(t, "failed", ask[string](p, "document.documentElement.dataset.start"))
			s.Mend()
			p.Tap("button:Open again")
			p.WaitRunning()
			p.WaitStored()
		})
	}
}

// The page paints before the program is there, and says what it waits for.
func TestFirstPaintDoesNotWaitForTheProgram(t *testing.T) {
	s := serve(t)
	how, release := held()
	defer release()
	s.Break(web.Program, how)
	p := newPhone(t, s)
	p.Visit("/")
	p.See("Trail Field Kit", "Opening the program")
	release()
	p.WaitRunning()
}

// Two copies on one host, under two paths, keep their stores apart.
func TestTwoCopiesOnOneHost(t *testing.T) {
	s := serveUnder(t, "/north/")
	other := site(t, "/south/", 1)
	north := s.handler
	s.handler = pathSwitch(map[string]handler{"/north/": north, "/south/": other.Handler(nil)})
	p := newPhone(t, s)
	p.Open("/")
	p.WaitStored()
	page, err := p.browser.Open("http://" + s.address + "/south/")
	require.NoError(t, err)
	p.page = page
	p.WaitRunning()
	p.WaitStored()
	names := p.Stores()
	require.Len(t, names, 2)
	assert.True(t, strings.HasPrefix(names[0], "trail-field-kit:/north/:"), names[0])
	s.Stop()
	p.Open("/counter")
	assert.Equal(t, s.Version(), p.Version())
}
