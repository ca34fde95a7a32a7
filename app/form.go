package app

import (
	"encoding/json"
	"errors"
	"maps"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
)

// form keeps what is being typed, by field name. Every keystroke is also kept on
// the device under the form's key, so that a changed screen, a sleeping phone, a
// dead battery or an update loses nothing. It ends with done.
type form struct {
	key      string            // tells its fields from those of other forms
	draft    string            // where what is typed is kept on the device
	start    map[string]string // as the form was opened
	values   map[string]string
	wrong    map[string]string
	revision int   // raised to make the fields take new values
	restored bool  // what is shown was typed earlier and not saved
	outdated bool  // its record was changed meanwhile: only starting over goes on
	busy     bool  // it is being saved
	err      error // why it was not
}

// newForm opens a form, taking up what was typed under the same key and not
// saved. Start may be nil.
func newForm(key string, start map[string]string) *form {
	f := &form{key: key, draft: draftKey(key), start: start, values: map[string]string{}, wrong: map[string]string{}}
	maps.Copy(f.values, start)
	var typed map[string]string
	if json.Unmarshal([]byte(remembered(f.draft)), &typed) == nil && len(typed) > 0 {
		maps.Copy(f.values, typed)
		f.restored = !maps.Equal(f.values, f.start)
	}
	return f
}

// get returns what a field holds.
func (f *form) get(name string) string { return f.values[name] }

// set keeps what was typed or chosen.
func (f *form) set(name, value string) {
	f.values[name] = value
	delete(f.wrong, name)
	if len(value) > maxDraft {
		f.refuse(name, f.unfit(name)) // said at once; a device keeps no draft of that size
		return
	}
	f.remember()
}

// maxDraft is the longest text that is kept as it is typed: far more than can be saved,
// and less than a browser's storage of texts takes.
const maxDraft = 20 * fieldkit.MaxString

// remember keeps what is typed on the device; what is as the form began is nothing
// to remember.
func (f *form) remember() {
	draft := ""
	kept.typing = 0
	if !maps.Equal(f.values, f.start) {
		kept.typing = kept.shown.number
		if text, err := json.Marshal(f.values); err == nil {
			draft = string(text)
		}
	}
	remember(f.draft, draft)
}

// put sets a field from outside it, so that the field on the screen follows. Only
// emptying one needs new fields, see field.
func (f *form) put(name, value string) {
	f.set(name, value)
	if value == "" {
		f.revision++
	}
}

// refuse marks a field as wrong and says why; ok is false then. It is used as
// the last step of reading a field.
func (f *form) refuse(name string, err error) (ok bool) {
	if err == nil {
		return true
	}
	if unfit := f.unfit(name); unfit != nil {
		err = unfit // what else is wrong would repeat a text that cannot be shown
	}
	text := err.Error()
	var e *fieldkit.Error
	if errors.As(err, &e) {
		text = capital(e.What)
		if e.Do != "" {
			text += ": " + e.Do
		}
	}
	f.wrong[name] = text
	return false
}

// done forgets the draft once what was typed is saved.
func (f *form) done() {
	kept.typing = 0
	remember(f.draft, "")
	f.restored, f.outdated = false, false
}

// startOver puts back what the form was opened with.
func (f *form) startOver() {
	f.done()
	f.values, f.wrong = map[string]string{}, map[string]string{}
	maps.Copy(f.values, f.start)
	f.revision++
}

// abandon is startOver by the person's word: why what was typed could not be saved
// goes with it.
func (f *form) abandon(app.Context) {
	f.err = nil
	f.startOver()
}

// restoredNotice says why the form shows something else than is kept, and lets the
// person start over.
func (f *form) restoredNotice() app.UI {
	says := "This is what you typed earlier. It is not saved yet."
	switch {
	case f.outdated:
		says = "What this form is about was changed meanwhile. What you typed is not saved."
	case !f.restored:
		return app.Div().Hidden(true)
	}
	return app.Div().Class("note").Body(
		app.Text(says),
		app.Div().Class("row").Body(button("quiet", "Start over", "start over "+f.key, f.abandon)),
	)
}

// option is one answer of a choice.
type option struct{ value, label string }

// text draws a line to type in.
func (f *form) text(name, label, hint string) app.UI { return f.field(name, label, hint, field{}) }

// severalLines names the fields that hold several lines: those drawn as an area.
var severalLines = map[string]bool{"note": true, "why": true, "fix": true, "buyWith": true, "changes": true,
	"figures": true, "contacts": true, "summary": true, "steps": true, "stopSigns": true, "afterwards": true}

// area draws room for several lines.
func (f *form) area(name, label, hint string) app.UI {
	return f.field(name, label, hint, field{Kind: "area"})
}

// whole draws a line for a whole number.
func (f *form) whole(name, label, hint string) app.UI {
	return f.field(name, label, hint, field{Kind: "whole"})
}

// size draws a line for a size with the keys that number pads lack.
func (f *form) size(name, label, hint string) app.UI {
	return f.field(name, label, hint, field{Kind: "decimal", Keys: []string{"-", "/", ".", " in", " mm"}})
}

// amount draws a line for a quantity with its units as keys. Where all keys are
// units, the number pad of a phone is enough.
func (f *form) amount(name, label, hint string, units ...string) app.UI {
	as := field{Kind: "decimal", Keys: units}
	for _, key := range units {
		if !strings.HasPrefix(key, " ") {
			as.Kind = ""
		}
	}
	return f.field(name, label, hint, as)
}

// dayKey is a day to choose with one tap.
type dayKey struct {
	label string
	day   fieldkit.Date
}

// date draws a line for a day that has been, with keys for the latest two.
func (f *form) date(name, label string, today fieldkit.Date) app.UI {
	return f.day(name, label, dayKey{"Today", today}, dayKey{"Yesterday", today.AddDays(-1)})
}

// dateAhead draws a line for a day to come.
func (f *form) dateAhead(name, label string, today fieldkit.Date) app.UI {
	return f.day(name, label, dayKey{"Today", today}, dayKey{"Tomorrow", today.AddDays(1)})
}

func (f *form) day(name, label string, keys ...dayKey) app.UI {
	hint := "2026-05-14 or 14 May 2026"
	if d, err := fieldkit.ParseDate(f.get(name)); err == nil {
		hint = d.Show()
	}
	return app.Div().Class("block").Body(
		f.field(name, label, hint, field{}),
		app.Div().Class("keys").Body(app.Range(keys).Slice(func(i int) app.UI {
			return button("", keys[i].label, name+keys[i].day.String(), func(app.Context) { f.put(name, keys[i].day.String()) })
		})),
	)
}

// choose draws a list to pick from; value "" shows as the first line, none.
func (f *form) choose(name, label, hint, none string, options []option) app.UI {
	if none != "" {
		options = append([]option{{"", none}}, options...)
	}
	return f.field(name, label, hint, field{Kind: "choose", Options: options})
}

// pick draws a few answers side by side.
func (f *form) pick(name, label string, options []option) app.UI {
	return app.Div().Class("field").Body(
		app.Span().Class("label").Text(label),
		choice(label, f.key+name, f.get(name), options, func(_ app.Context, v string) { f.set(name, v) }),
	)
}

func (f *form) field(name, label, hint string, as field) *field {
	as.Form, as.Name, as.Revision = f.key, name, f.revision
	as.Label, as.Hint, as.Value, as.Wrong = label, hint, f.values[name], f.wrong[name]
	as.OnType = func(_ app.Context, v string) { f.set(name, v) }
	if _, _, hides := fieldkit.Hidden(as.Value, severalLines[name]); hides && as.Wrong != "" {
		as.Mend = func(app.Context) { f.put(name, fieldkit.WithoutHidden(f.get(name), severalLines[name])) }
	}
	return &as
}
