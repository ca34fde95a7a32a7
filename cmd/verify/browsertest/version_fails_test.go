//go:build browser

package browsertest

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/cmd/internal/chromium"
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

// running lets the program of an Input do something else in place of running.
func running(does string) func(*web.Input) {
	return func(in *web.Input) {
		in.WasmExec = append(in.WasmExec[:len(in.WasmExec):len(in.WasmExec)], "\nGo.prototype.run = async function () { "+does+" };\n"...)
	}
}

// StartVersionBefore taps the way back that a version which does not start offers.
func (p *phone) StartVersionBefore(version string) {
	p.t.Helper()
	p.Tap("link:Start the version before this one")
	p.WaitRunning()
	assert.Equal(p.t, version, p.Version())
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
			p := visited(t, s)
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
			p.StartVersionBefore(old)
			p.See("Begin with my rig")
			assert.True(t, p.Stored().Ready)
			p.Die()
			p.Wake()
			p.Open("/log")
			assert.Equal(t, old, p.Version(), "the choice holds")
			p.Tap("button:Begin with my rig")
			p.See("Counter-ready")
			p.Visit("/kit")
			p.See("which did not start here")
			p.Tap("link:Try the newest again")
			p.See(c.says)
			assert.Zero(t, ask[int](p, moved(`[href="/previous-version"]`)), "it stays where the thumb is going")
			p.StartVersionBefore(old)

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

// A new version that begins and never draws a screen says so after a while, and offers the
// one before it.
func TestVersionThatNeverDraws(t *testing.T) {
	s := serve(t)
	p := visited(t, s)
	old := p.Version()
	s.PublishBroken(running("await new Promise(() => {});"))
	p.LookForUpdate()
	p.page.Limit = 2 * time.Minute
	p.Run("fieldkitApplyUpdate()")
	p.See("takes long to open", "Start the version before this one")
	s.Stop()
	p.StartVersionBefore(old)
}

// One that keeps the whole page from answering leaves no moment to choose. From the third
// time on it is loaded only on the person's word.
func TestVersionThatHangsThePage(t *testing.T) {
	s := serve(t)
	p := visited(t, s)
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
	p.StartVersionBefore(old)
}
