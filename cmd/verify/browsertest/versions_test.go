//go:build browser

package browsertest

import (
	"context"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/cmd/internal/chromium"
	"trailfieldkit/data"
	"trailfieldkit/fieldkit/passon"
	"trailfieldkit/web"
)

// PublishBroken puts a version in place of the one served that arrives whole and does
// not start.
func (s *server) PublishBroken(spoil func(*web.Input)) {
	s.t.Helper()
	in, err := compiled()
	require.NoError(s.t, err)
	in.Base = s.base
	spoil(&in)
	files, err := web.Render(in)
	require.NoError(s.t, err)
	s.mu.Lock()
	defer s.mu.Unlock()
	s.files, s.handler = files, files.Handler(nil)
}

// A new version that does not start offers the one before it, with no signal too; the
// choice holds until a later version takes over.
func TestVersionThatDoesNotStart(t *testing.T) {
	for name, c := range map[string]struct {
		says  string
		spoil func(*web.Input)
	}{
		"the program is no program": {"Could not load the program", func(in *web.Input) { in.Wasm = []byte("not a module") }},
		"the program traps at once": {"The program stopped", running("throw new WebAssembly.RuntimeError('unreachable');")},
	} {
		t.Run(name, func(t *testing.T) {
			s := serve(t)
			p := newPhone(t, s)
			p.Open("/")
			p.WaitStored()
			old := p.Version()
			s.PublishBroken(c.spoil)
			p.LookForUpdate()
			p.Run("fieldkitApplyUpdate()")
			p.See(c.says, "Start the version before this one")
			assert.Len(t, p.Stores(), 2, "the version before is still kept")
			p.Reload() // the second try: the worker itself offers the way back
			p.WaitFor("the way back without a script", `document.querySelector('main.start > p > a[href="/previous-version"]')`)
			p.See(c.says)

			s.Stop()
			p.Tap("link:Start the version before this one")
			p.WaitRunning()
			p.See("Begin with my rig")
			assert.Equal(t, old, p.Version())
			assert.True(t, p.Stored().Ready)
			p.Die()
			p.Wake()
			p.Open("/log")
			assert.Equal(t, old, p.Version(), "the choice holds")
			p.Tap("button:Begin with my rig")
			p.See("Counter-ready")
			p.Visit("/kit")
			p.See("used of", "which did not start here", "Try the newest again") // what comes late moves the rest
			p.WaitFor("nothing to move any more", "new Promise((still) => setTimeout(() => still(true), 1000))")
			p.Tap("link:Try the newest again")
			p.See(c.says)
			assert.Zero(t, ask[int](p, moved(`[href="/previous-version"]`)), "it stays where the thumb is going")
			p.Tap("link:Start the version before this one")
			p.WaitRunning()
			assert.Equal(t, old, p.Version())

			s.Start()
			s.Publish(3)
			p.LookForUpdate()
			p.Die() // a waiting version is used at the next start
			s.Stop()
			p.Wake()
			p.Open("/")
			assert.Equal(t, s.Version(), p.Version())
			p.WaitFor("the others to go", "caches.keys().then((names) => names.filter((n) => n.startsWith('trail-field-kit:')).length === 1)")
		})
	}
}

// moved counts how often something moved since the page was opened, as the browser saw it.
func moved(selector string) string {
	return fmt.Sprintf(`new Promise((done) => {
		let times = 0;
		new PerformanceObserver((seen) => {
			for (const shift of seen.getEntries()) {
				if (shift.sources.some((source) => source.node?.parentElement?.closest(%[1]q) || source.node?.matches?.(%[1]q) || source.node?.querySelector?.(%[1]q))) times++;
			}
		}).observe({ type: 'layout-shift', buffered: true });
		setTimeout(() => done(times), 1_000);
	})`, selector)
}

// running lets the program of an Input do something else in place of running.
func running(does string) func(*web.Input) {
	return func(in *web.Input) {
		in.WasmExec = append(in.WasmExec[:len(in.WasmExec):len(in.WasmExec)], "\nGo.prototype.run = async function () { "+does+" };\n"...)
	}
}

// A new version that begins and never draws a screen says so after a while, and offers the
// one before it.
func TestVersionThatNeverDraws(t *testing.T) {
	s := serve(t)
	p := newPhone(t, s)
	p.Open("/")
	p.WaitStored()
	old := p.Version()
	s.PublishBroken(running("await new Promise(() => {});"))
	p.LookForUpdate()
	p.page.Limit = 2 * time.Minute
	p.Run("fieldkitApplyUpdate()")
	p.See("takes long to open", "Start the version before this one")
	s.Stop()
	p.Tap("link:Start the version before this one")
	p.WaitRunning()
	assert.Equal(t, old, p.Version())
}

// One that keeps the whole page from answering leaves no moment to choose. From the third
// time on it is loaded only on the person's word.
func TestVersionThatHangsThePage(t *testing.T) {
	s := serve(t)
	p := newPhone(t, s)
	p.Open("/")
	p.WaitStored()
	old := p.Version()
	s.PublishBroken(running("for (;;);"))
	p.LookForUpdate()
	s.Stop()
	openHanging := func() {
		for range 8 { // a battery taken out each time
			p.Die()
			p.Wake()
			page, err := p.browser.Blank()
			require.NoError(t, err)
			p.page, page.Limit = page, 10*time.Second
			_ = page.Goto(s.URL("/rig"))
			if page.WaitFor("being asked", "document.documentElement.dataset.start === 'asked'") == nil {
				page.Limit = chromium.DefaultLimit
				return
			}
		}
		require.Fail(t, "it hangs again and again")
	}
	openHanging()
	p.See("opened here before and has shown no screen", "Try it again", "Start the version before this one")
	_ = p.page.Tap("button:Try it again") // and it hangs
	openHanging()
	p.Tap("link:Start the version before this one")
	p.WaitRunning()
	assert.Equal(t, old, p.Version())
}

// storedDemo is a phone that has the program stored and shows the demo kit.
func storedDemo(t *testing.T) (*server, *phone) {
	t.Helper()
	s := serve(t)
	p := newPhone(t, s)
	p.Open("/")
	p.WaitStored()
	p.Tap("button:Look around with the demo kit")
	p.See("Demo kit, all invented")
	return s, p
}

// While something typed is not saved, a new version waits, also for a tap.
func TestUpdateWaitsForWhatIsTyped(t *testing.T) {
	s, p := storedDemo(t)
	p.Visit("/rig/edit?id=hobnail")
	p.WaitRunning()
	p.Fill("Name", "Hobnail the second")
	old := p.Version()
	s.Publish(2)
	p.Run("goappTryUpdate()")
	p.See("A new version is here")
	p.Tap("button:Use it now")
	p.See("something is being typed here")
	assert.Equal(t, old, p.Version())
	p.Tap("button:Save rig")
	p.See("Saved rig: Hobnail the second")
	p.Tap("button:Use it now")
	p.WaitFor("the new version", "globalThis.goappGetenv && goappGetenv('GOAPP_VERSION') === '"+s.Version()+"'")
	p.See("Hobnail the second")
}

// Nor does a new version break off what is under way.
func TestUpdateWaitsForWork(t *testing.T) {
	s, p := storedDemo(t)
	p.Visit("/log/failure?position=hobnail-front-brake-pads")
	p.See("What broke")
	p.Run("globalThis.createImageBitmap = () => new Promise((_, refuse) => { globalThis.letGo = refuse; })")
	photo := filepath.Join(t.TempDir(), "photo.jpg")
	require.NoError(t, os.WriteFile(photo, []byte("being made smaller"), 0o600))
	p.Upload("css:main input[type=file]", photo)
	p.See("Making the photo smaller …")
	old := p.Version()
	s.Publish(2)
	p.LookForUpdate()
	p.See("A new version is here")
	p.Tap("button:Use it now")
	p.See("something is still being worked on here")
	assert.Equal(t, old, p.Version())
	p.Run("letGo(new Error('no picture'))")
	p.See("this picture cannot be read")
	p.Tap("button:Use it now")
	p.WaitFor("the new version", "globalThis.goappGetenv && goappGetenv('GOAPP_VERSION') === '"+s.Version()+"'")
}

// The old version ends what it is doing before the new one takes over. However long that
// lasts, the word holds, and the page does not start again in the old one.
func TestUpdateWhileTheOldVersionIsBusy(t *testing.T) {
	s, p, release := busyOld(t)
	old := p.Version()
	p.WaitFor("a while to pass", "new Promise((passed) => setTimeout(() => passed(true), 7000))")
	p.See("Changing to the new version …")
	assert.Equal(t, old, p.Version())
	release()
	p.WaitFor("the new version", "globalThis.goappGetenv && goappGetenv('GOAPP_VERSION') === '"+s.Version()+"'")
	p.See("Demo kit, all invented")
	p.SeeNot("Changing to the new version …")
}

// A version that goes away while it is being changed to is offered no more.
func TestVersionThatGoesAwayIsOfferedNoMore(t *testing.T) {
	t.Run("a broken one came in its place", func(t *testing.T) {
		s, p, _ := busyOld(t)
		s.Break("worker.js", func(w http.ResponseWriter, _ *http.Request, file web.File) bool {
			w.Header().Set("Content-Type", file.Type) // and nothing more
			return true
		})
		p.Run("goappTryUpdate()")
		p.SeeNot("Changing to the new version …")
		p.SeeNot("A new version is here")
		p.See("the new version arrived broken")
	})
	t.Run("the browser's data was cleared", func(t *testing.T) {
		s, p, release := busyOld(t)
		require.NoError(t, p.page.Do(func(ctx context.Context, t *chromedp.Target) error {
			_, err := cdp.Call(ctx, t, storage.ClearDataForOrigin, storage.ClearDataForOriginParams{Origin: "http://" + p.server.address, StorageTypes: "service_workers"})
			return err
		}))
		p.SeeNot("Changing to the new version …")
		p.SeeNot("A new version is here")
		p.See("Not ready for no signal")
		release()
		s.Mend()
		p.Run("dispatchEvent(new Event('online'))")
		p.WaitStored()
		p.SeeNot("Not ready for no signal")
		p.SeeNot("A new version is here")
	})
}

// busyOld is a phone on which the change to a new version waits for the old one, which
// mends itself and gets no answer until release is called.
func busyOld(t *testing.T) (s *server, p *phone, release func()) {
	t.Helper()
	s, p = storedDemo(t)
	old := p.Version()
	s.Publish(2)
	p.LookForUpdate()
	const lost = "wasm_exec.js" // differs between the two: it cannot be taken from the new one
	hold, release := held()
	t.Cleanup(release)
	asked := make(chan struct{})
	tell := sync.OnceFunc(func() { close(asked) })
	s.Break(lost, func(w http.ResponseWriter, r *http.Request, file web.File) bool {
		tell()
		return hold(w, r, file)
	})
	p.Run("caches.open('trail-field-kit:/:" + old + "').then((cache) => cache.delete('" + lost + "')).then(() => { fieldkitOfflineReady(true); })")
	select { // the old version mends itself, and waits for an answer
	case <-asked:
	case <-time.After(30 * time.Second):
		require.Fail(t, "nobody asked for "+lost)
	}
	p.Tap("button:Use it now")
	p.See("Changing to the new version …")
	return s, p, release
}

// The system cleared the program's files and left the kit: the next visit with signal
// makes it whole again, unasked, in the version that is served by then.
func TestClearedFilesComeBack(t *testing.T) {
	for name, edition := range map[string]int{"the same version": 1, "a later version": 2} {
		t.Run(name, func(t *testing.T) {
			s := serve(t)
			p := newPhone(t, s)
			p.Open("/")
			p.WaitStored()
			p.Tap("button:Begin with my rig")
			p.See("Counter-ready")
			require.True(t, ask[bool](p, "caches.keys().then((names) => Promise.all(names.map((name) => caches.delete(name)))).then(() => true)"))
			s.Publish(edition)
			p.Open("/kit")
			p.See("used of")
			p.WaitFor("all of it", "fieldkitOffline.state === 'ready' && fieldkitOfflineReady().then((copy) => copy.ready && copy.version === '"+s.Version()+"')")
			p.SeeNot("A new version is here")
			s.Stop()
			p.Open("/rig")
			assert.Equal(t, s.Version(), p.Version())
			assert.True(t, p.Stored().Ready)
			p.SeeNot("Begin with my rig")
			p.SeeNot("A new version is here")
		})
	}
}

// clearData deletes the databases of this site, and its texts if they go too, from a
// page on which the program does not run.
func (v *traveller) clearData(texts bool) {
	v.t.Helper()
	v.VisitNoted("/plain/emergency")
	v.See("Stop at once")
	script := `indexedDB.databases().then((list) => Promise.all(list.map(({ name }) => new Promise((done) => {
		const asked = indexedDB.deleteDatabase(name);
		asked.onsuccess = asked.onerror = () => done();
	})))).then(() => true)`
	require.True(v.t, ask[bool](v.phone, script))
	v.clearSecond()
	if texts {
		v.Run("localStorage.clear()")
	}
}

// The kit was cleared and the program stayed: an empty kit in its place would look as
// if nothing had ever been written down. It says what is gone and leads to a backup.
func TestKitThatIsGoneIsSaid(t *testing.T) {
	bundle, err := passon.Card(data.DemoKit(), "pads-front")
	require.NoError(t, err)
	code, err := passon.Encode(bundle)
	require.NoError(t, err)
	for name, texts := range map[string]bool{"databases": false, "databases and texts": true} {
		t.Run(name, func(t *testing.T) {
			v := begun(t)
			v.WaitPlain("/plain/emergency")
			v.clearData(texts)
			v.Open("/rig")
			v.See("The kit that was kept here is gone", "Last opened", "cleared the data of this app", "Begin with my rig")
			v.Reload()
			v.See("The kit that was kept here is gone") // it is said until something is begun
			v.Open("/take#" + code)                     // nor is it taken for a new phone when something is passed on
			v.See("Passed on to you", "The kit that was kept here is gone")
			assert.NotContains(t, v.Text(), "There is no kit on this phone yet")
			v.Tap("button:Restore a backup")
			v.See("Keep it somewhere else than on this phone")
			v.At("/kit")
			v.Open("/rig")
			v.SeeNot("is gone")
		})
	}
}

// Reload, back, forward, the icon on the home screen and a second tab, all without
// signal.
func TestMovesWithoutSignal(t *testing.T) {
	v := withDemo(t, padsCard)
	v.See("Measure before you pay")
	v.Reload()
	v.See("Measure before you pay")
	v.Go("/pack")
	v.See("Trips to come")
	v.Back()
	v.See("Measure before you pay")
	v.Forward()
	v.See("Trips to come")
	v.Reload()
	v.Back() // over a reload
	v.See("Measure before you pay")

	icon := ask[string](v.phone, "fetch('/manifest.webmanifest').then((r) => r.json()).then((m) => m.start_url)")
	require.NotEmpty(t, icon)
	v.OpenBeside(icon)
	v.See("Demo kit, all invented")
	assert.True(t, v.Stored().Ready)
	v.OpenBeside("/repair")
	v.See("What do you hear")
	v.DieAndWake(icon)
	v.See("Demo kit, all invented")
}
