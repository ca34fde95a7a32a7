//go:build browser

package browsertest

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit/passon"
)

// The system cleared the program's files and left the kit: the next visit with signal
// makes it whole again, unasked, in the version that is served by then.
func TestClearedFilesComeBack(t *testing.T) {
	for name, edition := range map[string]int{"the same version": 1, "a later version": 2} {
		t.Run(name, func(t *testing.T) {
			s := serve(t)
			p := visited(t, s)
			p.Tap("button:Begin with my rig")
			p.See("Counter-ready")
			require.True(t, ask[bool](p, "caches.keys().then((names) => Promise.all(names.map((name) => caches.delete(name)))).then(() => true)"))
			s.Publish(edition)
			p.Open("/kit")
			p.See("used of")
			p.WaitFor("all of it", "fieldkitOffline.state === 'ready' && fieldkitOfflineReady().then((copy) => copy.ready && copy.version === '"+s.Version()+"')")
			p.SeeNot("A new version is here")
			assert.False(t, ask[bool](p, "fieldkitUpdateReady"))
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
