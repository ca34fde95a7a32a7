package app

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/repair"
)

// brokeScreen logs a failure with two taps, where and how, and opens the entry to be
// completed now or later.
type brokeScreen struct {
	app.Compo
	view brokeView
	all  bool
	busy bool
	err  error
}

type brokeView struct {
	rigs      []fieldkit.Rig
	rig       fieldkit.Rig
	suspects  []fieldkit.Position // the likeliest first
	systems   map[string]string   // their names by ID
	position  fieldkit.Position
	chosen    bool
	elsewhere bool // the place is said later
}

// brokeOnLog is how many positions the log itself offers, so that its entries are not
// pushed off the screen.
const brokeOnLog = 3

// brokeFirst is how many positions are offered before the rest is asked for.
const brokeFirst = 6

// elsewhere in the address stands for a place that is said later.
const elsewhere = "-"

func (s *brokeScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *brokeScreen) OnNav(ctx app.Context)   { s.all, s.err = false, nil; arrive(ctx, s.load) }

func (s *brokeScreen) load(ctx app.Context) {
	s.view = viewBroke(kept.kit(), data.Catalog(), param(ctx, "rig"), param(ctx, "position"), today())
}

func viewBroke(k fieldkit.Kit, cat fieldkit.Catalog, rig, position string, day fieldkit.Date) brokeView {
	v := brokeView{rigs: k.Rigs, systems: map[string]string{}, elsewhere: position == elsewhere}
	v.position, v.chosen = k.Position(position)
	if on, ok := k.RigOf(v.position); v.chosen && ok {
		rig = on.ID
	}
	var ok bool
	if v.rig, ok = k.Rig(rig); !ok {
		v.rig = rigOut(k, day)
	}
	v.suspects = repair.Suspects(k, cat, v.rig.ID)
	for _, s := range k.Systems {
		v.systems[s.ID] = s.Name
	}
	return v
}

// rigOut is the rig one is most likely out with: the first of the trip under way, else
// the first of the kit.
func rigOut(k fieldkit.Kit, day fieldkit.Date) fieldkit.Rig {
	if t, ok := k.TripOn("", day); ok && len(t.Rigs) > 0 {
		if r, there := k.Rig(t.Rigs[0]); there {
			return r
		}
	}
	if len(k.Rigs) > 0 {
		return k.Rigs[0]
	}
	return fieldkit.Rig{}
}

func (s *brokeScreen) Render() app.UI {
	v := s.view
	p := page{title: "What broke?", sub: v.rig.Name, dest: "/log", back: link("/log")}
	switch {
	case len(v.rigs) == 0:
		p.body = []app.UI{emptyLine("There is no rig in this kit yet. Add one under Rig first.")}
	case v.chosen || v.elsewhere:
		p.title, p.back = "How did it fail?", link("/log/broke", "rig", v.rig.ID)
		p.body = s.modes()
	default:
		p.body = s.places()
	}
	return frame(p)
}

func (s *brokeScreen) places() []app.UI {
	v := s.view
	shown := v.suspects
	if !s.all {
		shown = shown[:min(len(shown), brokeFirst)]
	}
	var rigs app.UI = app.Div().Hidden(true)
	if len(v.rigs) > 1 {
		var list []option
		for _, r := range v.rigs {
			list = append(list, option{r.ID, r.Name})
		}
		rigs = choice("Rig", "broke rig", v.rig.ID, list, func(ctx app.Context, id string) { ctx.Navigate(link("/log/broke", "rig", id)) })
	}
	return []app.UI{
		rigs,
		app.Ul().Class("list").Body(app.Range(shown).Slice(func(i int) app.UI {
			p := shown[i]
			return openRow(link("/log/broke", "position", p.ID), p.Title(), v.systems[p.System], "")
		})),
		app.If(len(shown) < len(v.suspects), func() app.UI {
			return button("quiet wide", "Another place on the rig", "all places", func(app.Context) { s.all = true })
		}),
		goTo("quiet wide", "Say where later", link("/log/broke", "rig", v.rig.ID, "position", elsewhere)),
	}
}

func (s *brokeScreen) modes() []app.UI {
	v := s.view
	at := "The place is said later."
	if v.chosen {
		at = capital(v.position.Title())
	}
	return []app.UI{
		app.P().Class("lead").Text(at),
		app.Div().Class("two").Body(app.Range(fieldkit.Modes).Slice(func(i int) app.UI {
			mode := fieldkit.Modes[i]
			return button("act", capital(string(mode)), "broke "+string(mode), func(ctx app.Context) { s.save(ctx, mode) })
		})),
		problem(s.err),
		app.P().Class("soft").Text("One tap saves it, with today's date, the odometer, the trip and the part that is fitted there. The rest can be written down now or later."),
	}
}

func (s *brokeScreen) save(ctx app.Context, mode fieldkit.Mode) {
	if s.busy {
		return
	}
	s.busy, s.err = true, nil
	v, id, at := s.view, newID(), localNow()
	what := repair.Broke(kept.kit(), v.rig.ID, v.position.ID, mode, at, id).What
	kept.do(ctx, "Logged: "+what, func(e *journal.Edit) error {
		e.Put(repair.Broke(e.Kit(), v.rig.ID, v.position.ID, mode, at, id))
		return nil
	}, func(ctx app.Context, err error) {
		if s.busy, s.err = false, err; err == nil {
			goOn(ctx, link("/log/failure", "id", id))
		}
	})
}
