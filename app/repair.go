package app

import (
	"fmt"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// repairScreen leads from what broke to a repair: goes on with one under way,
// searches by what is heard, seen or felt, lists by position and by system.
type repairScreen struct {
	app.Compo
	search searchLine
	view   repairView
}

// repairView is what the screen draws.
type repairView struct {
	position  fieldkit.Position // asked for, if any
	under     string            // rig and position in words
	underWay  []runRow
	matches   []repair.Match
	fitting   []repair.Guide // repairs for the position
	bySystem  []repair.Group
	positions []option
	talk      string // address of a talk that looks for a cause, if one is under way
	talkWords string
}

type runRow struct {
	id, title, sub, progress string
}

func (s *repairScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }

func (s *repairScreen) OnNav(ctx app.Context) {
	s.search.follow(param(ctx, "q"))
	arrive(ctx, s.load)
}

func (s *repairScreen) load(ctx app.Context) {
	s.view = viewRepair(kept.kit(), guidesOf(kept.kit()), param(ctx, "position"), s.search.query)
	if address, words, ok := triageUnderWay(remembered(triageKey(kept.which)), today()); ok {
		s.view.talk, s.view.talkWords = address, words
	}
}

func viewRepair(k fieldkit.Kit, guides []repair.Guide, position, query string) repairView {
	v := repairView{
		matches:   repair.BySymptom(guides, query),
		bySystem:  repair.BySystem(guides),
		positions: positionOptions(k, "", ""),
	}
	if p, ok := k.Position(position); ok {
		rig, _ := k.RigOf(p)
		v.position, v.under, v.fitting = p, rig.Name+": "+p.Title(), repair.ForPosition(guides, k, position)
	}
	for _, run := range k.Runs {
		if repair.Open(run) {
			v.underWay = append(v.underWay, rowOfRun(k, guides, run))
		}
	}
	return v
}

func rowOfRun(k fieldkit.Kit, guides []repair.Guide, run fieldkit.Run) runRow {
	row := runRow{id: run.ID, title: run.Guide}
	rig, _ := k.Rig(run.Rig)
	row.sub = rig.Name
	if p, ok := k.Position(run.Position); ok {
		row.sub += ": " + p.Title()
	}
	if g, ok := repair.Named(guides, run.Guide); ok {
		now := repair.Current(g, run, rig)
		row.title, row.progress = g.Title, fmt.Sprintf("step %d of about %d", now.Number, now.About)
	}
	return row
}

// ask keeps what is looked for in the address and shows it.
func (s *repairScreen) ask(ctx app.Context, position, q string) {
	rewriteQuery("position", position, "q", q)
	s.load(ctx)
}

func (s *repairScreen) Render() app.UI {
	v := s.view
	body := []app.UI{s.underWay(),
		goTo("act wide", "Find the cause", link("/repair/triage", "position", v.position.ID)),
		s.forPosition(),
		section("What do you hear, see, smell or feel?",
			s.search.draw("symptom", "What you hear, see, smell or feel", "clunk, grinding …", func(ctx app.Context, q string) {
				s.ask(ctx, v.position.ID, q)
			}),
			s.found(),
		),
		s.byPosition(),
		app.Div().Class("row").Body(
			goTo("quiet", "What still drives?", link("/repair/limp")),
			goTo("quiet", "How tight?", link("/repair/torque")),
			goTo("quiet", "Ask for help", link("/repair/help")),
		),
		section("By system", app.Range(v.bySystem).Slice(func(i int) app.UI {
			g := v.bySystem[i]
			return app.Details().Class("group").Body(
				app.Summary().Body(app.Text(capital(g.System)), app.Span().Class("count").Text(fmt.Sprint(len(g.Guides)))),
				app.Div().Class("in").Body(s.guideList(g.Guides)),
			)
		})),
	}
	body = append(body, goTo("quiet wide no-print", "Write a repair of our own", link("/repair/own/edit")))
	return frame(page{title: "Repair", sub: v.under, dest: "/repair", body: body})
}

func (s *repairScreen) underWay() app.UI {
	var rows []app.UI
	if v := s.view; v.talk != "" {
		rows = append(rows, openRow(v.talk, "Finding the cause", v.talkWords, "go on"))
	}
	for _, r := range s.view.underWay {
		rows = append(rows, openRow(link("/repair/run", "id", r.id), r.title, strings.Join(nonEmpty(r.sub, r.progress), " · "), "go on"))
	}
	if len(rows) == 0 {
		return app.Div().Hidden(true)
	}
	return section("Under way", app.Ul().Class("list").Body(rows...))
}

func (s *repairScreen) forPosition() app.UI {
	if s.view.position.ID == "" {
		return app.Div().Hidden(true)
	}
	if len(s.view.fitting) == 0 {
		return section("For this position", emptyLine("No repair is written for this kind of part yet. Log the failure, and say what fixed it: the next one will know."),
			goTo("quiet wide", "Log the failure", link("/log/failure", "position", s.view.position.ID)))
	}
	return section("For this position", s.guideList(s.view.fitting))
}

func (s *repairScreen) found() app.UI {
	switch {
	case strings.TrimSpace(s.search.query) == "":
		return app.P().Class("strong").Text("Stop first if you smell fuel, lost the brakes, feel the steering loose, or somebody is hurt.")
	case len(s.view.matches) == 0:
		return emptyLine("No repair speaks of that. Try other words, or look by system below.")
	}
	return app.Ul().Class("list").Aria("label", "Repairs found").Body(app.Range(s.view.matches).Slice(func(i int) app.UI {
		m := s.view.matches[i]
		why := m.Guide.Summary
		if len(m.Why) > 0 {
			why = m.Why[0]
		}
		return openRow(s.guideAddress(m.Guide), m.Guide.Title, why, "")
	}))
}

func (s *repairScreen) guideList(list []repair.Guide) app.UI {
	return app.Ul().Class("list").Body(app.Range(list).Slice(func(i int) app.UI {
		return openRow(s.guideAddress(list[i]), list[i].Title, list[i].Summary, "")
	}))
}

func (s *repairScreen) guideAddress(g repair.Guide) string {
	return link("/repair/guide", "id", g.ID, "position", s.view.position.ID)
}

// byPosition offers the bill of materials as the way in.
func (s *repairScreen) byPosition() app.UI {
	if len(s.view.positions) == 0 {
		return app.Div().Hidden(true)
	}
	f := field{
		Form: "repair", Name: "position", Kind: "choose", Label: "Or say where it is", Value: s.view.position.ID,
		Options: append([]option{{"", "choose a position …"}}, s.view.positions...),
		OnType:  func(ctx app.Context, id string) { s.ask(ctx, id, s.search.query) },
	}
	return &f
}
