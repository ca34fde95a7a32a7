package app

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/place"
)

// helpScreen makes a call for help: where one is in three notations, what is wrong,
// whom to look for, as a text to send or to read out over the radio.
type helpScreen struct {
	app.Compo
	rig      fieldkit.Rig
	form     *form
	told     string
	placeErr error
}

func (s *helpScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *helpScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *helpScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	k := kept.kit()
	var ok bool
	if s.rig, ok = k.Rig(param(ctx, "rig")); !ok && len(k.Rigs) > 0 {
		s.rig = k.Rigs[0]
	}
	if s.form == nil {
		s.form = newForm("help", map[string]string{"what": param(ctx, "what"), "look": s.rig.Registration})
	}
}

// callOf is the call as it is typed so far.
func callOf(f *form) place.Call {
	where := placeOf(f)
	where.Text = f.typed("place")
	return place.Call{Who: f.typed("who"), Rig: f.typed("look"), What: f.typed("what"), Number: f.typed("number"), Place: where}
}

func (s *helpScreen) Render() app.UI {
	f := s.form
	if f == nil {
		return frame(page{title: "Ask for help", dest: "/repair", back: link("/repair")})
	}
	call := callOf(f)
	return frame(page{title: "Ask for help", sub: s.rig.Name, dest: "/repair", back: link("/repair"), body: []app.UI{
		button("act wide", "Take this phone's position", "help place", s.findPlace),
		app.If(s.told != "", func() app.UI { return app.P().Class("note").Role("status").Text(s.told) }),
		problem(s.placeErr),
		notations(call.Place),
		f.text("place", "Place in words", "second ford below the mine"),
		f.text("what", "What is wrong, is anybody hurt", ""),
		f.text("who", "Who you are, and how many", ""),
		f.text("look", "What to look for", "colour and shape of the rig"),
		f.text("number", "Number or channel to call back", ""),
		s.contacts(),
		section("The text",
			app.Pre().Class("letter").Text(call.Text()),
			button("quiet wide", "Send or copy the text", "send help", func(ctx app.Context) {
				shareText(ctx, "Need help", call.Text(), func(_ app.Context, said string) { s.told = said })
			}),
			app.P().Class("soft").Text("No signal? A text often goes out where a call does not: send it, and try again from higher ground. Stay with the rig."),
		),
	}})
}

// notations shows a position in three ways, and how the grid is read out.
func notations(p fieldkit.Place) app.UI {
	at, ok := place.Of(p)
	if !ok {
		return app.Div().Hidden(true)
	}
	list := []fact{{"Degrees and minutes", at.Minutes()}, {"Degrees", at.Degrees()}}
	said := ""
	if u, ok := at.UTM(); ok {
		list = append(list, fact{"Map grid (MGRS)", u.MGRS()}, fact{"UTM", u.String()})
		said = place.Spoken(u.MGRS())
	}
	list = append(list, fact{"Taken", p.FixedAt.Local().Format("2 Jan 15:04") + ", within " + place.Metres(p.Accuracy)})
	return section("Where you are", facts(list...),
		app.If(said != "", func() app.UI { return app.P().Class("figures").Text("Read out the grid: " + said) }))
}

func (s *helpScreen) contacts() app.UI {
	if len(s.rig.Contacts) == 0 {
		return app.Div().Hidden(true)
	}
	var list []fact
	for _, c := range s.rig.Contacts {
		list = append(list, fact{c.Name, c.Line})
	}
	return section("Whom to call", facts(list...))
}

func (s *helpScreen) findPlace(ctx app.Context) {
	f := s.form
	s.told, s.placeErr = "Looking for the position … You can go on meanwhile.", nil
	findPlace(ctx, func(_ app.Context, p fieldkit.Place, err error) {
		s.told, s.placeErr = "", err
		if err == nil {
			f.set("fix at", fixText(p))
		}
	})
}
