//go:build browser

package browsertest

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

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

// heldVisit is a first visit in which the download of one file, which only the worker asks
// for, stands still until it is released.
func heldVisit(t *testing.T) (s *server, p *phone, release func()) {
	t.Helper()
	s = serve(t)
	how, release := held()
	t.Cleanup(release)
	s.Break("icons/icon-512.png", how)
	p = newPhone(t, s)
	p.Open("/")
	return s, p, release
}

// Nor does anything move in a kit that was begun meanwhile: the line on top says that all
// is stored, until the next screen.
func TestFirstScreenStandsStill(t *testing.T) {
	_, p, release := heldVisit(t)
	p.Tap("button:Begin with my rig")
	p.See("Counter-ready", "Not ready for no signal yet")
	stands := func() float64 {
		return ask[float64](p, `document.querySelector('main .screen').nextElementSibling.getBoundingClientRect().top`)
	}
	before := stands()
	release()
	p.WaitStored()
	p.See("Ready for no signal: ")
	assert.Equal(t, before, stands())
	p.Tap("link:Log")
	p.SeeNot("Ready for no signal: ")
}

// At the edge of the signal a download neither goes on nor ends: it is given up, said, and
// tried again.
func TestVisitThatStandsStillIsGivenUp(t *testing.T) {
	s, p, _ := heldVisit(t)
	p.page.Limit = 3 * time.Minute
	p.WaitFor("the visit to be given up", "fieldkitOffline.state === 'failed' && fieldkitOffline.why.includes('nothing more came')")
	s.Mend()
	p.Run("dispatchEvent(new Event('online'))")
	p.WaitStored()
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

// The program crosses the link once in a first visit: the worker gets it from the
// browser's own cache.
func TestFirstVisitFetchesTheProgramOnce(t *testing.T) {
	s := serve(t)
	visited(t, s)
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
			assert.NotRegexp(t, `WebAssembly|fetch|magic|\.wasm`, p.Text(), "in words a person knows")
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
