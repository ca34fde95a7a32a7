package app

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// fittedHere is where a comparison was made on the part that sits at the position.
const fittedHere = "fitted here"

// keepComparison appends a comparison to a position, in one step that can be taken
// back. One that proves the part fitted there becomes the proof that it sits there,
// unless a better one is known.
func keepComparison(ctx app.Context, f *form, position string, c fieldkit.Comparison) {
	f.edit(ctx, "Compared with "+c.Wanted+": "+judgementWords(c.Result), func(e *journal.Edit) error {
		p, ok := e.Kit().Position(position)
		if !ok {
			return &fieldkit.Error{Kind: fieldkit.NotFound, What: "the position is not in this kit any more", Do: "choose another"}
		}
		e.Put(withComparison(p, c))
		return nil
	}, to(link("/rig/position", "id", position)))
}

func withComparison(p fieldkit.Position, c fieldkit.Comparison) fieldkit.Position {
	p.Compared = append(append([]fieldkit.Comparison(nil), p.Compared...), c)
	if c.Where == fittedHere && c.Result == fieldkit.Proven && p.Part != "" && (p.Proof == nil || p.Proof.How.Strength() < c.How.Strength()) {
		p.Proof = &fieldkit.Proof{How: c.How, On: c.On, By: c.By}
	}
	return p
}

// judgementWords says how a comparison ended.
func judgementWords(j fieldkit.Judgement) string {
	switch j {
	case fieldkit.Proven:
		return "it is the right one"
	case fieldkit.ChangesOnly:
		return "fits with changes"
	case fieldkit.Refuted:
		return "not the right one"
	}
	return "not decided"
}

func judgementMark(j fieldkit.Judgement) string {
	switch j {
	case fieldkit.Proven:
		return "good"
	case fieldkit.Refuted:
		return "none"
	}
	return "part"
}

// comparedList draws what was compared at a position, the latest first.
func comparedList(list []fieldkit.Comparison, first fieldkit.System) app.UI {
	return app.Ul().Class("list").Body(app.Range(list).Slice(func(i int) app.UI {
		c := list[len(list)-1-i]
		return app.Li().Body(app.Div().Class("open plain").Body(app.Span().Class("what").Body(append([]app.UI{
			app.B().Class("blaze " + judgementMark(c.Result)).Text(capital(judgementWords(c.Result)))}, sentences(comparisonLines(c, first))...)...)))
	}))
}

// comparisonLines says what, when and how it was compared, a line each.
func comparisonLines(c fieldkit.Comparison, first fieldkit.System) []string {
	var found []string
	for _, f := range c.Found {
		text := f.What + " " + f.Value.Show(first)
		if f.Result != "" && f.Result != "agrees" {
			text += " (" + f.Result + ")"
		}
		found = append(found, text)
	}
	not, may := "", ""
	if len(c.Against) > 0 {
		not = "it is not: " + strings.Join(c.Against, "; ")
	}
	if len(c.Left) > 0 {
		may = "it may still be: " + strings.Join(c.Left, "; ")
	}
	return nonEmpty(strings.Join(nonEmpty(c.Where, string(c.How), c.On.Show(), c.By), " · "), strings.Join(found, "; "), not, may, c.Note)
}
