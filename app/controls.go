package app

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// button draws a button that does one thing. Scope names what the handler is
// about: two buttons drawn at the same place for different records must differ
// in it, or the first one's handler stays.
func button(class, label, scope string, do func(app.Context)) app.UI {
	return app.Button().Type("button").Class(class).Text(label).
		OnClick(func(ctx app.Context, _ app.Event) { do(ctx) }, app.EventScope(scope, label))
}

// goTo draws a link that looks like a button.
func goTo(class, label, href string) app.UI {
	return app.A().Class(class).Href(href).Text(label)
}

// tick draws a box to tick with a glove on: the whole line is the target.
func tick(label, detail, scope string, on bool, do func(app.Context)) app.UI {
	return tickLines(scope, on, do, append([]app.UI{app.B().Text(label)}, spans(detail)...)...)
}

// tickLines is tick with several lines beside the box.
func tickLines(scope string, on bool, do func(app.Context), what ...app.UI) app.UI {
	return app.Button().Type("button").Class("tick").Role("checkbox").Aria("checked", strconv.FormatBool(on)).
		OnClick(func(ctx app.Context, _ app.Event) { do(ctx) }, app.EventScope(scope, on)).
		Body(app.Span().Class("box"), app.Span().Class("what").Body(what...))
}

// spans draws lines of text one below the other; empty ones are left out.
func spans(lines ...string) []app.UI {
	var list []app.UI
	for _, text := range nonEmpty(lines...) {
		list = append(list, app.Span().Text(marked(text)))
	}
	return list
}

// sentences draws lines with their first letter large.
func sentences(lines []string) []app.UI {
	var list []app.UI
	for _, text := range lines {
		list = append(list, app.Span().Text(marked(capital(text))))
	}
	return list
}

// bullets draws a list of short points.
func bullets(list []string) app.UI {
	return app.Ul().Class("bullets").Body(app.Range(list).Slice(func(i int) app.UI { return app.Li().Text(marked(capital(list[i]))) }))
}

func nonEmpty(list ...string) []string {
	var full []string
	for _, s := range list {
		if s != "" {
			full = append(full, s)
		}
	}
	return full
}

// choice draws a few answers side by side, the chosen one marked.
func choice(label, scope, chosen string, options []option, choose func(app.Context, string)) app.UI {
	return app.Div().Class("choice").Role("group").Aria("label", label).Body(
		app.Range(options).Slice(func(i int) app.UI {
			o := options[i]
			return app.Button().Type("button").Aria("pressed", strconv.FormatBool(o.value == chosen)).Text(o.label).
				OnClick(func(ctx app.Context, _ app.Event) { choose(ctx, o.value) }, app.EventScope(scope, o.value))
		}),
	)
}

// stepper draws a count with a button on either side.
func stepper(label, scope string, n, least int, set func(app.Context, int)) app.UI {
	return app.Div().Class("stepper").Role("group").Aria("label", label).Body(
		app.Button().Type("button").Aria("label", "one less: "+label).Text("−").Disabled(n <= least).
			OnClick(func(ctx app.Context, _ app.Event) { set(ctx, n-1) }, app.EventScope(scope, "less", n)),
		app.Elem("output").Text(strconv.Itoa(n)),
		app.Button().Type("button").Aria("label", "one more: "+label).Text("+").
			OnClick(func(ctx app.Context, _ app.Event) { set(ctx, n+1) }, app.EventScope(scope, "more", n)),
	)
}

// openRow draws one line of a list that opens something.
func openRow(href, title, sub, aside string) app.UI {
	return app.Li().Body(app.A().Class("open").Href(href).Body(
		app.Span().Class("what").Body(append([]app.UI{app.B().Text(unbroken(capital(title)))}, spans(sub)...)...),
		app.If(aside != "", func() app.UI { return app.Span().Class("aside").Text(aside) }),
	))
}

// plainRow draws one line of a list that opens nothing.
func plainRow(title string, lines ...string) app.UI {
	return app.Li().Body(app.Div().Class("open plain").Body(
		app.Span().Class("what").Body(append([]app.UI{app.B().Text(capital(title))}, spans(lines...)...)...)))
}

// emptyLine is the first line of a list with nothing in it: it says what to do.
func emptyLine(text string) app.UI { return app.P().Class("empty").Text(text) }

// section draws a heading with what belongs under it.
func section(title string, body ...app.UI) app.UI {
	return app.Section().Class("block").Body(append([]app.UI{app.H2().Text(title)}, body...)...)
}

// fact is one line of a list of facts.
type fact struct{ name, value string }

// facts draws names and values; facts without a value are left out.
func facts(list ...fact) app.UI {
	var lines []app.UI
	for _, f := range list {
		if f.value != "" {
			lines = append(lines, app.Dt().Text(f.name), app.Dd().Text(marked(f.value)))
		}
	}
	if len(lines) == 0 {
		return app.Div().Hidden(true)
	}
	return app.Dl().Class("facts").Body(lines...)
}

// blaze draws a state as a shape and a word.
func blaze(class, word string) app.UI { return app.Span().Class("blaze " + class).Text(word) }

// problem shows an error as where, what and what to do.
func problem(err error) app.UI {
	if err == nil {
		return app.Div().Hidden(true)
	}
	var file *kitfile.Problems
	if errors.As(err, &file) && len(file.List) > 1 {
		return problems(file)
	}
	var e *fieldkit.Error
	if !errors.As(err, &e) {
		return app.P().Class("note bad").Role("alert").Text(err.Error())
	}
	return app.Div().Class("note bad").Role("alert").Body(
		app.If(e.Where != "", func() app.UI { return app.P().Class("soft").Text(e.Where) }),
		app.P().Class("strong").Text(capital(e.What)),
		app.If(e.Do != "", func() app.UI { return app.P().Text(capital(e.Do)) }),
	)
}

// problemsShown is how many problems of a file are listed on a phone; the desk
// command check lists them all.
const problemsShown = 8

// problems lists what is wrong with a file, each with its place.
func problems(file *kitfile.Problems) app.UI {
	list := file.List[:min(len(file.List), problemsShown)]
	return app.Div().Class("note bad").Role("alert").Body(
		app.P().Class("strong").Text(counted(len(file.List)+file.More, "problem")+" in "+file.Name),
		app.Ul().Body(app.Range(list).Slice(func(i int) app.UI {
			p := list[i]
			return app.Li().Text(fmt.Sprintf("· Line %d, %s: %s", p.Line, strings.Join(nonEmpty(p.Where, p.What), ": "), p.Do))
		})),
		app.If(len(file.List) > len(list) || file.More > 0, func() app.UI { return app.P().Text("The first of them are listed.") }),
	)
}

// caution stands before the step that needs it: the hazard, the harm, the way to
// avoid it.
func caution(hazard, harm, avoid string) app.UI {
	return app.Div().Class("caution").Role("note").Body(
		app.B().Text(capital(hazard)),
		app.If(harm != "", func() app.UI { return app.P().Text(capital(harm)) }),
		app.If(avoid != "", func() app.UI { return app.P().Text(capital(avoid)) }),
	)
}

// capital makes a sentence of text that is kept without its first capital.
func capital(s string) string {
	for i, r := range s {
		if r >= 'a' && r <= 'z' {
			return s[:i] + string(r-'a'+'A') + s[i+1:]
		}
		break
	}
	return s
}

// roomFor says what is being worked out, in the room that the answer will need: when it
// comes nothing moves under the thumb. like is what the answer looks like.
func roomFor(words string, like ...app.UI) app.UI {
	return app.Div().Class("room").Body(
		app.P().Class("soft").Text(marked(words)),
		app.Div().Class("like block").Aria("hidden", true).Body(like...),
	)
}
