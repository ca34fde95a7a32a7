package faults

import (
	"context"
	"fmt"
	"strings"
	"sync"
	"time"

	"github.com/chromedp/cdproto/cdp"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"trailfieldkit/cmd/internal/chromium"
)

// withoutWorker leaves the service worker out: what it keeps is none of this
// package's business, and a fresh phone would spend its time on it.
const withoutWorker = `Object.defineProperty(Navigator.prototype, 'serviceWorker', { configurable: true, get: () => undefined })`

// openApp opens the app's page at a path and waits for the kit, or the choice of one.
func (s *site) openApp(b *chromium.Browser, path string, scripts ...string) (*chromium.Page, error) {
	page, err := b.Blank()
	if err != nil {
		return nil, err
	}
	page.Limit = time.Minute
	for _, script := range append([]string{watchDurability, withoutWorker}, scripts...) {
		if err := page.OnEachDocument(script); err != nil {
			return nil, err
		}
	}
	return page, goTo(page, s.address+path)
}

func goTo(page *chromium.Page, address string) error {
	if err := page.Goto(address); err != nil {
		return err
	}
	return page.WaitFor("the kit", `['open', 'choosing'].includes(document.querySelector('[data-phase]')?.dataset.phase)`)
}

// beginDemo takes the demo kit up on a fresh phone.
func beginDemo(page *chromium.Page) error {
	if err := page.Tap("button:Look around with the demo kit"); err != nil {
		return err
	}
	return page.WaitText("Demo kit, all invented")
}

// move opens another screen as a link on the page would.
func move(page *chromium.Page, path string) error {
	return page.Run(fmt.Sprintf(`(() => {
		const link = document.createElement('a');
		link.href = %q;
		document.body.append(link);
		link.click();
		link.remove();
	})()`, path))
}

// toFront takes up a tab: only the one in front is drawn.
func toFront(page *chromium.Page) error {
	return page.Do(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, cdppage.BringToFront, cdp.Empty{})
		return err
	})
}

const failureForm = "/log/failure?position=hobnail-front-brake-pads"

// outcomes of saving a form: the log, or a message with the form still there.
const (
	savedOrTold = `location.pathname === '/log' || Boolean(document.querySelector('main [role=alert]')?.offsetHeight)`
	saved       = `location.pathname === '/log'`
)

// fillFailure types a note into a fresh form.
func fillFailure(page *chromium.Page, words string) error {
	if err := move(page, "/log"); err != nil {
		return err
	}
	if err := page.WaitFor("the log", saved); err != nil {
		return err
	}
	if err := move(page, failureForm); err != nil {
		return err
	}
	if err := page.WaitHas("field:What broke"); err != nil {
		return err
	}
	return page.Fill("What broke", words)
}

// callsUnderScreens is class b through the app: a failure is typed, the storage fails
// while it is saved, and either it is in the log or the person was told and every word
// is still in the form, from where it is saved once the fault has passed.
func callsUnderScreens(ctx context.Context, s *site, n amounts) (*Class, error) {
	c := &Class{Name: "b  faults under a form of the app"}
	b, err := chromium.Start(ctx, chromium.Options{Phone: true})
	if err != nil {
		return nil, err
	}
	defer b.Kill()
	page, err := s.openApp(b, "/rig", injectScript)
	if err != nil {
		return nil, err
	}
	if err := beginDemo(page); err != nil {
		return nil, err
	}
	type trial struct {
		kind string
		at   string
	}
	var trials []trial
	for _, at := range []string{"'each'", "1", "3", "5", "7", "2", "4", "6", "9"} {
		for _, kind := range []string{"quota", "lost", "aborted late", "closing", "backing", "idle", "version change", "aborted", "finished", "closed"} {
			trials = append(trials, trial{kind, at})
		}
	}
	var words []string
	silent := 0
	for i, trial := range trials[:min(n.screens, len(trials))] {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		text := fmt.Sprintf("brake pads glazed, trial %d", i)
		words = append(words, text)
		if err := fillFailure(page, text); err != nil {
			return nil, err
		}
		if err := page.Run(fmt.Sprintf("setFault(%q, %s)", trial.kind, trial.at)); err != nil {
			return nil, err
		}
		if err := page.Tap("button:Save"); err != nil {
			return nil, err
		}
		if err := page.WaitFor("an answer to Save", savedOrTold); err != nil {
			c.bad("%s at %s: no answer: %v", trial.kind, trial.at, err)
			return c, nil
		}
		if err := page.Run("setFault()"); err != nil {
			return nil, err
		}
		c.Cases++
		c.Acknowledged++
		if done, err := chromium.Eval[bool](page, saved); err != nil || done {
			silent++
			continue
		}
		message, err := chromium.Eval[string](page, `document.querySelector('main [role=alert]').innerText`)
		if err != nil {
			return nil, err
		}
		c.tell(strings.Join(strings.Fields(message), " "))
		held, err := chromium.Eval[string](page, `document.querySelector('input[name=what], textarea[name=what]').value`)
		if err != nil || held != text {
			c.bad("%s at %s: told, and the form holds %q: %v", trial.kind, trial.at, held, err)
		}
		if err := page.Tap("button:Save"); err != nil {
			return nil, err
		}
		if err := page.WaitFor("the note in the log", saved); err != nil {
			c.bad("%s at %s: not saved when the fault had passed: %v", trial.kind, trial.at, err)
			return c, nil
		}
	}
	writes := strict(c, page)
	if err := s.logHolds(c, page, words); err != nil {
		return nil, err
	}
	c.Note = fmt.Sprintf("%d saved without the person noticing, %d told and saved at the second try; %d transactions read back as strict", silent, c.Cases-silent, writes)
	return c, nil
}

// logHolds starts the app anew and counts each note in the log: it must be there once.
func (s *site) logHolds(c *Class, page *chromium.Page, words []string) error {
	if err := goTo(page, s.address+"/log"); err != nil {
		return err
	}
	if err := page.WaitFor("the log", `document.querySelectorAll('main ul.list li').length > 0`); err != nil {
		c.Closed++
		c.bad("the log: %v", err)
		return nil
	}
	titles, err := chromium.Eval[[]string](page, `Array.from(document.querySelectorAll('main ul.list li b'), (b) => b.innerText)`)
	if err != nil {
		return err
	}
	count := map[string]int{}
	for _, title := range titles {
		count[strings.ToLower(title)]++
	}
	for _, text := range words {
		switch n := count[strings.ToLower(text)]; {
		case n == 0:
			c.Lost++
			c.bad("%q was acknowledged and is not in the log", text)
		case n > 1:
			c.bad("%q is in the log %d times", text, n)
		}
	}
	return nil
}

// screensAgree is class d through the app: three tabs count stock up as fast as they
// are answered, and show the same figures at the end.
func screensAgree(ctx context.Context, s *site, n amounts) (*Class, error) {
	c := &Class{Name: "d  three tabs of the app"}
	b, err := chromium.Start(ctx, chromium.Options{Phone: true})
	if err != nil {
		return nil, err
	}
	defer b.Kill()
	const stock = "/pack/stock?what=spares"
	first, err := s.openApp(b, "/rig")
	if err != nil {
		return nil, err
	}
	if err := beginDemo(first); err != nil {
		return nil, err
	}
	pages := []*chromium.Page{first}
	for range 2 {
		page, err := s.openApp(b, stock)
		if err != nil {
			return nil, err
		}
		pages = append(pages, page)
	}
	if err := goTo(first, s.address+stock); err != nil {
		return nil, err
	}
	const rows = `Array.from(document.querySelectorAll('.stepper[role=group]'), (g) => [g.getAttribute('aria-label'), g.querySelector('output').innerText])`
	const count = `(async () => {
		const row = () => Array.from(document.querySelectorAll('.stepper[role=group]'))[%d];
		const shown = () => Number(row().querySelector('output').innerText);
		const end = performance.now() + %d;
		let done = 0;
		while (performance.now() < end) {
			const before = shown();
			row().querySelector('[aria-label^="one more"]').click();
			const asked = performance.now();
			while (shown() === before) {
				if (performance.now() - asked > 30000) throw new Error('no answer to a tap');
				await new Promise((again) => setTimeout(again, 4));
			}
			done++;
		}
		return done;
	})()`
	for _, page := range pages {
		page.Limit = n.tabs + 2*time.Minute
		if err := page.WaitFor("the stock", `document.querySelectorAll('.stepper[role=group]').length > 3`); err != nil {
			return nil, err
		}
	}
	before, err := chromium.Eval[[][]string](first, rows)
	if err != nil {
		return nil, err
	}
	done := make([]int, len(pages))
	faults := make([]error, len(pages))
	var wg sync.WaitGroup
	for i, page := range pages {
		wg.Go(func() {
			done[i], faults[i] = chromium.Eval[int](page, fmt.Sprintf(count, i, n.tabs.Milliseconds()))
		})
	}
	wg.Wait()
	for i := range pages {
		if faults[i] != nil {
			c.bad("tab %d: %v", i, faults[i])
		}
		c.Acknowledged += done[i]
	}
	c.Cases = 1
	// Each tab must come to show what all three have done.
	for i, page := range pages {
		var wanted []string
		for row := range pages {
			var was int
			fmt.Sscan(before[row][1], &was)
			wanted = append(wanted, fmt.Sprintf("groups[%d].querySelector('output').innerText === '%d'", row, was+done[row]))
		}
		page.Limit = 30 * time.Second
		if err := page.WaitFor("the same figures", `((groups) => `+strings.Join(wanted, " && ")+`)(document.querySelectorAll('.stepper[role=group]'))`); err != nil {
			c.Lost++
			c.bad("tab %d shows other figures: %v", i, err)
		}
	}
	c.Note = fmt.Sprintf("%v, taps of the three tabs: %v", n.tabs, done)
	return c, nil
}

// upgrade is the last part of class d: a newer version of the app opens the database
// while a tab of this one is at work. The newer one is not held up, and the old tab is
// told and keeps what was typed.
func upgrade(ctx context.Context, s *site, _ amounts) (*Class, error) {
	c := &Class{Name: "d  upgrade with an old tab open"}
	b, err := chromium.Start(ctx, chromium.Options{Phone: true})
	if err != nil {
		return nil, err
	}
	defer b.Kill()
	old, err := s.openApp(b, "/rig")
	if err != nil {
		return nil, err
	}
	if err := beginDemo(old); err != nil {
		return nil, err
	}
	const kept, typed = "first ford, clean", "typed in the old tab"
	if err := fillFailure(old, kept); err != nil {
		return nil, err
	}
	if err := old.Tap("button:Save"); err != nil {
		return nil, err
	}
	if err := old.WaitFor("the log", saved); err != nil {
		return nil, err
	}
	c.Acknowledged++
	if err := fillFailure(old, typed); err != nil {
		return nil, err
	}
	newer, err := s.openBench(b)
	if err != nil {
		return nil, err
	}
	c.Cases++
	took, err := chromium.Eval[float64](newer, `new Promise((done, failed) => {
		const began = performance.now();
		const request = indexedDB.open('trail-field-kit-demo', 2);
		request.onblocked = () => { globalThis.wasBlocked = true; };
		request.onsuccess = () => { request.result.close(); done(performance.now() - began); };
		request.onerror = () => failed(request.error);
		setTimeout(() => failed(new Error('the upgrade hangs')), 15000);
	})`)
	if err != nil {
		c.bad("the newer version: %v", err)
		return c, nil
	}
	if err := toFront(old); err != nil {
		return nil, err
	}
	if err := old.Tap("button:Save"); err != nil {
		return nil, err
	}
	if err := old.WaitFor("an answer to Save", savedOrTold); err != nil {
		c.bad("the old tab: %v", err)
		return c, nil
	}
	message, err := chromium.Eval[string](old, `document.querySelector('main [role=alert]').innerText`)
	if err != nil {
		return nil, err
	}
	c.tell(strings.Join(strings.Fields(message), " "))
	if held, err := chromium.Eval[string](old, `document.querySelector('input[name=what], textarea[name=what]').value`); err != nil || held != typed {
		c.bad("the old tab holds %q: %v", held, err)
	}
	entries, err := chromium.Eval[int](newer, `new Promise((done, failed) => {
		const request = indexedDB.open('trail-field-kit-demo');
		request.onsuccess = () => {
			const count = request.result.transaction('entries').objectStore('entries').count();
			count.onsuccess = () => done(count.result);
		};
		request.onerror = () => failed(request.error);
	})`)
	if err != nil || entries != 2 {
		c.Lost++
		c.bad("%d entries after the upgrade: %v", entries, err)
	}
	c.Note = fmt.Sprintf("upgraded in %.0f ms", took)
	return c, nil
}
