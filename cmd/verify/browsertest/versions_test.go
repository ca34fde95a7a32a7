//go:build browser

package browsertest

import (
	"net/http"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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
		"the program traps at once": {"The program stopped", func(in *web.Input) {
			in.WasmExec = append(in.WasmExec[:len(in.WasmExec):len(in.WasmExec)],
				"\nGo.prototype.run = async function () { throw new WebAssembly.RuntimeError('unreachable'); };\n"...)
		}},
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
			p.See("Rig")
			p.Visit("/kit")
			p.See("used of", "which did not start here", "Try the newest again") // what comes late moves the rest
			p.WaitFor("nothing to move any more", "new Promise((still) => setTimeout(() => still(true), 1000))")
			p.Tap("link:Try the newest again")
			p.See(c.says)
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

// The old version ends what it is doing before the new one takes over. However long that
// lasts, the word holds, and the page does not start again in the old one.
func TestUpdateWhileTheOldVersionIsBusy(t *testing.T) {
	s, p := storedDemo(t)
	old := p.Version()
	s.Publish(2)
	p.LookForUpdate()
	const lost = "wasm_exec.js" // differs between the two: it cannot be taken from the new one
	hold, release := held()
	defer release()
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
	p.WaitFor("a while to pass", "new Promise((passed) => setTimeout(() => passed(true), 7000))")
	p.See("Changing to the new version …")
	assert.Equal(t, old, p.Version())
	release()
	p.WaitFor("the new version", "globalThis.goappGetenv && goappGetenv('GOAPP_VERSION') === '"+s.Version()+"'")
	p.See("Demo kit, all invented")
	p.SeeNot("Changing to the new version …")
}

// The system cleared the program's files and left the kit: the next visit with signal
// makes it whole again, unasked.
func TestClearedFilesComeBack(t *testing.T) {
	s := serve(t)
	p := newPhone(t, s)
	p.Open("/")
	p.WaitStored()
	p.Tap("button:Begin with my rig")
	p.See("Rig")
	require.True(t, ask[bool](p, "caches.keys().then((names) => Promise.all(names.map((name) => caches.delete(name)))).then(() => true)"))
	p.Open("/kit")
	p.WaitFor("all of it", "fieldkitOfflineReady().then((copy) => copy.ready)")
	s.Stop()
	p.Open("/rig")
	assert.True(t, p.Stored().Ready)
	p.SeeNot("Begin with my rig")
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
