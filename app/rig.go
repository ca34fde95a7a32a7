package app

import (
	"fmt"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/counter"
)

// rigScreen shows the bill of materials as a tree of systems and positions, and
// how much of it a stranger at a counter could be told.
type rigScreen struct {
	app.Compo
	view rigView
}

// rigView is what the screen draws.
type rigView struct {
	rigs    []fieldkit.Rig
	rig     fieldkit.Rig
	systems []systemView
	ready   int
	total   int
}

type systemView struct {
	id, name string
	ready    int
	rows     []positionRow
}

type positionRow struct {
	id, title, fitted string
	under             bool
	state             counter.State
}

func (s *rigScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *rigScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *rigScreen) load(ctx app.Context) {
	if kept.phase != open {
		return // the first start is not held up by reading the catalog
	}
	s.view = viewRig(kept.kit(), data.Catalog(), param(ctx, "rig"))
}

// viewRig builds the tree of one rig, the first if none is asked for.
func viewRig(k fieldkit.Kit, cat fieldkit.Catalog, id string) rigView {
	v := rigView{rigs: k.Rigs}
	if len(k.Rigs) == 0 {
		return v
	}
	var ok bool
	if v.rig, ok = k.Rig(id); !ok {
		v.rig = k.Rigs[0]
	}
	states := map[string]counter.State{}
	for _, r := range counter.Ready(k, cat, v.rig.ID) {
		states[r.Position] = r.State
	}
	for _, system := range systemsOf(k, v.rig.ID) {
		sv := systemView{id: system.ID, name: system.Name}
		for _, p := range treeOrder(k, system.ID) {
			row := positionRow{id: p.ID, title: p.Title(), fitted: fittedName(k, p), under: p.Parent != "", state: states[p.ID]}
			sv.rows = append(sv.rows, row)
			if row.state == counter.StateReady {
				sv.ready++
			}
		}
		v.total += len(sv.rows)
		v.ready += sv.ready
		v.systems = append(v.systems, sv)
	}
	return v
}

func (s *rigScreen) Render() app.UI {
	v := s.view
	if len(v.rigs) == 0 {
		return frame(page{title: "Rig", dest: "/rig", body: []app.UI{
			emptyLine("There is no rig yet. Add one: what is on the papers does not matter, what is bolted on does."),
			goTo("act wide", "Add a rig", link("/rig/edit")),
		}})
	}
	body := []app.UI{
		reminderLine(true),
		s.chooser(),
		app.A().Class("open").Href(link("/rig/gaps", "rig", v.rig.ID)).Body(
			app.Span().Class("what").Body(
				app.B().Text("Counter-ready"),
				app.Span().Text("a stranger could be told what to ask for"),
			),
			app.Span().Class("aside big").Text(fmt.Sprintf("%d of %d", v.ready, v.total)),
		),
	}
	for _, system := range v.systems {
		body = append(body, s.system(system))
	}
	body = append(body,
		goTo("quiet wide", "Add a position", link("/rig/position/edit", "rig", v.rig.ID)),
		app.Div().Class("two").Body(
			goTo("quiet", "Systems", link("/rig/systems", "rig", v.rig.ID)),
			goTo("quiet", "Donors", link("/rig/donors")),
			goTo("quiet", "Driveline", link("/rig/driveline", "rig", v.rig.ID)),
			goTo("quiet", "How parts fail", link("/rig/priors")),
			goTo("quiet", "About this rig", link("/rig/edit", "id", v.rig.ID)),
			goTo("quiet", "Add a rig", link("/rig/edit")),
		),
	)
	return frame(page{title: rigName(v.rig), sub: paperSays(v.rig), dest: "/rig", body: body})
}

// chooser lets a crew of several rigs pick one.
func (s *rigScreen) chooser() app.UI {
	if len(s.view.rigs) < 2 {
		return app.Div().Hidden(true)
	}
	var options []option
	for _, r := range s.view.rigs {
		options = append(options, option{r.ID, rigName(r)})
	}
	return choice("Rig", "rig", s.view.rig.ID, options, func(ctx app.Context, id string) {
		goOn(ctx, link("/rig", "rig", id))
	})
}

func (s *rigScreen) system(v systemView) app.UI {
	return app.Details().Class("group").Body(
		app.Summary().Body(app.Text(v.name), app.Span().Class("count").Text(fmt.Sprintf("%d of %d ready", v.ready, len(v.rows)))),
		app.Div().Class("in").Body(
			app.If(len(v.rows) == 0, func() app.UI { return emptyLine("No position yet. Add one below.") }),
			app.Ul().Class("list").Body(app.Range(v.rows).Slice(func(i int) app.UI { return positionLine(v.rows[i]) })),
		),
	)
}

func positionLine(r positionRow) app.UI {
	class := "open"
	if r.under {
		class += " under"
	}
	mark, word := readyMark(r.state)
	return app.Li().Body(app.A().Class(class).Href(link("/rig/position", "id", r.id)).Body(
		app.Span().Class("blaze bare "+mark).Aria("label", word).Title(word),
		app.Span().Class("what").Body(app.B().Text(capital(r.title)), app.Span().Text(r.fitted)),
	))
}

// readyMark gives the blaze and the word of a counter-ready state.
func readyMark(s counter.State) (class, word string) {
	switch s {
	case counter.StateReady:
		return "good", "counter-ready"
	case counter.StateNearly:
		return "part", "one thing missing"
	}
	return "none", "not ready"
}

// paperSays reminds of what the papers say, which is the wrong thing to ask for.
func paperSays(r fieldkit.Rig) string {
	if r.Registration == "" {
		return ""
	}
	return "papers say: " + r.Registration
}

func fittedName(k fieldkit.Kit, p fieldkit.Position) string {
	part, ok := k.Part(p.Part)
	if !ok {
		return "not known yet"
	}
	return part.Name
}
