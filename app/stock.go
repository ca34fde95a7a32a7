package app

import (
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// What a crew owns, by the names used in addresses.
const (
	stockSpares      = "spares"
	stockConsumables = "consumables"
	stockTools       = "tools"
	stockBins        = "bins"
)

// stockScreen lists what the crew owns of one sort, with its count to change in
// place.
type stockScreen struct {
	app.Compo
	what string
	rows []stockRow
	list longList
	err  error
}

// stockRow is one line of the list.
type stockRow struct {
	id, name, sub string
	count         int
	counted       bool // a count can be changed in place
}

func (s *stockScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *stockScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *stockScreen) load(ctx app.Context) {
	if s.what = param(ctx, "what"); stockWords[s.what].title == "" {
		s.what = stockSpares
	}
	s.rows = viewStock(kept.kit(), s.what, kept.first())
}

func viewStock(k fieldkit.Kit, what string, first fieldkit.System) []stockRow {
	var rows []stockRow
	bin := func(id string) string {
		b, _ := fieldkit.Find(k.Bins, id)
		return b.Name
	}
	switch what {
	case stockSpares:
		for _, sp := range k.Spares.All() {
			part, _ := k.Part(sp.Part)
			rows = append(rows, stockRow{sp.ID, part.Name, strings.Join(nonEmpty(bin(sp.Bin), sp.Note), " · "), sp.Count, true})
		}
	case stockConsumables:
		for _, c := range k.Consumables {
			rows = append(rows, stockRow{c.ID, c.Name, strings.Join(nonEmpty(c.Size.Both(first), bin(c.Bin), c.Note), " · "), c.Count, true})
		}
	case stockTools:
		for _, t := range k.Tools {
			owned := "owned"
			if !t.Owned {
				owned = "not owned"
			}
			rows = append(rows, stockRow{id: t.ID, name: t.Name, sub: strings.Join(nonEmpty(owned, bin(t.Bin), t.Note), " · ")})
		}
	case stockBins:
		for _, b := range k.Bins {
			rig, _ := k.Rig(b.Rig)
			rows = append(rows, stockRow{id: b.ID, name: b.Name, sub: strings.Join(nonEmpty(rig.Name, b.Place), " · ")})
		}
	}
	slices.SortStableFunc(rows, func(a, b stockRow) int { return strings.Compare(strings.ToLower(a.name), strings.ToLower(b.name)) })
	return rows
}

var stockWords = map[string]struct{ title, add, empty string }{
	stockSpares:      {"Spares", "Add a spare", "No spare yet. Parts taken off that still work count too."},
	stockConsumables: {"Consumables", "Add a consumable", "No consumable yet: fluids, grease, wire, sealant."},
	stockTools:       {"Tools", "Add a tool", "No tool yet. Repairs ask for them by kind."},
	stockBins:        {"Bins", "Add a bin", "No bin yet: a box, a drawer, a bag that things are packed in."},
}

func (s *stockScreen) Render() app.UI {
	words := stockWords[s.what]
	var list app.UI = emptyLine(words.empty)
	if len(s.rows) > 0 {
		rows := s.rows[:min(s.list.most(), len(s.rows))]
		list = app.Ul().Class("list").Body(app.Range(rows).Slice(func(i int) app.UI { return s.row(rows[i]) }))
	}
	return frame(page{title: words.title, sub: "what you own", dest: "/pack", back: link("/pack"), body: []app.UI{
		problem(s.err), list, s.list.rest(len(s.rows), stockWords[s.what].title, s.load), goTo("act wide", words.add, link("/pack/stock/edit", "what", s.what)),
	}})
}

func (s *stockScreen) row(r stockRow) app.UI {
	href := link("/pack/stock/edit", "what", s.what, "id", r.id)
	if !r.counted {
		return openRow(href, r.name, r.sub, "")
	}
	return app.Li().Body(app.Div().Class("row packline").Body(
		app.A().Class("open plain").Href(href).Body(app.Span().Class("what").Body(append([]app.UI{app.B().Text(capital(r.name))}, spans(r.sub)...)...)),
		stepper(r.name, "stock "+r.id, r.count, 0, func(ctx app.Context, n int) { s.count(ctx, r, n-r.count) }),
	))
}

// count adds to what is owned, or takes away: on the number that is on disk by then,
// so that two quick taps both count.
func (s *stockScreen) count(ctx app.Context, r stockRow, by int) {
	left := 0
	kept.do(ctx, "Counted "+r.name, func(e *journal.Edit) error {
		if sp, ok := e.Kit().Spares.Find(r.id); ok {
			left = max(0, sp.Count+by)
			sp.Count = left
			e.Put(sp)
		}
		if c, ok := fieldkit.Find(e.Kit().Consumables, r.id); ok {
			left = max(0, c.Count+by)
			c.Count = left
			e.Put(c)
		}
		return nil
	}, func(_ app.Context, err error) {
		if s.err = err; err == nil {
			kept.said.text = r.name + ": " + itoa(left) + " in stock"
		}
	})
}
