package app

import (
	"fmt"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/export"
	"trailfieldkit/fieldkit/findings"
)

// dueScreen lists what is due: services, and parts that come to their limit.
type dueScreen struct {
	app.Compo
	view dueView
	told string
}

// dueView is what the screen draws.
type dueView struct {
	groups []dueGroup
	dated  int // entries that a calendar can hold
	rigs   []fieldkit.Rig
}

type dueGroup struct {
	state findings.DueState
	rows  []logRow
}

func (s *dueScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *dueScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *dueScreen) load(app.Context) {
	s.view = viewDue(kept.kit(), data.Catalog(), kept.first(), today())
}

// viewDue puts what is due on a day in words, grouped by how pressing it is.
func viewDue(k fieldkit.Kit, cat fieldkit.Catalog, first fieldkit.System, day fieldkit.Date) dueView {
	v := dueView{rigs: k.Rigs}
	for _, d := range findings.DueOn(k, cat, day) {
		if !d.By.IsZero() {
			v.dated++
		}
		if n := len(v.groups); n == 0 || v.groups[n-1].state != d.State {
			v.groups = append(v.groups, dueGroup{state: d.State})
		}
		g := &v.groups[len(v.groups)-1]
		row := logRow{title: d.RigName + ": " + d.Name, sub: d.Words(first), address: link("/log/wear", "position", d.Position)}
		if d.Service != "" {
			row.address = link("/log/service", "rig", d.Rig, "id", d.Service)
		}
		g.rows = append(g.rows, row)
	}
	return v
}

func (s *dueScreen) Render() app.UI {
	v := s.view
	var body []app.UI
	if len(v.groups) == 0 {
		body = append(body, emptyLine("Nothing comes round yet. Add a service, such as engine oil every 5000 mi or hubs after deep water; parts that wear come here by their readings."))
	}
	for _, g := range v.groups {
		body = append(body, section(capital(string(g.state)), app.Ul().Class("list").Body(app.Range(g.rows).Slice(func(i int) app.UI {
			return openRow(g.rows[i].address, g.rows[i].title, g.rows[i].sub, "")
		}))))
	}
	var add []app.UI
	for _, r := range v.rigs {
		add = append(add, goTo("quiet wide", "Add a service: "+r.Name, link("/log/service", "rig", r.ID)))
	}
	return frame(page{title: "Service due", sub: "by distance, hours, date, water and wear", dest: "/log", back: link("/log"), body: []app.UI{
		app.Div().Class("paper block").Body(body...),
		app.Div().Class("block no-print").Body(add...),
		app.If(v.dated > 0, s.takeOut),
	}})
}

// takeOut hands what is due to a calendar and to paper.
func (s *dueScreen) takeOut() app.UI {
	return app.Div().Class("no-print").Body(section("Take it out",
		app.Div().Class("two").Body(
			button("quiet", fmt.Sprintf("To a calendar (%d)", s.view.dated), "ics", func(ctx app.Context) {
				list := findings.DueOn(kept.kit(), data.Catalog(), today())
				saveFile(ctx, "service-due.ics", "text/calendar", export.DueCalendar(kept.kit(), list, now(), kept.first()), func(_ app.Context, said string) { s.told = said })
			}),
			button("quiet", "Print", "print", func(app.Context) { printPage() }),
		),
		app.P().Class("soft").Text("Days that follow from distance or engine hours are reckoned from how much the rig is driven: hand it over again now and then, and later entries replace the earlier ones."),
		app.If(s.told != "", func() app.UI { return app.P().Class("note ok").Role("status").Text(s.told) }),
	))
}
