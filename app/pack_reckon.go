package app

import (
	"math/rand/v2"
	"reflect"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

// reckoning holds what is worked out about a list beside what it is good for: what the
// trip comes to with how sure that is, what dropping a thing costs with the rest planned
// anew, how much more would bring one in. Each takes planning many times. So it is asked
// for by the screen that shows it, worked out in slices while the screen is used, and
// remembered until the list or what it rests on changes; ticks change nothing.
type reckoning struct {
	of      grounds
	again   *spares.Again
	best    *spares.Best       // how far the list is from the best one
	home    *[2]spares.Outcome // with the list and without
	drops   map[spares.Ref]spares.Drop
	entries map[spares.Ref]spares.Entry
	work    *work // under way
}

var reckoned reckoning

// question is what a screen wants to know, nothing if zero; what is there already is not
// asked again.
type question struct {
	home        bool
	drop, entry spares.Ref // none if zero
}

// reckon has questions about a list answered, unless they are or are being answered. What
// was answered about another list is forgotten.
func reckon(trip fieldkit.Trip, pack fieldkit.Pack, q question) {
	if !app.IsClient {
		return
	}
	now := reckoning{of: groundsOf(kept.kit(), trip, pack)}
	if !reflect.DeepEqual(reckoned.of, now.of) {
		if reckoned.work != nil {
			reckoned.work.dropped = true
		}
		now.drops, now.entries = map[spares.Ref]spares.Drop{}, map[spares.Ref]spares.Entry{}
		reckoned = now
	}
	if _, ok := reckoned.drops[q.drop]; ok {
		q.drop = spares.Ref{}
	}
	if _, ok := reckoned.entries[q.entry]; ok {
		q.entry = spares.Ref{}
	}
	if q.home = q.home && reckoned.home == nil; q == (question{}) {
		return
	}
	if reckoned.work != nil {
		reckoned.work.dropped = true // the screen before asked something else
	}
	w := &work{trip: trip.ID, since: time.Now()}
	reckoned.work = w
	k, again := kept.kit(), reckoned.again
	go func() {
		time.Sleep(300 * time.Millisecond) // the screen first
		w.keepGoing()
		answer := func(keep func()) {
			kept.post(func(app.Context) {
				if reckoned.work == w {
					keep()
				}
			})
		}
		if again == nil {
			free := pack // a tick is no reason: it comes and goes while the list is packed
			free.Lines = nil
			for _, l := range pack.Lines {
				if l.Pinned {
					free.Lines = append(free.Lines, l)
				}
			}
			again = spares.PlanAgain(k, data.Catalog(), guidesOf(k), trip, &free, pack, w.keepGoing)
			answer(func() { reckoned.again = again })
		}
		if q.drop.Item != "" {
			d := again.Without(q.drop, w.keepGoing)
			answer(func() { reckoned.drops[q.drop] = d })
		}
		if q.home {
			b := again.Best(w.keepGoing)
			answer(func() { reckoned.best = &b })
			with, without, _ := spares.OutcomesWhile(k, data.Catalog(), guidesOf(k), trip, pack, rand.New(rand.NewPCG(1, 2)), w.keepGoing)
			answer(func() { reckoned.home = &[2]spares.Outcome{with, without} })
		}
		if q.entry.Item != "" {
			e := again.Entry(q.entry, w.keepGoing)
			answer(func() { reckoned.entries[q.entry] = e })
		}
		answer(func() { reckoned.work = nil })
	}()
}

// rigHead heads what one rig of several carries.
func (s *packTripScreen) rigHead(id string) app.UI {
	first := kept.first()
	for _, r := range s.view.sheet.Rigs {
		if r.Rig.ID != id {
			continue
		}
		mass, volume := spares.Guess(r.Mass.Both(first), r.Typical.Mass), spares.Guess(r.Volume.Both(first), r.Typical.Volume)
		if r.Carries.Mass > 0 {
			mass += " of " + r.Carries.Mass.Show(first)
		}
		if r.Carries.Volume > 0 {
			volume += " of " + r.Carries.Volume.Show(first)
		}
		return app.Div().Class("righead").Body(
			app.H2().Text(r.Rig.Name),
			app.P().Class("soft").Text(unbroken(itoa(r.Ticked)+" of "+counted(r.Lines, "line")+" packed · "+mass+" · "+volume)),
		)
	}
	return app.Div().Class("righead").Body(app.H2().Text("On no rig yet"))
}

// friends lists what rides in friends' rigs.
func (s *packTripScreen) friends() app.UI {
	list, count := s.view.proposal.Friends, "…"
	if s.view.said {
		count = itoa(len(list))
	}
	if len(list) == 0 && (s.view.said || len(s.view.trip.Friends) == 0) {
		return app.Div().Hidden(true)
	}
	return app.Details().Class("group").Body(
		app.Summary().Body(app.Text("In friends' rigs, at hand"), app.Span().Class("count").Text(count)),
		app.Div().Class("in").Body(app.Ul().Class("list").Body(app.Range(list).Slice(func(i int) app.UI {
			l := list[i]
			return openRow(link("/pack/line", "trip", s.view.trip.ID, "type", string(l.Line.Type), "item", l.Line.Item),
				itoa(l.Line.Count)+" × "+l.Name, capital(l.Line.Why), l.Who)
		}))),
	)
}
