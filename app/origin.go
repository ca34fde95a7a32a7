package app

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// The arrow at the head of a screen leads back to where it was opened from, with
// what was typed and read there: a card opened from a search goes back to the
// answers, one opened from the shopping list to the list. Where a screen was opened
// from is kept in the browser's history beside its address, so that it survives a
// reload; a deep link has none and goes one level up.

// noteOrigin keeps where the present address was opened from.
func noteOrigin(here string, popped bool) {
	if !popped && scrolls.last != "" && scrolls.last != here {
		replaceState(scrolls.last, here)
	}
	scrolls.last, scrolls.from = here, ""
	if state := app.Window().Get("history").Get("state"); state.Truthy() && state.Get("from").Truthy() {
		scrolls.from = state.Get("from").String()
	}
}

// rewriteQuery changes the query of the present address without leaving it, so that
// back returns to what is asked for now.
func rewriteQuery(pairs ...string) {
	if app.IsServer {
		return
	}
	replaceState(scrolls.from, pathOf(address())+query(pairs...))
	scrolls.last = address()
	markDrawn(scrolls.last)
}

// replaceState writes the present entry of the browser's history. Some browsers
// refuse more than a hundred of that in half a minute; then the address stays as it
// was, and nothing else is lost.
func replaceState(from, href string) {
	defer func() { _ = recover() }()
	app.Window().Get("history").Call("replaceState", map[string]any{"from": from}, "", href)
}

// startAgain shows the present screen as its address without a query opens it:
// what tapping the destination one is at should do. The framework takes such an
// address for the one it shows already, so it is told as the browser's back is.
func startAgain(href string) {
	w := app.Window()
	replaceState("", href)
	w.Call("dispatchEvent", w.Get("PopStateEvent").New("popstate"))
	scrolls.popped = false
}

// backLeads says whether the arrow should go back in the browser's history rather
// than one level up: not without an origin, and not to a form that was just saved.
func backLeads(from string) bool {
	path := pathOf(from)
	return path != "" && !strings.HasSuffix(path, "/edit") && !strings.HasSuffix(path, "/log/failure") && !strings.HasSuffix(path, "/log/reading")
}

// openedFrom says whether a screen that opened from an address may return there by
// going back when it is done with href: to the very address, or to another state of
// a screen that is asked for as such.
func openedFrom(from, href string) bool {
	from = strings.TrimPrefix(from, originOf(from))
	return from != "" && (from == href || pathOf(from) == href)
}

// originOf is the scheme and host of an address.
func originOf(address string) string {
	_, rest, ok := strings.Cut(address, "://")
	if !ok {
		return ""
	}
	host, _, _ := strings.Cut(rest, "/")
	return address[:len(address)-len(rest)+len(host)]
}

// pathOf is the part of an address before its query and fragment.
func pathOf(address string) string {
	path, _, _ := strings.Cut(address, "#")
	path, _, _ = strings.Cut(path, "?")
	return path
}

// goBack goes back in the browser's history.
func goBack() { app.Window().Get("history").Call("back") }

// backArrow draws the arrow of a screen whose upper level is at up.
func backArrow(up string) app.UI {
	if app.IsClient && backLeads(scrolls.from) {
		return app.Button().Type("button").Aria("label", "Back").Text("←").
			OnClick(func(app.Context, app.Event) { goBack() }, app.EventScope("back"))
	}
	return app.A().Href(up).Aria("label", "Back").Text("←")
}
