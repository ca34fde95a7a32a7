package app

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// listenForUpdates asks for a new version when the app comes back into view or
// the signal returns. A new version is offered, never forced: every screen shows
// the offer until the person takes it.
func listenForUpdates(ctx app.Context) {
	if app.IsServer {
		return
	}
	look := app.FuncOf(func(app.Value, []app.Value) any {
		app.TryUpdate()
		return nil
	})
	app.Window().Call("addEventListener", "online", look)
	app.Window().Get("document").Call("addEventListener", "visibilitychange", look)
}

// applyUpdate takes up the waiting version; the page starts again in it.
func applyUpdate() {
	if apply := app.Window().Get("fieldkitApplyUpdate"); apply.Truthy() {
		apply.Invoke()
	}
}
