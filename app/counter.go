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

// counterScreen is one search box over everything the kit knows.
type counterScreen struct {
	app.Compo
	search   searchLine
	hits     []lookup.Hit
	searched bool
}

func (s *counterScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }

func (s *counterScreen) OnNav(ctx app.Context) {
	s.search.follow(param(ctx, "q"))
	arrive(ctx, s.load)
}

func (s *counterScreen) load(app.Context) {
	if kept.phase != open {
		return
	}
	s.searched = strings.TrimSpace(s.search.query) != ""
	if s.hits = nil; s.searched {
		s.hits = kept.lookup().Find(s.search.query, hitsShown)
	}
}

// ask searches for what is typed and keeps it in the address, so that back
// returns to these answers.
func (s *counterScreen) ask(ctx app.Context, q string) {
	rewriteQuery("q", q)
	s.load(ctx)
}

func (s *counterScreen) Render() app.UI {
	return frame(page{title: "Counter", sub: "find it, then show the card", dest: "/counter", body: []app.UI{
		s.search.draw("q", "Name, number, donor or size", "name, number, size", s.ask),
		s.answers(),
	}})
}

func (s *counterScreen) answers() app.UI {
	switch {
	case !s.searched:
		return app.Div().Class("block").Body(
			emptyLine("Type what you know of the part:"),
			facts(
				fact{"A name", "cross kit, front pads"},
				fact{"A number", "with or without dashes; ? for one letter you cannot read, * for several"},
				fact{"A donor", "its make, model or year"},
				fact{"A size", "35 mm bearing, 1-3/8 in"},
				fact{"A stamp", "6207-2RS, LM501349, 35x12.50R17: what it means and where you have one"},
			),
			goTo("quiet wide", "Measure a part: what is it?", link("/counter/measure")),
			goTo("quiet wide", "Tables of published sizes", link("/counter/tables")),
			goTo("quiet wide", "I am at a store: what could I buy?", link("/counter/store")),
			goTo("quiet wide", "What sits where on the rig", link("/rig")),
		)
	case len(s.hits) == 0:
		return emptyLine(fmt.Sprintf("Nothing in the kit or the tables answers to “%s”. Try fewer words, ? for a letter you are not sure of, or the name of the place it sits.", s.search.query))
	}
	return app.Ul().Class("list").Aria("label", "Answers").Body(app.Range(s.hits).Slice(func(i int) app.UI { return hitLine(s.hits[i]) }))
}

func hitLine(h lookup.Hit) app.UI {
	return app.Li().Body(app.A().Class("open").Href(hitAddress(h)).Body(
		app.Span().Class("what").Body(
			app.B().Text(capital(h.Title)),
			app.If(h.Sub != "", func() app.UI { return app.Span().Text(h.Sub) }),
			app.Span().Class("why").Text("because: "+strings.Join(whyShown(h), "; ")),
		),
	))
}

// whyShown leaves out the reasons that the line above says already.
func whyShown(h lookup.Hit) []string {
	var list []string
	for _, why := range h.Why {
		if at, is := strings.CutPrefix(why, "fitted at "); !is || !strings.HasPrefix(h.Sub, at) {
			list = append(list, why)
		}
	}
	if len(list) == 0 {
		return h.Why
	}
	return list
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
	case "tool":
		return link("/pack/stock/edit", "what", stockTools, "id", h.ID)
	case "consumable":
		return link("/pack/stock/edit", "what", stockConsumables, "id", h.ID)
	case lookup.DesignationHit:
		return designationAddress(h.Designation)
	case lookup.RowHit:
		return rowHitAddress(h.Row)
	}
	return link("/counter", "q", h.Title)
}
