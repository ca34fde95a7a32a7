package app

import (
	"reflect"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/repair"
	"trailfieldkit/fieldkit/spares"
)

// planPack plans the list of a trip, around what stays of the list there is.
func planPack(k fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip, w spares.Watch) fieldkit.Pack {
	var keep *fieldkit.Pack
	if before, ok := packOf(k, trip.ID); ok {
		keep = &before
	}
	return spares.PlanWhile(k, cat, guides, trip, keep, w).Pack
}

// work is planning under way, or what is worked out beside it. It stops every few
// milliseconds to let the screen draw and the finger be heard.
type work struct {
	trip    string
	stopped bool
	since   time.Time // of this slice
	drawn   time.Time // when it last said how far it is
	value   spares.Hours
	bound   spares.Hours
	guessed bool
}

// planning is the plan under way, nil if none is.
var planning *work

// keepGoing yields when the slice is used up, and as long as a plan is under way that
// somebody waits for; it says whether to go on. What was stopped yields too, as long as it
// tidies up.
func (w *work) keepGoing() bool {
	for time.Since(w.since) > sliceLength {
		handOver()
		if planning == nil || planning == w || w.stopped {
			w.since = time.Now()
		}
	}
	return !w.stopped
}

func (w *work) watch() spares.Watch {
	return spares.Watch{KeepGoing: w.keepGoing, Found: func(value, bound spares.Hours, guessed bool) {
		w.value, w.bound, w.guessed = value, bound, guessed
		if time.Since(w.drawn) > 200*time.Millisecond {
			w.drawn = time.Now()
			kept.post(func(app.Context) {})
		}
	}}
}

// plan makes the list of a trip, or makes it again around what was set by hand, without
// freezing the screen, and keeps it. What is under way for another plan is given up.
// limit changes the trip's limit of weight first; nil leaves it.
func plan(ctx app.Context, trip fieldkit.Trip, what string, limit *fieldkit.Mass, then func(app.Context, error)) {
	if planning != nil {
		planning.stopped = true
	}
	if limit != nil {
		trip.Limits.Mass = *limit
	}
	w := &work{trip: trip.ID, since: time.Now(), drawn: time.Now()}
	planning = w
	k, id, day := kept.kit(), newID(), today()
	before, _ := packOf(k, trip.ID)
	ctx.Async(func() {
		time.Sleep(drawnBy) // the screen says first that it is planning
		pack := planPack(k, data.Catalog(), guidesOf(k), trip, w.watch())
		said := explainWhile(k, trip, pack, w.keepGoing)
		kept.post(func(ctx app.Context) {
			if planning != w {
				return // another plan was asked for meanwhile
			}
			planning, kept.explained = nil, said
			kept.do(ctx, what, func(e *journal.Edit) error {
				if now, _ := packOf(e.Kit(), trip.ID); !reflect.DeepEqual(now, before) {
					pack = planPack(e.Kit(), data.Catalog(), guidesOf(e.Kit()), trip, spares.Watch{})
				}
				if t, ok := e.Kit().Trip(trip.ID); ok && limit != nil {
					t.Limits.Mass = *limit
					e.Put(t)
				}
				if pack.ID == "" {
					pack.ID = id
				}
				pack.Made = day
				e.Put(pack)
				return nil
			}, then)
		})
	})
}

// progress shows a plan under way for a trip, with a way to end it.
func progress(trip string) app.UI {
	w := planning
	if w == nil || w.trip != trip {
		return app.Div().Hidden(true)
	}
	words := "Planning …"
	if w.value > 0 {
		words = "Planning: the best list so far saves " + spares.Guess(w.value.String(), w.guessed) + ", no list saves more than " + spares.Guess(w.bound.String(), w.guessed) + "."
	}
	if w.stopped {
		words = "Stopping: the best list so far is kept."
	}
	return app.Div().Class("block no-print").Body(
		app.P().Class("note").Role("status").Text(words),
		app.If(!w.stopped, func() app.UI {
			return button("quiet wide", "Stop, and take the best so far", "stop "+trip, func(app.Context) { w.stopped = true })
		}),
	)
}
