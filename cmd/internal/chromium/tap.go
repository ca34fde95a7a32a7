package chromium

import (
	"encoding/json"
	"fmt"
	"time"

	"github.com/chromedp/chromedp"
)

// Tap waits for something by that name and touches its middle, or clicks it on a
// desktop browser. It waits until the thing stands still and nothing lies over it. If it
// moves away all the same just before the touch comes down, it is touched again where the
// touch hit nothing that acts; where it hit something that does, that is an error.
func (p *Page) Tap(what string) error {
	deadline := time.Now().Add(p.Limit)
	for {
		p.taps++
		spot, err := p.spot(what)
		if err != nil {
			return err
		}
		touch := chromedp.MouseClickXY(spot.X, spot.Y)
		if p.browser.options.Phone {
			touch = chromedp.TapXY(spot.X, spot.Y)
		}
		if err := p.do(touch); err != nil {
			return fmt.Errorf("tapping %q: %w", what, err)
		}
		hit := p.landed()
		if hit.Beside == "" {
			return nil
		}
		if hit.Acts || time.Now().After(deadline) {
			shown, _ := p.Text()
			return fmt.Errorf("%q moved away under the touch, which hit %s; the page shows:\n%s", what, hit.Beside, clip(shown, 3000))
		}
	}
}

type spot struct {
	Found  bool    `json:"found"`
	X      float64 `json:"x"`
	Y      float64 `json:"y"`
	Beside string  `json:"beside"` // what a touch there would really hit
}

// spot scrolls the thing into view and returns where to touch it. The page then reports
// what the touch hits.
func (p *Page) spot(what string) (spot, error) {
	script := fmt.Sprintf(`(async () => {
		const find = () => %[1]s;
		const element = find();
		if (!element) return { found: false };
		element.scrollIntoView({ block: 'center', inline: 'center', behavior: 'instant' });
		const frame = () => new Promise((done) => { setTimeout(done, 100); requestAnimationFrame(done); });
		await frame();
		const box = element.getBoundingClientRect();
		await frame();
		const again = element.getBoundingClientRect();
		const x = again.x + again.width / 2, y = again.y + again.height / 2;
		if (box.x !== again.x || box.y !== again.y) return { found: true, x, y, beside: 'it moves' };
		const hit = document.elementFromPoint(x, y);
		const part = (whole, target) => whole && (whole.contains(target) || target.closest('label')?.control === whole);
		if (!hit || !part(element, hit) && !hit.contains(element)) {
			return { found: true, x, y, beside: 'under ' + (hit ? hit.outerHTML.slice(0, 120) : 'nothing') };
		}
		addEventListener('pointerdown', ({ target }) => {
			const meant = target === hit || part(element, target) || part(find(), target); // it may be drawn anew
			const acts = target.closest('a[href], button, summary, label, input, select, textarea, [tabindex]');
			globalThis.%[2]s?.(JSON.stringify({ tap: %[3]d, beside: meant ? '' : (acts || target).outerHTML.slice(0, 120), acts: Boolean(acts) }));
		}, { capture: true, once: true });
		return { found: true, x, y, beside: '' };
	})()`, found(what), touched, p.taps)
	deadline := time.Now().Add(p.Limit)
	for {
		at, err := Eval[spot](p, script)
		if err == nil && at.Found && at.Beside == "" {
			return at, nil
		}
		if p.ctx.Err() != nil || time.Now().After(deadline) {
			return spot{}, p.unmet(fmt.Sprintf("%q to tap %s", what, at.Beside), err)
		}
		time.Sleep(between)
	}
}

// touched is the name of the function by which a page reports what a touch hit. Asking the
// page afterwards would not do: the touch may have made it go elsewhere, or busy.
const touched = "chromiumTouched"

// landing is what a touch hit.
type landing struct {
	Tap    int    `json:"tap"`    // the number of the tap
	Beside string `json:"beside"` // what was hit in place of what was meant
	Acts   bool   `json:"acts"`   // that is something to press or to fill
}

// landed waits for the page's report of the last tap; a page that gives none is believed
// to have been hit well.
func (p *Page) landed() landing {
	late := time.After(time.Second)
	for {
		select {
		case report := <-p.touches:
			var hit landing
			if json.Unmarshal([]byte(report), &hit) == nil && hit.Tap == p.taps {
				return hit
			}
		case <-late:
			return landing{}
		}
	}
}
