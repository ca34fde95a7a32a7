package app

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

// costsScreen lists what may fail on a trip, how likely, and what it costs with a
// spare and without; and what the trip is measured by.
type costsScreen struct {
	app.Compo
	form *form
	view costsView
	home []string // what getting home comes to, once asked
	work *work    // reckoning that
}

type costsView struct {
	found  bool
	trip   fieldkit.Trip
	losses []spares.Loss
}

func (s *costsScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *costsScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *costsScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	id := param(ctx, "trip")
	same := s.form != nil && s.view.trip.ID == id
	if s.work != nil {
		s.work.dropped = true
	}
	s.view, s.home, s.work = viewCosts(kept.kit(), data.Catalog(), id), nil, nil
	fields := countingFields(s.view.trip)
	if same {
		follow(s.form, fields)
		return
	}
	s.form = newForm("costs/"+id, fields)
}

func viewCosts(k fieldkit.Kit, cat fieldkit.Catalog, id string) (v costsView) {
	if v.trip, v.found = k.Trip(id); v.found {
		v.losses = spares.Losses(k, cat, guidesOf(k), v.trip)
	}
	return v
}

func (s *costsScreen) Render() app.UI {
	v := s.view
	p := page{title: "What failures cost", sub: v.trip.Name, dest: "/pack", back: link("/pack/trip", "id", v.trip.ID)}
	if s.form == nil {
		return frame(p)
	}
	if !v.found {
		p.back, p.body = link("/pack"), []app.UI{emptyLine("There is no such trip in this kit.")}
		return frame(p)
	}
	p.body = []app.UI{s.gettingHome(), s.counting()}
	if len(v.losses) == 0 {
		p.body = append(p.body, emptyLine("Nothing is known to fail on this trip: give it a distance and rigs, and say what is fitted on them."))
		return frame(p)
	}
	p.body = append(p.body, section("By what is worth most to carry",
		app.P().Class("soft").Text("Hours that carrying what fixes it saves on average: how likely it fails, times what a fix on the spot saves. "+spares.GuessMeans+"."),
		app.Ul().Class("list").Body(app.Range(v.losses).Slice(func(i int) app.UI { return lossRow(v.trip, v.losses[i]) })),
	))
	return frame(p)
}

func lossRow(trip fieldkit.Trip, l spares.Loss) app.UI {
	return openRow(link("/pack/cost", "trip", trip.ID, "position", l.Position.ID), l.Rig.Name+": "+l.Position.Title(), "Saves "+spares.Guess(l.Avoids.String(), l.Guessed())+" · "+lossWords(l), "")
}

// lossWords say how likely, what that rests on, and what happens with a spare and
// without.
func lossWords(l spares.Loss) string {
	byHand := ""
	if hasOwn(l.Cost.Own) {
		byHand = "set by hand"
	}
	return strings.Join(nonEmpty(
		fmt.Sprintf("%s likely, by %s", spares.Guess(spares.Percent(l.Likelihood.Probability), l.Likelihood.Guessed()), l.Likelihood.Source),
		fmt.Sprintf("with a spare %s, without %s: %s", spares.Guess(l.Cost.Carried.String(), l.Cost.Own.Carried == 0), spares.Guess(l.Cost.Without.String(), l.Cost.GuessedWithout()), l.Cost.Words()), byHand,
	), " · ")
}

func hasOwn(c fieldkit.Cost) bool {
	return c.Move != "" || c.Carried > 0 || c.Town > 0 || c.Recovered > 0 || c.Shelf > 0
}

func moveWords(m fieldkit.Move) string {
	switch m {
	case fieldkit.Tow:
		return "can be towed"
	case fieldkit.Walk:
		return "stays where it is"
	}
	return "can limp"
}

// gettingHome reckons when asked: it goes through many worlds, a few at a time.
func (s *costsScreen) gettingHome() app.UI {
	switch {
	case s.home != nil:
		return section("Getting home", sentences(s.home)...)
	case s.work != nil:
		return app.P().Class("note").Role("status").Text("Reckoning how likely every rig gets home …")
	}
	return button("quiet wide", "Reckon getting home", "home "+s.view.trip.ID, func(ctx app.Context) {
		w := &work{trip: s.view.trip.ID, since: time.Now()}
		s.work = w
		k, v := kept.kit(), s.view
		go func() {
			time.Sleep(drawnBy) // the screen says so first
			words, done := homeWords(k, v, w.keepGoing)
			kept.post(func(app.Context) {
				if s.work == w && done {
					s.home, s.work = words, nil
				}
			})
		}()
	})
}

// homeWords say what the trip comes to with the packing list and with nothing; done is
// false if it was told to stop.
func homeWords(k fieldkit.Kit, v costsView, keepGoing func() bool) (words []string, done bool) {
	pack, _ := packOf(k, v.trip.ID)
	with, without, done := spares.OutcomesWhile(k, data.Catalog(), guidesOf(k), v.trip, pack, rand.New(rand.NewPCG(1, 2)), keepGoing)
	guessed := slices.ContainsFunc(v.losses, func(l spares.Loss) bool { return l.Guessed() })
	say := func(name string, o spares.Outcome) { words = append(words, name+": "+o.Words(guessed)+".") }
	say("With nothing on board", without)
	if len(pack.Lines) > 0 {
		say("With the packing list", with)
	}
	return words, done
}
