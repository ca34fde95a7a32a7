//go:build browser

package browsertest

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/cmd/internal/chromium"
	"trailfieldkit/web"
)

// The browser fetches the picture for the tab outside of page and worker.
const favicon = "icons/icon.svg"

func TestAnyAddressOpensWithoutSignal(t *testing.T) {
	s := serve(t)
	p := visited(t, s)
	s.Stop()
	p.Die()
	for _, address := range []string{"/", "/?src=home", "/counter", "/rig/front-axle/left.hub?tab=2#torque", "/index.html"} {
		p.Wake()
		p.Open(address) // a fresh tab of a fresh process
		assert.Equal(t, s.Version(), p.Version(), address)
		fromStore := func(r chromium.Request) bool {
			return r.FromWorker || strings.HasSuffix(r.URL, favicon) || strings.HasSuffix(r.URL, web.OfferedKit)
		}
		soon(t, "an answer to all that was asked for", func() bool {
			return !slices.ContainsFunc(p.page.Requests(), func(r chromium.Request) bool { return !fromStore(r) && r.Status == 0 && r.Failed == "" })
		})
		for _, r := range p.page.Requests() {
			assert.True(t, fromStore(r), "%s was not answered from the store", r.URL)
		}
		p.Die()
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

// A host that redirects a file, as many do with /index.html, still gives a store
// that opens: a redirected answer as such could not.
func TestRedirectingHostStillOpensWithoutSignal(t *testing.T) {
	s := serve(t)
	s.Break("", redirected)
	p := visited(t, s)
	s.Stop()
	p.Open("/counter")
	assert.Equal(t, s.Version(), p.Version())
}

// Two copies on one host, under two paths, keep their stores apart.
func TestTwoCopiesOnOneHost(t *testing.T) {
	s := serveUnder(t, "/north/")
	other := site(t, "/south/", 1)
	north := s.handler
	s.handler = pathSwitch(map[string]handler{"/north/": north, "/south/": other.Handler(nil)})
	p := visited(t, s)
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
