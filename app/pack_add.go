package app

import (
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

// packAddScreen offers everything the crew has or knows that is not on the list
// yet.
type packAddScreen struct {
	app.Compo
	form  *form
	trip  fieldkit.Trip
	items []packable
	err   error
}

// packable is something that can be put on a list.
type packable struct {
	ref   spares.Ref
	name  string
	stock int
}

func (s *packAddScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *packAddScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *packAddScreen) load(ctx app.Context) {
	k := kept.kit()
	s.trip, _ = k.Trip(param(ctx, "trip"))
	if s.form == nil {
		s.form = newForm("pack/add", nil)
	}
	pack, _ := packOf(k, s.trip.ID)
	s.items = packables(k, pack)
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
	for _, p := range k.Parts {
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

func (s *packAddScreen) Render() app.UI {
	back := link("/pack/trip", "id", s.trip.ID)
	if s.trip.ID == "" || s.form == nil {
		return frame(page{title: "Add by hand", dest: "/pack", back: link("/pack"), body: []app.UI{emptyLine("There is no such trip in this kit.")}})
	}
	asked := strings.ToLower(s.form.typed("q"))
	var rows []app.UI
	for _, it := range s.items {
		if strings.Contains(strings.ToLower(it.name), asked) {
			rows = append(rows, s.row(it))
		}
	}
	var list app.UI = emptyLine("Nothing of that name is left to add. Write a new spare, consumable or tool down under Pack first.")
	if len(rows) > 0 {
		list = app.Ul().Class("list").Body(rows...)
	}
	return frame(page{title: "Add by hand", sub: s.trip.Name, dest: "/pack", back: back, body: []app.UI{
		s.form.text("q", "Name", "a few letters narrow the list"),
		problem(s.err),
		list,
		goTo("act wide", "Back to the list", back),
	}})
}

func (s *packAddScreen) row(it packable) app.UI {
	stock := "not owned"
	if it.stock > 0 {
		stock = itoa(it.stock) + " owned"
	}
	return app.Li().Body(app.Div().Class("open plain").Body(
		app.Span().Class("what").Body(app.B().Text(it.name), app.Span().Text(string(it.ref.Type)+" · "+stock)),
		button("quiet", "Add", "add "+string(it.ref.Type)+it.ref.Item, func(ctx app.Context) {
			changePack(ctx, s.trip.ID, "Added by hand: "+it.name, func(p fieldkit.Pack) fieldkit.Pack {
				p = spares.SetCount(p, it.ref, 1)
				return spares.Move(p, it.ref, usualBin(kept.kit(), it.ref))
			}, func(_ app.Context, err error) { s.err = err })
		}),
	))
}

// usualBin is where something rides when nothing else is said.
func usualBin(k fieldkit.Kit, ref spares.Ref) string {
	switch ref.Type {
	case fieldkit.SpareItem:
		for _, sp := range k.Spares {
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
