package app

import (
	"errors"
	"maps"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// saving draws what ends a form: what is wrong, saving it, and once something was
// typed, dropping that.
func (f *form) saving(label string, save func(app.Context)) app.UI {
	return app.Div().Class("block").Body(
		problem(f.err),
		button("act wide", label, "save", save),
		app.If(!f.restored && !f.outdated && !maps.Equal(f.values, f.start), func() app.UI {
			return button("quiet wide", "Start over", "drop "+f.key, f.abandon)
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
	return outdated{&fieldkit.Error{Kind: fieldkit.Conflict, What: what,
		Do: "start over, at the top, to see it as it is by now; what you typed is dropped then"}}
}

// outdated is the error of a form whose record was changed by something else.
type outdated struct{ error }

func (o outdated) Unwrap() error { return o.error }

// keep writes the record the form was read into, unless something else changed it
// since the form began; then, once it is on disk, next runs.
func (f *form) keep(ctx app.Context, what string, r fieldkit.Record, next func(app.Context)) {
	f.keepWith(ctx, what, r, nil, next)
}

// keepWith is keep for a record that others go with: more, if it is given, puts them
// first, in the same edit.
func (f *form) keepWith(ctx app.Context, what string, r fieldkit.Record, more func(*journal.Edit) error, next func(app.Context), blobs ...journal.Blob) {
	base := f.get(baseField)
	f.edit(ctx, what, func(e *journal.Edit) error {
		list, _ := fieldkit.CollectionNamed(r.Collection()) // every record has one
		before, known := list.Get(e.Kit(), r.Key())
		if err := unchanged(base, before, known, r); err != nil {
			return err
		}
		if more != nil {
			if err := more(e); err != nil {
				return err
			}
		}
		e.Put(r)
		return nil
	}, next, blobs...)
}

// drop deletes the record the form is about.
func (f *form) drop(ctx app.Context, what string, r fieldkit.Record, next func(app.Context)) {
	f.edit(ctx, what, func(e *journal.Edit) error {
		e.Delete(r.Collection(), r.Key())
		return nil
	}, next)
}

// edit changes the kit for a form, one change at a time: a second tap before the first
// is answered does nothing. The form ends once the change is on disk, and next runs;
// if it is refused, the form says why and keeps what was typed.
func (f *form) edit(ctx app.Context, what string, change func(*journal.Edit) error, next func(app.Context), blobs ...journal.Blob) {
	if f.busy {
		return
	}
	f.busy, f.err = true, nil
	kept.do(ctx, what, change, func(ctx app.Context, err error) {
		f.busy, f.err = false, err
		if err == nil {
			f.done()
			next(ctx)
		} else if errors.As(err, new(outdated)) {
			f.outdated = true
		}
	}, blobs...)
}

// to opens an address once a form has ended.
func to(href string) func(app.Context) { return func(ctx app.Context) { goOn(ctx, href) } }

// wrongAbove says that something typed cannot be saved, and brings it into sight.
func (f *form) wrongAbove(ctx app.Context) { f.err = showWrong(ctx) }

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
