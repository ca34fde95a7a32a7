package app

import (
	"errors"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
	"trailfieldkit/fieldkit/standards/measure"
)

// measureScreen says what a part in hand is from what is measured on it: first which
// kind of part, then a form with a drawing of where each size is taken.
type measureScreen struct {
	app.Compo
	kind   measure.Kind
	chosen bool
	form   *form
	answer *measured
	err    error
}

// measured is what the readings say, made ready to be shown.
type measured struct {
	fits       bool
	readings   []fact
	candidates []measuredLine
	next       measuredNext
}

type measuredLine struct {
	designation standards.Designation
	chance      string
	misfits     []string
}

type measuredNext struct{ label, why, how string }

// Fields of the form besides the sizes.
const (
	toolField = "tool in hand"
	wornField = "worn"
)

func (s *measureScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *measureScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *measureScreen) load(ctx app.Context) {
	kind, ok := measure.KindNamed(param(ctx, "kind"))
	if ok && s.chosen && kind.Name == s.kind.Name {
		return
	}
	s.kind, s.chosen, s.answer, s.err = kind, ok, nil, nil
	if ok {
		s.form = newForm("measure "+kind.Name, nil)
	}
}

func (s *measureScreen) Render() app.UI {
	if !s.chosen {
		return frame(page{title: "Measure", sub: "what is this part?", dest: "/counter", back: link("/counter"), body: []app.UI{
			emptyLine("Which kind of part do you have in hand?"),
			app.Ul().Class("list").Body(app.Range(measure.Kinds()).Slice(func(i int) app.UI {
				k := measure.Kinds()[i]
				return openRow(link("/counter/measure", "kind", k.Name), k.Title, strings.Join(labelsOf(k), ", "), "")
			})),
		}})
	}
	return frame(page{title: capital(s.kind.Title), sub: "measured on the part", dest: "/counter", back: link("/counter/measure"), body: []app.UI{
		s.form.restoredNotice(),
		drawing(s.kind),
		s.fields(),
		problem(s.err),
		button("act wide", "What is it?", "measure "+s.kind.Name, s.ask),
		s.shown(),
	}})
}

func labelsOf(k measure.Kind) (labels []string) {
	for _, a := range k.Attributes {
		labels = append(labels, a.Label())
	}
	return labels
}

func (s *measureScreen) fields() app.UI {
	letters := lettersOf(s.kind)
	body := []app.UI{emptyLine("Fill in what you could measure; one size is enough to begin.")}
	for _, a := range s.kind.Attributes {
		label := capital(a.Label())
		if letter := letters[a.Name]; letter != "" {
			label = letter + " · " + label
		}
		hint := capital(a.How) + "."
		switch a.Dim {
		case fieldkit.DimLength:
			body = append(body, s.form.size(a.Name, label, hint))
		case fieldkit.DimText:
			body = append(body, s.form.text(a.Name, label, hint))
		case fieldkit.DimCount:
			body = append(body, s.form.amount(a.Name, label, hint, "."))
		default:
			body = append(body, s.form.text(a.Name, label, hint))
		}
	}
	tools := []option{{"", "the usual tool for each"}}
	for _, t := range measure.Tools {
		if t.Within > 0 {
			tools = append(tools, option{t.Name, t.Name + ", ±" + t.Within.Show(kept.first())})
		}
	}
	body = append(body,
		s.form.choose(toolField, "Tool in hand", "How far a size may be off. Behind a size you can say it yourself: 34.9±0.2 mm.", "", tools),
		tick("The part is worn", "Then a size may be off one way: a worn shaft is smaller, a worn bore larger.", wornField, s.form.get(wornField) != "", func(app.Context) {
			worn := "yes"
			if s.form.get(wornField) != "" {
				worn = ""
			}
			s.form.set(wornField, worn)
		}),
	)
	return app.Div().Class("block").Body(body...)
}

// ask compares what is in the form with the tables, and shows the answer.
func (s *measureScreen) ask(ctx app.Context) {
	s.answer, s.err = nil, nil
	query := measureQuery(s.kind, s.form.typed)
	answer, err := measuredAnswer(s.kind, query, kept.first())
	if err != nil {
		s.refuse(ctx, err)
		return
	}
	s.answer = &answer
	intoSight(ctx, ".work .answer")
}

// refuse shows what is wrong beside the field that it is about.
func (s *measureScreen) refuse(ctx app.Context, err error) {
	var e *fieldkit.Error
	if errors.As(err, &e) {
		if _, is := s.kind.AttributeNamed(e.Where); is && e.Where != "" {
			s.form.refuse(e.Where, err)
			s.err = showWrong(ctx)
			return
		}
	}
	s.err = err
}

// measureQuery reads the form.
func measureQuery(kind measure.Kind, typed func(string) string) measure.Query {
	q := measure.Query{Worn: typed(wornField) != ""}
	if tool, ok := measure.ToolNamed(typed(toolField)); ok {
		q.Tool = &tool
	}
	for _, a := range kind.Attributes {
		if text := typed(a.Name); text != "" {
			q.Given = append(q.Given, measure.Given{Name: a.Name, Text: text})
		}
	}
	return q
}

// candidatesShown is how many candidates are read on a phone.
const candidatesShown = 6

func measuredAnswer(kind measure.Kind, q measure.Query, first fieldkit.System) (measured, error) {
	if len(q.Given) == 0 {
		return measured{}, badField("nothing is measured yet", "fill in one size at least")
	}
	r, err := kind.Find(data.Handbook(), q)
	if err != nil {
		return measured{}, err
	}
	m := measured{fits: r.Fits}
	for _, x := range r.Readings {
		m.readings = append(m.readings, fact{capital(standards.Label(x.Name)), x.Words(first)})
	}
	for _, c := range r.Shown(candidatesShown) {
		line := measuredLine{designation: c.Designation, chance: measure.Chance(c.Likelihood)}
		if !c.Fits {
			line.chance = "does not fit"
		}
		for _, f := range c.Misfits {
			line.misfits = append(line.misfits, standards.Label(f.Name)+" "+f.Words(first))
		}
		m.candidates = append(m.candidates, line)
	}
	m.next.why = r.Next.Why
	if a, ok := kind.AttributeNamed(r.Next.Measurement); ok {
		m.next.label, m.next.how = a.Label(), a.How
	}
	return m, nil
}

func (s *measureScreen) shown() app.UI {
	if s.answer == nil {
		return app.Div().Hidden(true)
	}
	m := *s.answer
	title := "It may be"
	if !m.fits {
		title = "Nothing standard fits"
	}
	return app.Section().Class("block answer").Body(
		app.H2().Text(title),
		app.If(!m.fits, func() app.UI {
			return app.P().Class("note warn").Text("No part of the tables measures so. Measure again, or it is a maker's own part. The nearest:")
		}),
		app.Ul().Class("list").Aria("label", "Candidates").Body(app.Range(m.candidates).Slice(func(i int) app.UI {
			c := m.candidates[i]
			return app.Li().Body(app.A().Class("open").Href(designationAddress(c.designation)).Body(
				app.Span().Class("what").Body(append([]app.UI{app.B().Text(c.designation.String())}, sentences(c.misfits)...)...),
				app.Span().Class("aside").Text(c.chance),
			))
		})),
		app.H2().Text("Measure next"),
		app.Div().Class("block").Body(
			app.If(m.next.label != "", func() app.UI { return app.P().Class("big").Text(capital(m.next.label)) }),
			app.P().Text(capital(m.next.why)+"."),
			app.If(m.next.how != "", func() app.UI { return app.P().Class("soft").Text("How: " + m.next.how + ".") }),
		),
		app.H2().Text("Read as"),
		facts(m.readings...),
	)
}
