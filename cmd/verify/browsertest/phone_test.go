//go:build browser

package browsertest

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/cmd/internal/chromium"
)

// phone is a phone with the program in its browser. Its methods fail the test when
// what they wait for does not come. Things are named by what a person reads:
// "Save", "button:Save", "field:Search", "css:#plan li".
type phone struct {
	t       *testing.T
	browser *chromium.Browser
	page    *chromium.Page // the tab in hand
	server  *server
}

// newPhone is a new phone that has never seen the program.
func newPhone(t *testing.T, s *server) *phone {
	t.Helper()
	// The profile is the test's, so that it outlives the browser.
	browser, err := chromium.Start(context.Background(), chromium.Options{Phone: true, Profile: profile(t)})
	require.NoError(t, err)
	p := &phone{t: t, browser: browser, server: s}
	t.Cleanup(func() {
		if t.Failed() {
			p.leavePicture()
		}
		p.browser.Kill()
	})
	return p
}

// visited is a new phone after a first visit: the program runs, and every file of it is
// kept.
func visited(t *testing.T, s *server) *phone {
	t.Helper()
	p := newPhone(t, s)
	p.Open("/")
	p.WaitStored()
	return p
}

// profile is a folder that is removed when no process writes to it any more.
func profile(t *testing.T) string {
	t.Helper()
	dir, err := os.MkdirTemp("", "fieldkit-phone-")
	require.NoError(t, err)
	t.Cleanup(func() {
		assert.Eventually(t, func() bool { return os.RemoveAll(dir) == nil }, time.Minute, 50*time.Millisecond)
	})
	return dir
}

func (p *phone) leavePicture() {
	if p.page == nil {
		return
	}
	name := strings.NewReplacer("/", "-", " ", "-").Replace(p.t.Name()) + ".png"
	file := filepath.Join(os.TempDir(), "trail-field-kit-failed", name)
	if p.page.Screenshot(file) == nil {
		p.t.Logf("the screen at the end: %s", file)
	}
}

// Open opens a path of the program in a new tab and waits until it runs.
func (p *phone) Open(path string) {
	p.t.Helper()
	p.Visit(path)
	p.WaitRunning()
}

// Visit opens a path in a new tab and waits for nothing more.
func (p *phone) Visit(path string) {
	p.t.Helper()
	page, err := p.browser.Open(p.server.URL(path))
	require.NoError(p.t, err)
	p.page = page
}

// WaitRunning waits until the program has drawn its first screen.
func (p *phone) WaitRunning() {
	p.t.Helper()
	p.WaitFor("the program to run", "document.documentElement.dataset.start === 'running'")
}

// Tap touches something.
func (p *phone) Tap(what string) { p.t.Helper(); require.NoError(p.t, p.page.Tap(what)) }

// Fill types into a field in place of what it holds.
func (p *phone) Fill(label, text string) {
	p.t.Helper()
	require.NoError(p.t, p.page.Fill(label, text))
}

// Choose picks an entry of a list field.
func (p *phone) Choose(label, entry string) {
	p.t.Helper()
	require.NoError(p.t, p.page.Choose(label, entry))
}

// Press presses keys, such as kb.Enter.
func (p *phone) Press(keys string) { p.t.Helper(); require.NoError(p.t, p.page.Press(keys)) }

// Upload puts files into a file field.
func (p *phone) Upload(what string, files ...string) {
	p.t.Helper()
	require.NoError(p.t, p.page.Upload(what, files...))
}

// See waits until each text is on the screen.
func (p *phone) See(texts ...string) {
	p.t.Helper()
	for _, text := range texts {
		require.NoError(p.t, p.page.WaitText(text))
	}
}

// SeeNot waits until a text is no longer on the screen.
func (p *phone) SeeNot(text string) { p.t.Helper(); require.NoError(p.t, p.page.WaitGone(text)) }

// Text is all that can be read on the screen.
func (p *phone) Text() string {
	p.t.Helper()
	text, err := p.page.Text()
	require.NoError(p.t, err)
	return strings.ReplaceAll(text, "\u00a0", " ") // where a line may not break is no matter here
}

// TextOf is the text of one thing.
func (p *phone) TextOf(what string) string {
	p.t.Helper()
	text, err := p.page.TextOf(what)
	require.NoError(p.t, err)
	return text
}

// WaitFor waits until a script's expression is true.
func (p *phone) WaitFor(what, expression string) {
	p.t.Helper()
	require.NoError(p.t, p.page.WaitFor(what, expression))
}

// Run runs a script for what it does.
func (p *phone) Run(script string) { p.t.Helper(); require.NoError(p.t, p.page.Run(script)) }

// ask evaluates a script in the phone's page.
func ask[T any](p *phone, script string) T {
	p.t.Helper()
	value, err := chromium.Eval[T](p.page, script)
	require.NoError(p.t, err)
	return value
}

// Path is the address after the host.
func (p *phone) Path() string {
	p.t.Helper()
	return ask[string](p, "location.pathname + location.search")
}

// Reload loads the page again.
func (p *phone) Reload() { p.t.Helper(); require.NoError(p.t, p.page.Reload()) }

// Back goes one page back.
func (p *phone) Back() { p.t.Helper(); require.NoError(p.t, p.page.Back()) }

// Screenshot writes what the screen shows to a file.
func (p *phone) Screenshot(file string) { p.t.Helper(); require.NoError(p.t, p.page.Screenshot(file)) }

// Die ends every process of the browser at once, as an empty battery does.
func (p *phone) Die() {
	p.browser.Kill()
	p.page = nil
}

// Wake starts the same phone again after Die. No tab is open.
func (p *phone) Wake() {
	p.t.Helper()
	browser, err := p.browser.Restart(context.Background())
	require.NoError(p.t, err)
	p.browser = browser
}

// Quiet checks that the page has logged no fault since it was opened or asked last.
func (p *phone) Quiet() { p.t.Helper(); assert.Empty(p.t, p.page.Faults()) }

// stored is what the worker says of the copy it keeps.
type stored struct {
	Ready   bool     `json:"ready"`
	Missing []string `json:"missing"`
	Version string   `json:"version"`
	Why     string   `json:"why"`
}

// Stored asks the worker to check every file it keeps.
func (p *phone) Stored() stored { p.t.Helper(); return ask[stored](p, "fieldkitOfflineReady()") }

// WaitStored waits until every file is kept and checked: ready for no signal.
func (p *phone) WaitStored() {
	p.t.Helper()
	p.WaitFor("the stored copy", "fieldkitOfflineReady().then((copy) => copy.ready)")
	require.True(p.t, p.Stored().Ready)
}

// LookForUpdate asks for a new version until one waits. Once may not do: the browser
// answers with what it found out just before, if it was looking already.
func (p *phone) LookForUpdate() {
	p.t.Helper()
	p.WaitFor("the new version to wait", `fieldkitUpdateReady ||
		new Promise((looked) => { goappTryUpdate(); setTimeout(() => looked(fieldkitUpdateReady), 3000); })`)
}

// Stores lists the stores of versions of the program in the browser's cache.
func (p *phone) Stores() []string {
	p.t.Helper()
	return ask[[]string](p, "caches.keys().then((names) => names.filter((name) => name.startsWith('trail-field-kit:')))")
}

// openStored is a script that opens the store of the version that runs.
const openStored = "caches.open(`trail-field-kit:${goappGetenv('GOAPP_ROOT_PREFIX')}/:${goappGetenv('GOAPP_VERSION')}`)"

// Version is the version of the program that runs in the page.
func (p *phone) Version() string { p.t.Helper(); return ask[string](p, "goappGetenv('GOAPP_VERSION')") }

// WaitVersion waits until a version runs in the page. The one before it ends what it is
// doing first, however long that lasts.
func (p *phone) WaitVersion(version string) {
	p.t.Helper()
	defer func(limit time.Duration) { p.page.Limit = limit }(p.page.Limit)
	p.page.Limit = 2 * time.Minute
	p.WaitFor("the new version", "globalThis.goappGetenv && goappGetenv('GOAPP_VERSION') === '"+version+"'")
}
