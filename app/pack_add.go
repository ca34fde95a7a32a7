package app

import (
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

// packAddScreen offers everything the crew has or knows that was not on the list
// when it was opened. What is added stays where it is, with its count, so that no
// line moves under the finger.
type packAddScreen struct {
	app.Compo
	search searchLine
	trip   fieldkit.Trip
	pack   fieldkit.Pack
	asked  string // trip the list of things was made for
	items  []packable
	err    error
}

// packable is something that can be put on a list.
type packable struct {
	ref   spares.Ref
	name  string
	stock int
}

func (s *packAddScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }

func (s *packAddScreen) OnNav(ctx app.Context) {
	s.search.follow(param(ctx, "q"))
	arrive(ctx, s.load)
}

func (s *packAddScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	k := kept.kit()
	s.trip, _ = k.Trip(param(ctx, "trip"))
	s.pack, _ = packOf(k, s.trip.ID)
	if s.asked != s.trip.ID {
		s.asked, s.items = s.trip.ID, packables(k, s.pack)
	}
}

// packables lists what is not on the list: what is owned first, by name.
func packables(k fieldkit.Kit, pack fieldkit.Pack) []packable {
	on := map[spares.Ref]bool{}
	for _, l := range pack.Lines {
		on[spares.RefOf(l)] = true
	}
	var list []packable
	add := func(t fieldkit.ItemType, id, name string) {
		if ref := (spares.Ref{Type: t, Item: id}); !on[ref] {
			list = append(list, packable{ref, name, itemStock(k, ref)})
		}
	}
	for _, p := range k.Parts.All() {
		add(fieldkit.SpareItem, p.ID, p.Name)
	}
	for _, c := range k.Consumables {
		add(fieldkit.ConsumableItem, c.ID, c.Name)
	}
	for _, t := range k.Tools {
		add(fieldkit.ToolItem, t.ID, t.Name)
	}
	slices.SortStableFunc(list, func(a, b packable) int {
		if owned := min(b.stock, 1) - min(a.stock, 1); owned != 0 {
			return owned
		}
		return strings.Compare(strings.ToLower(a.name), strings.ToLower(b.name))
	})
	return list
}

// narrowed keeps the things whose names hold all words asked for.
func narrowed(items []packable, asked string) []packable {
	words := strings.Fields(strings.ToLower(asked))
	return slices.DeleteFunc(slices.Clone(items), func(it packable) bool {
		name := strings.ToLower(it.name)
		return slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(name, w) })
	})
}

// countOn is how many pieces of something a list has.
func countOn(pack fieldkit.Pack, ref spares.Ref) int {
	for _, l := range pack.Lines {
		if spares.RefOf(l) == ref {
			return l.Count
		}
	}
	return 0
}

// staysAtHome reports whether something was left at home by hand.
func staysAtHome(pack fieldkit.Pack, ref spares.Ref) bool {
	return slices.ContainsFunc(pack.Never, func(n fieldkit.Item) bool { return n.Type == ref.Type && n.Item == ref.Item })
}

func (s *packAddScreen) Render() app.UI {
	back := link("/pack/trip", "id", s.trip.ID)
	if s.trip.ID == "" || s.pack.ID == "" {
		return frame(page{title: "Add things", sub: s.trip.Name, dest: "/pack", back: link("/pack"), body: []app.UI{
			emptyLine("There is no list to add to yet. Choose a trip and plan it first."),
		}})
	}
	rows := narrowed(s.items, s.search.query)
	var list app.UI = emptyLine("Nothing else of that name is known. Write a new spare, consumable or tool down under Pack first.")
	if len(rows) > 0 {
		list = app.Ul().Class("list").Body(app.Range(rows).Slice(func(i int) app.UI { return s.row(rows[i]) }))
	}
	return frame(page{title: "Add things", sub: s.trip.Name, dest: "/pack", back: back, body: []app.UI{
		s.search.draw("q", "Name of what to add", "part of its name", func(ctx app.Context, q string) {
			rewriteQuery("trip", s.trip.ID, "q", q)
		}),
		problem(s.err),
		list,
	}})
}

func (s *packAddScreen) row(it packable) app.UI {
	stock := "not owned"
	if it.stock > 0 {
		stock = itoa(it.stock) + " owned"
	}
	if staysAtHome(s.pack, it.ref) {
		stock += " · left at home on purpose"
	}
	n := countOn(s.pack, it.ref)
	return app.Li().Body(app.Div().Class("row packline").Body(
		app.A().Class("open").Href(link("/pack/line", "trip", s.trip.ID, "type", string(it.ref.Type), "item", it.ref.Item)).Body(app.Span().Class("what").Body(
			append([]app.UI{app.B().Text(capital(it.name))}, spans(string(it.ref.Type)+" · "+stock)...)...)),
		stepper(it.name, "add "+string(it.ref.Type)+it.ref.Item, n, 0, func(ctx app.Context, to int) {
			around(ctx, s.trip.ID, "By hand for "+s.trip.Name+": "+it.name, planSoon, func(p fieldkit.Pack) fieldkit.Pack {
				return addPieces(kept.kit(), p, it.ref, to-n)
			}, func(_ app.Context, err error) { s.err = err })
		}),
	))
}

// addPieces puts more pieces of something on a list, or takes some off: on the count
// the list has by then, so that two quick taps both count. What is new goes where it
// usually rides.
func addPieces(k fieldkit.Kit, p fieldkit.Pack, ref spares.Ref, by int) fieldkit.Pack {
	before := countOn(p, ref)
	p = spares.SetCount(p, ref, before+by)
	if before > 0 || before+by <= 0 {
		return p
	}
	return spares.Move(p, ref, usualBin(k, ref), "")
}

// usualBin is where something rides when nothing else is said.
func usualBin(k fieldkit.Kit, ref spares.Ref) string {
	switch ref.Type {
	case fieldkit.SpareItem:
		for _, sp := range k.Spares.All() {
			if sp.Part == ref.Item && sp.Bin != "" {
				return sp.Bin
			}
		}
	case fieldkit.ConsumableItem:
		c, _ := fieldkit.Find(k.Consumables, ref.Item)
		return c.Bin
	case fieldkit.ToolItem:
		t, _ := fieldkit.Find(k.Tools, ref.Item)
		return t.Bin
	}
	return ""
}
