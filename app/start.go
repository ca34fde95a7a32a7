package app

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// startScreen is the first thing a new user sees: their own rig, or the demo.
func startScreen() app.UI {
	return app.Main().Class("start").DataSet("phase", string(choosing)).Body(
		app.H1().Text("Know what is on the rig. Carry what gets you home."),
		app.P().Class("lead").Text("Everything is kept on this phone and works with no signal."),
		app.If(kept.gone != "", func() app.UI { return goneNotice() }),
		button("act tall wide", "Begin with my rig", "own", func(ctx app.Context) {
			toRig(ctx, func(ctx app.Context) { kept.begin(ctx, ownKit) })
		}),
		button("quiet wide", "Look around with the demo kit", "demo", func(ctx app.Context) {
			toRig(ctx, func(ctx app.Context) { kept.begin(ctx, demoKit) })
		}),
		app.P().Class("soft").Text("The demo crew, its rigs and its parts are invented. It can be thrown away without touching your own kit."),
		app.If(app.IsClient && onApple(), func() app.UI {
			return app.P().Class("note warn").Text("On an iPhone or iPad: first tap Share, then Add to Home Screen, and begin there. What is kept in the browser does not move to the home screen.")
		}),
		// What comes late or grows stands below what is pressed: nothing moves under the thumb.
		kept.ready.line(),
		offerButton(),
	)
}

// plainLink leads to what can be read without the kit.
func plainLink() app.UI {
	if _, ok := plainCache(); !ok {
		return app.Div().Hidden(true)
	}
	return goTo("quiet wide", "Read the plain pages", link("/plain/"))
}
