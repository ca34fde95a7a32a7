package app

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// page is what every screen gives the frame around it.
type page struct {
	title string
	sub   string // second line of the head
	dest  string // path of the destination it belongs to, or of the kit screen
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
		body = []app.UI{&rescueBlock{}}
	}
	nameTab(p.title)
	return app.Div().Class("frame").Body(
		app.Button().Type("button").Class("skip").Text("Skip to the work").OnClick(func(app.Context, app.Event) { focusOn("work") }),
		head(p),
		app.Main().Class("work").ID("work").TabIndex(-1).DataSet("phase", string(kept.phase)).Body(append([]app.UI{noticeBoard()}, body...)...),
		saidBar(),
		bar(p.dest),
	)
}

// nameTab gives the browser's tab the name of the screen.
func nameTab(title string) {
	if app.IsClient {
		app.Window().Get("document").Set("title", title+" · Trail Field Kit")
	}
}

// focusOn puts the focus on an element of the page.
func focusOn(id string) {
	if e := app.Window().GetElementByID(id); e.Truthy() {
		e.Call("focus")
	}
}

func head(p page) app.UI {
	return app.Header().Class("head").Body(
		app.If(p.back != "", func() app.UI { return backArrow(p.back) }),
		app.H1().TabIndex(-1).Body(
			app.Text(p.title),
			app.If(p.sub != "", func() app.UI { return app.Small().Text(p.sub) }),
		),
		current(app.A().Href(link("/kit")).Aria("label", "Kit: units, backup, storage").Body(icon(iconKit)), p.dest == "/kit"),
	)
}

// current marks the link of the screen one is at.
func current(a app.HTMLA, on bool) app.HTMLA {
	if on {
		return a.Aria("current", "page")
	}
	return a
}

func bar(dest string) app.UI {
	return app.Nav().Class("bar").Aria("label", "Destinations").Body(
		app.Range(destinations).Slice(func(i int) app.UI {
			d := destinations[i]
			href := link(d.path)
			return current(app.A().Href(href).Body(icon(d.icon), app.Span().Text(d.name)).
				OnClick(func(app.Context, app.Event) {
					if here := address(); pathOf(here) == originOf(here)+href && here != originOf(here)+href {
						startAgain(href)
					}
				}, app.EventScope(href)), d.path == dest)
		}),
	)
}

// noticeBoard always has its place on the page: were it to come and go, everything
// below it would be drawn anew, and the field in hand would lose the caret.
func noticeBoard() app.UI {
	list := notices()
	return app.Div().Class("screen").Hidden(len(list) == 0).Body(list...)
}

// notices are said on top of every screen until they no longer hold.
func notices() []app.UI {
	var list []app.UI
	if kept.which == demoKit && kept.phase == open {
		list = append(list, app.P().Class("note demo no-print").Body(
			app.Text("Demo kit, all invented "),
			goTo("link push", "Leave it", link("/kit")),
		))
	}
	if n := kept.ready.notice(); n != nil {
		list = append(list, n)
	}
	if kept.updateWaiting && kept.updateOffered {
		list = append(list, updateNotice())
	}
	if kept.trouble != nil {
		list = append(list, app.Div().Class("block no-print").Body(
			problem(kept.trouble),
			app.If(kept.damaged(), func() app.UI { return goTo("quiet", "What was set aside", link("/kit/rescue")) }),
			button("quiet", "Close", "close trouble", kept.hush),
		))
	}
	return list
}

// saidBar says what was just written down and offers to take it back, or how far planning
// is. Its place is always on the page: a screen reader reads out only what changes there.
func saidBar() app.UI {
	place := app.Div().Class("saying no-print").Role("status")
	if planning != nil {
		return place.Body(planningBar())
	}
	return place.Body(app.If(kept.said.text != "", func() app.UI {
		return app.Div().Class("said-bar").Body(
			app.Span().Text(kept.said.text),
			app.If(kept.said.entry != "", func() app.UI {
				entry := kept.said.entry
				return button("", "Undo", "undo "+entry, func(ctx app.Context) { kept.undo(ctx, entry) })
			}),
			app.Button().Type("button").Aria("label", "Close this line").Text("×").
				OnClick(func(ctx app.Context, _ app.Event) { kept.hush(ctx) }),
		)
	}))
}

// watch makes a screen load its view whenever the kit changes. It ends by itself when
// the screen is left. The first time it is loaded by arrive: a screen that is mounted is
// navigated to at once.
func watch(ctx app.Context, load func(app.Context)) {
	ctx.Handle(kitChanged, func(ctx app.Context, _ app.Action) {
		if kept.changedSince(ctx) {
			load(ctx)
		}
	})
	kept.show(ctx)
	kept.ensureOpen(ctx)
}

// arrive is what every screen does in OnNav: load for the new address and stand
// where the page was left.
func arrive(ctx app.Context, load func(app.Context)) {
	kept.said.passOn()
	kept.ready.late = false
	kept.offerUpdate()
	kept.changedSince(ctx)
	load(ctx)
	placeScroll(ctx)
}

// param reads one value of the address's query.
func param(ctx app.Context, name string) string {
	return ctx.Page().URL().Query().Get(name)
}
