package app

import (
	"errors"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/counter"
	"trailfieldkit/fieldkit/lookup"
	"trailfieldkit/fieldkit/standards"
)

// designationScreen explains a standard designation: part by part, with what its
// standard says, where the kit has one, and what else the text may mean.
type designationScreen struct {
	app.Compo
	view explainedDesignation
}

// explainedDesignation is a designation made ready to be shown, or why a text is none.
type explainedDesignation struct {
	text   string
	d      standards.Designation
	pieces []fact
	sizes  []fact
	hit    lookup.Hit // what of the kit bears it
	row    string     // address of its row in a table, if it has one
	others []standards.Designation
	misled *standards.Misread
}

func (s *designationScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *designationScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *designationScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	s.view = explain(data.Handbook(), kept.lookup(), standards.Kind(param(ctx, "kind")), param(ctx, "q"), kept.first())
}

// explain reads a text as a designation of one kind, or of the likeliest if none is
// asked for.
func explain(book *standards.Handbook, index *lookup.Index, kind standards.Kind, text string, first fieldkit.System) explainedDesignation {
	v := explainedDesignation{text: text}
	var err error
	if kind != "" {
		v.d, err = book.ParseAs(kind, text)
	}
	for _, r := range book.Readings(text) {
		switch {
		case v.d == nil && err == nil:
			v.d = r.Designation
		case v.d == nil || r.Designation.Kind() != v.d.Kind():
			v.others = append(v.others, r.Designation)
		}
	}
	if v.d == nil {
		if err == nil {
			_, err = book.Parse(text)
		}
		errors.As(err, &v.misled)
		return v
	}
	for _, p := range v.d.Explain() {
		v.pieces = append(v.pieces, fact{p.Text, capital(p.Says)})
	}
	for _, d := range v.d.Dims() {
		v.sizes = append(v.sizes, fact{capital(standards.Label(d.Name)), d.Value.Both(first)})
	}
	v.row = rowOfDesignation(v.d)
	v.hit = index.Bearing(v.d)
	return v
}

func designationAddress(d standards.Designation) string {
	return link("/counter/designation", "kind", string(d.Kind()), "q", d.String())
}

func (s *designationScreen) Render() app.UI {
	v := s.view
	if v.d == nil {
		return frame(page{title: "Designation", sub: v.text, dest: "/counter", back: link("/counter"), body: []app.UI{
			app.If(v.misled != nil, func() app.UI { return problem(v.misled) }).
				Else(func() app.UI { return emptyLine("Type a designation under Counter.") }),
			app.If(v.misled != nil && len(v.misled.Nearest) > 0, func() app.UI {
				return section("Near to it", designationList(v.misled.Nearest))
			}),
			app.If(len(v.others) > 0, func() app.UI { return section("It reads as", designationList(v.others)) }),
		}})
	}
	return frame(page{title: capital(string(v.d.Kind())), sub: "standard designation", dest: "/counter", back: link("/counter"), body: []app.UI{
		app.Div().Class("plate").Body(app.P().Class(stampClass(counter.Number{Value: v.d.String()})).Text(v.d.String())),
		app.If(!v.d.Listed(), func() app.UI {
			return app.P().Class("note warn").Text("By the rules of its standard. No table here lists it: it may be one that nobody makes.")
		}),
		section("What it says", facts(v.pieces...)),
		app.If(len(v.sizes) > 0, func() app.UI { return section("What it measures", facts(v.sizes...)) }),
		section("In your kit", s.inKit()),
		app.If(len(v.others) > 0, func() app.UI { return section("It could also be", designationList(v.others)) }),
		section("Source", app.P().Text(capital(v.d.Source())), s.tableLink()),
	}})
}

func (s *designationScreen) inKit() app.UI {
	k := kept.kit()
	if len(s.view.hit.Parts) == 0 {
		return emptyLine("No part of the kit bears it.")
	}
	return app.Ul().Class("list").Body(app.Range(s.view.hit.Parts).Slice(func(i int) app.UI {
		part, _ := k.Part(s.view.hit.Parts[i])
		var where []string
		position := ""
		for _, p := range k.Positions.All() {
			if p.Part == part.ID {
				rig, _ := k.RigOf(p)
				where = append(where, rig.Name+": "+p.Title())
				if position == "" {
					position = p.ID
				}
			}
		}
		sub := "not fitted"
		if len(where) > 0 {
			sub = strings.Join(where, "; ")
		}
		return openRow(link("/counter/card", "part", part.ID, "position", position), part.Name, sub, "")
	}))
}

func (s *designationScreen) tableLink() app.UI {
	if s.view.row == "" {
		return app.Div().Hidden(true)
	}
	return goTo("quiet wide", "Its row in the table", s.view.row)
}

func designationList(list []standards.Designation) app.UI {
	return app.Ul().Class("list").Body(app.Range(list).Slice(func(i int) app.UI {
		d := list[i]
		return openRow(designationAddress(d), d.String(), string(d.Kind()), "")
	}))
}
