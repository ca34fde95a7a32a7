package app

import (
	"fmt"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/merge"
)

// clashBlock lists what merging left to a person: fields both phones changed, to be
// decided, and records one deleted while the other changed them, which may be taken back.
type clashBlock struct {
	clashes []merge.Clash
	missing merge.Missing
	err     error // of deciding
	backErr error // of taking back
}

// load looks through the history, which takes time by its length.
func (b *clashBlock) load(ctx app.Context, session *journal.Session) {
	ctx.Async(func() {
		r := session.Replica()
		clashes, missing := merge.Clashes(r), merge.MissingFrom(r)
		ctx.Dispatch(func(app.Context) { b.clashes, b.missing = clashes, missing })
	})
}

func (b *clashBlock) draw() app.UI {
	if len(b.clashes) == 0 {
		return app.Div().Hidden(true)
	}
	k := kept.kit()
	return section("Left open by merging",
		app.P().Text("Two phones changed the same thing. The later one stands until you say otherwise."),
		app.Ul().Class("list").Body(app.Range(b.clashes).Slice(func(i int) app.UI { return b.row(k, b.clashes[i]) })),
		problem(b.err),
	)
}

// drawDeleted lists what merging left deleted though the other phone changed it. That is
// settled: it waits, folded, for whoever wants it back.
func (b *clashBlock) drawDeleted() app.UI {
	if len(b.missing.Deleted)+len(b.missing.Held) == 0 {
		return app.Div().Hidden(true)
	}
	k := kept.kit()
	body := []app.UI{app.P().Text("Deleted on one phone, changed on the other or needed by what that wrote. It stays deleted unless you take it back, with what was deleted together with it.")}
	for _, r := range b.missing.Deleted {
		body = append(body, app.Div().Class("note").Body(
			app.P().Class("strong").Text(capital(recordTitle(k, r))),
			app.Div().Class("row").Body(button("quiet", "Take it back", "back "+r.Collection()+r.Key(), func(ctx app.Context) { b.takeBack(ctx, r) })),
		))
	}
	if len(b.missing.Held) > 0 {
		body = append(body, mergeList("Held back with what was deleted", recordLines(k, k, b.missing.Held)))
	}
	body = append(body, problem(b.backErr))
	return app.Details().Class("group no-print").Body(
		app.Summary().Body(app.Text("Deleted, and changed on the other phone"), app.Span().Class("count").Text(itoa(len(b.missing.Deleted)))),
		app.Div().Class("in").Body(app.Div().Class("block").Body(body...)),
	)
}

func (b *clashBlock) row(k fieldkit.Kit, c merge.Clash) app.UI {
	name := fmt.Sprint(c.Key, c.Field)
	acts := []app.UI{}
	for i, v := range c.Lost {
		label := "Take " + short(valueWords(k, c.Field, v.Value), 40)
		acts = append(acts, button("quiet", label, fmt.Sprint("take ", name, i), func(ctx app.Context) { b.take(ctx, c, v) }))
	}
	acts = append(acts, button("quiet", "Keep what stands", "keep "+name, func(ctx app.Context) { b.keep(ctx, c) }))
	lines := []app.UI{app.B().Text(capital(clashTitle(k, c)) + ", " + fieldWords(c.Field)),
		app.Span().Text("Stands: " + valueWords(k, c.Field, c.Wins.Value) + writtenAt(c.Wins))}
	for _, v := range c.Lost {
		lines = append(lines, app.Span().Text("The other: "+valueWords(k, c.Field, v.Value)+writtenAt(v)))
	}
	if c.Field == "count" {
		lines = append(lines, app.Span().Text("Each phone counted for itself: count what is there."))
	}
	return app.Li().Body(app.Div().Class("block rowform").Body(app.Div().Class("what").Body(lines...), app.Div().Class("row").Body(acts...)))
}

// writtenAt says when a value was written, by the clock of its phone.
func writtenAt(v merge.Version) string {
	if v.Stamp.IsZero() {
		return ""
	}
	return ", " + v.Stamp.Moment().Local().Format("2 Jan 2006 15:04")
}

func (b *clashBlock) take(ctx app.Context, c merge.Clash, v merge.Version) {
	what := "Took the other value: " + clashTitle(kept.kit(), c) + ", " + fieldWords(c.Field)
	kept.do(ctx, what, func(e *journal.Edit) error {
		return takeValue(e, c, v)
	}, b.settled)
}

func (b *clashBlock) keep(ctx app.Context, c merge.Clash) {
	kept.do(ctx, "Kept: "+clashTitle(kept.kit(), c)+", "+fieldWords(c.Field), func(e *journal.Edit) error {
		e.Settle(c.Key.Collection, c.Key.ID, c.Field)
		return nil
	}, b.settled)
}

func (b *clashBlock) takeBack(ctx app.Context, r fieldkit.Record) {
	session, name := kept.session, recordTitle(kept.kit(), r)
	ctx.Async(func() {
		put, err := merge.Back(session.Replica(), merge.Key{Collection: r.Collection(), ID: r.Key()})
		ctx.Dispatch(func(ctx app.Context) {
			if b.backErr = err; err != nil {
				return
			}
			kept.do(ctx, "Took back: "+name, func(e *journal.Edit) error {
				for _, r := range put {
					e.Put(r)
				}
				return nil
			}, func(_ app.Context, err error) { b.backErr = err })
		})
	})
}

func (b *clashBlock) settled(_ app.Context, err error) { b.err = err }
