package starts

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"trailfieldkit/cmd/internal/chromium"
	"trailfieldkit/web"
)

// updateScript asks for the new version and tells what came of it. The page remembers how
// far it is.
const updateScript = `(async () => {
	const step = (at) => { window.updateStep = at; };
	step('finding the registration');
	const registration = await navigator.serviceWorker.getRegistration();
	step('fetching the worker');
	try { await registration.update(); } catch { return 'refused'; }
	const worker = registration.installing;
	if (worker) await new Promise((done) => {
		const look = () => { step('the worker is ' + worker.state); if (worker.state !== 'installing') done(); };
		worker.addEventListener('statechange', look);
		look();
	});
	return registration.waiting ? 'waiting' : 'nothing';
})()`

// errSilent is an update of which the browser says nothing while no worker of ours is at
// work: it has been seen to neither ask the server nor answer, on a computer with too much
// to do.
var errSilent = errors.New("the browser does not answer")

// stoodStill notes such an update.
func (t *trial) stoodStill(c one, err error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.report.Still = append(t.report.Still, fmt.Sprintf("%s, %s at %d: %v", c.file, c.way.name, c.at, err))
}

// askForUpdate runs updateScript. The error says where it stood still, and what the server
// has not finished answering.
func askForUpdate(p *chromium.Page, h *host) (string, error) {
	outcome, err := chromium.Eval[string](p, updateScript)
	if err != nil {
		step, _ := chromium.Eval[string](p, `navigator.serviceWorker.getRegistration().then((r) => window.updateStep +
			['installing', 'waiting', 'active'].map((role) => ', ' + role + ' ' + (r[role] ? r[role].state : 'none')).join(''))`)
		if errors.Is(err, context.DeadlineExceeded) && strings.Contains(step, "fetching the worker, installing none") {
			err = errSilent
		}
		return "", fmt.Errorf("asking for the update, %s; %s: %w", step, h.underWay(), err)
	}
	return outcome, nil
}

// updateLane tries cases of an update on one origin: the version there is stays from
// case to case until one is whole.
func (t *trial) updateLane(ctx context.Context, todo <-chan one) error {
	p, err := t.browser.Blank()
	if err != nil {
		return err
	}
	defer p.Close()
	p.Limit = settleLimit // asking for an update ends when a worker stands or is refused
	h, address := t.field.host(t.first)
	open(p, address+"/")
	if _, ok := await(p, func(l look) bool { return l.State == "ready" }); !ok {
		return fmt.Errorf("the first visit was not stored")
	}
	kept := t.first.Version
	if startsDark(p, h, address) != kept {
		return fmt.Errorf("the first visit does not start with no signal")
	}
	for c := range todo {
		if ctx.Err() != nil {
			return nil
		}
		next := t.nextEdition()
		came, now, wrong := t.update(p, h, address, c, kept, next)
		kept = now
		if ctx.Err() != nil { // broken off: the browser is gone
			return nil
		}
		t.note("update", c, came, wrong)
		if came == bad { // go on from a fresh origin
			h, address = t.field.host(t.first)
			open(p, address+"/")
			if _, ok := await(p, func(l look) bool { return l.State == "ready" }); !ok {
				return fmt.Errorf("the first visit was not stored")
			}
			kept = t.first.Version
		}
	}
	return nil
}

// update breaks one update and gives what came of it and the version kept then.
func (t *trial) update(p *chromium.Page, h *host, address string, c one, old string, next web.Site) (came, string, string) {
	h.publish(next)
	h.set(c.file, c.way.how(c.at), false)
	outcome, err := askForUpdate(p, h)
	if errors.Is(err, errSilent) { // a person opens it again
		t.stoodStill(c, err)
		_ = p.Goto(address + "/log?opened=again")
		if _, ok := await(p, func(l look) bool { return l.Start == "running" }); !ok {
			return bad, old, "after the browser had not answered it did not start again"
		}
		outcome, err = askForUpdate(p, h)
	}
	if err != nil {
		return bad, old, err.Error()
	}
	if outcome == "waiting" {
		l, ok := await(p, func(l look) bool { return l.State == "failed" || offered(p) })
		if !ok {
			return bad, old, "a version waits, and the page neither offers it nor warns"
		}
		if l.State == "failed" { // a worker without content: the page says so, and a good one mends it
			return t.mended(p, h, address, next)
		}
	}
	// Under an open page nothing changed; with all closed, the next start may change to
	// a version that is whole.
	h.set("", nil, true)
	_ = p.Goto(address + "/log?under=page") // never without a page of it
	if l, ok := await(p, func(l look) bool { return l.Start == "running" }); !ok || l.Version != old || l.Shown != old {
		return bad, old, fmt.Sprintf("under an open page %q became %+v", old, l)
	}
	started := startsDark(p, h, address)
	// A browser takes a moment to see that no page is open any more.
	for tries := 0; outcome == "waiting" && started == old && tries < 20; tries++ {
		_ = p.Goto("about:blank")
		time.Sleep(250 * time.Millisecond)
		started = startsDark(p, h, address)
	}
	switch {
	case outcome == "waiting" && started == next.Version:
		return startsNew, started, ""
	case outcome != "waiting" && started == old:
		return startsOld, old, ""
	}
	return bad, old, fmt.Sprintf("the update was %s; started with no signal: %q, old %q, new %q", outcome, started, old, next.Version)
}

func offered(p *chromium.Page) bool {
	ready, err := chromium.Eval[bool](p, "fieldkitUpdateReady === true")
	return err == nil && ready
}

// mended lets the signal be good and checks that the next version is whole then.
func (t *trial) mended(p *chromium.Page, h *host, address string, next web.Site) (came, string, string) {
	h.set("", nil, false)
	if _, err := askForUpdate(p, h); err != nil {
		return bad, "", "again " + err.Error()
	}
	if _, ok := await(p, func(look) bool { return offered(p) }); !ok {
		return bad, "", "a good worker did not take the place of the broken one"
	}
	started := startsDark(p, h, address)
	for tries := 0; started != next.Version && tries < 20; tries++ {
		_ = p.Goto("about:blank")
		time.Sleep(250 * time.Millisecond)
		started = startsDark(p, h, address)
	}
	if started != next.Version {
		return bad, "", fmt.Sprintf("after mending %q started", started)
	}
	return saidNotReady, next.Version, ""
}
