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
func planPack(k fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip, w spares.Watch) spares.Proposal {
	var keep *fieldkit.Pack
	if before, ok := packOf(k, trip.ID); ok {
		keep = &before
	}
	return spares.PlanWhile(k, cat, guides, trip, keep, w)
}

// planWork is a plan under way: of the list of a trip, around what was set by hand. It is
// kept when it is done, as one entry of the journal.
type planWork struct {
	work
	session *journal.Session
	what    string         // words for the log
	limit   *fieldkit.Mass // that the trip is to have from now on; nil leaves its own
	then    func(app.Context, error)
	begun   bool
	drawn   time.Time // when it last said how far it is
	value   spares.Hours
	bound   spares.Hours
	guessed bool
}

// planning is the plan under way, nil if none is: one at a time, the last one asked for.
var planning *planWork

// pressPause is how long after a press planning begins: a thumb that presses + three times
// means three, and nothing is to move under it meanwhile.
const pressPause = 1200 * time.Millisecond

// plan makes the list of a trip, or makes it again around what was set by hand, without
// freezing the screen, and keeps it. What is under way for another plan is given up.
// limit changes the trip's limit of weight first; nil leaves it.
func plan(trip, what string, limit *fieldkit.Mass, then func(app.Context, error)) {
	planAfter(drawnBy, trip, what, limit, then) // the screen says first that it is planning
}

func planAtOnce(trip, what string, then func(app.Context, error)) { plan(trip, what, nil, then) }

// planSoon plans once no further press came for a moment.
func planSoon(trip, what string, then func(app.Context, error)) {
	planAfter(pressPause, trip, what, nil, then)
}

func planAfter(pause time.Duration, trip, what string, limit *fieldkit.Mass, then func(app.Context, error)) {
	w := &planWork{work: work{trip: trip}, session: kept.session, what: what, limit: limit, then: then}
	if before := planning; before != nil {
		before.dropped = true
		if before.trip == trip && limit == nil {
			w.limit = before.limit // chosen a moment ago, and not kept yet
		}
	}
	planning = w
	time.AfterFunc(pause, func() {
		kept.post(func(ctx app.Context) {
			if planning == w {
				w.begin(ctx)
			}
		})
	})
}

// busyPlanning reports whether the list of a trip is being planned.
func busyPlanning(trip string) bool { return planning != nil && planning.trip == trip }

// begin plans from the kit as it is by now.
func (w *planWork) begin(ctx app.Context) {
	if kept.session != w.session {
		planning = nil // another kit was opened
		return
	}
	k := kept.kit()
	asked, ok := k.Trip(w.trip)
	if !ok {
		planning = nil
		w.then(ctx, errTripDeleted)
		return
	}
	trip := asked
	if w.limit != nil {
		trip.Limits.Mass = *w.limit
		k = withTrip(k, trip)
	}
	w.begun, w.since = true, time.Now()
	go func() {
		p := planPack(k, data.Catalog(), guidesOf(k), trip, w.watch())
		kept.post(func(ctx app.Context) {
			if planning == w {
				w.keep(ctx, k, asked, trip, p)
			}
		})
	}()
}

var errTripDeleted = badField("the trip was deleted meanwhile", "go back and look")

func (w *planWork) watch() spares.Watch {
	return spares.Watch{KeepGoing: w.keepGoing, Found: func(value, bound spares.Hours, guessed bool) {
		w.value, w.bound, w.guessed = value, bound, guessed
		if time.Since(w.drawn) > 200*time.Millisecond {
			w.drawn = time.Now()
			kept.post(func(app.Context) {})
		}
	}}
}

// keep writes a list down that was planned from a kit, with its trip as it is to be; asked
// is the trip as it was. If the list or the trip was changed meanwhile, a tick being enough,
// it is planned again from what they are now.
func (w *planWork) keep(ctx app.Context, k fieldkit.Kit, asked, trip fieldkit.Trip, p spares.Proposal) {
	before, _ := packOf(k, trip.ID)
	pack := p.Pack
	if pack.ID == "" {
		pack.ID = newID()
	}
	pack.Made = today()
	kept.explained = explained{groundsOf(k, trip, pack), p}
	moved := false
	kept.do(ctx, w.what, func(e *journal.Edit) error {
		t, there := e.Kit().Trip(trip.ID)
		if !there {
			return errTripDeleted
		}
		now, _ := packOf(e.Kit(), trip.ID)
		if moved = !reflect.DeepEqual(now, before) || !reflect.DeepEqual(t, asked); moved {
			return errListMoved
		}
		if w.limit != nil {
			e.Put(trip)
		}
		e.Put(pack)
		return nil
	}, func(ctx app.Context, err error) {
		switch {
		case planning != w: // another plan was asked for while this one was written down
		case moved && err != nil:
			w.begin(ctx)
		default:
			planning = nil
			w.then(ctx, err)
		}
	})
}

// errListMoved is never shown: what it stops is done again.
var errListMoved = badField("the list was changed while it was planned", "plan it again")

// planningBar says how far the plan under way is, with a way to end it. It stands where the
// screen says what was done, so that nothing moves when it comes and goes.
func planningBar() app.UI {
	w := planning
	words := "Planning …"
	switch {
	case w.stopped:
		words = "Stopping: the best list so far is kept."
	case w.value > 0:
		words = unbroken("Planning: " + spares.Guess(w.value.String(), w.guessed) + " saved so far, at most " + spares.Guess(w.bound.String(), w.guessed))
	}
	return app.Div().Class("said-bar").Aria("live", "off").Body(
		app.Span().Text(words),
		app.If(!w.stopped, func() app.UI {
			return app.Button().Type("button").Text("Stop").Aria("label", "Stop planning, and take the best list so far").
				OnClick(func(app.Context, app.Event) {
					if planning != nil {
						planning.stopped = true
					}
				})
		}),
	)
}

// planButton asks for a plan; while there is one under way it says so, and does nothing.
func planButton(class, label, trip string, do func(app.Context)) app.UI {
	busy := busyPlanning(trip)
	if busy {
		label = "Planning …"
	}
	return app.Button().Type("button").Class(class).Disabled(busy).Text(label).
		OnClick(func(ctx app.Context, _ app.Event) {
			if !busyPlanning(trip) { // two taps can come before the first is drawn
				do(ctx)
			}
		}, app.EventScope("plan", trip))
}
