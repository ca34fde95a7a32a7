package app

import (
	"cmp"
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/export"
	"trailfieldkit/fieldkit/place"
)

// logScreen is what broke and what was read, newest first.
type logScreen struct {
	app.Compo
	view logView
	list longList
	told string
}

// logView is what the screen draws.
type logView struct {
	show     string // "", "failures" or "readings"
	rows     []logRow
	all      int // rows there are
	failures int
	readings int
	rig      fieldkit.Rig        // the one that is most likely out
	suspects []fieldkit.Position // on it, the likeliest to have broken
}

type logRow struct {
	on                      fieldkit.Date
	id, title, sub, address string
}

func (s *logScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *logScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *logScreen) load(ctx app.Context) {
	k := kept.kit()
	s.view = viewLog(k, kept.first(), param(ctx, "show"), s.list.most())
	out := viewBroke(k, data.Catalog(), "", "", today())
	s.view.rig, s.view.suspects = out.rig, out.suspects[:min(len(out.suspects), brokeOnLog)]
}

// viewLog puts the most latest entries in words.
func viewLog(k fieldkit.Kit, first fieldkit.System, show string, most int) logView {
	v := logView{show: show, failures: k.Failures.Len(), readings: k.Inspections.Len()}
	type line struct {
		on      fieldkit.Date
		failure bool
		at      int
	}
	var lines []line
	if show != "readings" {
		for i, f := range k.Failures.Refs() {
			lines = append(lines, line{f.On, true, i})
		}
	}
	if show != "failures" {
		for i, r := range k.Inspections.Refs() {
			lines = append(lines, line{r.On, false, i})
		}
	}
	// Newest first; of one day, readings first and what was written down last.
	slices.SortFunc(lines, func(a, b line) int {
		switch later := b.on.Compare(a.on); {
		case later != 0:
			return later
		case a.failure == b.failure:
			return cmp.Compare(b.at, a.at)
		case a.failure:
			return 1
		}
		return -1
	})
	v.all = len(lines)
	for _, l := range lines[:min(most, len(lines))] {
		if l.failure {
			v.rows = append(v.rows, failureRow(k, k.Failures.At(l.at), first))
		} else {
			v.rows = append(v.rows, readingRow(k, k.Inspections.At(l.at), first))
		}
	}
	return v
}

func failureRow(k fieldkit.Kit, f fieldkit.Failure, first fieldkit.System) logRow {
	rig, _ := k.Rig(f.Rig)
	where := f.Place.Text
	if where == "" && f.Place.HasFix() {
		at, _ := place.Of(f.Place)
		where = at.Degrees()
	}
	words := nonEmpty(f.On.Show(), rig.Name, odometerWords(f.Odometer, first), where, f.Fix)
	return logRow{on: f.On, id: f.ID, title: f.What, sub: strings.Join(words, " · "), address: link("/log/failure", "id", f.ID)}
}

func readingRow(k fieldkit.Kit, r fieldkit.Inspection, first fieldkit.System) logRow {
	title := r.Name + " " + r.Value.Both(first)
	words := nonEmpty(r.On.Show(), "reading")
	if p, ok := k.Position(r.Position); ok {
		rig, _ := k.RigOf(p)
		words = append(words, rig.Name+": "+p.Title())
	}
	words = append(words, nonEmpty(odometerWords(r.Odometer, first))...)
	return logRow{on: r.On, id: r.ID, title: capital(title), sub: strings.Join(words, " · "), address: link("/log/reading", "id", r.ID)}
}

func (s *logScreen) Render() app.UI {
	v := s.view
	var list app.UI = emptyLine(emptyLog(v))
	if len(v.rows) > 0 {
		list = app.Ul().Class("list").Body(app.Range(v.rows).Slice(func(i int) app.UI {
			r := v.rows[i]
			return openRow(r.address, r.title, r.sub, "")
		}))
	}
	return frame(page{title: "Log", sub: "what broke, what wears", dest: "/log", body: []app.UI{
		s.broke(),
		app.Div().Class("two no-print").Body(
			goTo("quiet", "Write it out", link("/log/failure")),
			goTo("quiet", "Write a reading", link("/log/reading")),
			goTo("quiet", "What it says", link("/log/says")),
			goTo("quiet", "Service due", link("/log/due")),
		),
		app.Div().Class("no-print").Body(choice("Show", "show", v.show, []option{{"", "All"}, {"failures", "Failures"}, {"readings", "Readings"}}, func(ctx app.Context, show string) {
			rewriteQuery("show", show)
			s.load(ctx)
		})),
		app.Div().Class("paper").Body(list, s.list.rest(v.all, "entries", s.load)),
		app.If(v.failures+v.readings > 0, s.takeOut),
	}})
}

// broke offers the places likeliest to have broken, so that a tap here and one for
// how keep an entry.
func (s *logScreen) broke() app.UI {
	v := s.view
	if v.rig.ID == "" {
		return app.Div().Hidden(true)
	}
	return app.Section().Class("block no-print").Body(
		app.H2().Text("What broke on "+v.rig.Name+"?"),
		app.Div().Class("two suspects").Body(
			app.Range(v.suspects).Slice(func(i int) app.UI {
				p := v.suspects[i]
				return goTo("quiet", capital(p.Title()), link("/log/broke", "position", p.ID))
			}),
			goTo("act", "Another place", link("/log/broke", "rig", v.rig.ID)),
		),
		goTo("quiet wide", "I don't know what: find the cause", link("/repair/triage", "rig", v.rig.ID)),
	)
}

// emptyLog says why the list is empty and what fills it.
func emptyLog(v logView) string {
	switch {
	case v.show == "failures" && v.readings > 0:
		return "No failure is written down. May it stay so."
	case v.show == "readings" && v.failures > 0:
		return "No reading is written down yet. Measure a brake lining or a joint now and then: two readings tell how fast it wears."
	}
	return "Nothing is written down yet. When something breaks or wears, it goes here, and the next trip is packed by it."
}

// takeOut hands the log to other programs and to paper.
func (s *logScreen) takeOut() app.UI {
	return app.Div().Class("no-print").Body(
		section("Take it out",
			app.Div().Class("two").Body(
				button("quiet", "Failures as CSV", "csv", func(ctx app.Context) {
					s.save(ctx, "failures.csv", "text/csv", export.LogCSV(kept.kit(), kept.first()))
				}),
				button("quiet", "Readings as CSV", "csv2", func(ctx app.Context) {
					s.save(ctx, "readings.csv", "text/csv", export.ReadingsCSV(kept.kit(), kept.first()))
				}),
				button("quiet", "Places as GPX", "gpx", func(ctx app.Context) {
					s.save(ctx, "failures.gpx", "application/gpx+xml", export.LogGPX(kept.kit(), "Trail Field Kit"))
				}),
				button("quiet", "Print", "print", func(app.Context) { printPage() }),
			),
			app.If(s.told != "", func() app.UI { return app.P().Class("note ok").Role("status").Text(s.told) }),
		),
	)
}

func (s *logScreen) save(ctx app.Context, name, mime string, content []byte) {
	saveFile(ctx, name, mime, content, func(_ app.Context, said string) { s.told = said })
}
