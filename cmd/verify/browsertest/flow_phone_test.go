//go:build browser

package browsertest

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/cmd/internal/chromium"
	"trailfieldkit/web"
)

// TestMain removes what the first visit left for all tests.
func TestMain(m *testing.M) {
	status := m.Run()
	if firstVisit.profile != "" {
		os.RemoveAll(firstVisit.profile)
	}
	os.Exit(status)
}

// firstVisit is a phone as it is after one visit with signal: the program is stored
// and checked, no kit is begun. Every traveller begins with a copy of it, so that
// the first visit is waited for once.
var firstVisit struct {
	sync.Mutex
	profile string
	address string
}

// traveller is a phone that visited the program once and has had no signal since.
// Whatever it does, it must ask no foreign host, log no fault and write nothing with
// less than strict durability: that is checked when its test ends.
type traveller struct {
	*phone
	tabs    []*chromium.Page
	forgive []string // parts of logged faults that the test provokes
	foreign []string // hosts asked for by browsers that are gone
}

// away is such a phone, at the start of its journey, with no tab open.
func away(t *testing.T) *traveller {
	t.Helper()
	visitOnce(t)
	folder := profile(t)
	require.NoError(t, os.CopyFS(folder, os.DirFS(firstVisit.profile)))
	browser, err := chromium.Start(context.Background(), chromium.Options{Phone: true, Profile: folder})
	require.NoError(t, err)
	// Nothing listens at that address any more.
	nobody := &server{t: t, address: firstVisit.address, base: "/"}
	v := &traveller{phone: &phone{t: t, browser: browser, server: nobody}}
	t.Cleanup(func() {
		if t.Failed() {
			v.leavePicture()
		} else {
			v.checkManners()
		}
		v.browser.Kill()
	})
	return v
}

// withDemo is a traveller that looks around in the demo kit, at a screen of it.
func withDemo(t *testing.T, path string) *traveller {
	t.Helper()
	v := away(t)
	v.Open("/rig")
	require.True(t, v.Stored().Ready)
	v.Tap("button:Look around with the demo kit")
	v.See("Demo kit, all invented")
	v.Go(path)
	return v
}

func visitOnce(t *testing.T) {
	t.Helper()
	firstVisit.Lock()
	defer firstVisit.Unlock()
	if firstVisit.profile != "" {
		return
	}
	s := serve(t)
	folder, err := os.MkdirTemp("", "fieldkit-visited-")
	require.NoError(t, err)
	browser, err := chromium.Start(context.Background(), chromium.Options{Phone: true, Profile: folder})
	require.NoError(t, err)
	p := &phone{t: t, browser: browser, server: s}
	defer browser.Kill()
	p.Open("/")
	p.WaitStored()
	s.Stop()
	p.Open("/") // what the browser keeps of a second start is kept too
	browser.Close()
	locks, err := filepath.Glob(filepath.Join(folder, "Singleton*"))
	require.NoError(t, err)
	for _, lock := range locks {
		require.NoError(t, os.Remove(lock))
	}
	firstVisit.profile, firstVisit.address = folder, s.address
}

// watchPage makes a page say in its console how every transaction was opened, and
// which theme it had before the program ran.
const watchPage = `(() => {
	const open = IDBDatabase.prototype.transaction;
	IDBDatabase.prototype.transaction = function (...args) {
		const transaction = open.apply(this, args);
		console.debug('transaction ' + transaction.mode + ' ' + transaction.durability);
		return transaction;
	};
	document.addEventListener('DOMContentLoaded', () => {
		const { theme, start } = document.documentElement.dataset;
		console.debug('theme at first: ' + (start === 'running' ? 'too late to tell' : theme));
	});
})()`

// Open opens a path in a fresh tab, in place of the one in hand.
func (v *traveller) Open(path string) {
	v.t.Helper()
	old := v.page
	v.OpenBeside(path)
	if old != nil {
		old.Close()
	}
}

// OpenBeside opens a path in a fresh tab and leaves the others open.
func (v *traveller) OpenBeside(path string) {
	v.t.Helper()
	v.blank(watchPage)
	require.NoError(v.t, v.page.Goto(v.server.URL(path)))
	v.WaitKit()
}

// blank takes up an empty tab that runs a script before each document's own.
func (v *traveller) blank(script string) {
	v.t.Helper()
	page, err := v.browser.Blank()
	require.NoError(v.t, err)
	require.NoError(v.t, page.OnEachDocument(script))
	v.page = page
	v.tabs = append(v.tabs, page)
}

// Reload loads the page again and waits for the kit.
func (v *traveller) Reload() {
	v.t.Helper()
	v.phone.Reload()
	v.WaitKit()
}

// WaitKit waits until the kit is open, or the choice of one is offered.
func (v *traveller) WaitKit() {
	v.t.Helper()
	v.WaitRunning()
	v.WaitFor("the kit", `['open', 'choosing'].includes(document.querySelector('[data-phase]')?.dataset.phase)`)
}

// Go opens another screen as a link on the page would.
func (v *traveller) Go(path string) {
	v.t.Helper()
	v.Run(fmt.Sprintf(`(() => {
		const link = document.createElement('a');
		link.href = %q;
		document.body.append(link);
		link.click();
		link.remove();
	})()`, path))
	v.At(path)
}

// At waits until the address begins so and its screen is drawn.
func (v *traveller) At(path string) {
	v.t.Helper()
	v.WaitFor("the address "+path, fmt.Sprintf(`(location.pathname + location.search).startsWith(%q)`, path))
	v.WaitFor("the screen of "+path, `document.documentElement.dataset.drawn === location.href`)
	v.Settle()
}

// Settle waits until what is asked for is drawn.
func (v *traveller) Settle() {
	v.t.Helper()
	v.Run(`new Promise((done) => { setTimeout(done, 500); requestAnimationFrame(() => requestAnimationFrame(done)); })`)
}

// Forward goes one page forward.
func (v *traveller) Forward() { v.t.Helper(); require.NoError(v.t, v.page.Forward()) }

// Fold opens or closes what is folded under a heading.
func (v *traveller) Fold(name string) { v.t.Helper(); v.Tap("button:" + name) }

// Die ends every process of the browser at once, as an empty battery does.
func (v *traveller) Die() {
	v.foreign = append(v.foreign, v.browser.ForeignRequests()...)
	v.phone.Die()
}

// DieAndWake is an empty battery and a charger, still without signal.
func (v *traveller) DieAndWake(path string) {
	v.t.Helper()
	v.Die()
	v.Wake()
	v.Open(path)
}

// Writes counts the transactions that could write, by their durability.
func (v *traveller) Writes() map[string]int {
	count := map[string]int{}
	for _, tab := range v.tabs {
		for _, line := range tab.Console() {
			if durability, is := strings.CutPrefix(line, "debug: transaction readwrite "); is {
				count[durability]++
			}
		}
	}
	return count
}

// checkManners checks what must hold for whatever was done on this phone.
func (v *traveller) checkManners() {
	for _, tab := range v.tabs {
		for _, r := range tab.Requests() {
			own := strings.HasPrefix(r.URL, v.server.URL("/")) || strings.HasPrefix(r.URL, "blob:") || strings.HasPrefix(r.URL, "data:") ||
				r.URL == "about:blank"
			assert.True(v.t, own, "%s is not ours", r.URL)
		}
		for _, fault := range tab.Faults() {
			if !slices.ContainsFunc(v.forgive, func(part string) bool { return strings.Contains(fault, part) }) && !noSignal(fault) {
				v.t.Errorf("the page logged a fault: %s", fault)
			}
		}
	}
	assert.Empty(v.t, append(v.foreign, v.browser.ForeignRequests()...))
	for durability, n := range v.Writes() {
		assert.Equal(v.t, "strict", durability, "%d transactions that may write", n)
	}
}

// noSignal tells what the browser itself logs when it looks for the picture of the
// tab or a new version and nobody answers.
func noSignal(fault string) bool {
	return strings.Contains(fault, "net::ERR_CONNECTION_REFUSED") &&
		(strings.Contains(fault, favicon) || strings.Contains(fault, "worker.js") || strings.Contains(fault, web.OfferedKit))
}

// soon waits for something outside the page, such as a file.
func soon(t *testing.T, what string, met func() bool) {
	t.Helper()
	require.Eventually(t, met, 30*time.Second, 50*time.Millisecond, what)
}
