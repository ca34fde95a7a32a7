package app

import (
	"fmt"
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
)

// crewScreen says what each rig of a trip carries at most, and what rides in friends'
// rigs.
type crewScreen struct {
	app.Compo
	form *form
	kit  fieldkit.Kit
	trip fieldkit.Trip
	has  bool
}

func (s *crewScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *crewScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *crewScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	id := param(ctx, "trip")
	same := s.form != nil && s.trip.ID == id
	s.kit = kept.kit()
	s.trip, s.has = s.kit.Trip(id)
	fields := crewFields(s.trip, kept.first())
	if same {
		follow(s.form, fields)
		return
	}
	s.form = newForm("crew/"+id, fields)
}

func carriesField(rig, what string) string  { return "carries/" + rig + "/" + what }
func friendField(i int, what string) string { return fmt.Sprintf("friend/%d/%s", i, what) }

func crewFields(t fieldkit.Trip, first fieldkit.System) map[string]string {
	fields := map[string]string{}
	if t.ID != "" {
		fields[baseField] = baseOf(t)
	}
	for _, c := range t.Carries {
		fields[carriesField(c.Rig, "mass")] = amountText(c.Mass, first, fieldkit.ParseMass)
		fields[carriesField(c.Rig, "volume")] = amountText(c.Volume, first, fieldkit.ParseVolume)
	}
	for i, l := range t.Friends {
		fields[friendField(i, "who")], fields[friendField(i, "count")] = l.Who, itoa(l.Count)
	}
	return fields
}

func (s *crewScreen) Render() app.UI {
	p := page{title: "Rigs and friends", sub: s.trip.Name, dest: "/pack", back: link("/pack/trip", "id", s.trip.ID)}
	if s.form == nil {
		return frame(p)
	}
	if !s.has {
		p.back, p.body = link("/pack"), []app.UI{emptyLine("There is no such trip in this kit.")}
		return frame(p)
	}
	f := s.form
	p.body = []app.UI{f.restoredNotice(),
		app.P().Class("soft").Text("The list is planned for all rigs as one: a spare that two of them can use is carried once. Then it is shared out so that none carries more than this.")}
	for _, id := range s.trip.Rigs {
		rig, ok := s.kit.Rig(id)
		if !ok {
			continue
		}
		p.body = append(p.body, section(rig.Name+" carries at most",
			f.amount(carriesField(id, "mass"), "Weight on "+rig.Name, "no limit if left out", " kg", " lb"),
			f.amount(carriesField(id, "volume"), "Space on "+rig.Name, "no limit if left out", " L", " gal")))
	}
	friends := []app.UI{app.P().Class("soft").Text("What a friend carries is at hand, and no weight on ours. Say so at the thing itself: open it from the list, or under Add things.")}
	for i, l := range s.trip.Friends {
		name := itemName(s.kit, l.Type, l.Item)
		friends = append(friends,
			f.whole(friendField(i, "count"), capital(name)+", pieces", "0 takes it off"),
			f.text(friendField(i, "who"), capital(name)+", whose rig", ""))
	}
	p.body = append(p.body, section("In friends' rigs", friends...), f.saving("Save who carries what", s.save))
	return frame(p)
}

// readCrew reads the form into the trip; every wrong field is marked.
func readCrew(f *form, t fieldkit.Trip, first fieldkit.System) (fieldkit.Trip, bool) {
	ok := f.short()
	var err error
	// What is said of rigs that do not go on this trip stays.
	carries := slices.DeleteFunc(slices.Clone(t.Carries), func(c fieldkit.Carries) bool { return slices.Contains(t.Rigs, c.Rig) })
	for _, id := range t.Rigs {
		c := t.CarriesOf(id)
		name := carriesField(id, "mass")
		c.Mass, err = optionalLimit(f.get(name), first, fieldkit.ParseMass)
		ok = f.refuse(name, err) && ok
		name = carriesField(id, "volume")
		c.Volume, err = optionalLimit(f.get(name), first, fieldkit.ParseVolume)
		ok = f.refuse(name, err) && ok
		if c.Mass > 0 || c.Volume > 0 || len(c.Extra) > 0 {
			carries = append(carries, c)
		}
	}
	var friends []fieldkit.Lent
	for i, l := range t.Friends {
		l.Who = f.typed(friendField(i, "who"))
		l.Count, err = optionalWhole(f.get(friendField(i, "count")), 0, maxLent)
		if ok = f.refuse(friendField(i, "count"), err) && ok; l.Count > 0 {
			friends = append(friends, l)
		}
	}
	t.Carries, t.Friends = carries, friends
	return t, ok
}

// maxLent bounds the pieces of one thing in a friend's rig.
const maxLent = 999

func (s *crewScreen) save(ctx app.Context) {
	t, ok := readCrew(s.form, s.trip, kept.first())
	if !ok {
		s.form.wrongAbove(ctx)
		return
	}
	s.form.keep(ctx, "Saved who carries what: "+t.Name, t, func(ctx app.Context) {
		if _, planned := packOf(kept.kit(), t.ID); planned {
			plan(t.ID, "Planned "+t.Name+" by what the rigs carry", nil, func(_ app.Context, err error) { s.form.err = err })
		}
		goOn(ctx, link("/pack/trip", "id", t.ID))
	})
}

// lend puts pieces of something into a friend's rig, or takes them out: on the count the
// trip has by then.
func lend(t fieldkit.Trip, kind fieldkit.ItemType, id string, by int) fieldkit.Trip {
	t.Friends = slices.Clone(t.Friends)
	i := slices.IndexFunc(t.Friends, func(l fieldkit.Lent) bool { return l.Type == kind && l.Item == id })
	if i < 0 && by > 0 {
		t.Friends = append(t.Friends, fieldkit.Lent{Type: kind, Item: id})
		i = len(t.Friends) - 1
	}
	if i >= 0 {
		if t.Friends[i].Count = min(t.Friends[i].Count+by, maxLent); t.Friends[i].Count <= 0 {
			t.Friends = slices.Delete(t.Friends, i, i+1)
		}
	}
	return t
}
