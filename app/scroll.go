package app

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// scrolls remembers how each address was left: how far down it was read and what
// was unfolded on it, so that back returns to the same line; a newly opened address
// starts at its top.
var scrolls = struct {
	at     map[string]float64
	folds  map[string][]bool // of each folding group, whether it was open
	popped bool              // the last change of address was back or forward
	last   string            // address of the screen shown before this one was opened
	from   string            // address this screen was opened from, none for a deep link
}{at: map[string]float64{}, folds: map[string][]bool{}}

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
	// A folding group tells only itself that it was opened, hence the capture.
	w.Get("document").Call("addEventListener", "toggle", app.FuncOf(func(app.Value, []app.Value) any {
		scrolls.folds[address()] = foldsShown()
		return nil
	}), true)
}

func address() string { return app.Window().Get("location").Get("href").String() }

func foldsShown() []bool {
	var open []bool
	for _, d := range foldingGroups() {
		open = append(open, d.Get("open").Bool())
	}
	return open
}

func foldingGroups() []app.Value {
	list := app.Window().Get("document").Call("querySelectorAll", "details")
	groups := make([]app.Value, list.Get("length").Int())
	for i := range groups {
		groups[i] = list.Index(i)
	}
	return groups
}

// placeScroll puts the page where it belongs after a change of address, and the
// reader of a screen at its heading. It is called once the new screen is drawn.
func placeScroll(ctx app.Context) {
	if app.IsServer {
		return
	}
	here, popped := address(), scrolls.popped
	scrolls.popped = false
	elsewhere := scrolls.last != "" && pathOf(scrolls.last) != pathOf(here)
	noteOrigin(here, popped)
	ctx.Defer(func(app.Context) {
		markDrawn(here)
		if elsewhere {
			focusHeading()
		}
		if !popped {
			app.Window().Call("scrollTo", 0, 0)
			return
		}
		if folds, groups := scrolls.folds[here], foldingGroups(); len(folds) == len(groups) {
			for i, d := range groups {
				d.Set("open", folds[i])
			}
		}
		app.Window().Call("scrollTo", 0, scrolls.at[here])
	})
}

// markDrawn says on the page which address is drawn: the address changes first, and
// the screen a moment later. The browser tests wait for it.
func markDrawn(here string) {
	app.Window().Get("document").Get("documentElement").Get("dataset").Set("drawn", here)
}

// focusHeading tells a screen reader that another screen is shown, and lets the
// keyboard go on from its top.
func focusHeading() {
	if h := app.Window().Get("document").Call("querySelector", "h1"); h.Truthy() {
		h.Call("focus", map[string]any{"preventScroll": true})
	}
}
