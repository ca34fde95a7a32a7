package app

import (
	"fmt"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// searchID is the page's name of the one search box a screen has.
const searchID = "search"

// searchLine is a box to search with and a button that empties it.
type searchLine struct {
	query    string
	revision int // raised when the query changes from outside the box
}

// follow takes up the query of an address.
func (l *searchLine) follow(query string) {
	if query != l.query {
		l.query = query
		l.revision++
	}
}

// draw draws the line. Ask is called with every letter.
func (l *searchLine) draw(name, label, example string, ask func(app.Context, string)) app.UI {
	asked := func(ctx app.Context, q string) {
		l.query = q
		ask(ctx, q)
	}
	return app.Div().Class("search no-print").Role("search").Body(
		&searchBox{Name: name, Revision: l.revision, Value: l.query, Label: label, Example: example, OnType: asked},
		app.If(l.query != "", func() app.UI {
			return button("quiet", "Clear", "clear "+name, func(ctx app.Context) {
				l.revision++
				asked(ctx, "")
				ctx.Defer(func(app.Context) { focusOn(searchID) })
			})
		}),
	)
}

// searchBox is the line to type in; its identity changes only when the query is set
// from outside.
type searchBox struct {
	app.Compo
	Name     string
	Revision int
	Value    string
	Label    string
	Example  string
	OnType   func(app.Context, string)
}

// CompoID tells go-app when the box must take another value.
func (b *searchBox) CompoID() string { return fmt.Sprint(b.Name, b.Revision) }

// Render draws the box. Enter puts the keyboard of a phone away, so that the answers
// are seen.
func (b *searchBox) Render() app.UI {
	return app.Input().Type("search").ID(searchID).Name(b.Name).Value(b.Value).Placeholder(b.Example).Aria("label", b.Label).
		AutoComplete(false).Attr("autocapitalize", "none").Attr("spellcheck", "false").Attr("enterkeyhint", "search").
		OnInput(func(ctx app.Context, _ app.Event) { b.OnType(ctx, ctx.JSSrc().Get("value").String()) }).
		OnKeyDown(func(ctx app.Context, e app.Event) {
			if e.Get("key").String() == "Enter" {
				ctx.JSSrc().Call("blur")
			}
		})
}
