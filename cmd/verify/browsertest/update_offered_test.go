//go:build browser

package browsertest

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/web"
)

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
	p.WaitVersion(s.Version())
	p.WaitRunning()
	assert.Equal(t, "/counter?q=pads", p.Path(), "on the page where one was")
	assert.True(t, p.Stored().Ready)
	p.WaitFor("the store of the old version to go", "caches.keys().then((names) => names.filter((n) => n.startsWith('trail-field-kit:')).length === 1)")
	assert.Equal(t, []string{"trail-field-kit:/:" + s.Version()}, p.Stores())

	p.page = rig // the other tab is told, and not reloaded under the hand
	p.WaitFor("the offer in the other tab", "fieldkitUpdateReady")
	assert.Equal(t, old, p.Version())
	p.Run("fieldkitApplyUpdate()")
	p.WaitVersion(s.Version())

	s.Stop()
	p.Open("/repair")
	assert.Equal(t, s.Version(), p.Version())
}

// A new version that does not arrive whole leaves the old one in charge, with and
// without signal, whatever comes instead of a file.
func TestBrokenUpdateLeavesTheOldVersion(t *testing.T) {
	s := serve(t)
	p := visited(t, s)
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

// storedDemo is a phone that has the program stored and shows the demo kit.
func storedDemo(t *testing.T) (*server, *phone) {
	t.Helper()
	s := serve(t)
	p := visited(t, s)
	p.Tap("button:Look around with the demo kit")
	p.See("Demo kit, all invented")
	return s, p
}

// versionWaits is such a phone, on which a new version waits beside the old one.
func versionWaits(t *testing.T) (s *server, p *phone, old string) {
	t.Helper()
	s, p = storedDemo(t)
	old = p.Version()
	s.Publish(2)
	p.LookForUpdate()
	return s, p, old
}

// A new version is offered with the next screen: said over the one in hand, it would move
// what is under the thumb. While something typed is not saved, it waits, also for a tap.
func TestUpdateWaitsForWhatIsTyped(t *testing.T) {
	s, p, old := versionWaits(t)
	p.WaitFor("two frames", `new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(() => drawn(true), 500))))`)
	assert.NotContains(t, p.Text(), "A new version is here")
	p.Tap("link:About this rig")
	p.See("A new version is here")
	p.Fill("Name", "Hobnail the second")
	p.Tap("button:Use it now")
	p.See("something is typed or picked here and not saved")
	assert.Equal(t, old, p.Version())
	p.Tap("button:Save rig")
	p.See("Saved rig: Hobnail the second")
	p.Tap("button:Use it now")
	p.WaitVersion(s.Version())
	p.See("Hobnail the second")
}

// Who stays on one screen is told while the phone is put away.
func TestUpdateIsOfferedWhileNobodyLooks(t *testing.T) {
	_, p, _ := versionWaits(t)
	p.Run(`Object.defineProperty(document, 'visibilityState', { value: 'hidden', configurable: true })`)
	p.Run(`document.dispatchEvent(new Event('visibilitychange'))`)
	p.See("A new version is here")
}

// With no word said, a new version is used when the phone was off, or all pages closed.
func TestUpdateIsUsedAtTheNextStart(t *testing.T) {
	s, p, old := versionWaits(t)
	p.Die()
	s.Stop()
	p.Wake()
	p.Visit("/log")
	p.WaitVersion(s.Version())
	p.WaitRunning()
	assert.NotEqual(t, old, p.Version())
	p.See("What broke on Hobnail?")
}

// Nor does a new version break off what is under way.
func TestUpdateWaitsForWork(t *testing.T) {
	s, p, old := versionWaits(t)
	(&traveller{phone: p}).Go("/log/failure?position=hobnail-front-brake-pads")
	p.See("What broke", "A new version is here")
	p.Run("globalThis.createImageBitmap = () => new Promise((_, refuse) => { globalThis.letGo = refuse; })")
	photo := filepath.Join(t.TempDir(), "photo.jpg")
	require.NoError(t, os.WriteFile(photo, []byte("being made smaller"), 0o600))
	p.Upload("css:main input[type=file]", photo)
	p.See("Making the photo smaller …")
	p.Tap("button:Use it now")
	p.See("something is still being worked on here")
	assert.Equal(t, old, p.Version())
	p.Run("letGo(new Error('no picture'))")
	p.See("this picture cannot be read")
	p.Tap("button:Use it now")
	p.WaitVersion(s.Version())
}
