package app

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/repair"
)

// runScreen leads through a repair, one step at a time. Every step is on disk
// before the next is shown, so that it goes on here after the phone died.
type runScreen struct {
	app.Compo
	view runView
	err  error
	busy bool // a step is being written; a second tap waits
}

// runView is what the screen draws.
type runView struct {
	found    bool
	run      fieldkit.Run
	guide    repair.Guide
	rig      fieldkit.Rig
	position fieldkit.Position
	now      repair.View
	draft    fieldkit.Failure // what would be logged
	used     []string         // what it used, in words
	after    repair.Movement
	note     string   // of the crew, at this step
	torques  []string // of the step: as written at the parts, else computed
}

func (s *runScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *runScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *runScreen) load(ctx app.Context) {
	s.view = viewRun(kept.kit(), guidesOf(kept.kit()), param(ctx, "id"), localNow())
}

func viewRun(k fieldkit.Kit, guides []repair.Guide, id string, at fieldkit.Moment) runView {
	run, ok := fieldkit.Find(k.Runs, id)
	g, known := repair.Named(guides, run.Guide)
	if !ok || !known {
		return runView{}
	}
	v := runView{found: true, run: run, guide: g}
	v.rig, _ = k.Rig(run.Rig)
	v.position, _ = k.Position(run.Position)
	v.now = repair.Current(g, run, v.rig)
	v.after = g.CanDriveAfterFieldFix(v.rig)
	v.torques = v.now.Step.TorqueWords(k, v.position, kept.first())
	v.note = repair.NoteAt(k, g.ID, v.now.Step.ID)
	v.draft = repair.FailureFrom(g, run, k, at, "")
	v.used = itemWords(k, v.draft.Used)
	return v
}

func (s *runScreen) Render() app.UI {
	v := s.view
	if !v.found {
		return frame(page{title: "Repair", dest: "/repair", back: link("/repair"), body: []app.UI{
			emptyLine("This repair is not in the kit any more."),
		}})
	}
	sub := v.rig.Name
	if v.position.ID != "" {
		sub += ": " + v.position.Title()
	}
	var body []app.UI
	switch {
	case !repair.Open(v.run):
		body = s.closed()
	case v.now.Ended && v.guide.Sound(v.run):
		body = s.soundEnd()
	case v.now.Ended:
		body = s.end()
	default:
		body = s.step()
	}
	return frame(page{title: v.guide.Title, sub: sub, dest: "/repair", back: link("/repair"), body: body})
}

func (s *runScreen) step() []app.UI {
	v := s.view
	step := v.now.Step
	body := []app.UI{
		app.Div().Body(
			app.H2().Class("plain figures").ID(stepID).TabIndex(-1).Text(fmt.Sprintf("Step %d of about %d: %s", v.now.Number, v.now.About, step.Stage)),
			app.Progress().Class("meter").Max(v.now.About).Value(v.now.Number-1).Aria("label", "steps done"),
		),
		app.If(v.now.Moved != "", func() app.UI { return app.P().Class("note warn").Text(v.now.Moved) }),
		app.Range(v.now.Because).Slice(func(i int) app.UI {
			return app.P().Class("note").Text("Not asked: " + v.now.Because[i].Text())
		}),
		app.If(v.now.OnlyFor != "", func() app.UI { return app.P().Class("note warn").Text("Only for: " + v.now.OnlyFor) }),
	}
	for _, c := range step.Cautions {
		body = append(body, caution(c.Hazard, c.Harm, c.Avoid))
	}
	body = append(body, app.P().Class("instruction").Text(step.Text))
	if v.note != "" {
		body = append(body, app.P().Class("plate").Text("Your note: "+v.note))
	}
	for _, words := range v.torques {
		body = append(body, app.P().Class("plate strong").Text(capital(words)))
	}
	if len(step.Torques) > 0 {
		body = append(body, app.P().Class("soft").Text("The maker's figure, written at the part as “"+repair.TorqueName(step.Torques[0].Fastener)+"”, stands here instead."))
	}
	for _, f := range step.Figures {
		body = append(body, app.P().Class("plate strong").Text(capital(f.Text(kept.first()))))
	}
	if names := s.toolNames(step); names != "" {
		body = append(body, app.P().Class("soft").Text("In hand: "+names))
	}
	return append(body, problem(s.err), s.answers(step), s.ways())
}

// answers draws the one action of the step, or the answers to its question.
func (s *runScreen) answers(step repair.Step) app.UI {
	if !step.Asks() {
		return button("act tall wide", "Done, next", "done "+step.ID, func(ctx app.Context) {
			s.move(ctx, func(v runView) (fieldkit.Run, error) { return repair.Done(v.guide, v.run, v.rig, step.ID) })
		})
	}
	var options []option
	for _, o := range step.Options {
		options = append(options, option{o.Answer, capital(o.Answer)})
	}
	return app.Div().Class("choice stack").Role("group").Aria("label", "Answers").Body(app.Range(options).Slice(func(i int) app.UI {
		o := options[i]
		return button("", o.label, "answer "+step.ID+o.value, func(ctx app.Context) {
			s.move(ctx, func(v runView) (fieldkit.Run, error) {
				return repair.Answer(v.guide, v.run, v.rig, step.ID, o.value)
			})
		})
	}))
}

// move keeps the next state of the repair before showing it.
func (s *runScreen) move(ctx app.Context, next func(runView) (fieldkit.Run, error)) {
	if s.busy {
		return
	}
	run, err := next(s.view)
	if err != nil {
		s.err = err
		return
	}
	s.busy = true
	kept.doQuietly(ctx, "Repair step: "+s.view.guide.Title+", step "+strconv.Itoa(len(run.Path)), func(e *journal.Edit) error {
		e.Put(run)
		return nil
	}, func(ctx app.Context, err error) {
		if s.busy, s.err = false, err; err == nil {
			toStep(ctx)
		}
	})
}

// stepID is the page's name of the line that numbers the step.
const stepID = "step"

// toStep shows the top of the step that is drawn next, also to a screen reader.
func toStep(ctx app.Context) {
	placeScroll(ctx)
	ctx.Defer(func(app.Context) { focusOn(stepID) })
}

// close ends the repair, with a way to take that back.
func (s *runScreen) close(ctx app.Context, what string, run fieldkit.Run) {
	if s.busy {
		return
	}
	s.busy = true
	kept.do(ctx, what+s.view.guide.Title, func(e *journal.Edit) error {
		e.Put(run)
		return nil
	}, func(ctx app.Context, err error) {
		if s.busy, s.err = false, err; err == nil {
			placeScroll(ctx)
		}
	})
}

// ways are the ways out of a step other than forward.
func (s *runScreen) ways() app.UI {
	v := s.view
	return app.Div().Class("two no-print").Body(
		app.Button().Type("button").Class("quiet").Text("One step back").Disabled(len(v.run.Path) == 0).OnClick(func(ctx app.Context, _ app.Event) {
			s.move(ctx, func(v runView) (fieldkit.Run, error) { return repair.Back(v.guide, v.run), nil })
		}),
		button("quiet", "It works: finish now", "early "+v.run.ID, s.logIt),
		goTo("quiet", "Note at this step", link("/repair/note", "guide", v.guide.ID, "step", v.now.Step.ID, "run", v.run.ID)),
		goTo("quiet", "Tools and stop signs", link("/repair/guide", "id", v.guide.ID, "position", v.position.ID, "rig", v.rig.ID)),
		button("danger", "Give up", "leave "+v.run.ID, func(ctx app.Context) { s.close(ctx, "Gave up: ", repair.Leave(v.run, now())) }),
	)
}

// end shows what to look at again and logs the failure with one tap.
func (s *runScreen) end() []app.UI {
	v := s.view
	return []app.UI{
		blaze("good", "All steps done"),
		lookAgain("Look again after 10 km (6 mi)", v.guide.Afterwards.After10km),
		lookAgain("At home", v.guide.Afterwards.AtHome),
		app.If(v.after.Verdict != "", func() app.UI { return section("On the field fix", movement("Driven", v.after)) }),
		section("Write it down",
			facts(fact{"What", v.draft.What}, fact{"Fix", v.draft.Fix}, fact{"Time lost", v.draft.Lost.String()}, fact{"From stock", strings.Join(v.used, "; ")}),
			problem(s.err),
			button("act tall wide", "Log the failure", "log "+v.run.ID, s.logIt),
			app.P().Class("soft").Text("Stock goes down by what was used. Everything can be corrected in the log."),
		),
		app.Div().Class("two").Body(
			button("quiet", "One step back", "back "+v.run.ID, func(ctx app.Context) {
				s.move(ctx, func(v runView) (fieldkit.Run, error) { return repair.Back(v.guide, v.run), nil })
			}),
			button("quiet", "Finish, log nothing", "finish "+v.run.ID, s.finish),
		),
	}
}

func lookAgain(title string, list []string) app.UI {
	if len(list) == 0 {
		return app.Div().Hidden(true)
	}
	return section(title, bullets(list))
}

// soundEnd ends a repair that found what it is for not to have failed: there is no
// failure to log, and logging one would make the part look weaker than it is. Where
// it stopped because something else has failed, it says so again and leads there.
func (s *runScreen) soundEnd() []app.UI {
	v := s.view
	body := []app.UI{blaze("good", "Nothing had failed")}
	if stop, ok := v.guide.StoppedAt(v.run); ok {
		var rows []app.UI
		for _, id := range stop.See {
			if g, ok := repair.Named(guidesOf(kept.kit()), id); ok {
				rows = append(rows, openRow(link("/repair/guide", "id", g.ID, "rig", v.rig.ID), g.Title, "", ""))
			}
		}
		body = []app.UI{
			blaze("none", "It is something else"),
			app.P().Class("instruction").Text(stop.Text),
			app.If(len(rows) > 0, func() app.UI { return app.Ul().Class("list").Aria("label", "Repairs to go on with").Body(rows...) }),
		}
	}
	return append(body,
		problem(s.err),
		button("act tall wide", "Finish", "finish "+v.run.ID, s.finish),
		goTo("quiet wide", "Write a reading", link("/log/reading", "position", v.position.ID)),
		button("quiet wide", "One step back", "back "+v.run.ID, func(ctx app.Context) {
			s.move(ctx, func(v runView) (fieldkit.Run, error) { return repair.Back(v.guide, v.run), nil })
		}),
	)
}

// finish closes the repair and logs nothing.
func (s *runScreen) finish(ctx app.Context) {
	s.close(ctx, "Finished: ", repair.Finish(s.view.run, now()))
}

func (s *runScreen) closed() []app.UI {
	v := s.view
	word := "Finished " + fieldkit.DateOf(v.run.Finished.Time).Show()
	if v.run.Left {
		word = "Given up " + fieldkit.DateOf(v.run.Finished.Time).Show()
	}
	return []app.UI{
		blaze("plain", word),
		app.If(v.run.Failure != "", func() app.UI {
			return goTo("act wide", "The entry in the log", link("/log/failure", "id", v.run.Failure))
		}),
		app.If(v.run.Failure == "", func() app.UI {
			return goTo("act wide", "Log the failure", link("/log/failure", "position", v.position.ID))
		}),
		goTo("quiet wide", "Look at the repair again", link("/repair/guide", "id", v.guide.ID, "position", v.position.ID)),
	}
}

// logIt writes failure, stock and the end of the repair as one action.
func (s *runScreen) logIt(ctx app.Context) {
	if s.busy {
		return
	}
	if s.view.guide.Sound(s.view.run) {
		s.finish(ctx)
		return
	}
	v, id, at := s.view, newID(), localNow()
	s.busy = true
	kept.do(ctx, "Logged: "+v.draft.What, func(e *journal.Edit) error {
		f := repair.FailureFrom(v.guide, v.run, e.Kit(), at, id)
		changed, _ := repair.Use(e.Kit(), f.Used)
		for _, r := range changed {
			e.Put(r)
		}
		run := repair.Finish(v.run, now())
		run.Failure, run.Used = f.ID, f.Used
		e.Put(f)
		e.Put(run)
		return nil
	}, func(ctx app.Context, err error) {
		s.busy, s.err = false, err
		if err == nil {
			goOn(ctx, link("/log/failure", "id", id))
		}
	})
}

func (s *runScreen) toolNames(step repair.Step) string {
	var names []string
	for _, kind := range step.Tools {
		if t, ok := data.Catalog().Tool(kind); ok {
			names = append(names, t.Name)
		}
	}
	return strings.Join(names, "; ")
}
