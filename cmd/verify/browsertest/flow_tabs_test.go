//go:build browser

package browsertest

import (
	"context"
	"fmt"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	cdpage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/cmd/internal/chromium"
)

// Two tabs hold the same kit. What one writes shows in the other, and neither
// writes over the other, not even with a form that was open all the while.
func TestTwoTabs(t *testing.T) {
	const spares, reading = "/pack/stock?what=spares", "/log/reading?position=hobnail-front-brake-pads"
	v := withDemo(t, spares)
	left := v.page
	v.OpenBeside(reading)
	right := v.page
	in := v.TakeUp

	v.Fill("Reading", "5.5 mm")
	in(left)
	v.Tap("button:one more: axle U-joint 1350, sealed")
	v.See("axle U-joint 1350, sealed: 3 in stock")
	in(right)
	assert.Equal(t, "5.5 mm", v.Value("Reading"), "typing goes on while the other tab writes")
	v.Tap("button:Save")
	v.At("/log")
	assert.Equal(t, 3, v.stockOf("axle U-joint 1350, sealed"))
	in(left)
	v.Go("/log")
	v.See("5.5 mm")

	// Both write in the same moment.
	v.Go(spares)
	in(right)
	v.Go(spares)
	const more = `document.querySelector('[aria-label="one more: %s"]').click()`
	require.NoError(t, left.Run(fmt.Sprintf(more, "fuel filter, injection")))
	require.NoError(t, right.Run(fmt.Sprintf(more, "headlamp bulb H4")))
	for _, tab := range []*chromium.Page{left, right} {
		in(tab)
		v.waitStock("fuel filter, injection", 3)
		v.waitStock("headlamp bulb H4", 3)
	}

	// The same entry is open in both: the second to save is told, and keeps its words.
	const trip = "/pack/trip/edit?id=2026-12-widows-rib"
	in(left)
	v.Go(trip)
	in(right)
	v.Go(trip)
	v.Fill("Note", "Typed in the right tab.")
	in(left)
	v.Fill("Days", "6")
	v.Tap("button:Save trip")
	v.At("/pack/trip?id=")
	in(right)
	v.Tap("button:Save trip")
	v.See("changed since you began typing", "What this form is about was changed meanwhile. What you typed is not saved.")
	assert.Equal(t, "Typed in the right tab.", v.Value("Note"))
	v.Tap("button:Start over")
	v.WaitFor("the trip as it is by now", `document.querySelector('input[name=days]').value === '6'`)

	// A kit thrown away in one tab is gone in the other, and said so.
	in(left)
	v.Go("/kit")
	v.See("Ready for no signal")
	v.Tap("button:Throw the demo away")
	v.See("Begin with my rig")
	in(right)
	v.Reload()
	v.See("Begin with my rig")
}

// TakeUp brings another tab to the front.
func (v *traveller) TakeUp(tab *chromium.Page) {
	v.t.Helper()
	v.page = tab
	require.NoError(v.t, tab.Do(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, cdpage.BringToFront, cdp.Empty{})
		return err
	}))
}

// waitStock waits until a tab with the list of spares shows that many.
func (v *traveller) waitStock(name string, n int) {
	v.t.Helper()
	v.WaitFor(fmt.Sprintf("%d × %s", n, name),
		fmt.Sprintf(`document.querySelector('[role=group][aria-label=%q] output').innerText === '%d'`, name, n))
}
