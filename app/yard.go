package app

import (
	"fmt"
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/data/fits"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/fit"
)

// yardScreen tells a part from those that look like it: one question at a time, each
// the one that narrows most, until it is proven, refuted or cannot be told.
type yardScreen struct {
	app.Compo
	form *form
	view yardView
}

// yardView is what the screen draws.
type yardView struct {
	found    bool
	position fieldkit.Position
	part     fieldkit.Part
	title    string
	puzzle   fit.Puzzle
	set      fit.Separation
	state    fit.State
	answers  []fit.Answer
	have     []fit.Way
}

// Fields of the form: what was found by a check, and what the person has not.
const (
	yardFound  = "found/"
	yardLacks  = "lacks/"
	yardTyped  = "typed"
	cannotTell = "cannot tell"
)

func yardField(c fit.Check) string { return yardFound + string(c.By) + "/" + c.Name }

func (s *yardScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *yardScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *yardScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	position, part := param(ctx, "position"), param(ctx, "part")
	if key := "yard/" + position + "/" + part; s.form == nil || s.form.key != key {
		s.form = newForm(key, nil)
	}
	s.view = viewYard(kept.kit(), data.Catalog(), position, part, s.form.values)
}

func viewYard(k fieldkit.Kit, cat fieldkit.Catalog, position, part string, typed map[string]string) yardView {
	v := yardView{}
	v.position, _ = k.Position(position)
	v.part, v.found = k.Part(orWord(part, v.position.Part))
	kind, known := cat.PartKind(v.part.Kind)
	schema, ok := fits.For(kind)
	if v.found = v.found && known && ok; !v.found {
		return v
	}
	v.title = strings.Join(nonEmpty(v.part.Name, otherThan(v.part.Name, v.position.Title())), ", ")
	v.puzzle = fit.PuzzleOf(schema, v.part, k.Part)
	for _, w := range fit.Ways {
		if typed[yardLacks+string(w)] == "" {
			v.have = append(v.have, w)
		}
	}
	for _, c := range v.puzzle.Checks {
		if said := typed[yardField(c)]; said != "" {
			v.answers = append(v.answers, fit.Answer{Check: c.Name, By: c.By, Found: foundOf(said)})
		}
	}
	v.set = v.puzzle.Separate(v.have)
	v.state = v.puzzle.Ask(v.answers, v.have)
	return v
}

// foundOf reads an answer as it is kept in the form.
func foundOf(said string) fieldkit.Value {
	switch said {
	case cannotTell:
		return fieldkit.Value{}
	case fit.SomethingElse.Text:
		return fit.SomethingElse
	}
	v, err := fieldkit.ParseValue(said)
	if err != nil {
		return fieldkit.Value{}
	}
	return v
}

func (s *yardScreen) answer(c fit.Check, said string) {
	s.form.set(yardField(c), said)
	s.form.put(yardTyped, "")
	s.look()
}

func (s *yardScreen) look() {
	v := s.view
	s.view = viewYard(kept.kit(), data.Catalog(), v.position.ID, v.part.ID, s.form.values)
}

func (s *yardScreen) Render() app.UI {
	p := page{title: "Tell it apart", dest: "/counter", back: s.back()}
	v := s.view
	if !v.found {
		p.body = []app.UI{emptyLine("There is no such part in this kit.")}
		return frame(p)
	}
	p.sub = v.title
	if len(v.puzzle.Alikes) == 0 {
		p.body = []app.UI{
			emptyLine("No look-alike of this part is written down. Add those you have met: edit the part, and write how to tell them apart."),
			goTo("act wide", "Edit part", link("/rig/part/edit", "id", v.part.ID, "position", v.position.ID)),
		}
		return frame(p)
	}
	p.body = []app.UI{s.standing()}
	if v.state.Standing == fit.Open {
		p.body = append(p.body, s.question(*v.state.Next))
	}
	if len(v.answers) > 0 {
		p.body = append(p.body, s.answered())
	}
	if v.state.Standing != fit.Open {
		p.body = append(p.body, s.keeping())
	}
	p.body = append(p.body, s.checks(), s.tools())
	return frame(p)
}

// standing says how far the answers have come.
func (s *yardScreen) standing() app.UI {
	st := s.view.state
	class, word := "part", fmt.Sprintf("It may still be %s", counted(len(st.Left), "look-alike"))
	switch st.Standing {
	case fit.Proven:
		class, word = "good", "It is the right one: none of the look-alikes shows this"
	case fit.Refuted:
		class, word = "none", "It is not the right one"
	case fit.Undecided:
		word = "It cannot be told with these checks"
	}
	lists := []app.UI{app.P().Class("big blaze " + class).Text(word)}
	if st.Standing != fit.Proven && len(st.Left) > 0 {
		title := "It may still be"
		if st.Standing == fit.Refuted {
			title = "It may be"
		}
		lists = append(lists, app.P().Text(title+":"), bullets(st.Left))
	}
	if len(st.Ruled) > 0 {
		lists = append(lists, app.P().Class("soft").Text("Ruled out: "+strings.Join(st.Ruled, "; ")))
	}
	return app.Section().Class("block verdict").Aria("live", "polite").Body(lists...)
}

// question asks one check, what it may show as buttons.
func (s *yardScreen) question(c fit.Check) app.UI {
	st := s.view.state
	var buttons []app.UI
	amounts := false
	for _, v := range st.Options {
		value := v
		amounts = amounts || v.Dim != fieldkit.DimText
		buttons = append(buttons, button("quiet wide", capital(unbroken(v.Both(kept.first()))), c.Name+"/"+v.String(), func(app.Context) { s.answer(c, value.String()) }))
	}
	buttons = append(buttons,
		button("quiet wide", "Something else", c.Name+"/else", func(app.Context) { s.answer(c, fit.SomethingElse.Text) }),
		button("quiet wide", "Cannot tell", c.Name+"/cannot", func(app.Context) { s.answer(c, cannotTell) }),
	)
	return section(capital(c.Name),
		app.P().Class("lead").Text(capital(orWord(c.How, "look at it"))+"."),
		app.P().Class("soft").Text("By "+string(c.By)+". What does the part in hand show?"),
		app.Div().Class("block").Body(buttons...),
		app.If(amounts, func() app.UI {
			return app.Div().Class("block").Body(
				s.form.size(yardTyped, "Or your own reading", "3/16 in, 4.8 mm, or a count"),
				button("quiet wide", "Take this reading", c.Name+"/typed", func(app.Context) { s.typed(c) }),
			)
		}),
	)
}

// typed takes a reading that was typed for a check.
func (s *yardScreen) typed(c fit.Check) {
	dim := c.Dim()
	v, err := readMeasured(s.form.typed(yardTyped), dim, kept.first())
	if !s.form.refuse(yardTyped, err) {
		return
	}
	s.answer(c, v.String())
}

// answered lists what was found, each to be taken back.
func (s *yardScreen) answered() app.UI {
	v := s.view
	return section("Found", app.Ul().Class("list").Body(app.Range(v.answers).Slice(func(i int) app.UI {
		a := v.answers[i]
		field := yardFound + string(a.By) + "/" + a.Check
		said := cannotTell
		if !a.Found.IsZero() {
			said = a.Found.Both(kept.first())
		}
		return app.Li().Body(app.Div().Class("open plain").Body(
			app.Span().Class("what").Body(app.B().Text(capital(a.Check)), app.Span().Text(unbroken(said))),
			app.Button().Type("button").Class("quiet").Aria("label", "Ask again: "+a.Check).Text("Ask again").
				OnClick(func(app.Context, app.Event) { s.form.put(field, ""); s.look() }, app.EventScope("again", field)),
		))
	})))
}

// checks shows the smallest set of checks that tells it from all.
func (s *yardScreen) checks() app.UI {
	set := s.view.set
	var lines []app.UI
	for _, c := range set.Checks {
		shows := ""
		if v := c.Shows[0]; !v.IsZero() {
			shows = "ours: " + unbroken(v.Both(kept.first()))
		}
		lines = append(lines, plainRow(c.Name, nonEmpty("By "+string(c.By), capital(c.How), capital(shows))...))
	}
	return section(fmt.Sprintf("The fewest checks that tell it from %s", counted(len(s.view.puzzle.Alikes)-len(set.Undecided), "look-alike")),
		app.Ul().Class("list").Body(lines...),
		app.If(len(set.Undecided) > 0, func() app.UI {
			return app.P().Class("note warn").Text("No check is known that tells it from: " + strings.Join(set.Undecided, "; "))
		}),
	)
}

// tools asks what the person has: a check that cannot be done is not asked.
func (s *yardScreen) tools() app.UI {
	var ticks []app.UI
	for _, w := range fit.Ways {
		if slices.Contains(fit.Bare, w) {
			continue
		}
		field := yardLacks + string(w)
		ticks = append(ticks, tick(capital(string(w)), "", field, s.form.get(field) == "", func(app.Context) {
			s.form.set(field, toggled(s.form.get(field), "lacks"))
			s.look()
		}))
	}
	return section("What you have with you", ticks...)
}

func (s *yardScreen) keeping() app.UI {
	if s.view.position.ID == "" {
		return app.P().Class("soft").Text("This part sits nowhere on the rig: what is found here is not kept.")
	}
	f := s.form
	return section("Keep it as evidence",
		f.pick(fitHere, "Which part was it", []option{{"", "one in a yard or store"}, {fitHere, "the one fitted here"}}),
		app.If(f.get(fitHere) == "", func() app.UI { return f.text(fitWhere, "Where", "store, yard, on which vehicle") }),
		f.text(fitBy, "Who", ""),
		f.saving("Keep with the position", s.keep),
	)
}

func (s *yardScreen) keep(ctx app.Context) {
	c := s.view.comparison(s.form, today())
	if len(c.Found) == 0 {
		s.form.err = badField("nothing was found yet", "answer a question first")
		return
	}
	keepComparison(ctx, s.form, s.view.position.ID, c)
}

func (v yardView) comparison(f *form, day fieldkit.Date) fieldkit.Comparison {
	c := fieldkit.Comparison{On: day, By: f.typed(fitBy), Wanted: v.part.Name, Where: whereOf(f), Result: fieldkit.Undecided, How: v.state.Proof, Against: v.state.Ruled, Left: v.state.Left}
	switch v.state.Standing {
	case fit.Proven:
		c.Result = fieldkit.Proven
	case fit.Refuted:
		c.Result = fieldkit.Refuted
	}
	if c.How == "" {
		c.How = fieldkit.Seen
	}
	for _, a := range v.answers {
		if !a.Found.IsZero() {
			c.Found = append(c.Found, fieldkit.Finding{What: a.Check, By: string(a.By), Value: a.Found})
		}
	}
	return c
}

func (s *yardScreen) back() string {
	if v := s.view; v.position.ID != "" {
		return link("/rig/position", "id", v.position.ID)
	}
	return link("/counter/card", "part", s.view.part.ID)
}

// rightPart leads from a part to what proves another one to be the same.
func rightPart(part fieldkit.Part, position string) app.UI {
	return app.Div().Class("two no-print").Body(
		goTo("quiet", "Is it the right part?", link("/counter/fit", "part", part.ID, "position", position)),
		app.If(len(part.LookAlikes) > 0, func() app.UI {
			return goTo("quiet", "Tell it from look-alikes", link("/counter/yard", "part", part.ID, "position", position))
		}),
	)
}
