package app

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// listenForUpdates notes when a new version has been stored whole. It is offered
// on every screen and used when the person says so, never in the middle of work.
// The page's start script does the looking.
func (s *store) listenForUpdates() {
	if app.IsServer {
		return
	}
	note := func() {
		s.post(func(ctx app.Context) {
			s.updateWaiting = true
			s.publish(ctx)
		})
	}
	app.Window().Set("goappOnUpdate", app.FuncOf(func(app.Value, []app.Value) any {
		note()
		return nil
	}))
	if app.Window().Get("fieldkitUpdateReady").Truthy() {
		note()
	}
}

// listenForReturn reads the kit again when the app comes back into view: another
// tab may have written, and a phone may have cut the connection meanwhile.
func (s *store) listenForReturn() {
	if app.IsServer {
		return
	}
	doc := app.Window().Get("document")
	doc.Call("addEventListener", "visibilitychange", app.FuncOf(func(app.Value, []app.Value) any {
		if doc.Get("visibilityState").String() == "visible" {
			s.refresh()
		}
		return nil
	}))
}

// applyUpdate takes up the waiting version; the page starts again in it. What is
// being typed is kept as a draft.
func applyUpdate() {
	if apply := app.Window().Get("fieldkitApplyUpdate"); apply.Truthy() {
		apply.Invoke()
	}
}
