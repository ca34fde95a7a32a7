package app

import (
	"fmt"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit/lookup"
)

// hitsShown is how many answers a search shows: more than that is not read on a
// phone, one more letter is typed instead.
const hitsShown = 20

// counterScreen is one search box over everything the kit knows, and below it,
// while it is empty, what was asked for last.
type counterScreen struct {
	app.Compo
	query    string
	revision int // raised when the query changes from outside the box
	hits     []lookup.Hit
	searched bool
}

func (s *counterScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }

func (s *counterScreen) OnNav(ctx app.Context) {
	if q := param(ctx, "q"); q != s.query {
		s.query = q
		s.revision++
	}
	arrive(ctx, s.load)
}

func (s *counterScreen) load(app.Context) {
	if kept.phase != open {
		return
	}
	s.searched = strings.TrimSpace(s.query) != ""
	s.hits = kept.lookup().Find(s.query, hitsShown)
}

// ask searches for what is typed and keeps it in the address, so that back
// returns to these answers.
func (s *counterScreen) ask(ctx app.Context, q string) {
	s.query = q
	u := *ctx.Page().URL()
	u.RawQuery = strings.TrimPrefix(query("q", q), "?")
	ctx.Page().ReplaceURL(&u)
	s.load(ctx)
}

func (s *counterScreen) Render() app.UI {
	return frame(page{title: "Counter", sub: "find it, then show the card", dest: "/counter", body: []app.UI{
		app.Div().Class("search").Body(
			&searchBox{Name: "q", Revision: s.revision, Value: s.query, Label: "Name, number, donor or size", OnType: s.ask},
			app.If(s.query != "", func() app.UI {
				return button("quiet", "Clear", "clear", func(ctx app.Context) {
					s.revision++
					s.ask(ctx, "")
					ctx.Defer(func(app.Context) { focusEnd(searchID) })
				})
			}),
		),
		s.answers(),
	}})
}

func (s *counterScreen) answers() app.UI {
	switch {
	case !s.searched:
		return app.Div().Class("block").Body(
			emptyLine("Type what you know: a name (cross kit), a number with or without its dashes, ? for a letter you cannot read, * for several, a donor (or its years), or a size (35 mm bearing)."),
			goTo("quiet wide", "What is at which position", link("/rig")),
		)
	case len(s.hits) == 0:
		return app.Div().Class("block").Body(
			emptyLine(fmt.Sprintf("Nothing in the kit answers to “%s”. Try fewer words, ? for a letter you are not sure of, or the name of the place it sits.", s.query)),
		)
	}
	return app.Ul().Class("list").Aria("label", "Answers").Body(app.Range(s.hits).Slice(func(i int) app.UI { return hitLine(s.hits[i]) }))
}

func hitLine(h lookup.Hit) app.UI {
	return app.Li().Body(app.A().Class("open").Href(hitAddress(h)).Body(
		app.Span().Class("what").Body(
			app.B().Text(capital(h.Title)),
			app.If(h.Sub != "", func() app.UI { return app.Span().Text(h.Sub) }),
			app.Span().Class("why").Text("because: "+strings.Join(h.Why, "; ")),
		),
	))
}

// hitAddress is the screen an answer opens.
func hitAddress(h lookup.Hit) string {
	switch h.Kind {
	case "position":
		return link("/counter/card", "part", h.Part, "position", h.ID)
	case "part":
		return link("/counter/card", "part", h.ID, "position", h.Position)
	case "donor":
		return link("/rig/donor", "id", h.ID)
	case "kind":
		return link("/counter/kind", "id", h.ID)
	case "tool", "consumable":
		return link("/pack/stock", "id", h.ID)
	}
	return link("/counter", "q", h.Title)
}

const searchID = "search"

// searchBox is the one line of a search; its identity changes only when the
// query is set from outside.
type searchBox struct {
	app.Compo
	Name     string
	Revision int
	Value    string
	Label    string
	OnType   func(app.Context, string)
}

// CompoID tells go-app when the box must take another value.
func (b *searchBox) CompoID() string { return fmt.Sprint(b.Name, b.Revision) }

// Render draws the box.
func (b *searchBox) Render() app.UI {
	return app.Input().Type("search").ID(searchID).Name(b.Name).Value(b.Value).Placeholder(b.Label).Aria("label", b.Label).
		AutoComplete(false).Attr("autocapitalize", "none").Attr("spellcheck", "false").
		OnInput(func(ctx app.Context, _ app.Event) { b.OnType(ctx, ctx.JSSrc().Get("value").String()) })
}
