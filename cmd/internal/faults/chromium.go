package faults

import (
	"context"
	_ "embed"
	"fmt"
	"strings"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/chromedp"

	"trailfieldkit/cmd/internal/chromium"
)

//go:embed inject.js
var injectScript string

// callsInChromium is class b in the browser: each call of IndexedDB in a scripted day
// fails once, in each way browsers let it fail. Where the app tries again by itself
// nobody is told; where it does not, the second try of the person must work.
func callsInChromium(ctx context.Context, s *site, n amounts) (*Class, error) {
	c := &Class{Name: "b  each call fails once, in Chromium"}
	b, err := chromium.Start(ctx, chromium.Options{})
	if err != nil {
		return nil, err
	}
	defer b.Kill()
	if err := s.reallyFull(c, b); err != nil {
		return nil, err
	}
	patient := make(chan error, 1)
	waits := &Class{} // faults that last ten seconds, beside the others in pages of their own
	go func() { patient <- s.openThatHangs(waits, b, n) }()

	page, err := s.openBench(b, injectScript)
	if err != nil {
		return nil, err
	}
	kinds, err := chromium.Eval[[]string](page, "faultKinds")
	if err != nil {
		return nil, err
	}
	tried := map[string]int{}
	skip := 0
	for _, kind := range kinds {
		if kind == "hang" {
			continue
		}
		for at := 1; ; at++ {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			if skip++; skip%n.every != 0 {
				if at > 200 {
					break
				}
				continue
			}
			name := fmt.Sprintf("%s-%d", strings.ReplaceAll(kind, " ", "-"), at)
			if err := page.Run(fmt.Sprintf("setFault(%q, %d)", kind, at)); err != nil {
				return nil, err
			}
			a, err := order(page, "script", name)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", name, err)
			}
			f, err := chromium.Eval[struct {
				Calls int    `json:"calls"`
				Hit   string `json:"hit"`
			}](page, "fault")
			if err != nil {
				return nil, err
			}
			if err := page.Run("setFault()"); err != nil {
				return nil, err
			}
			if f.Calls < at {
				break // the day has no more calls
			}
			if f.Hit == "" {
				continue // this call cannot fail that way
			}
			tried[kind]++
			c.judgeRun(name, *a.Run)
			if err := s.judgeFresh(c, page, name, a.Run.Acknowledged); err != nil {
				return nil, err
			}
		}
	}
	if err := s.cleared(c, b); err != nil {
		return nil, err
	}
	writes := strict(c, page)
	if err := <-patient; err != nil {
		return nil, err
	}
	c.add(waits)
	var list []string
	for _, kind := range kinds {
		if tried[kind] > 0 {
			list = append(list, fmt.Sprintf("%s %d", kind, tried[kind]))
		}
	}
	c.Note = fmt.Sprintf("%s, hanging and blocked opens %d, site data cleared 3, quota of the browser 3; %d transactions read back as strict",
		strings.Join(list, ", "), waits.Cases, writes)
	return c, nil
}

// add takes up what another class found.
func (c *Class) add(o *Class) {
	c.Cases, c.Acknowledged, c.Lost, c.Closed = c.Cases+o.Cases, c.Acknowledged+o.Acknowledged, c.Lost+o.Lost, c.Closed+o.Closed
	c.Wrong, c.wrong = append(c.Wrong, o.Wrong...), c.wrong+o.wrong
	for m, n := range o.Told {
		for range n {
			c.tell(m)
		}
	}
}

func (s *site) judgeFresh(c *Class, page *chromium.Page, name string, acknowledged []int) error {
	a, err := order(page, "fresh", name)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if a.Err != "" || a.Found == nil {
		c.Closed++
		c.bad("%s does not open: %s", name, a.Err)
		return nil
	}
	for _, m := range a.Told {
		c.tell(m)
	}
	c.judgeFound(name, *a.Found, acknowledged)
	return nil
}

// openThatHangs tries opens that never answer, and one that waits behind a tab that
// does not let go.
func (s *site) openThatHangs(c *Class, b *chromium.Browser, n amounts) error {
	page, err := s.openBench(b, injectScript)
	if err != nil {
		return err
	}
	page.Limit = 90 * time.Second
	const hold = `new Promise((done) => {
		const request = indexedDB.open('blocked', 1);
		request.onsuccess = () => {
			request.result.onversionchange = () => {};
			indexedDB.deleteDatabase('blocked');
			setTimeout(() => request.result.close(), 11000);
			done(true);
		};
	})`
	if _, err := chromium.Eval[bool](page, hold); err != nil {
		return err
	}
	names := []string{"blocked"}
	if n.every == 1 {
		names = append(names, "hang-1", "hang-2")
	}
	for _, name := range names {
		if name != "blocked" {
			// The open hangs for as long as the app waits for it; the next one answers.
			if err := page.Run(`setFault('hang', 'each')`); err != nil {
				return err
			}
			if err := page.Run(`setTimeout(setFault, 5000)`); err != nil {
				return err
			}
		}
		a, err := order(page, "script", name)
		if err != nil {
			return err
		}
		if err := page.Run("setFault()"); err != nil {
			return err
		}
		c.judgeRun(name, *a.Run)
		if len(a.Run.Told) == 0 {
			c.bad("%s: nobody was told", name)
		}
		if err := s.judgeFresh(c, page, name, a.Run.Acknowledged); err != nil {
			return err
		}
	}
	strict(c, page)
	return nil
}

// cleared throws the site's data away under an open diary. The person is told; nothing
// is written into the void; what was on the screen is still in hand.
func (s *site) cleared(c *Class, b *chromium.Browser) error {
	page, err := s.openBench(b)
	if err != nil {
		return err
	}
	for round := range 3 {
		name := fmt.Sprintf("cleared-%d", round)
		for n := 1; n <= round+1; n++ {
			if _, err := order(page, "act", name, n); err != nil {
				return err
			}
		}
		before, err := order(page, "look", name)
		if err != nil {
			return err
		}
		if err := page.Do(func(ctx context.Context, t *chromedp.Target) error {
			_, err := cdp.Call(ctx, t, storage.ClearDataForOrigin, storage.ClearDataForOriginParams{Origin: s.address, StorageTypes: "indexeddb"})
			return err
		}); err != nil {
			return err
		}
		a, err := order(page, "act", name, round+2)
		if err != nil {
			return err
		}
		c.Cases++
		for _, m := range a.Told {
			c.tell(m)
		}
		if len(a.Wrote) > 0 || len(a.Told) == 0 || before.Found == nil {
			c.bad("%s: written into the void: %v, told %v", name, a.Wrote, a.Told)
		}
		if _, err := order(page, "drop", name); err != nil {
			return err
		}
		if err := s.judgeFresh(c, page, name, nil); err != nil {
			return err
		}
	}
	return nil
}

// setQuota gives the site so many bytes; none lifts the limit.
func (s *site) setQuota(page *chromium.Page, bytes *float64) error {
	return page.Do(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, storage.OverrideQuotaForOrigin, storage.OverrideQuotaForOriginParams{Origin: s.address, QuotaSize: bytes})
		return err
	})
}

// reallyFull lets the browser itself find that there is no room. It remembers for half a
// minute how much there was, so this comes before anything else is written.
func (s *site) reallyFull(c *Class, b *chromium.Browser) error {
	page, err := s.openBench(b)
	if err != nil {
		return err
	}
	const name = "full"
	var acknowledged []int
	room, full := 150_000.0, 0
	if err := s.setQuota(page, &room); err != nil {
		return err
	}
	for n := 1; n < 60 && full < 3; n++ {
		a, err := order(page, "act", name, n)
		if err != nil {
			return err
		}
		acknowledged = append(acknowledged, a.Wrote...)
		if len(a.Wrote) > 0 {
			continue
		}
		full++
		c.Cases++
		for _, m := range a.Told {
			c.tell(m)
		}
		if len(a.Told) == 0 || !strings.Contains(a.Told[0], "storage is full") {
			c.bad("full: told %v", a.Told)
		}
		room *= 2
		if err := s.setQuota(page, &room); err != nil {
			return err
		}
		n-- // with room again the same action must do
	}
	if full < 3 {
		c.bad("the browser took %d actions with room for %.0f bytes", len(acknowledged), room)
	}
	c.Acknowledged += len(acknowledged)
	strict(c, page)
	if err := s.judgeFresh(c, page, name, acknowledged); err != nil {
		return err
	}
	return s.setQuota(page, nil)
}
