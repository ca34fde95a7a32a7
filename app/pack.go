package app

import (
	"fmt"
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

// packScreen lists the trips to pack for, and leads to what the crew owns.
type packScreen struct {
	app.Compo
	view packView
}

// packView is what the screen draws.
type packView struct {
	toCome, done []tripRow
}

type tripRow struct {
	id, name, sub, aside string
}

func (s *packScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *packScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *packScreen) load(app.Context) { s.view = viewPack(kept.kit(), data.Catalog(), kept.first()) }

func viewPack(k fieldkit.Kit, cat fieldkit.Catalog, first fieldkit.System) packView {
	var v packView
	trips := slices.Clone(k.Trips)
	slices.SortStableFunc(trips, func(a, b fieldkit.Trip) int { return a.Start.Compare(b.Start) })
	for _, t := range trips {
		row := tripRow{id: t.ID, name: t.Name, sub: tripWords(t, first)}
		if t.Done {
			v.done = append(v.done, row)
			continue
		}
		if pack, ok := packOf(k, t.ID); ok {
			totals := spares.SheetOf(k, cat, pack).Totals
			row.aside = fmt.Sprintf("%d of %d", totals.Ticked, totals.Lines)
		}
		v.toCome = append(v.toCome, row)
	}
	slices.Reverse(v.done) // the latest first
	return v
}

// tripWords sums a trip up: date, days, distance, terrain.
func tripWords(t fieldkit.Trip, first fieldkit.System) string {
	words := fmt.Sprintf("%s · %s · %s", counted(t.Days, "day"), t.Distance.Show(first), t.Terrain)
	if !t.Start.IsZero() {
		words = t.Start.Show() + " · " + words
	}
	return words
}

// packOf returns the packing list of a trip.
func packOf(k fieldkit.Kit, trip string) (fieldkit.Pack, bool) {
	for _, p := range k.Packs {
		if p.Trip == trip {
			return p, true
		}
	}
	return fieldkit.Pack{}, false
}

func (s *packScreen) Render() app.UI {
	v := s.view
	var toCome app.UI = emptyLine("No trip to pack for. Say where to, how far and how hard, and the kit works out what to carry.")
	if len(v.toCome) > 0 {
		toCome = tripList(v.toCome)
	}
	return frame(page{title: "Pack", sub: "choose a trip", dest: "/pack", body: []app.UI{
		section("Trips to come", toCome, goTo("act wide", "Add a trip", link("/pack/trip/edit"))),
		section("What you own",
			app.Div().Class("two").Body(
				goTo("quiet", "Spares", link("/pack/stock", "what", "spares")),
				goTo("quiet", "Consumables", link("/pack/stock", "what", "consumables")),
				goTo("quiet", "Tools", link("/pack/stock", "what", "tools")),
				goTo("quiet", "Bins", link("/pack/stock", "what", "bins")),
			),
		),
		app.If(len(v.done) > 0, func() app.UI {
			return app.Details().Class("group").Body(
				app.Summary().Body(app.Text("Trips done"), app.Span().Class("count").Text(fmt.Sprint(len(v.done)))),
				app.Div().Class("in").Body(tripList(v.done)),
			)
		}),
	}})
}

func tripList(rows []tripRow) app.UI {
	return app.Ul().Class("list").Body(app.Range(rows).Slice(func(i int) app.UI {
		return openRow(link("/pack/trip", "id", rows[i].id), rows[i].name, rows[i].sub, rows[i].aside)
	}))
}
