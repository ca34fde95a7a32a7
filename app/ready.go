package app

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// readiness is whether the program would start here with no signal, as the page's
// start script says after the worker has checked every stored byte.
type readiness struct {
	state string // "saving", "ready", "failed", "missing", "unavailable"; "" before anything was said
	why   string
	late  bool // ready only since this screen is shown
}

// then is what follows it on the same screen: a line that went would move what stands
// below it under the thumb, so that it turns into good news until the next screen.
func (r readiness) then(now readiness) readiness {
	now.late = now.state == "ready" && r.notice() != nil
	return now
}

// listenForReadiness follows what the start script says. Only a change of state is
// shown: every stored file drawn anew would be a storm.
func (s *store) listenForReadiness() {
	if app.IsServer {
		return
	}
	note := func(v app.Value) {
		if !v.Truthy() {
			return
		}
		now := readiness{state: v.Get("state").String(), why: v.Get("why").String()}
		if now.state == s.ready.state {
			return
		}
		s.ready = s.ready.then(now)
		s.post(s.publish)
	}
	w := app.Window()
	w.Call("addEventListener", "fieldkit:offline", app.FuncOf(func(_ app.Value, args []app.Value) any {
		note(args[0].Get("detail"))
		return nil
	}))
	note(w.Get("fieldkitOffline"))
}

// notice says on every screen that there is no relying on the program yet; nothing
// when there is, or nothing is known.
func (r readiness) notice() app.UI {
	switch r.state {
	case "ready":
		if r.late {
			return app.P().Class("note ok no-print").Text("Ready for no signal: the program is now stored whole on this phone.")
		}
	case "saving":
		return app.P().Class("note warn no-print").Text("Not ready for no signal yet: the program is being stored on this phone.")
	case "failed", "missing":
		return app.Div().Class("note warn no-print").Body(
			app.P().Class("strong").Text("Not ready for no signal."),
			app.P().Text("The program is not whole on this phone"+reasonWords(r.why)+". It is fetched again when there is signal: stay until this line says that it is ready."),
		)
	}
	return nil
}

func reasonWords(why string) string {
	if why == "" {
		return ""
	}
	return " (" + why + ")"
}

// line says it on the start screen, good news too.
func (r readiness) line() app.UI {
	if r.state == "ready" {
		return blaze("good", "Ready for no signal")
	}
	if n := r.notice(); n != nil {
		return n
	}
	return app.Div().Hidden(true)
}
