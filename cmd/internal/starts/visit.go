package starts

import (
	"context"
	"errors"
	"fmt"
	"time"

	"trailfieldkit/cmd/internal/chromium"
	"trailfieldkit/web"
)

// look is what a page says of itself.
type look struct {
	State   string `json:"state"`   // of the copy for no signal; "" without the page's script
	Start   string `json:"start"`   // of the program: loading, running, failed
	Shown   string `json:"shown"`   // the edition on the screen
	Version string `json:"version"` // of the script
	Claims  bool   `json:"claims"`  // the page says that it is ready
	Says    bool   `json:"says"`    // the page says that it is not

	Changing bool `json:"changing"` // it is still read, or the page between two versions
}

const lookScript = `(() => ({
	state: globalThis.fieldkitOffline ? fieldkitOffline.state : '',
	start: document.documentElement.dataset.start || '',
	shown: (document.querySelector('main[data-phase=open]')?.textContent || '').replace('edition ', ''),
	version: globalThis.goappGetenv ? goappGetenv('GOAPP_VERSION') : '',
	claims: Boolean(document.body) && /(^|[^t] )Ready for no signal/.test(document.body.innerText),
	changing: document.readyState !== 'complete' || Boolean(document.querySelector('meta[http-equiv=refresh]')),
	says: Boolean(document.body) && document.body.innerText.includes('Not ready for no signal'),
}))()`

// settleLimit is how long a page may take to know how it stands: longer than it waits
// itself for a worker's answer (10 s) and check (60 s).
const settleLimit = 90 * time.Second

func see(p *chromium.Page) (look, error) { return chromium.Eval[look](p, lookScript) }

// await looks until what is seen is enough, or the run is broken off.
func await(p *chromium.Page, enough func(look) bool) (look, bool) {
	deadline := time.Now().Add(settleLimit)
	for {
		l, err := see(p)
		if err == nil && enough(l) {
			return l, true
		}
		if time.Now().After(deadline) || errors.Is(err, context.Canceled) {
			return l, false
		}
		time.Sleep(20 * time.Millisecond)
	}
}

// open goes to an address from an empty page: what does not become a page, such as a
// download, must not leave the last one in sight. That nobody answers is no fault.
func open(p *chromium.Page, address string) {
	_ = p.Goto("about:blank")
	_ = p.Goto(address)
}

// startsDark opens the program with no signal, as a later start does: nothing of it is
// open before. It gives the edition that started, "" for none.
func startsDark(p *chromium.Page, h *host, address string) string {
	h.set("", nil, true)
	open(p, address+"/counter/card?part=a&from=dark")
	l, _ := await(p, func(l look) bool { return !l.Changing })
	if l.Version == "" {
		return ""
	}
	l, ok := await(p, func(l look) bool { return l.Start == "running" && l.Shown != "" || l.Start == "failed" })
	if !ok || l.Start == "failed" || l.Shown != l.Version {
		return ""
	}
	return l.Shown
}

// visitLane tries cases of a first visit, each on an origin of its own.
func (t *trial) visitLane(ctx context.Context, todo <-chan one) error {
	p, err := t.browser.Blank()
	if err != nil {
		return err
	}
	defer p.Close()
	for c := range todo {
		if ctx.Err() != nil {
			return nil
		}
		came, wrong := t.visit(p, c)
		if ctx.Err() != nil { // broken off: the browser is gone
			return nil
		}
		phase := "first visit"
		if c.late {
			phase = "keeping it"
		}
		t.note(phase, c, came, wrong)
	}
	return nil
}

func (t *trial) visit(p *chromium.Page, c one) (came, string) {
	h, address := t.field.host(t.first)
	if c.late {
		h.setLate(c.file, c.way.how(c.at))
	} else {
		h.set(c.file, c.way.how(c.at), false)
	}
	open(p, address+"/")
	// Without its script a page knows nothing: what it says is what stands in it.
	l, ok := await(p, func(l look) bool {
		return l.State == "ready" || l.State == "failed" || l.State == "missing" || l.State == ""
	})
	// Of a page cut off at its first bytes the browser may make none that can be asked.
	if none := c.file == web.Shell && l == (look{}); !ok && !none {
		return bad, fmt.Sprintf("it never says how it stands: %+v", l)
	}
	started := startsDark(p, h, address)
	var result came
	switch {
	case l.State == "ready" && started == t.first.Version:
		result = startsNew
	case l.State == "ready":
		return bad, "ready, it says, and does not start with no signal"
	case l.Claims:
		return bad, "its words claim that it is ready"
	case started != "" && started != t.first.Version:
		return bad, "a version started that does not exist"
	case l.Says:
		result = saidNotReady
	case c.file == web.Shell:
		result = nothingCame // the page itself did not arrive, and claims nothing
	default:
		return bad, fmt.Sprintf("it does not say that it is not ready: %+v", l)
	}
	// The next visit with signal makes it whole.
	h.set("", nil, false)
	open(p, address+"/")
	if _, ok := await(p, func(l look) bool { return l.State == "ready" }); !ok {
		return bad, "the next visit with signal does not make it whole"
	}
	if startsDark(p, h, address) != t.first.Version {
		return bad, "made whole by the next visit, it does not start"
	}
	return result, ""
}
