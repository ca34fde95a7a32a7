//go:build browser

package browsertest

import (
	"context"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit/passon"
	"trailfieldkit/web"
)

type handler = http.Handler

// pathSwitch serves several sites on one host.
func pathSwitch(sites map[string]handler) handler {
	mux := http.NewServeMux()
	for base, site := range sites {
		mux.Handle(base, site)
	}
	return mux
}

// Nothing leaves for another host, and the page's policy would not let it.
func TestNoForeignHost(t *testing.T) {
	s := serve(t)
	p := visited(t, s)
	p.Reload()
	p.WaitRunning()
	for _, r := range p.page.Requests() {
		assert.True(t, strings.HasPrefix(r.URL, s.URL("/")) || strings.HasPrefix(r.URL, "blob:") ||
			strings.HasPrefix(r.URL, "data:"), "%s is not ours", r.URL)
	}
	p.Quiet()
	assert.Empty(t, p.browser.ForeignRequests())

	assert.Equal(t, web.Policy, ask[string](p, `document.querySelector('meta[http-equiv=Content-Security-Policy]').content`))
	head, err := http.Get(s.URL("/"))
	require.NoError(t, err)
	head.Body.Close()
	assert.Equal(t, web.HeaderPolicy, head.Header.Get("Content-Security-Policy"))

	// The policy does what it says.
	assert.Equal(t, "refused", ask[string](p, `fetch('https://example.org/').then(() => 'answered', () => 'refused')`))
	assert.Equal(t, "refused", ask[string](p, `new Promise((done) => {
		const picture = new Image();
		picture.onload = () => done('loaded');
		picture.onerror = () => done('refused');
		picture.src = 'https://example.org/a.png';
	})`))
	p.Run(`(() => { const s = document.createElement('script'); s.textContent = 'globalThis.inlineRan = true'; document.head.append(s); })()`)
	assert.False(t, ask[bool](p, "Boolean(globalThis.inlineRan)"), "an inline script ran")
	assert.NotEmpty(t, p.page.Faults(), "the browser complains of what it refused")
	assert.Empty(t, p.browser.ForeignRequests())

	// So does that of the page the worker makes itself: its header and its element.
	s.Stop()
	for _, path := range []string{"/", "/counter", "/no/such/page"} {
		p.Open(path)
		assert.ElementsMatch(t, []string{web.Policy, web.HeaderPolicy}, p.policiesBroken(), path)
	}
}

// policiesBroken lists the policies that an inline script offends.
func (p *phone) policiesBroken() []string {
	p.t.Helper()
	return ask[[]string](p, `new Promise((done) => {
		const broken = [];
		addEventListener('securitypolicyviolation', (e) => broken.push(e.originalPolicy));
		const s = document.createElement('script');
		s.textContent = 'globalThis.inlineRan = true';
		document.head.append(s);
		setTimeout(() => done(globalThis.inlineRan ? ['an inline script ran'] : broken), 1000);
	})`)
}

// Chromium itself says whether the program can be put on the home screen.
func TestCanBePutOnTheHomeScreen(t *testing.T) {
	p := visited(t, serve(t))
	require.NoError(t, p.page.Do(func(ctx context.Context, target *chromedp.Target) error {
		found, err := cdp.Call(ctx, target, page.GetInstallabilityErrors, cdp.Empty{})
		if err != nil {
			return err
		}
		for _, fault := range found.InstallabilityErrors {
			t.Errorf("not installable: %s", fault.ErrorID)
		}
		manifest, err := cdp.Call(ctx, target, page.GetAppManifest, page.GetAppManifestParams{})
		if err != nil {
			return err
		}
		for _, fault := range manifest.Errors {
			t.Errorf("manifest, line %d: %s", fault.Line, fault.Message)
		}
		return nil
	}))
}

// The site that "fieldkit site" writes, on a plain file host under a path.
func TestStaticSiteUnderAPath(t *testing.T) {
	root, err := filepath.Abs("../../..")
	require.NoError(t, err)
	folder := filepath.Join(t.TempDir(), "public")
	write := exec.Command("go", "run", "./cmd/fieldkit", "site", "-plain", "-base", "/garage/kit/", folder)
	write.Dir = root
	said, err := write.CombinedOutput()
	require.NoError(t, err, string(said))

	s := serveUnder(t, "/garage/kit/")
	s.handler = plainHost("/garage/kit/", folder)
	p := newPhone(t, s)
	p.Open("/counter") // the first visit may well begin with a link
	p.WaitStored()
	stored := p.Version()
	s.Stop()
	for _, address := range []string{"/", "/counter", "/rig/part?x=1"} {
		p.Open(address)
		assert.Equal(t, stored, p.Version())
	}
	p.Die()
	p.Wake()
	p.Open("/log")
	assert.Equal(t, stored, p.Version())

	// A link that is passed on lies where the installed program answers, on both sides.
	card, err := passon.Card(data.DemoKit(), "pads-front")
	require.NoError(t, err)
	code, err := passon.Encode(card)
	require.NoError(t, err)
	p.Open("/take#" + code)
	p.See("Passed on to you: " + card.Title())
	p.Open("/")
	p.Tap("button:Look around with the demo kit")
	p.See("Demo kit, all invented")
	p.Open("/pass?part=pads-front")
	p.See("Hold it before the camera of the other phone")
	p.Run(`navigator.share = (what) => { globalThis.sent = what.text; return Promise.resolve(); }`)
	p.Tap("button:Share the link")
	p.See("Shared.")
	link := ask[string](p, "sent")
	assert.True(t, strings.HasPrefix(link, s.URL("/take#")), link)
	scope := ask[string](p, `fetch(document.querySelector('link[rel=manifest]').href).then((answer) => answer.json()).then((manifest) => new URL(manifest.scope, location.href).href)`)
	assert.Equal(t, s.URL("/"), scope)
	p.Open(strings.TrimPrefix(link, strings.TrimSuffix(s.URL("/"), "/")))
	p.See("Passed on to you", "Add it to the demo kit")
}

// plainHost serves a folder as simple hosts do: the file if there is one, else the
// page 404.html with that status; /index.html redirects to its folder.
func plainHost(base, folder string) handler {
	files := http.StripPrefix(strings.TrimSuffix(base, "/"), http.FileServer(http.Dir(folder)))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name := filepath.Join(folder, filepath.FromSlash(strings.TrimPrefix(r.URL.Path, base)))
		if _, err := os.Stat(name); err == nil {
			files.ServeHTTP(w, r)
			return
		}
		page, err := os.ReadFile(filepath.Join(folder, web.ShellDeep))
		if err != nil {
			http.NotFound(w, r)
			return
		}
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.WriteHeader(http.StatusNotFound)
		w.Write(page)
	})
}
