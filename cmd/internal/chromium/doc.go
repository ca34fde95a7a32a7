// Package chromium starts Chromium as a phone and drives it, for the browser tests
// and the measurements.
//
//	b, err := chromium.Start(ctx, chromium.Options{Phone: true})
//	defer b.Close()
//	page, err := b.Open("http://127.0.0.1:8117/counter")
//	err = page.Fill("Search", "front brake pads")
//	err = page.Tap("Counter card")
//	err = page.WaitText("Ask for")
//
// What a person would say names the things on a page: a visible text, a label, a
// role with its name ("button:Save"). Taps and typing arrive as real input events.
// Every wait has a limit, and an error carries what the page showed instead.
//
// Kill ends the browser as a dying battery would; Start with the same Profile goes
// on from what was on disk. Requests beyond this computer never leave it: they end
// in a recorder, which ForeignRequests reads.
//
// RunWasmTest runs a test binary compiled for js/wasm inside a page, where the
// browser's own stores are, which node does not have.
package chromium
