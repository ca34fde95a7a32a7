package app

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/counter"
)

// cardScreen is the counter card: what to ask for and for which donor, numbers to
// be read from a metre away, the measurements that decide with a box each.
type cardScreen struct {
	app.Compo
	part, position string
	card           counter.Card
	found          bool
	boxes          *form // ticked against the part in hand; kept while the card is about this part
	told           string
	err            error
}

func (s *cardScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *cardScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *cardScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	part, position := param(ctx, "part"), param(ctx, "position")
	if s.boxes == nil || part != s.part || position != s.position {
		s.boxes, s.told = newForm("card/"+part+"/"+position, nil), ""
	}
	s.part, s.position = part, position
	s.card, s.err = counter.CardFor(kept.kit(), data.Catalog(), kept.interchange(), part, position)
	s.found = s.err == nil
	if s.found && noteOpened(kept.which, s.key()) {
		kept.keepPlainSoon()
	}
}

func (s *cardScreen) key() cardKey { return cardKey{s.part, s.position} }

func (s *cardScreen) Render() app.UI {
	if !s.found {
		return frame(page{title: "Counter card", dest: "/counter", back: link("/counter"), body: []app.UI{problem(s.err)}})
	}
	c := s.card
	body := []app.UI{s.askFor(), s.numbers()}
	for _, text := range c.Cautions {
		body = append(body, takeCare(text))
	}
	body = append(body, s.checks())
	if len(c.Missing) > 0 {
		body = append(body, section("Not known", bullets(c.Missing)))
	}
	if len(c.BuyWith) > 0 {
		body = append(body, section("Buy with it", bullets(c.BuyWith)))
	}
	body = append(body, s.standIns(), s.lookAlikes(), s.stores())
	return frame(page{title: capital(c.Title), sub: "counter card", dest: "/counter", back: s.back(), body: []app.UI{
		app.Div().Class("paper").Body(body...), s.actions(),
	}})
}

// askFor says what to ask for, for which donor, and not for the vehicle outside.
func (s *cardScreen) askFor() app.UI {
	c := s.card
	return app.Section().Class("block").Body(
		app.P().Class("lead").Text(capital(c.Ask)+"."),
		app.If(c.Donor != "", func() app.UI {
			return app.Div().Class("donor").Body(app.P().Text("It is from a"), app.P().Class("big").Text(c.Donor),
				app.If(c.DonorNote != "", func() app.UI { return app.P().Text(c.DonorNote) }))
		}),
		app.If(c.NotFor != "", func() app.UI { return app.P().Class("notfor").Text(capital(c.NotFor)) }),
	)
}

// back leads to where the card was most likely opened from.
func (s *cardScreen) back() string {
	if s.position != "" {
		return link("/rig/position", "id", s.position)
	}
	return link("/counter")
}

func (s *cardScreen) numbers() app.UI {
	list := s.card.Numbers
	if len(list) == 0 {
		return app.Div().Hidden(true)
	}
	return section("Numbers", app.Range(list).Slice(func(i int) app.UI {
		n := list[i]
		class, word := "part", "not proven: "+n.Proof
		if n.Proven {
			class, word = "good", n.Proof
		}
		return app.Div().Class("plate").Body(
			app.P().Class(stampClass(n)).Text(n.Value),
			app.P().Class("said").Text(n.Label),
			blaze(class, word),
		)
	}))
}

// longStamp is the longest number that fits a line of a phone in the largest type.
const longStamp = 14

// stampClass shows what is asked for larger than what only identifies a casting.
func stampClass(n counter.Number) string {
	if n.Issuer == fieldkit.CastingMark || len([]rune(n.Value)) > longStamp {
		return "stamp long"
	}
	return "stamp"
}

// checks are the measurements that decide: a box each, to tick when the part in
// hand agrees.
func (s *cardScreen) checks() app.UI {
	list := s.card.Checks
	if len(list) == 0 {
		return app.Div().Hidden(true)
	}
	must, agreed, unknown := 0, 0, 0
	for _, c := range list {
		if c.Must && !c.Measured {
			unknown++
		}
		if c.Must && c.Measured {
			must++
			if s.boxes.get(c.Name) != "" {
				agreed++
			}
		}
	}
	return section("Measure before you pay",
		app.Range(list).Slice(func(i int) app.UI { return s.check(list[i]) }),
		app.If(must > 0, func() app.UI {
			switch {
			case agreed < must:
				return blaze("part", fmt.Sprintf("%d of %d that decide agree so far", agreed, must))
			case unknown > 0:
				return blaze("part", fmt.Sprintf("What is known agrees, but %d that decide are not known: lay part on part", unknown))
			}
			return blaze("good", "All that decides agrees")
		}),
		app.If(agreed > 0, func() app.UI {
			return button("link no-print", "Clear the boxes", "clear boxes", func(app.Context) { s.boxes.startOver() })
		}),
	)
}

func (s *cardScreen) check(c counter.Check) app.UI {
	detail := spans(checkWords(c)...)
	if !c.Measured {
		return app.Div().Class("tick unknown").Body(app.Span().Class("what").Body(append([]app.UI{app.B().Text(capital(c.Name)), app.Span().Class("value").Text("not known")}, detail...)...))
	}
	what := append([]app.UI{app.B().Text(capital(c.Name)), app.Span().Class("value").Text(unbroken(c.Value.Both(kept.first())))}, detail...)
	return tickLines("check "+c.Name, s.boxes.get(c.Name) != "", func(app.Context) {
		s.boxes.set(c.Name, toggled(s.boxes.get(c.Name), "agrees"))
	}, what...)
}

// checkWords say how to take a measurement, what a wrong one does, and how ours was
// taken.
func checkWords(c counter.Check) []string {
	how := c.How
	if c.Must {
		how = strings.Join(nonEmpty("decides", c.How), " · ")
	}
	ours := ""
	if c.Taken != "" {
		ours = "Ours: " + c.Taken
		if c.Worn {
			ours += ", on a worn part"
		}
	}
	return nonEmpty(capital(how), ifItDiffers(c.Why), ours)
}

func (s *cardScreen) standIns() app.UI {
	list := s.card.StandIns
	if len(list) == 0 {
		return app.Div().Hidden(true)
	}
	return section("If they have none, then this",
		app.Ul().Class("list").Body(app.Range(list).Slice(func(i int) app.UI {
			in := list[i]
			return app.Li().Body(app.A().Class("open").Href(link("/counter/card", "part", in.Part, "position", s.position)).Body(
				app.Span().Class("what").Body(append([]app.UI{app.B().Text(capital(in.Name))}, sentences(standInLines(in))...)...),
			))
		})),
	)
}

// standInLines say how a part stands in, a line each: grade and numbers, changes,
// donor, on what the grade rests.
func standInLines(in counter.StandInLine) []string {
	first := append([]string{string(in.Grade)}, in.Numbers...)
	if in.Stock > 0 {
		first = append(first, fmt.Sprintf("%d in stock", in.Stock))
	}
	changes, donor := "", ""
	if len(in.Changes) > 0 {
		changes = "changes: " + strings.Join(in.Changes, "; ")
	}
	if in.Donor != "" {
		donor = "from " + in.Donor
	}
	sits := ""
	if len(in.SitsAt) > 0 {
		sits = "sits at " + strings.Join(in.SitsAt, "; ")
	}
	return nonEmpty(strings.Join(first, " · "), changes, donor, in.Chain, sits, in.Doubt)
}

// standInWords says the same in one line.
func standInWords(in counter.StandInLine) string {
	return strings.Join(standInLines(in), " · ")
}

func (s *cardScreen) lookAlikes() app.UI {
	c := s.card
	if len(c.LookAlikes)+len(c.DoesNotFit) == 0 {
		return app.Div().Hidden(true)
	}
	var lines []app.UI
	for _, l := range c.LookAlikes {
		lines = append(lines, plainRow(l.Name, "Tell them apart: "+l.Tell))
	}
	for _, r := range c.DoesNotFit {
		lines = append(lines, plainRow(r.Name, strings.Join(r.Numbers, " · "), r.Why, capital(r.Yet)))
	}
	return section("Looks like it, does not fit", app.Ul().Class("list").Body(lines...))
}

func (s *cardScreen) stores() app.UI {
	list := s.card.Stores
	if len(list) == 0 {
		return app.Div().Hidden(true)
	}
	return section("Where to ask", app.Ul().Class("list").Body(app.Range(list).Slice(func(i int) app.UI {
		st := list[i]
		return app.Li().Body(app.Div().Class("open plain").Body(app.Span().Class("what").Body(
			app.B().Text(capital(st.Name)), app.Span().Class("no-print").Text(capital(st.Chance.Word()+": "+st.Chance.From())), app.Span().Class("no-print").Text("Has "+st.Has), app.Span().Text("Say: "+st.Say))))
	})), goTo("quiet wide no-print", "Write down a visit", link("/counter/visit", "kind", s.card.Kind)))
}

func (s *cardScreen) actions() app.UI {
	c := s.card
	return app.Section().Class("block no-print").Body(
		app.If(c.PartID == "" && s.position != "", func() app.UI {
			return goTo("act wide", "Say what is fitted", link("/rig/position/edit", "id", s.position))
		}),
		app.If(c.PartID != "", func() app.UI { return rightPart(fieldkit.Part{ID: c.PartID, LookAlikes: c.LookAlikes}, s.position) }),
		app.Div().Class("two").Body(
			button("quiet", "Print card", "print", func(app.Context) { printPage() }),
			button("quiet", "Share as text", "share "+c.PartID, func(ctx app.Context) {
				shareText(ctx, c.Title, c.Text(kept.first()), func(_ app.Context, said string) { s.told = said })
			}),
			s.pin(),
			app.If(c.PartID != "", func() app.UI { return goTo("quiet", "Pass on", link("/pass", "part", c.PartID)) }),
			app.If(c.PartID != "", func() app.UI { return goTo("quiet", "Edit part", link("/rig/part/edit", "id", c.PartID)) }),
			app.If(c.PartID != "", func() app.UI {
				return goTo("quiet", "Add an interchange", link("/rig/link/edit", "part", c.PartID))
			}),
		),
		app.If(s.told != "", func() app.UI { return app.P().Class("note ok").Role("status").Text(s.told) }),
	)
}

// pin keeps the card readable when the program cannot start.
func (s *cardScreen) pin() app.UI {
	key := s.key()
	on := isPinned(kept.which, key)
	label := "Pin"
	if on {
		label = "Pinned"
	}
	return app.Button().Type("button").Class("quiet").Aria("pressed", strconv.FormatBool(on)).Text(label).
		OnClick(func(ctx app.Context, _ app.Event) {
			togglePin(kept.which, key)
			s.told = "Taken off the pinned cards."
			if isPinned(kept.which, key) {
				s.told = "Pinned: it can be read even if the program does not start."
			}
			kept.keepPlainSoon()
		}, app.EventScope("pin", key.address()))
}
