package app

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// scrolls remembers how far down each address was read, so that back returns to
// the same line; a newly opened address starts at its top.
var scrolls = struct {
	at     map[string]float64
	popped bool // the last change of address was back or forward
}{at: map[string]float64{}}

func watchScrolling() {
	if app.IsServer {
		return
	}
	w := app.Window()
	w.Get("history").Set("scrollRestoration", "manual")
	w.Call("addEventListener", "popstate", app.FuncOf(func(app.Value, []app.Value) any {
		scrolls.popped = true
		return nil
	}))
	w.Call("addEventListener", "scroll", app.FuncOf(func(app.Value, []app.Value) any {
		scrolls.at[address()] = w.Get("scrollY").Float()
		return nil
	}), map[string]any{"passive": true})
}

func address() string { return app.Window().Get("location").Get("href").String() }

// placeScroll puts the page where it belongs after a change of address. It is
// called once the new screen is drawn.
func placeScroll(ctx app.Context) {
	if app.IsServer {
		return
	}
	top := 0.0
	if scrolls.popped {
		top = scrolls.at[address()]
	}
	scrolls.popped = false
	ctx.Defer(func(app.Context) { app.Window().Call("scrollTo", 0, top) })
}
