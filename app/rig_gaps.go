package app

import (
	"fmt"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/counter"
)

// gapsFirst is how many gaps are shown at first: more is not done before a trip.
const gapsFirst = 10

// gapsScreen counts how many positions of a rig are counter-ready, and ranks what
// is worth finding out before the next trip.
type gapsScreen struct {
	app.Compo
	view gapsView
	all  bool
}

type gapsView struct {
	rigs               []fieldkit.Rig
	rig                fieldkit.Rig
	ready, nearly, not int
	gaps               []gapRow
}

type gapRow struct {
	title, what, why, href string
}

func (s *gapsScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *gapsScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *gapsScreen) load(ctx app.Context) {
	s.view = viewGaps(kept.kit(), data.Catalog(), param(ctx, "rig"))
}

// viewGaps judges one rig, the first if none is asked for.
func viewGaps(k fieldkit.Kit, cat fieldkit.Catalog, id string) gapsView {
	v := gapsView{rigs: k.Rigs}
	if len(k.Rigs) == 0 {
		return v
	}
	var ok bool
	if v.rig, ok = k.Rig(id); !ok {
		v.rig = k.Rigs[0]
	}
	states := counter.Ready(k, cat, v.rig.ID)
	for _, r := range states {
		switch r.State {
		case counter.StateReady:
			v.ready++
		case counter.StateNearly:
			v.nearly++
		default:
			v.not++
		}
	}
	for _, g := range counter.GapsWorthClosing(states) {
		v.gaps = append(v.gaps, gapRow{capital(g.Title), capital(g.What), g.Why, closeGapAt(k, g)})
	}
	return v
}

// closeGapAt gives the address at which a gap is closed: the part's form, or the
// position's where the question is what sits there.
func closeGapAt(k fieldkit.Kit, g counter.Gap) string {
	if len(g.Positions) == 0 {
		return link("/rig")
	}
	at, _ := k.Position(g.Positions[0])
	if g.AtPosition {
		return link("/rig/position/edit", "id", at.ID)
	}
	return link("/rig/part/edit", "id", g.Part, "position", at.ID)
}

func (s *gapsScreen) Render() app.UI {
	v := s.view
	p := page{title: "Counter-ready", sub: v.rig.Name, dest: "/rig", back: link("/rig", "rig", v.rig.ID)}
	total := v.ready + v.nearly + v.not
	if total == 0 {
		p.body = []app.UI{emptyLine("No position yet. Add a rig with its positions first; then this tells what a stranger at a counter could not be told."), goTo("act wide", "Back to the rig", p.back)}
		return frame(p)
	}
	p.body = []app.UI{
		app.Ul().Class("list").Body(
			countLine("good", "counter-ready", v.ready),
			countLine("part", "one thing missing", v.nearly),
			countLine("none", "not ready", v.not),
		),
		s.gaps(),
	}
	return frame(p)
}

// countLine draws a state with how many positions are in it.
func countLine(mark, word string, n int) app.UI {
	return app.Li().Body(app.Div().Class("open plain").Body(
		app.Span().Class("what blaze "+mark).Text(capital(word)),
		app.Span().Class("aside big").Text(fmt.Sprint(n)),
	))
}

func (s *gapsScreen) gaps() app.UI {
	gaps := s.view.gaps
	if len(gaps) == 0 {
		return section("Worth finding out", emptyLine("Nothing is missing: every position could be told to a stranger at a counter."))
	}
	shown := gaps
	if !s.all {
		shown = gaps[:min(len(gaps), gapsFirst)]
	}
	return section("Worth finding out before the next trip",
		app.P().Class("soft").Text("What fails often and costs most time comes first. How often is a starting guess until your own log says otherwise."),
		app.Ul().Class("list").Body(app.Range(shown).Slice(func(i int) app.UI {
			g := shown[i]
			return app.Li().Body(app.A().Class("open").Href(g.href).Body(app.Span().Class("what").Body(
				app.B().Text(fmt.Sprintf("%d. %s", i+1, g.title)), app.Span().Class("ask").Text(g.what), app.Span().Text(g.why))))
		})),
		app.If(len(shown) < len(gaps), func() app.UI {
			return button("quiet wide no-print", fmt.Sprintf("Show all %d", len(gaps)), "all gaps", func(app.Context) { s.all = true })
		}),
	)
}
