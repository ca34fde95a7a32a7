package app

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/fit"
)

// fitScreen compares the part in hand with the one wanted at a position, or with a
// part: a line for each attribute that decides, the verdict as it stands.
type fitScreen struct {
	app.Compo
	form *form
	view fitView
}

// Fields of the form besides those of the attributes.
const (
	fitNumber = "number"
	fitTool   = "tool"
	fitTold   = "told"
	fitWhere  = "where"
	fitBy     = "by"
	fitHere   = "here"
)

func fitField(attribute string) string { return "is/" + attribute }

func (s *fitScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *fitScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *fitScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	position, part := param(ctx, "position"), param(ctx, "part")
	if key := "fit/" + position + "/" + part; s.form == nil || s.form.key != key {
		s.form = newForm(key, map[string]string{fitTool: "caliper"})
	}
	s.view = viewFit(kept.kit(), data.Catalog(), position, part, s.form.values, kept.first())
}

// judge looks again once something was typed or chosen.
func (s *fitScreen) judge() {
	v := s.view
	s.view = viewFit(kept.kit(), data.Catalog(), v.position.ID, v.part.ID, s.form.values, kept.first())
}

func (s *fitScreen) Render() app.UI {
	p := page{title: "Is it the right part?", dest: "/counter", back: s.back()}
	v := s.view
	if !v.found {
		p.body = []app.UI{emptyLine("There is no such place or part in this kit, or nothing says what decides there.")}
		return frame(p)
	}
	p.sub = v.title
	body := []app.UI{
		s.form.restoredNotice(),
		takeCare(v.result.Caution),
		s.verdict(),
		section("The part in hand",
			chosenThen(s.form.text(fitNumber, "Number on it", "as printed; one that is proven for the part wanted settles the rest"), s.judge),
			s.picked(fitTool, "Lengths are taken with", []option{{"caliper", "caliper"}, {"steel rule", "rule"}, {"tape", "tape"}}),
			s.picked(fitTold, "Who looked", []option{{"", "I did"}, {fitTold, "somebody told me"}}),
		),
	}
	for _, l := range v.lines {
		body = append(body, s.line(l))
	}
	p.body = append(body, s.keeping())
	return frame(p)
}

// picked is a choice that changes the verdict.
func (s *fitScreen) picked(name, label string, options []option) app.UI {
	return app.Div().Class("field").Body(
		app.Span().Class("label").Text(label),
		choice(label, s.form.key+name, s.form.get(name), options, func(_ app.Context, v string) {
			s.form.set(name, v)
			s.judge()
		}),
	)
}

func (s *fitScreen) verdict() app.UI {
	v := s.view
	class, word := verdictMark(v.result.Verdict)
	return app.Section().Class("block verdict").Aria("live", "polite").Body(
		app.P().Class("big blaze "+class).Text(capital(word)),
		app.If(v.result.Verdict == fit.DoesNotFit, func() app.UI { return bullets(v.differs) }),
		app.If(len(v.result.Changes) > 0, func() app.UI { return bullets(v.result.Changes) }),
		app.If(len(v.todo) > 0, func() app.UI { return bullets(v.todo) }),
		app.If(v.rests != "", func() app.UI { return app.P().Class("soft").Text(v.rests) }),
	)
}

// verdictMark gives the shape and the words of a verdict.
func verdictMark(v fit.Verdict) (class, word string) {
	switch v {
	case fit.Fits:
		return "good", "it fits"
	case fit.WithChanges:
		return "part", "it fits with changes"
	case fit.DoesNotFit:
		return "none", "it does not fit"
	}
	return "part", "measure these first"
}

// line is one attribute: what is wanted, what is in hand, how the two stand.
func (s *fitScreen) line(l fitLine) app.UI {
	f, name := s.form, fitField(l.name)
	var entry app.UI
	switch {
	case len(l.options) > 0:
		entry = f.choose(name, "In hand", l.how, "not looked yet", l.options)
	case l.dim == fieldkit.DimLength:
		entry = f.size(name, "In hand", l.how)
	case l.dim == fieldkit.DimCount:
		entry = f.whole(name, "In hand", l.how)
	case l.wanted != "" && l.dim == fieldkit.DimText:
		entry = f.field(name, "In hand", l.how, field{Keys: []string{l.wanted}})
	default:
		entry = f.text(name, "In hand", l.how)
	}
	return app.Section().Class("block fitline").Body(
		app.H2().Text(capital(l.name)),
		app.P().Body(app.Text("Wanted: "), app.B().Text(orWord(unbroken(l.wantedBoth), "not known")), app.Text(", "+l.allows)),
		chosenThen(entry, s.judge),
		app.If(l.word != "", func() app.UI { return app.P().Class("blaze " + l.class).Text(capital(l.word)) }),
		app.If(l.why != "", func() app.UI { return app.P().Class("soft").Text(capital(l.why)) }),
		app.P().Class("soft").Text(l.rests),
	)
}

// keeping ends the form: what was found is kept with the position.
func (s *fitScreen) keeping() app.UI {
	if s.view.position.ID == "" {
		return app.P().Class("soft").Text("This part sits nowhere on the rig: what is found here is not kept.")
	}
	f := s.form
	class, word := verdictMark(s.view.result.Verdict)
	return section("Keep it as evidence",
		app.P().Class("big blaze "+class).Text(capital(word)),
		f.pick(fitHere, "Which part was it", []option{{"", "one in a yard or store"}, {fitHere, "the one fitted here"}}),
		app.If(f.get(fitHere) == "", func() app.UI { return f.text(fitWhere, "Where", "store, yard, on which vehicle") }),
		f.text(fitBy, "Who", ""),
		f.area("note", "Note", ""),
		f.saving("Keep with the position", s.keep),
	)
}

func (s *fitScreen) back() string {
	switch v := s.view; {
	case v.position.ID != "" && v.part.ID != "":
		return link("/counter/card", "part", v.part.ID, "position", v.position.ID)
	case v.position.ID != "":
		return link("/rig/position", "id", v.position.ID)
	case v.part.ID != "":
		return link("/counter/card", "part", v.part.ID)
	}
	return link("/counter")
}

func (s *fitScreen) keep(ctx app.Context) {
	c := s.view.comparison(s.form, today())
	if len(c.Found) == 0 {
		s.form.err = badField("nothing was found yet", "measure or look at something first")
		return
	}
	keepComparison(ctx, s.form, s.view.position.ID, c)
}

// comparison is what is kept of the form.
func (v fitView) comparison(f *form, day fieldkit.Date) fieldkit.Comparison {
	c := fieldkit.Comparison{On: day, By: f.typed(fitBy), Wanted: v.wantedName(), Where: whereOf(f), Note: f.typed("note"), Result: fieldkit.Undecided, How: fieldkit.Seen}
	switch v.result.Verdict {
	case fit.Fits:
		c.Result = fieldkit.Proven
	case fit.WithChanges:
		c.Result = fieldkit.ChangesOnly
		c.Note = strings.TrimSpace(c.Note + "\n" + strings.Join(v.result.Changes, "\n"))
	case fit.DoesNotFit:
		c.Result = fieldkit.Refuted
	}
	if v.result.Weakest != "" {
		c.How = v.result.Weakest
	}
	if number := f.typed(fitNumber); number != "" {
		c.Found = append(c.Found, fieldkit.Finding{What: "number on it", By: string(fit.ByNumber), Value: fieldkit.Value{Dim: fieldkit.DimText, Text: number}})
	}
	for _, l := range v.result.Lines {
		if l.Got != nil {
			c.Found = append(c.Found, fieldkit.Finding{What: l.Name(), By: l.Got.Tool, Value: l.Got.Value, Result: string(l.Outcome)})
		}
	}
	return c
}

func whereOf(f *form) string {
	if f.get(fitHere) != "" {
		return fittedHere
	}
	return f.typed(fitWhere)
}
