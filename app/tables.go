package app

import (
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/data/tables"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// tablesScreen lists the published tables. It reads none of them.
type tablesScreen struct{ app.Compo }

func (s *tablesScreen) OnMount(ctx app.Context) { watch(ctx, func(app.Context) {}) }
func (s *tablesScreen) OnNav(ctx app.Context)   { arrive(ctx, func(app.Context) {}) }

func (s *tablesScreen) Render() app.UI {
	names := tables.Names()
	return frame(page{title: "Tables", sub: "published figures, with their sources", dest: "/counter", back: link("/counter"), body: []app.UI{
		app.P().Class("soft").Text("What standards and the trade say of sizes. Each row names its source and how far it can be trusted."),
		app.Ul().Class("list").Aria("label", "Tables").Body(app.Range(names).Slice(func(i int) app.UI {
			t, rows, _ := tables.Outline(names[i])
			return openRow(link("/counter/table", "name", t.Name), t.Title, t.Standard, counted(rows, "row"))
		})),
	}})
}

// tableScreen shows one table, a page of rows at a time, narrowed by what is typed.
type tableScreen struct {
	app.Compo
	search searchLine
	page   int
	view   tableView
}

// tableView is the rows of a table that are shown.
type tableView struct {
	table       tables.Table
	found       bool
	asked       string
	rows        []tableLine
	matching    int
	page, pages int
}

type tableLine struct{ address, title, figures string }

// rowsShown is a page of rows: some three screens of a phone.
const rowsShown = 20

func (s *tableScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }

func (s *tableScreen) OnNav(ctx app.Context) {
	s.search.follow(param(ctx, "q"))
	s.page, _ = optionalWhole(param(ctx, "page"), 1, 1000)
	arrive(ctx, s.load)
}

func (s *tableScreen) load(ctx app.Context) {
	s.view = tableRows(param(ctx, "name"), s.search.query, s.page, kept.first())
}

// tableRows picks the rows of a table that hold every word asked for, and of them one
// page.
func tableRows(name, asked string, page int, first fieldkit.System) tableView {
	v := tableView{asked: asked}
	if v.table, v.found = tables.TableNamed(name); !v.found {
		return v
	}
	words := strings.Fields(strings.ToLower(asked))
	var matching []int
	for i := range v.table.Rows {
		if holdsWords(v.table.Rows[i], words) {
			matching = append(matching, i)
		}
	}
	// Rows with a cell that is just what was typed stand first: 35 is more often a size
	// than the end of 635.
	order.By(matching, func(a, b int) int { return exactCells(v.table.Rows[b], words) - exactCells(v.table.Rows[a], words) })
	v.matching = len(matching)
	v.pages = max((len(matching)+rowsShown-1)/rowsShown, 1)
	v.page = min(max(page, 1), v.pages)
	for _, i := range matching[(v.page-1)*rowsShown : min(v.page*rowsShown, len(matching))] {
		v.rows = append(v.rows, tableLineOf(v.table, i, first))
	}
	return v
}

// holdsWords reports whether each word is in one of the cells.
func holdsWords(cells []string, words []string) bool {
	for _, w := range words {
		held := false
		for _, cell := range cells[:len(cells)-1] { // not in the source
			held = held || strings.Contains(strings.ToLower(cell), w)
		}
		if !held {
			return false
		}
	}
	return true
}

// exactCells counts the words that are a whole cell.
func exactCells(cells []string, words []string) (n int) {
	for _, w := range words {
		if slices.ContainsFunc(cells, func(cell string) bool { return strings.EqualFold(cell, w) }) {
			n++
		}
	}
	return n
}

// figuresShown is how many figures of a row its line gives.
const figuresShown = 4

func tableLineOf(t tables.Table, row int, first fieldkit.System) tableLine {
	var key, figures []string
	for _, name := range t.Key {
		key = append(key, t.Cell(row, name))
	}
	for _, f := range rowFacts(t, row, first) {
		if len(figures) < figuresShown && !f.key {
			figures = append(figures, uncapital(f.name)+" "+f.value)
		}
	}
	line := tableLine{address: rowAddress(t, row), title: strings.Join(nonEmpty(key...), " "), figures: strings.Join(figures, " · ")}
	if d, ok := data.DesignationOf(t, row); ok {
		line.address, line.title = designationAddress(d), d.String()
	}
	return line
}

// rowAddress opens a row by what tells it from all others of its table.
func rowAddress(t tables.Table, row int) string {
	pairs := []string{"name", t.Name}
	for _, name := range t.Key {
		pairs = append(pairs, name, t.Cell(row, name))
	}
	return link("/counter/table/row", pairs...)
}

func (s *tableScreen) Render() app.UI {
	v := s.view
	if !v.found {
		return frame(page{title: "Table", dest: "/counter", back: link("/counter/tables"), body: []app.UI{emptyLine("There is no such table. Go back to the list of tables.")}})
	}
	name := v.table.Name
	return frame(page{title: v.table.Title, sub: v.table.Standard, dest: "/counter", back: link("/counter/tables"), body: []app.UI{
		s.search.draw("filter", "Show rows with", "a size, a number, a word", func(ctx app.Context, q string) {
			s.page = 1
			rewriteQuery("name", name, "q", q)
			s.load(ctx)
		}),
		app.P().Class("soft").Role("status").Text(tableCount(v)),
		app.If(len(v.rows) == 0, func() app.UI { return emptyLine("No row holds that. Try fewer words or figures.") }).
			Else(func() app.UI {
				return app.Ul().Class("list").Aria("label", "Rows").Body(app.Range(v.rows).Slice(func(i int) app.UI {
					r := v.rows[i]
					return openRow(r.address, r.title, r.figures, "")
				}))
			}),
		app.Div().Class("row").Body(
			app.If(v.page > 1, func() app.UI { return goTo("quiet", "Rows before", tablePage(name, v.asked, v.page-1)) }),
			app.If(v.page < v.pages, func() app.UI { return goTo("quiet", "More rows", tablePage(name, v.asked, v.page+1)) }),
		),
		section("Sources", app.Ul().Class("bullets").Body(app.Range(v.table.Sources).Slice(func(i int) app.UI {
			src := v.table.Sources[i]
			return app.Li().Text(capital(src.Text) + " (" + counted(src.Rows, "row") + ")")
		}))),
	}})
}

func tablePage(name, asked string, page int) string {
	return link("/counter/table", "name", name, "q", asked, "page", itoa(page))
}

func tableCount(v tableView) string {
	text := counted(len(v.table.Rows), "row")
	if v.matching < len(v.table.Rows) {
		text = itoa(v.matching) + " of " + text
	}
	if v.pages > 1 {
		text += ", page " + itoa(v.page) + " of " + itoa(v.pages)
	}
	return text
}
