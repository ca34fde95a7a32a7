package faults

import (
	"context"
	"fmt"
	"sync"
	"time"

	"trailfieldkit/cmd/internal/chromium"
)

// tabs is class d: two tabs, then three, edit one kit for a while as fast as they can.
// Afterwards all hold the same kit, and everything acknowledged in any of them is in it.
func tabs(ctx context.Context, s *site, n amounts) (*Class, error) {
	c := &Class{Name: "d  two and three tabs editing"}
	b, err := chromium.Start(ctx, chromium.Options{})
	if err != nil {
		return nil, err
	}
	defer b.Kill()
	writes := 0
	for _, count := range []int{2, 3} {
		name := fmt.Sprintf("tabs-%d", count)
		pages := make([]*chromium.Page, count)
		answers := make([]answer, count)
		faults := make([]error, count)
		for i := range pages {
			if pages[i], err = s.openBench(b); err != nil {
				return nil, err
			}
			pages[i].Limit = n.tabs + time.Minute
			if _, err := order(pages[i], "begin", name); err != nil {
				return nil, err
			}
		}
		var wg sync.WaitGroup
		for i, page := range pages {
			wg.Go(func() { answers[i], faults[i] = order(page, "edit", name, i+1, count, n.tabs.Milliseconds()) })
		}
		wg.Wait()
		var acknowledged []int
		for i, a := range answers {
			if faults[i] != nil || a.Err != "" {
				return nil, fmt.Errorf("tab %d: %s %w", i, a.Err, faults[i])
			}
			acknowledged = append(acknowledged, a.Wrote...)
			for _, m := range a.Told {
				c.tell(m)
			}
			if len(a.Wrote) == 0 {
				c.bad("%s: tab %d wrote nothing", name, i)
			}
		}
		same := ""
		for i, page := range pages {
			a, err := order(page, "agree", name)
			if err != nil {
				return nil, err
			}
			if same == "" {
				same = a.Kit
			}
			if a.Err != "" || a.Kit != same {
				c.bad("%s: tab %d holds another kit %s", name, i, a.Err)
			}
		}
		c.Cases++
		c.Acknowledged += len(acknowledged)
		if err := s.judgeFresh(c, pages[0], name, acknowledged); err != nil {
			return nil, err
		}
		for _, page := range pages {
			writes += strict(c, page)
			page.Close()
		}
	}
	c.Note = fmt.Sprintf("%v each; %d transactions read back as strict", n.tabs, writes)
	return c, nil
}

// turnClock makes a page's clock show what setClock says.
const turnClock = `(() => {
	const Real = Date;
	let now = () => Real.now();
	globalThis.Date = class extends Real {
		constructor(...args) { if (args.length) super(...args); else super(now()); }
		static now() { return now(); }
	};
	globalThis.setClock = (f) => { now = f; };
})()`

// clocks is class e: actions stamped by a clock that stands still, goes back and is
// wildly ahead, in the store in memory with random clocks and in Chromium.
func clocks(ctx context.Context, s *site, n amounts) (*Class, error) {
	c := &Class{Name: "e  clock stutters, goes back, is ahead"}
	rounds := 40
	if n.every == 1 {
		rounds = 400
	}
	if err := clocksNatively(ctx, c, rounds); err != nil {
		return nil, err
	}
	b, err := chromium.Start(ctx, chromium.Options{})
	if err != nil {
		return nil, err
	}
	defer b.Kill()
	page, err := s.openBench(b, turnClock)
	if err != nil {
		return nil, err
	}
	var acknowledged []int
	for i, clock := range []string{
		"() => 1779000000000",                             // stands still
		"() => 1779000000000 - 40000 * performance.now()", // runs backwards
		"() => 1779000000000 + 1e9 * Math.floor(Math.random() * 1000)",
		"() => 0",
		"() => 32503680000000",   // the year 3000
		"() => 8640000000000000", // the last moment there is, in the year 275760
		"() => -62135596800000",  // the year 1
		"() => NaN",
		"() => 1779000000000",
	} {
		if err := page.Run(fmt.Sprintf("setClock(%s)", clock)); err != nil {
			return nil, err
		}
		a, err := order(page, "clock", "clocks", 4*i+1)
		if err != nil {
			return nil, err
		}
		c.Cases++
		for _, m := range a.Told {
			c.tell(m)
		}
		acknowledged = append(acknowledged, a.Wrote...)
		if len(a.Wrote) != 4 {
			c.bad("clock %s: %d of 4 actions kept: %s %v", clock, len(a.Wrote), a.Err, a.Told)
		}
	}
	c.Acknowledged += len(acknowledged)
	c.Note = fmt.Sprintf("%d transactions read back as strict", strict(c, page))
	return c, s.judgeFresh(c, page, "clocks", acknowledged)
}
