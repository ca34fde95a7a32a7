package app

import (
	"fmt"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// use is one record that needs another: while there is one, the other stays.
type use struct {
	what string // "fitted", "spares"
	name string
	href string
}

// partUses lists what needs a part, in the order of the kit file.
func partUses(k fieldkit.Kit, part string) []use { return uses(k, "parts", part) }

// donorUses lists the parts that came from a donor.
func donorUses(k fieldkit.Kit, donor string) []use { return uses(k, "donors", donor) }

func uses(k fieldkit.Kit, collection, id string) []use {
	var list []use
	for _, r := range kitfile.ReferringTo(k, collection, id) {
		list = append(list, useOf(k, r))
	}
	return list
}

// useOf says in the trade's words what a record is and where to open it.
func useOf(k fieldkit.Kit, r fieldkit.Record) use {
	name := func(part string) string { p, _ := k.Part(part); return p.Name }
	switch r := r.(type) {
	case fieldkit.Position:
		rig, _ := k.RigOf(r)
		return use{"fitted", rig.Name + ": " + r.Title(), link("/rig/position", "id", r.ID)}
	case fieldkit.Part:
		return use{"part", r.Name, link("/rig/part/edit", "id", r.ID)}
	case fieldkit.Link:
		return use{"interchange", name(r.For) + " and " + name(r.With), link("/rig/link/edit", "id", r.ID)}
	case fieldkit.Spare:
		return use{"spares", fmt.Sprintf("%d in stock", r.Count), link("/pack/stock/edit", "what", stockSpares, "id", r.ID)}
	case fieldkit.Pack:
		trip, _ := k.Trip(r.Trip)
		return use{"packing list", trip.Name, link("/pack/trip", "id", r.Trip)}
	case fieldkit.Trip:
		return use{"in a friend's rig", r.Name, link("/pack/crew", "trip", r.ID)}
	case fieldkit.Failure:
		return use{"failure", r.On.Show() + ": " + r.What, link("/log/failure", "id", r.ID)}
	case fieldkit.Inspection:
		return use{"wear reading", r.On.Show() + ": " + r.Name, link("/log/reading", "id", r.ID)}
	case fieldkit.Run:
		return use{"repair", "begun " + fieldkit.DateOf(r.Started.Time).Show(), link("/repair/run", "id", r.ID)}
	}
	return use{r.Collection(), r.Key(), link("/rig")}
}

// useList draws what needs a record, each to be opened.
func useList(list []use) app.UI {
	return app.Ul().Class("list").Body(app.Range(list).Slice(func(i int) app.UI {
		return openRow(list[i].href, capital(list[i].name), list[i].what, "")
	}))
}

// namedInRefusal is how many uses a refusal names; more is not read.
const namedInRefusal = 3

// stillUsed refuses to delete what others need, and names them.
func stillUsed(name string, list []use) error {
	var words []string
	for _, u := range list[:min(len(list), namedInRefusal)] {
		words = append(words, u.what+" "+u.name)
	}
	if more := len(list) - len(words); more > 0 {
		words = append(words, fmt.Sprintf("%d more", more))
	}
	return &fieldkit.Error{Kind: fieldkit.Conflict,
		What: fmt.Sprintf("%q is still used: %s", name, strings.Join(words, "; ")), Do: "change or delete those first"}
}
