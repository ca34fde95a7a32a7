package app

import (
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/data/tables"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/lookup"
	"trailfieldkit/fieldkit/standards"
)

// tableRowScreen shows all that a row of a table says.
type tableRowScreen struct {
	app.Compo
	table tables.Table
	row   int
	found bool
}

func (s *tableRowScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *tableRowScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *tableRowScreen) load(ctx app.Context) {
	if s.table, s.found = tables.TableNamed(param(ctx, "name")); !s.found {
		return
	}
	var key []string
	for _, name := range s.table.Key {
		key = append(key, param(ctx, name))
	}
	s.row, s.found = s.table.Row(key...)
}

// rowFact is what a row says in one column.
type rowFact struct {
	fact
	key bool // it tells the row from the others
}

// rowFacts lists what a row says, blanks left out, a length in both systems once: a
// column that repeats another in other units is left out.
func rowFacts(t tables.Table, row int, first fieldkit.System) (list []rowFact) {
	for _, c := range t.Columns[:len(t.Columns)-2] { // confidence and source are said apart
		v, ok := t.Value(row, c.Name)
		if !ok || data.SaidTwice(t, c.Name) {
			continue
		}
		text := v.Both(first)
		if v.Dim == fieldkit.DimText {
			text = v.Text
		}
		list = append(list, rowFact{fact{capital(data.PlainColumn(c.Name)), text}, slices.Contains(t.Key, c.Name)})
	}
	return list
}

func (s *tableRowScreen) Render() app.UI {
	if !s.found {
		return frame(page{title: "Row", dest: "/counter", back: link("/counter/tables"), body: []app.UI{emptyLine("There is no such row. Go back to the list of tables.")}})
	}
	t := s.table
	var key []string
	for _, name := range t.Key {
		key = append(key, t.Cell(s.row, name))
	}
	var all []fact
	for _, f := range rowFacts(t, s.row, kept.first()) {
		all = append(all, f.fact)
	}
	d, designates := data.DesignationOf(t, s.row)
	return frame(page{title: capital(strings.Join(nonEmpty(key...), " ")), sub: t.Title, dest: "/counter", back: link("/counter/table", "name", t.Name), body: []app.UI{
		facts(all...),
		app.If(designates, func() app.UI { return goTo("quiet wide", "What it means, part by part", designationAddress(d)) }),
		section("What the columns say", app.Ul().Class("bullets").Body(app.Range(t.Columns).Slice(func(i int) app.UI {
			return app.Li().Text(capital(data.PlainColumn(t.Columns[i].Name)) + ": " + t.Columns[i].What)
		}))),
		section("Source", facts(
			fact{"Source", capital(t.Cell(s.row, "source"))},
			fact{"Trust", t.Cell(s.row, "confidence")},
			fact{"Standard", t.Standard},
		)),
	}})
}

// rowHitAddress opens a row that a search found.
func rowHitAddress(r *lookup.Row) string {
	t, _, _ := tables.Outline(r.Table)
	pairs := []string{"name", r.Table}
	for i, name := range t.Key {
		pairs = append(pairs, name, r.Key[i])
	}
	return link("/counter/table/row", pairs...)
}

// rowOfDesignation is the address of the row of a table that holds a designation, ""
// if none does.
func rowOfDesignation(d standards.Designation) string {
	t, row, ok := data.RowOf(d)
	if !ok {
		return ""
	}
	return rowAddress(t, row)
}
