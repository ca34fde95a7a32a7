package app

import (
	"encoding/json"
	"errors"
	"hash/fnv"
	"maps"
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
)

// baseField is a hidden field: which state of its record a form began with. It is
// kept in the draft, so that a draft taken up days later still knows.
const baseField = "base"

// baseOf names the present state of a record; a record that is not there yet has
// none.
func baseOf(r fieldkit.Record) string {
	h := fnv.New64a()
	_, _ = h.Write(kitfile.EncodeRecord(r)) // a hash does not fail
	return strconv.FormatUint(h.Sum64(), 36)
}

// follow lets a form in which nothing was typed show the record as it is by now.
// One that is being typed in keeps its text; starting over gives the fresh record.
func follow(f *form, fresh map[string]string) {
	if maps.Equal(f.start, fresh) {
		return
	}
	untouched := maps.Equal(f.values, f.start)
	f.start = fresh
	if untouched {
		f.startOver()
	}
}

// chosenThen does something more once a field was chosen in.
func chosenThen(drawn app.UI, more func()) app.UI {
	if choose, ok := drawn.(*field); ok {
		chosen := choose.OnType
		choose.OnType = func(ctx app.Context, v string) {
			chosen(ctx, v)
			more()
		}
	}
	return drawn
}

// forget puts fields back to what the form began with, once what was typed in them
// is saved; the rest of the draft stays.
func (f *form) forget(names ...string) {
	for _, name := range names {
		delete(f.values, name)
		if was, ok := f.start[name]; ok {
			f.values[name] = was
		}
	}
	f.revision++
	if maps.Equal(f.values, f.start) {
		f.done()
		return
	}
	if draft, err := json.Marshal(f.values); err == nil {
		remember(f.draft, string(draft))
	}
}

// saving draws what ends a form: saving it, and once something was typed, dropping
// that.
func (f *form) saving(label string, save func(app.Context)) app.UI {
	return app.Div().Class("block").Body(
		button("act wide", label, "save", save),
		app.If(!f.restored && !maps.Equal(f.values, f.start), func() app.UI {
			return button("quiet wide", "Start over", "drop "+f.key, func(app.Context) { f.startOver() })
		}),
	)
}

// recordID is the ID of the record a form adds. It is kept in the draft: saving again
// after a failure writes the same record, not a second one.
func (f *form) recordID() string {
	if f.get("id") == "" {
		f.set("id", newID())
	}
	return f.get("id")
}

// unchanged refuses to write over a record that something else changed since base
// was taken: another tab, or an undo. Now is the record as the kit has it.
func unchanged(base string, now fieldkit.Record, there bool, want fieldkit.Record) error {
	if !there && base == "" || there && (base == baseOf(now) || baseOf(want) == baseOf(now)) {
		return nil
	}
	what := "this was changed since you began typing"
	if !there {
		what = "this was deleted since you began typing"
	}
	return &fieldkit.Error{Kind: fieldkit.Conflict, What: what,
		Do: "start over, at the top, to see it as it is by now; what you typed is dropped then"}
}

// keep writes the record the form was read into, unless something else changed it
// since the form began. The form ends once it is on disk; then runs either way.
func (f *form) keep(ctx app.Context, what string, r fieldkit.Record, then func(app.Context, error)) {
	base := f.get(baseField)
	kept.do(ctx, what, func(e *journal.Edit) error {
		list, _ := fieldkit.CollectionNamed(r.Collection()) // every record has one
		before, known := list.Get(e.Kit(), r.Key())
		if err := unchanged(base, before, known, r); err != nil {
			return err
		}
		e.Put(r)
		return nil
	}, func(ctx app.Context, err error) {
		if err != nil {
			offerFresh(f, err)
		} else {
			f.done()
		}
		then(ctx, err)
	})
}

// offerFresh lets the person start over where what was typed cannot be saved any
// more.
func offerFresh(f *form, err error) {
	var e *fieldkit.Error
	if errors.As(err, &e) && e.Kind == fieldkit.Conflict {
		f.restored = true
	}
}

// showWrong brings the first field that is marked as wrong into sight, once it is
// drawn, and says so at the end of the form.
func showWrong(ctx app.Context) error {
	intoSight(ctx, ".work .wrong")
	return badField("something above is not right yet", "look for the marked fields")
}

// intoSight scrolls to the first thing a selector finds, once it is drawn.
func intoSight(ctx app.Context, selector string) {
	ctx.Defer(func(app.Context) {
		if first := app.Window().Get("document").Call("querySelector", selector); first.Truthy() {
			first.Call("scrollIntoView", map[string]any{"block": "center"})
		}
	})
}
