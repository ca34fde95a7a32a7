package app

import (
	"fmt"
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/repair"
)

// guideScreen shows a repair before it begins: what it looks like, whether the rig
// may be moved, what is needed and what of it is on board.
type guideScreen struct {
	app.Compo
	view guideView
	err  error
	told string
	busy bool // a run is being written; a second tap does not begin another
}

// guideView is what the screen draws.
type guideView struct {
	found    bool
	guide    repair.Guide
	rigs     []fieldkit.Rig
	rig      fieldkit.Rig
	position fieldkit.Position
	where    []option // positions of the rig this repair is for
	needs    repair.Needs
	roll     repair.Movement
	drive    repair.Movement
	fits     repair.Answered
	underWay string // ID of a run of this repair here
	notes    []stepNoteRow
	stray    []string // notes to steps that are there no more
}

func (s *guideScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *guideScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *guideScreen) load(ctx app.Context) {
	s.view = viewGuide(kept.kit(), data.Catalog(), guidesOf(kept.kit()), param(ctx, "id"), param(ctx, "rig"), param(ctx, "position"))
}

func viewGuide(k fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, id, rig, position string) guideView {
	g, ok := repair.Named(guides, id)
	if !ok {
		return guideView{}
	}
	v := guideView{found: true, guide: g, rigs: k.Rigs}
	if p, ok := k.Position(position); ok {
		v.position = p
		v.rig, _ = k.RigOf(p)
	} else if v.rig, ok = k.Rig(rig); !ok && len(k.Rigs) > 0 {
		v.rig = k.Rigs[0]
	}
	for _, p := range k.PositionsOf(v.rig.ID) {
		for _, kind := range g.PartKinds {
			if p.Kind == kind {
				v.where = append(v.where, option{p.ID, p.Title()})
			}
		}
	}
	for _, step := range g.Steps {
		if note := repair.NoteAt(k, g.ID, step.ID); note != "" {
			v.notes = append(v.notes, stepNoteRow{step.ID, step.Text, note})
		}
	}
	v.stray = repair.StrayNotes(k, guides, g.ID)
	v.needs = repair.CheckNeeds(g, k, cat, v.position.ID)
	v.roll, v.drive, v.fits = g.CanRoll(v.rig), g.CanDrive(v.rig), g.Suits.On(v.rig)
	for _, run := range k.Runs {
		if repair.Open(run) && run.Guide == g.ID && run.Rig == v.rig.ID && run.Position == v.position.ID {
			v.underWay = run.ID
		}
	}
	return v
}

func (s *guideScreen) Render() app.UI {
	v := s.view
	if !v.found {
		return frame(page{title: "Repair", dest: "/repair", back: link("/repair"), body: []app.UI{
			emptyLine("There is no such repair here. The link may be from a newer version."),
		}})
	}
	screen := app.Div().Class("screen no-print").Body(
		app.If(v.guide.Own, func() app.UI {
			return app.Div().Class("note warn block").Body(
				app.P().Text("Written by your crew: nobody else has checked it. Block the wheels, take the load off, and stop where you are not sure."),
				goTo("quiet", "Change it", link("/repair/own/edit", "id", v.guide.ID)),
			)
		}),
		app.P().Class("lead").Text(v.guide.Summary),
		app.If(len(v.guide.StopSigns) > 0, func() app.UI { return section("Stop at once if", bullets(v.guide.StopSigns)) }),
		s.crewNotes(),
		s.where(),
		app.If(v.fits == repair.Fails, func() app.UI {
			return app.P().Class("note warn").Text("This repair is written for rigs built otherwise: " + v.guide.Suits.String() + ".")
		}),
		s.start(),
		s.moves(),
		s.needs(),
		section("About",
			facts(
				fact{"Hands", fmt.Sprint(v.guide.Hands)},
				fact{"Time", v.guide.Time.String()},
				fact{"Field fix", capital(v.guide.FieldFix)},
				fact{"Proper fix", capital(v.guide.ProperFix)},
			),
			app.P().Class("soft").Text("A memory aid. The maker's instructions, local rules and licensed mechanics come first."),
			app.Div().Class("two").Body(
				button("quiet", "Print steps", "print", func(app.Context) { printPage() }),
				button("quiet", "Share as text", "share", s.share),
			),
			app.If(s.told != "", func() app.UI { return app.P().Class("note ok").Role("status").Text(s.told) }),
		),
	)
	return frame(page{title: v.guide.Title, sub: v.rig.Name, dest: "/repair", back: link("/repair", "position", v.position.ID), body: []app.UI{
		screen,
		app.Pre().Class("only-print").Text(v.guide.Text(data.Catalog(), v.rig, kept.first())),
	}})
}

// choose takes another rig or position for the same repair.
func (s *guideScreen) choose(ctx app.Context, rig, position string) {
	rewriteQuery("id", s.view.guide.ID, "rig", rig, "position", position)
	s.load(ctx)
}

// where asks for the rig and the position if they are not known yet.
func (s *guideScreen) where() app.UI {
	v := s.view
	var rigs app.UI = app.Div().Hidden(true)
	if len(v.rigs) > 1 {
		rigs = choice("Rig", "rig", v.rig.ID, rigOptions(kept.kit()), func(ctx app.Context, id string) { s.choose(ctx, id, "") })
	}
	if len(v.where) == 0 {
		return rigs
	}
	f := field{
		Form: "guide" + v.rig.ID, Name: "where", Kind: "choose", Label: "At which position", Value: v.position.ID,
		Hint:    "the position decides which spare fits",
		Options: append([]option{{"", "not said"}}, v.where...),
		OnType:  func(ctx app.Context, id string) { s.choose(ctx, v.rig.ID, id) },
	}
	return app.Div().Class("block no-print").Body(rigs, &f)
}

func (s *guideScreen) start() app.UI {
	v := s.view
	if v.rig.ID == "" {
		return emptyLine("Add a rig first: the steps differ by what is on it.")
	}
	if v.underWay != "" {
		return goTo("act tall wide no-print", "Go on where you left it", link("/repair/run", "id", v.underWay))
	}
	return app.Div().Class("block no-print").Body(
		problem(s.err),
		button("act tall wide", "Start the repair", "start "+v.guide.ID+v.position.ID+v.rig.ID, s.begin),
	)
}

func (s *guideScreen) begin(ctx app.Context) {
	if s.busy {
		return
	}
	s.busy = true
	v := s.view
	run := repair.Start(v.guide, v.rig, v.position.ID, newID(), now())
	kept.doQuietly(ctx, "Started repair: "+v.guide.Title, func(e *journal.Edit) error {
		e.Put(run)
		return nil
	}, func(ctx app.Context, err error) {
		if s.busy, s.err = false, err; err == nil {
			forgetTriage()
			goOn(ctx, link("/repair/run", "id", run.ID))
		}
	})
}

func (s *guideScreen) share(ctx app.Context) {
	v := s.view
	shareText(ctx, v.guide.Title, v.guide.Text(data.Catalog(), v.rig, kept.first()), func(_ app.Context, said string) { s.told = said })
}

// needs lists what the repair takes: the parts with the spares that fit, then of
// tools and consumables what is not on board, and folded what is.
func (s *guideScreen) needs() app.UI {
	n := s.view.needs
	var parts, on, off []app.UI
	for _, p := range n.Parts {
		parts = append(parts, plainRow(p.Name, partLines(p)...))
	}
	add := func(ready bool, name, detail string) {
		if ready {
			on = append(on, plainRow(name, detail))
		} else {
			off = append(off, plainRow(name, detail))
		}
	}
	for _, t := range n.Tools {
		add(len(t.Have)+len(t.Instead) > 0, t.Name, toolDetail(t))
	}
	for _, c := range n.Consumables {
		add(c.Enough, c.Name, strings.Join(nonEmpty(c.Amount.Both(kept.first()), c.Grade, optionalWord(c.Optional)), " · "))
	}
	return section("What it takes",
		app.If(len(parts) > 0, func() app.UI { return app.Ul().Class("list").Aria("label", "Parts").Body(parts...) }),
		app.If(len(off) > 0, func() app.UI {
			return app.Div().Class("block").Body(blaze("none", "Not on board"), app.Ul().Class("list").Body(off...))
		}),
		app.If(len(off) == 0, func() app.UI { return blaze("good", "All tools and consumables are on board") }),
		app.If(len(on) > 0, func() app.UI {
			return app.Details().Class("group").Body(
				app.Summary().Body(app.Text("On board"), app.Span().Class("count").Text(itoa(len(on)))),
				app.Div().Class("in").Body(app.Ul().Class("list").Body(on...)),
			)
		}),
	)
}

func toolDetail(t repair.ToolCheck) string {
	words := nonEmpty(t.Why, optionalWord(t.Optional))
	switch {
	case len(t.Have) > 0:
	case len(t.Instead) > 0:
		words = append(words, "use instead: "+t.Instead[0].Name)
	case len(t.Others) > 0:
		words = append(words, "also does it: "+strings.Join(t.Others, ", "))
	}
	return strings.Join(words, " · ")
}

// partLines say how many are needed, and of each spare that fits how many there are.
func partLines(p repair.PartCheck) []string {
	lines := []string{strings.Join(nonEmpty(fmt.Sprintf("%d needed", p.Count), optionalWord(p.Optional)), " · ")}
	if len(p.Have) == 0 {
		return append(lines, "None in stock")
	}
	for _, h := range p.Have {
		said := fmt.Sprintf("In stock: %d × %s", h.Count, h.Part.Name)
		switch {
		case h.Grade == "":
			said += ", check that it fits"
		case h.Grade != fieldkit.DropIn:
			said += ", " + string(h.Grade) + ": " + strings.Join(h.Changes, "; ")
		}
		lines = append(lines, said)
	}
	return lines
}

func optionalWord(optional bool) string {
	if optional {
		return "can be done without"
	}
	return ""
}

// movement shows a verdict in a word and its limits and reason in a sentence.
func movement(title string, m repair.Movement) app.UI {
	class := map[repair.Verdict]string{repair.May: "good", repair.MayWithin: "part", repair.MayNot: "none"}[m.Verdict]
	return app.Div().Body(blaze(class, title+": "+string(m.Verdict)), app.P().Text(limitsOf(m, kept.first())))
}

// moves says whether the rig may be moved. An own repair does not say: then the page
// that works it out is a tap away.
func (s *guideScreen) moves() app.UI {
	v := s.view
	if v.roll.Verdict == "" && v.drive.Verdict == "" {
		return section("Can it move?", app.P().Text("This repair does not say. Until you know, leave it standing."), goTo("quiet wide", "What still drives?", link("/repair/limp", "rig", v.rig.ID)))
	}
	return section("Can it move?", movement("Rolled or towed", v.roll), movement("Driven as it is", v.drive), s.asks())
}

// stepNoteRow is a note of the crew with the step it is for.
type stepNoteRow struct{ step, says, note string }

// crewNotes are the crew's notes to the steps, also those whose step is there no more.
func (s *guideScreen) crewNotes() app.UI {
	v := s.view
	if len(v.notes)+len(v.stray) == 0 {
		return app.Div().Hidden(true)
	}
	return section("Your notes",
		app.Ul().Class("list").Body(app.Range(v.notes).Slice(func(i int) app.UI {
			n := v.notes[i]
			return openRow(link("/repair/note", "guide", v.guide.ID, "step", n.step), n.note, n.says, "")
		})),
		app.If(len(v.stray) > 0, func() app.UI {
			return app.Div().Body(app.P().Text("Of steps that this version does not have:"), bullets(v.stray))
		}),
	)
}

// asks says what of the rig is not known and would change the verdicts.
func (s *guideScreen) asks() app.UI {
	words := traitsAsked(data.Catalog(), s.view.roll, s.view.drive)
	if len(words) == 0 {
		return app.Div().Hidden(true)
	}
	return app.Div().Class("note warn block").Body(
		app.P().Text("The most careful answers stand, because the rig's page does not say:"),
		bullets(words),
		goTo("quiet", "Say it there", link("/rig/edit", "id", s.view.rig.ID)),
	)
}

// traitsAsked lists what answers hang on, each once, with how to see it.
func traitsAsked(cat fieldkit.Catalog, answers ...repair.Movement) []string {
	var words []string
	for _, m := range answers {
		for _, id := range m.Ask {
			if t, ok := cat.Trait(id); ok && !slices.Contains(words, t.Name+": "+t.Ask) {
				words = append(words, t.Name+": "+t.Ask)
			}
		}
	}
	return words
}

// limitsOf says the limits and the reason of a verdict without the verdict.
func limitsOf(m repair.Movement, first fieldkit.System) string {
	text := strings.TrimPrefix(m.Text(first), string(m.Verdict))
	return capital(strings.TrimLeft(text, ",: "))
}
