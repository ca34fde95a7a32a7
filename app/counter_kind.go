package app

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
)

// kindScreen is what the catalog knows of a kind of part: what decides, what to buy
// with it, where to ask, and where the rigs have one.
type kindScreen struct {
	app.Compo
	kind      fieldkit.PartKind
	found     bool
	positions []positionAt
}

type positionAt struct {
	position fieldkit.Position
	rig      string
	fitted   string
}

func (s *kindScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *kindScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *kindScreen) load(ctx app.Context) {
	k := kept.kit()
	s.kind, s.found = data.Catalog().PartKind(param(ctx, "id"))
	s.positions = nil
	for _, p := range k.Positions.All() {
		if p.Kind == s.kind.ID {
			rig, _ := k.RigOf(p)
			part, _ := k.Part(p.Part)
			donor, _ := k.Donor(part.Donor)
			s.positions = append(s.positions, positionAt{p, rig.Name, strings.Join(nonEmpty(otherThan(p.Title(), fittedName(k, p)), donor.Title()), " · ")})
		}
	}
}

func (s *kindScreen) Render() app.UI {
	if !s.found {
		return frame(page{title: "Kind of part", dest: "/counter", back: link("/counter"), body: []app.UI{emptyLine("There is no such kind of part.")}})
	}
	k := s.kind
	var stores []string
	for _, id := range k.Stores {
		if st, ok := data.Catalog().Store(id); ok {
			stores = append(stores, st.Name)
		}
	}
	return frame(page{title: capital(k.Name), sub: strings.Join(k.Synonyms, ", "), dest: "/counter", back: link("/counter"), body: []app.UI{
		takeCare(k.Caution),
		section("On your rigs",
			app.If(len(s.positions) == 0, func() app.UI { return emptyLine("No position for one. Add it under Rig.") }),
			app.Ul().Class("list").Body(app.Range(s.positions).Slice(func(i int) app.UI {
				at := s.positions[i]
				return openRow(link("/counter/card", "part", at.position.Part, "position", at.position.ID), at.rig+": "+at.position.Title(), at.fitted, "")
			})),
		),
		section("What decides", app.Ul().Class("list").Body(app.Range(k.Deciding).Slice(func(i int) app.UI {
			a := k.Deciding[i]
			return plainRow(a.Name, capital(a.How), ifItDiffers(a.Why))
		}))),
		section("Buy with it", bullets(k.BuyWith)),
		section("Where to ask", bullets(stores)),
	}})
}

// otherThan returns a name, unless it says the same as another one.
func otherThan(other, name string) string {
	if strings.EqualFold(name, other) {
		return ""
	}
	return name
}

// takeCare draws a caution that is one text, nothing without one.
func takeCare(text string) app.UI {
	if text == "" {
		return app.Div().Hidden(true)
	}
	return app.Div().Class("caution").Role("note").Body(app.B().Text("Take care"), app.P().Text(text))
}

// ifItDiffers says what goes wrong with a part that does not agree.
func ifItDiffers(why string) string {
	if why == "" {
		return ""
	}
	return "If it differs: " + why
}
