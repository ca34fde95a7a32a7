package app

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf16"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// field is one line of a form. Its identity holds the form's revision: raising
// that is the only way to make an edited field on the page take another value.
type field struct {
	app.Compo

	Form, Name string
	Revision   int
	Kind       string // "", "area", "whole", "decimal", "choose"
	Label      string
	Hint       string
	Wrong      string
	Value      string
	Options    []option
	Keys       []string
	OnType     func(app.Context, string)
	Mend       func(app.Context) // takes out what is not seen, where that is wrong

	look  string // what is looked for in a long list
	first string // what stands first in it: chosen, and not among the first lines
}

// CompoID tells go-app when a field is another one.
func (f *field) CompoID() string {
	return f.Form + "/" + f.Name + "/" + strconv.Itoa(f.Revision)
}

func (f *field) id() string {
	return "f-" + strings.Map(func(r rune) rune {
		if r == ' ' || r == '/' {
			return '-'
		}
		return r
	}, f.Form+"-"+f.Name)
}

// Render draws label, entry, keys, and below them what is wrong or a hint.
func (f *field) Render() app.UI {
	class := "field"
	if f.Wrong != "" {
		class += " has-wrong"
	}
	return app.Div().Class(class).Body(
		app.Label().For(f.id()).Text(f.Label),
		f.entry(),
		f.keys(),
		app.If(f.Wrong != "", func() app.UI {
			return app.P().Class("wrong").ID(f.id() + "-said").Role("alert").Text(f.Wrong)
		}),
		app.If(f.Mend != nil, func() app.UI {
			return button("quiet", "Take out what is not seen", "mend "+f.id(), f.Mend)
		}),
		app.If(f.Wrong == "" && f.Hint != "", func() app.UI { return app.P().Class("hint").ID(f.id() + "-said").Text(f.Hint) }),
	)
}

func (f *field) entry() app.UI {
	typed := func(ctx app.Context, _ app.Event) { f.OnType(ctx, ctx.JSSrc().Get("value").String()) }
	said := ""
	if f.Wrong != "" || f.Hint != "" {
		said = f.id() + "-said"
	}
	wrong := strconv.FormatBool(f.Wrong != "")
	switch f.Kind {
	case "area":
		return app.Textarea().ID(f.id()).Name(f.Name).Aria("invalid", wrong).Aria("describedby", said).Attr("value", f.Value).OnInput(typed)
	case "choose":
		choice := app.Select().ID(f.id()).Name(f.Name).Aria("invalid", wrong).Aria("describedby", said).
			OnChange(func(ctx app.Context, _ app.Event) {
				f.OnType(ctx, chosen(ctx.JSSrc().Get("value").String()))
			})
		if len(f.Options) > manyToPick {
			return f.longChoice(choice)
		}
		return choice.Body(f.choices(f.Options))
	}
	line := app.Input().Type("text").AutoComplete(false).ID(f.id()).Name(f.Name).Value(f.Value).
		Aria("invalid", wrong).Aria("describedby", said).OnInput(typed)
	switch f.Kind {
	case "whole":
		line = line.Attr("inputmode", "numeric")
	case "decimal":
		line = line.Attr("inputmode", "decimal")
	}
	return line
}

func (f *field) choices(list []option) app.UI {
	return app.Range(list).Slice(func(i int) app.UI {
		o := list[i]
		return app.Option().Value(optionValue(o.value)).Text(o.label).Selected(o.value == f.Value)
	})
}

// A choice of nothing needs a value of its own on the page: an empty one is
// dropped there and the label would be taken.
const noChoice = "-"

func optionValue(v string) string {
	if v == "" {
		return noChoice
	}
	return v
}

func chosen(v string) string {
	if v == noChoice {
		return ""
	}
	return v
}

// keys draws what the number pad of a phone lacks. Pressing one leaves the caret, and
// with it the pad, where it is.
func (f *field) keys() app.UI {
	if len(f.Keys) == 0 {
		return app.Div().Hidden(true)
	}
	return app.Div().Class("keys").Body(app.Range(f.Keys).Slice(func(i int) app.UI {
		key := f.Keys[i]
		return app.Button().Type("button").Text(strings.TrimSpace(key)).Aria("label", "add "+strings.TrimSpace(key)).
			OnMouseDown(func(_ app.Context, e app.Event) { e.PreventDefault() }).
			OnClick(func(ctx app.Context, _ app.Event) { f.OnType(ctx, pressKey(f.id(), key)) }, app.EventScope(f.Form, f.Name, key))
	}))
}

// pressKey types a key into a line on the page and returns what it holds then.
func pressKey(id, key string) string {
	e := app.Window().GetElementByID(id)
	text := e.Get("value").String()
	if unit, is := strings.CutPrefix(key, " "); is {
		e.Set("value", withUnit(text, unit))
	} else {
		at := e.Get("selectionEnd").Int()
		if !app.Window().Get("document").Get("activeElement").Equal(e) {
			at = len(utf16.Encode([]rune(text)))
		}
		e.Call("setRangeText", key, at, at, "end")
	}
	e.Call("focus")
	return e.Get("value").String()
}

// withUnit puts a unit behind what is typed, in place of one that is there.
func withUnit(text, unit string) string {
	text = strings.TrimRightFunc(text, func(r rune) bool { return !unicode.IsDigit(r) && r != '.' })
	return strings.TrimLeft(text+" "+unit, " ")
}

// focusEnd puts the caret behind what is typed.
func focusEnd(id string) {
	e := app.Window().GetElementByID(id)
	if !e.Truthy() {
		return
	}
	e.Call("focus")
	n := len(utf16.Encode([]rune(e.Get("value").String())))
	e.Call("setSelectionRange", n, n)
}
