package app

import (
	"fmt"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/chart"
	"trailfieldkit/fieldkit/findings"
	"trailfieldkit/fieldkit/likelihood"
)

// saysScreen is what the log says: what fails, what that costs, how long parts last,
// what wears, which spares were carried for nothing.
type saysScreen struct {
	app.Compo
	view saysView
}

// saysView is what the screen draws.
type saysView struct {
	rig      string
	rigs     []option
	failures int
	lost     fieldkit.Minutes
	systems  []findings.Tally
	kinds    []findings.Tally
	modes    []findings.Tally
	costly   []findings.Tally // part kinds by the time they cost
	trips    []findings.Tally
	lives    []lifeView // of kinds that failed
	lasting  []findings.Life
	wear     []logRow
	spares   []findings.Carried
	lists    int // trips with a packing list, of done trips
	done     int
}

// lifeView is the life of a kind with those of its places.
type lifeView struct {
	findings.Life
	places []findings.Life
}

func (s *saysScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *saysScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *saysScreen) load(ctx app.Context) {
	s.view = viewSays(kept.kit(), data.Catalog(), kept.first(), param(ctx, "rig"))
}

// viewSays reckons what the log of a rig says, of all rigs if it is none.
func viewSays(k fieldkit.Kit, cat fieldkit.Catalog, first fieldkit.System, rig string) saysView {
	v := saysView{rig: rig, rigs: append([]option{{"", "All rigs"}}, rigOptions(k)...)}
	v.systems = findings.Count(k, cat, findings.BySystem, rig)
	v.kinds = findings.Count(k, cat, findings.ByPartKind, rig)
	v.modes = findings.Count(k, cat, findings.ByMode, rig)
	v.costly = findings.Costliest(v.kinds)
	v.trips = findings.TripHours(k, rig)
	for _, t := range v.systems {
		v.failures += t.Failures
		v.lost += t.Lost
	}
	for _, l := range findings.ByKind(k, cat, rig) {
		if l.Failures == 0 {
			v.lasting = append(v.lasting, l)
			continue
		}
		v.lives = append(v.lives, lifeView{l, findings.ByPosition(k, rig, l.Kind)})
	}
	for _, r := range k.Rigs {
		if rig == "" || r.ID == rig {
			v.wear = append(v.wear, wearRows(k, cat, r, first)...)
		}
	}
	v.spares, v.lists, v.done = findings.Spares(k, cat, rig)
	return v
}

// wearRows lists the positions of a rig that have a reading, with the way to their
// limit.
func wearRows(k fieldkit.Kit, cat fieldkit.Catalog, rig fieldkit.Rig, first fieldkit.System) (rows []logRow) {
	for _, p := range k.PositionsOf(rig.ID) {
		w, ok := likelihood.WearAt(k, cat, p)
		if !ok {
			continue
		}
		rows = append(rows, logRow{id: p.ID, title: rig.Name + ": " + p.Title(), sub: wearWords(w, first), address: link("/log/wear", "position", p.ID)})
	}
	return rows
}

// wearWords says what is read, and how far the limit is.
func wearWords(w likelihood.WearLine, first fieldkit.System) string {
	last := w.Readings[len(w.Readings)-1]
	words := fmt.Sprintf("%s %s, limit %s", w.Measure.Name, last.Value.Show(first), w.Measure.Limit.Show(first))
	return words + "; " + limitWords(w, first)
}

// limitWords says how far the limit is, or why nobody can say.
func limitWords(w likelihood.WearLine, first fieldkit.System) string {
	way, low, high, endless, sure := w.ToLimit()
	switch {
	case w.AtLimit():
		return "at its limit, or past it"
	case !w.Known:
		return w.Why
	case !sure:
		return "about " + findings.AboutRun(w, way, first) + " left; the readings lie too far off their line to say how sure that is"
	case endless:
		return "about " + findings.AboutRun(w, way, first) + " left, nine times in ten " + findings.AboutRun(w, low, first) + " or more"
	}
	return "about " + findings.AboutRun(w, way, first) + " left, nine times in ten " + findings.AboutRuns(w, low, high, first)
}

// lifeWords says how long parts last at one place, and what that rests on.
func lifeWords(l findings.Life, first fieldkit.System) string {
	watched := fmt.Sprintf("%s in %s", counted(l.Failures, "failure"), findings.About(l.Way, first))
	if l.Places > 1 {
		watched += fmt.Sprintf(" at %d places", l.Places)
	}
	switch {
	case l.Failures == 0:
		return "further than " + findings.About(l.Low, first) + ", nineteen times in twenty; no failure in " + findings.About(l.Way, first)
	case l.High == 0:
		return fmt.Sprintf("about %s, at least %s; %s", findings.About(l.Mean, first), findings.About(l.Low, first), watched)
	}
	return fmt.Sprintf("about %s, nine times in ten %s to %s; %s", findings.About(l.Mean, first), findings.About(l.Low, first), findings.About(l.High, first), watched)
}

func (s *saysScreen) Render() app.UI {
	v := s.view
	body := []app.UI{
		app.If(len(v.rigs) > 2, func() app.UI {
			return app.Div().Class("no-print").Body(choice("Rig", "rig", v.rig, v.rigs, func(ctx app.Context, rig string) {
				rewriteQuery("rig", rig)
				s.load(ctx)
			}))
		}),
	}
	if v.failures == 0 {
		body = append(body, emptyLine("No failure is in the log. What fails and what it costs is said here once something is written down."))
	} else {
		body = append(body,
			app.P().Class("big").Text(counted(v.failures, "failure")+", "+v.lost.String()+" lost"),
			section("What fails most", pictured(systemBars(v), tallyHeads, tallyRows(v.systems)), v.tallies("By kind of part", v.kinds), v.tallies("By how it failed", v.modes)),
			section("What cost most hours", tallyList(v.costly, 5), v.tallies("All kinds", v.costly)),
			section("Hours lost per trip", pictured(tripBars(v), tallyHeads, tallyRows(v.trips)), s.reports()),
		)
	}
	body = append(body, s.lives(), s.wear(), s.carried())
	return frame(page{title: "What the log says", sub: "fails, lasts, wears, carried", dest: "/log", back: link("/log"), body: []app.UI{app.Div().Class("paper block").Body(body...)}})
}

var tallyHeads = []string{"", "Times", "Time lost"}

func tallyRows(list []findings.Tally) (rows [][]string) {
	for _, t := range list {
		rows = append(rows, []string{capital(t.Name), itoa(t.Failures), lostWords(t)})
	}
	return rows
}

// lostWords says what time a tally cost, and of how many failures that is not known.
func lostWords(t findings.Tally) string {
	words := t.Lost.String()
	if t.Unlost > 0 {
		words += fmt.Sprintf(" (%d do not say)", t.Unlost)
	}
	return words
}

func systemBars(v saysView) string {
	var bars []chart.Bar
	for _, t := range v.systems {
		bars = append(bars, chart.Bar{Name: capital(t.Name), Value: float64(t.Failures), Label: itoa(t.Failures)})
	}
	return chart.Bars("Failures by system", bars)
}

// tripsShown is how many trips the picture holds, the latest; the table has all.
const tripsShown = 12

func tripBars(v saysView) string {
	var bars []chart.Bar
	for _, t := range v.trips[max(0, len(v.trips)-tripsShown):] {
		bars = append(bars, chart.Bar{Name: t.Name, Value: float64(t.Lost), Label: t.Lost.String()})
	}
	return chart.Bars("Hours lost per trip", bars)
}

// tallies folds a whole list away.
func (v saysView) tallies(title string, list []findings.Tally) app.UI {
	if len(list) == 0 {
		return app.Div().Hidden(true)
	}
	return app.Details().Class("group").Body(
		app.Summary().Body(app.Text(title), app.Span().Class("count").Text(itoa(len(list)))),
		app.Div().Class("in").Body(sheetTable(tallyHeads, tallyRows(list))),
	)
}

// tallyList shows the first of a list.
func tallyList(list []findings.Tally, most int) app.UI {
	if len(list) == 0 {
		return emptyLine("No failure says how much time it cost.")
	}
	list = list[:min(most, len(list))]
	return app.Ul().Class("list").Body(app.Range(list).Slice(func(i int) app.UI {
		return plainRow(list[i].Name, list[i].Lost.String()+" in "+counted(list[i].Failures, "failure"))
	}))
}

// reports opens the report of a trip.
func (s *saysScreen) reports() app.UI {
	list := s.view.trips
	return app.Details().Class("group no-print").Body(
		app.Summary().Body(app.Text("Trip reports to print"), app.Span().Class("count").Text(itoa(len(list)))),
		app.Div().Class("in").Body(app.Ul().Class("list").Body(app.Range(list).Slice(func(i int) app.UI {
			t := list[len(list)-1-i]
			return openRow(link("/log/trip", "id", t.ID), t.Name, counted(t.Failures, "failure")+" · "+t.Lost.String()+" lost", "")
		}))),
	)
}

func (s *saysScreen) lives() app.UI {
	v, first := s.view, kept.first()
	if len(v.lives)+len(v.lasting) == 0 {
		return section("How long parts last", emptyLine("Write odometers into the log: from them follows how far the rig drives until a part fails."))
	}
	return section("How long parts last",
		app.P().Class("soft").Text("Distance driven until a part fails at one place, on average. Parts that still live count by the way they have come. It is taken that they fail as often old as young; what wears is further down."),
		app.Range(v.lives).Slice(func(i int) app.UI {
			l := v.lives[i]
			return app.Details().Class("group").Body(
				app.Summary().Body(app.Text(capital(l.Name)), app.Span().Class("count").Text("about "+findings.About(l.Mean, first))),
				app.Div().Class("in block").Body(
					app.P().Class("figures").Text(capital(lifeWords(l.Life, first))),
					app.Ul().Class("list").Body(app.Range(l.places).Slice(func(j int) app.UI {
						p := l.places[j]
						return openRow(link("/rig/position", "id", p.Position), p.Name, lifeWords(p, first), "")
					})),
				),
			)
		}),
		app.If(len(v.lasting) > 0, func() app.UI {
			return app.Details().Class("group").Body(
				app.Summary().Body(app.Text("Never failed"), app.Span().Class("count").Text(itoa(len(v.lasting)))),
				app.Div().Class("in").Body(app.Ul().Class("list").Body(app.Range(v.lasting).Slice(func(i int) app.UI {
					return plainRow(v.lasting[i].Name, lifeWords(v.lasting[i], first))
				}))),
			)
		}),
	)
}

func (s *saysScreen) wear() app.UI {
	rows := s.view.wear
	if len(rows) == 0 {
		return section("What wears", emptyLine("No reading is written down. Three readings of a lining or a joint, with their odometers, tell how far its limit is."))
	}
	return section("What wears", app.Ul().Class("list").Body(app.Range(rows).Slice(func(i int) app.UI {
		return openRow(rows[i].address, rows[i].title, rows[i].sub, "")
	})))
}

// carried says which spares were used and which only rode along.
func (s *saysScreen) carried() app.UI {
	v, first := s.view, kept.first()
	if len(v.spares) == 0 {
		return section("Spares used and carried", emptyLine("No spare was used on a trip that is done, and none of these trips kept its packing list."))
	}
	var used, idle []findings.Carried
	for _, c := range v.spares {
		if c.Used > 0 {
			used = append(used, c)
		} else {
			idle = append(idle, c)
		}
	}
	fold := func(title string, list []findings.Carried) app.UI {
		return app.If(len(list) > 0, func() app.UI {
			return app.Details().Class("group").Body(
				app.Summary().Body(app.Text(title), app.Span().Class("count").Text(itoa(len(list)))),
				app.Div().Class("in").Body(app.Ul().Class("list").Body(app.Range(list).Slice(func(i int) app.UI {
					return plainRow(list[i].Name, carriedWords(list[i], first))
				}))),
			)
		})
	}
	return section("Spares used and carried",
		app.P().Class("soft").Text(fmt.Sprintf("%d of %d trips done kept a packing list; of the others it is not known what rode along. A spare that was never used may still be what gets you home: see what it covers in the trip's plan.", v.lists, v.done)),
		fold("Used on trips", used),
		fold("Carried for nothing so far", idle),
	)
}

func carriedWords(c findings.Carried, first fieldkit.System) string {
	var parts []string
	if c.Used > 0 {
		parts = append(parts, fmt.Sprintf("%d used on %s", c.Used, counted(c.UsedOn, "trip")))
	}
	if c.Trips > 0 {
		parts = append(parts, "carried on "+counted(c.Trips, "trip"))
	} else {
		parts = append(parts, "on no packing list that was kept")
	}
	if c.Mass > 0 && c.Trips > 0 {
		parts = append(parts, c.Mass.Show(first))
	}
	return strings.Join(parts, "; ")
}
