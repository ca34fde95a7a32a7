package app

import (
	"fmt"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/counter"
)

// storeScreen asks the counter the other way round: at a store, what on the rig could
// be bought here, and what to say for it.
type storeScreen struct {
	app.Compo
	view storeView
	all  bool
}

type storeView struct {
	rigs   []fieldkit.Rig
	rig    fieldkit.Rig
	stores []fieldkit.StoreKind
	store  fieldkit.StoreKind
	chosen bool
	offers []counter.Offer
	supply []counter.Supply
	visits []fieldkit.Visit // to stores of this kind, the latest first
}

// offersFirst is how many are shown at first.
const offersFirst = 12

func (s *storeScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *storeScreen) OnNav(ctx app.Context)   { s.all = false; arrive(ctx, s.load) }

func (s *storeScreen) load(ctx app.Context) {
	s.view = viewStore(kept.kit(), data.Catalog(), param(ctx, "rig"), param(ctx, "kind"))
}

func viewStore(k fieldkit.Kit, cat fieldkit.Catalog, rig, store string) storeView {
	v := storeView{rigs: k.Rigs, stores: cat.Stores}
	v.store, v.chosen = cat.Store(store)
	var ok bool
	if v.rig, ok = k.Rig(rig); !ok && len(k.Rigs) > 0 {
		v.rig = k.Rigs[0]
	}
	if !v.chosen {
		return v
	}
	v.offers, _ = counter.AtStore(k, cat, v.rig.ID, store) // the store is there
	v.supply, _ = counter.SuppliesAt(k, cat, store)
	for i := len(k.Visits) - 1; i >= 0; i-- {
		if k.Visits[i].Store == store {
			v.visits = append(v.visits, k.Visits[i])
		}
	}
	return v
}

func (s *storeScreen) Render() app.UI {
	v := s.view
	p := page{title: "At a store", sub: "what could be bought here", dest: "/counter", back: link("/counter")}
	if !v.chosen {
		p.body = []app.UI{section("What kind of store is it?", app.Ul().Class("list").Body(app.Range(v.stores).Slice(func(i int) app.UI {
			st := v.stores[i]
			return openRow(link("/counter/store", "kind", st.ID, "rig", v.rig.ID), st.Name, capital(st.Has), "")
		})))}
		return frame(p)
	}
	p.title, p.back = capital(v.store.Name), link("/counter/store", "rig", v.rig.ID)
	p.body = []app.UI{
		s.rigs(),
		app.Section().Class("block").Body(app.P().Class("lead").Text(v.store.Say), app.P().Class("soft").Text("Usually has "+v.store.Has+".")),
		s.offered(),
		s.supplies(),
		section("Your visits",
			goTo("act wide no-print", "Write down a visit", link("/counter/visit", "store", v.store.ID)),
			s.visits(),
		),
	}
	return frame(p)
}

// rigs are chosen among where there are several.
func (s *storeScreen) rigs() app.UI {
	v := s.view
	if len(v.rigs) < 2 {
		return app.Div().Hidden(true)
	}
	var list []option
	for _, r := range v.rigs {
		list = append(list, option{r.ID, r.Name})
	}
	return choice("Rig", "store rig", v.rig.ID, list, func(ctx app.Context, id string) {
		ctx.Navigate(link("/counter/store", "kind", v.store.ID, "rig", id))
	})
}

func (s *storeScreen) offered() app.UI {
	v := s.view
	if len(v.offers) == 0 {
		return emptyLine("Nothing on this rig is likely to be had here. Ask all the same, and write down what they had.")
	}
	shown := v.offers
	if !s.all {
		shown = shown[:min(len(shown), offersFirst)]
	}
	return section("On "+v.rig.Name+" you could buy here",
		app.Ul().Class("list").Body(app.Range(shown).Slice(func(i int) app.UI {
			o := shown[i]
			return app.Li().Body(app.A().Class("open").Href(link("/counter/card", "part", o.Part, "position", o.Positions[0])).Body(
				app.Span().Class("what").Body(append([]app.UI{app.B().Text(capital(o.Name))}, sentences(offerLines(o))...)...)))
		})),
		app.If(len(shown) < len(v.offers), func() app.UI {
			return button("quiet wide no-print", fmt.Sprintf("Show all %d", len(v.offers)), "all offers", func(app.Context) { s.all = true })
		}),
	)
}

// offerLines say where a part goes, how likely the store has it, and what to ask for.
func offerLines(o counter.Offer) []string {
	stock := "none in stock"
	if o.Stock > 0 {
		stock = fmt.Sprintf("%d in stock", o.Stock)
	}
	lines := []string{otherThan(o.Name, o.Title), o.Chance.Word() + " (" + o.Chance.From() + ") · " + stock}
	for i, ask := range o.Ask {
		if i == 0 {
			ask = "ask " + ask
		}
		lines = append(lines, unbroken(ask))
	}
	return nonEmpty(lines...)
}

// supplies are the fluids and consumables the store may have, what is used up first.
func (s *storeScreen) supplies() app.UI {
	v := s.view
	if len(v.supply) == 0 {
		return app.Div().Hidden(true)
	}
	return section("Fluids and consumables here",
		app.Ul().Class("list").Body(app.Range(v.supply).Slice(func(i int) app.UI {
			c := v.supply[i]
			stock := "none left"
			if c.Consumable.Count > 0 {
				stock = fmt.Sprintf("%d in stock", c.Consumable.Count)
			}
			lines := nonEmpty(c.Chance.Word()+" ("+c.Chance.From()+") · "+stock, "ask for "+c.Ask())
			if c.Ask() == "" {
				lines = lines[:1]
			}
			return app.Li().Body(app.A().Class("open").Href(link("/pack/stock/edit", "what", stockConsumables, "id", c.Consumable.ID)).Body(
				app.Span().Class("what").Body(append([]app.UI{app.B().Text(capital(c.Consumable.Name))}, sentences(lines)...)...)))
		})),
	)
}

func (s *storeScreen) visits() app.UI {
	v := s.view
	if len(v.visits) == 0 {
		return emptyLine("No visit yet. After each one write down what they had: it corrects the starting guesses.")
	}
	cat := data.Catalog()
	return app.Ul().Class("list").Body(app.Range(v.visits).Slice(func(i int) app.UI {
		visit := v.visits[i]
		had := "had none"
		if visit.Had {
			had = "had it"
		}
		return openRow(link("/counter/visit", "id", visit.ID), kindName(cat, visit.Kind)+": "+had, strings.Join(nonEmpty(visit.Name, visit.On.Show(), visit.Note), " · "), "")
	}))
}
