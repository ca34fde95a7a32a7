package app

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// page is what every screen gives the frame around it.
type page struct {
	title string
	sub   string // second line of the head
	dest  string // path of the destination it belongs to
	back  string // address one level up, none at a destination
	body  []app.UI
}

// frame draws a screen: head, work, what was just done, and the bar of five
// destinations. While the kit is not open it draws why, in place of the work.
func frame(p page) app.UI {
	body := p.body
	switch kept.phase {
	case opening:
		body = []app.UI{app.P().Class("soft").Text("Opening your kit …")}
	case choosing:
		return startScreen()
	case closed:
		body = []app.UI{closedNotice()}
	}
	return app.Div().Class("frame").Body(
		app.A().Class("skip").Href("#work").Text("Skip to the work"),
		head(p),
		app.Main().Class("work").ID("work").DataSet("phase", string(kept.phase)).Body(append(notices(), body...)...),
		saidBar(),
		bar(p.dest),
	)
}

func head(p page) app.UI {
	return app.Header().Class("head").Body(
		app.If(p.back != "", func() app.UI {
			return app.A().Href(p.back).Aria("label", "Back").Text("←")
		}),
		app.H1().Body(
			app.Text(p.title),
			app.If(p.sub != "", func() app.UI { return app.Small().Text(p.sub) }),
		),
		app.A().Href(link("/kit")).Aria("label", "Kit: units, backup, storage").Body(icon(iconKit)),
	)
}

func bar(current string) app.UI {
	return app.Nav().Class("bar").Aria("label", "Destinations").Body(
		app.Range(destinations).Slice(func(i int) app.UI {
			d := destinations[i]
			a := app.A().Href(link(d.path)).Body(icon(d.icon), app.Span().Text(d.name))
			if d.path == current {
				a = a.Aria("current", "page")
			}
			return a
		}),
	)
}

// notices are said on top of every screen until they no longer hold.
func notices() []app.UI {
	var list []app.UI
	if kept.which == demoKit && kept.phase == open {
		list = append(list, app.P().Class("note no-print").Body(
			app.B().Text("Demo kit, all invented. "),
			app.A().Href(link("/kit")).Text("Leave it"),
		))
	}
	if kept.updateWaiting {
		list = append(list, app.Div().Class("note ok no-print").Body(
			app.Text("A new version is here and checked. What you typed is kept."),
			app.Div().Class("row").Body(button("quiet", "Use it now", "update", func(app.Context) { applyUpdate() })),
		))
	}
	if kept.trouble != nil {
		list = append(list, problem(kept.trouble))
	}
	return list
}

// saidBar says what was just written down and offers to take it back.
func saidBar() app.UI {
	if kept.said.text == "" {
		return app.Div().Hidden(true)
	}
	return app.Div().Class("said-bar no-print").Aria("live", "polite").Body(
		app.Span().Text(kept.said.text),
		app.If(kept.said.entry != "", func() app.UI {
			entry := kept.said.entry
			return button("", "Undo", "undo "+entry, func(ctx app.Context) { kept.undo(ctx, entry) })
		}),
		app.Button().Type("button").Aria("label", "Close this line").Text("×").OnClick(func(ctx app.Context, e app.Event) {
			kept.hush(ctx)
		}),
	)
}

// watch makes a screen load its view when it is mounted and whenever the kit
// changes. It ends by itself when the screen is left.
func watch(ctx app.Context, load func(app.Context)) {
	ctx.Handle(kitChanged, func(ctx app.Context, _ app.Action) { load(ctx) })
	kept.show(ctx)
	kept.ensureOpen(ctx)
	load(ctx)
}

// arrive is what every screen does in OnNav: load for the new address and stand
// where the page was left.
func arrive(ctx app.Context, load func(app.Context)) {
	load(ctx)
	placeScroll(ctx)
}

// param reads one value of the address's query.
func param(ctx app.Context, name string) string {
	return ctx.Page().URL().Query().Get(name)
}
