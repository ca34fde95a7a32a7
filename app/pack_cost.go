package app

import (
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

// costScreen shows what one position's failure costs on a trip and where that comes
// from; what a person knows better is kept in the trip.
type costScreen struct {
	app.Compo
	form     *form
	trip     fieldkit.Trip
	position fieldkit.Position
	rig      fieldkit.Rig
	found    bool
	l        spares.Likelihood
	cost     spares.Cost
}

func (s *costScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *costScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *costScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	k, trip, position := kept.kit(), param(ctx, "trip"), param(ctx, "position")
	same := s.form != nil && s.trip.ID == trip && s.position.ID == position
	var hasTrip, hasPosition bool
	s.trip, hasTrip = k.Trip(trip)
	s.position, hasPosition = k.Position(position)
	s.rig, _ = k.RigOf(s.position)
	if s.found = hasTrip && hasPosition; s.found {
		s.l = spares.LikelihoodOf(k, data.Catalog(), s.trip, s.position)
		s.cost = spares.CostOf(data.Catalog(), guidesOf(k), s.trip, s.rig, s.position)
	}
	fields := costFields(s.trip, position)
	if same {
		follow(s.form, fields)
		return
	}
	s.form = newForm("cost/"+trip+"/"+position, fields)
}

func costFields(t fieldkit.Trip, position string) map[string]string {
	c := t.CostAt(position)
	fields := map[string]string{"move": string(c.Move), "carried": spanText(c.Carried), "town": spanText(c.Town), "recovered": spanText(c.Recovered), "shelf": wholeText(c.Shelf)}
	if t.ID != "" {
		fields[baseField] = baseOf(t)
	}
	return fields
}

func spanText(m fieldkit.Minutes) string {
	if m == 0 {
		return ""
	}
	return m.String()
}

func (s *costScreen) Render() app.UI {
	p := page{title: "What it costs", dest: "/pack", back: link("/pack/costs", "trip", s.trip.ID)}
	if s.form == nil {
		return frame(p)
	}
	if !s.found {
		p.back, p.body = link("/pack"), []app.UI{emptyLine("There is no such trip or position in this kit.")}
		return frame(p)
	}
	c, f := s.cost, s.form
	p.title, p.sub = capital(s.position.Title()), s.rig.Name+", "+s.trip.Name
	guess := func(m fieldkit.Minutes, own fieldkit.Minutes) string { return spares.Guess(m.String(), own == 0) }
	town := "no town on the way is likely to sell it"
	if c.Town > 0 {
		town = guess(c.Town, c.Own.Town) + " on average"
		if c.Run.Town != "" {
			town += ", by way of " + c.Run.Town + ", where it is on the shelf with " + spares.Guess(spares.Percent(c.Run.Stock), c.Own.Shelf == 0)
		}
	}
	without, with := c.Counts(s.trip)
	p.body = []app.UI{
		section("How it stands",
			facts(
				fact{"Likely to fail", spares.Guess(spares.Percent(s.l.Probability), s.l.Guessed()) + ", between " + spares.Percent(s.l.Interval[0]) + " and " + spares.Percent(s.l.Interval[1])},
				fact{"Rests on", s.l.Evidence},
				fact{"With it broken", "the rig " + moveWords(c.Move)},
				fact{"Fixed with a spare", guess(c.Carried, c.Own.Carried)},
				fact{"Bought on the way", town},
				fact{"What that is made of", runWords(c)},
				fact{"Limped, towed or fetched", guess(c.Recovered, c.Own.Recovered)},
				fact{"Without a spare", spares.Guess(c.Without.String(), c.GuessedWithout()) + ": " + c.Words()},
				fact{"A spare saves", spares.Guess((spares.Hours(s.l.Expected)*max(without-with, 0)).String(), s.l.Guessed() || c.Guessed()) + " on average"},
			),
			app.P().Class("soft").Text(spares.GuessMeans+"."),
			goTo("quiet wide no-print", "The position", link("/rig/position", "id", s.position.ID)),
		),
		f.restoredNotice(),
		section("What you know better",
			app.P().Class("soft").Text("Kept with this trip. What is left out is reckoned."),
			f.pick("move", "With it broken the rig", []option{{"", "as reckoned"}, {string(fieldkit.Limp), "can limp"}, {string(fieldkit.Tow), "can be towed"}, {string(fieldkit.Walk), "stays where it is"}}),
			f.text("carried", "Lost when fixed with a spare", "2 h 30 min"),
			f.whole("shelf", "On the shelf of a town that sells such parts, in per cent", ""),
			f.text("town", "Lost when bought on the way", "there and back, and the work"),
			f.text("recovered", "Lost when limped, towed or fetched", ""),
		),
		f.saving("Save what it costs", s.save),
	}
	return frame(p)
}

// runWords say what the time by way of a town is made of, and who there may have the part;
// nothing if a person gave it.
func runWords(c spares.Cost) string {
	if c.Run.Town == "" || c.Own.Town > 0 {
		return ""
	}
	var stores []string
	for _, id := range c.Run.Stores {
		if s, ok := data.Catalog().Store(id); ok {
			stores = append(stores, s.Name)
		}
	}
	return c.Run.Words() + ". In " + c.Run.Town + " ask at the " + strings.Join(stores, ", ")
}

// readCost reads the form into the trip; every wrong field is marked.
func readCost(f *form, t fieldkit.Trip, position string) (fieldkit.Trip, bool) {
	ok, c := f.short(), t.CostAt(position)
	c.Move = fieldkit.Move(f.get("move"))
	for name, at := range map[string]*fieldkit.Minutes{"carried": &c.Carried, "town": &c.Town, "recovered": &c.Recovered} {
		var err error
		*at, err = optionalSpan(f.get(name))
		ok = f.refuse(name, err) && ok
	}
	var err error
	c.Shelf, err = optionalWhole(f.get("shelf"), 1, fieldkit.MaxShelf)
	ok = f.refuse("shelf", err) && ok
	t.Costs = slices.DeleteFunc(slices.Clone(t.Costs), func(one fieldkit.Cost) bool { return one.Position == position })
	if hasOwn(c) || len(c.Extra) > 0 {
		t.Costs = append(t.Costs, c)
	}
	return t, ok
}

func (s *costScreen) save(ctx app.Context) {
	t, ok := readCost(s.form, s.trip, s.position.ID)
	if !ok {
		s.form.wrongAbove(ctx)
		return
	}
	s.form.keep(ctx, "Saved what it costs: "+s.position.Title(), t, to(link("/pack/costs", "trip", t.ID)))
}
