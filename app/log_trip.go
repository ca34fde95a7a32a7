package app

import (
	"fmt"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/findings"
	"trailfieldkit/fieldkit/plainpage"
)

// tripReportScreen tells a trip: to read, to print, to hand over as one page.
type tripReportScreen struct {
	app.Compo
	found  bool
	report findings.Report
	told   string
}

func (s *tripReportScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *tripReportScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *tripReportScreen) load(ctx app.Context) {
	var trip fieldkit.Trip
	if trip, s.found = kept.kit().Trip(param(ctx, "id")); s.found {
		s.report = findings.ReportOf(kept.kit(), data.Catalog(), trip, today(), kept.first())
	}
}

func (s *tripReportScreen) Render() app.UI {
	if !s.found {
		return frame(page{title: "Trip report", dest: "/log", back: link("/log/says"), body: []app.UI{
			emptyLine("There is no such trip in this kit. It may have been deleted, or the link is for another kit."),
		}})
	}
	r, first := s.report, kept.first()
	return frame(page{title: r.Trip.Name, sub: "trip report", dest: "/log", back: link("/log/says"), body: []app.UI{
		app.Div().Class("paper block").Body(
			app.P().Class("big").Text(r.Days()),
			facts(
				fact{"Rigs", strings.Join(r.Rigs, ", ")},
				fact{"Distance", r.Trip.Distance.Both(first)},
				fact{"Ground", string(r.Trip.Terrain)},
				fact{"Time lost", lostOn(r)},
				fact{"Note", r.Trip.Note},
			),
			toldList("What broke", "Nothing broke that was written down.", r.Failures),
			toldList("What was measured", "", r.Readings),
			app.If(len(r.Restock) > 0, func() app.UI {
				return section("Used, and to buy", app.Ul().Class("list").Body(app.Range(r.Restock).Slice(func(i int) app.UI {
					n := r.Restock[i]
					return plainRow(n.Name, fmt.Sprintf("%d used · %d left · %d to buy", n.Used, n.Stock, n.Count))
				})))
			}),
			app.If(len(r.Due) > 0, func() app.UI {
				return section("Due after it", app.Ul().Class("list").Body(app.Range(r.Due).Slice(func(i int) app.UI {
					d := r.Due[i]
					return plainRow(d.RigName+": "+d.Name, capital(string(d.State)), d.Words(first))
				})))
			}),
		),
		app.Div().Class("two no-print").Body(
			button("quiet", "Print", "print", func(app.Context) { printPage() }),
			button("quiet", "Save as a page", "page "+r.Trip.ID, s.save),
		),
		app.If(s.told != "", func() app.UI { return app.P().Class("note ok no-print").Role("status").Text(s.told) }),
	}})
}

func lostOn(r findings.Report) string {
	if len(r.Failures) == 0 {
		return ""
	}
	return r.Lost.String() + " in " + counted(len(r.Failures), "failure")
}

func toldList(title, none string, list []findings.Told) app.UI {
	if len(list) == 0 {
		if none == "" {
			return app.Div().Hidden(true)
		}
		return section(title, app.P().Text(none))
	}
	return section(title, app.Ul().Class("list").Body(app.Range(list).Slice(func(i int) app.UI {
		t := list[i]
		return plainRow(t.What, append([]string{t.On.Show() + " · " + t.At}, t.Lines...)...)
	})))
}

// save hands the report over as one page that needs nothing else.
func (s *tripReportScreen) save(ctx app.Context) {
	p := plainpage.TripReport(s.report, "", kept.first())
	html := plainpage.Frame{Base: "/", KitName: kept.kit().Name, Demo: kept.which == demoKit}.Alone(p, now())
	saveFile(ctx, "trip-report.html", "text/html", []byte(html), func(_ app.Context, said string) { s.told = said })
}
