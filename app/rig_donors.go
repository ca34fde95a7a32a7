package app

import (
	"fmt"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
)

// donorsScreen lists the vehicles the parts came from.
type donorsScreen struct {
	app.Compo
	rows []donorRow
}

type donorRow struct {
	donor fieldkit.Donor
	parts int
}

func (s *donorsScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *donorsScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *donorsScreen) load(app.Context) { s.rows = viewDonors(kept.kit()) }

func viewDonors(k fieldkit.Kit) []donorRow {
	var rows []donorRow
	for _, d := range k.Donors {
		rows = append(rows, donorRow{d, len(partsFrom(k, d.ID))})
	}
	return rows
}

// partsFrom lists the parts that came from a donor.
func partsFrom(k fieldkit.Kit, donor string) []fieldkit.Part {
	var list []fieldkit.Part
	for _, p := range k.Parts.All() {
		if p.Donor == donor && donor != "" {
			list = append(list, p)
		}
	}
	return list
}

func (s *donorsScreen) Render() app.UI {
	return frame(page{title: "Donors", sub: "the vehicles to name at the counter", dest: "/rig", back: link("/rig"), body: []app.UI{
		app.If(len(s.rows) == 0, func() app.UI {
			return emptyLine("No donor yet. Add the vehicle each system came from: at the counter its year, make and model find the part, the rig's own do not.")
		}),
		app.Ul().Class("list").Body(app.Range(s.rows).Slice(func(i int) app.UI {
			r := s.rows[i]
			return openRow(link("/rig/donor", "id", r.donor.ID), r.donor.Title(), r.donor.Axle, countOf(r.parts, "part"))
		})),
		goTo("act wide", "Add a donor", link("/rig/donor")),
	}})
}

// countOf writes a count with its noun: "1 part", "3 parts".
func countOf(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
