package app

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
	"trailfieldkit/fieldkit/triage"
)

// triageScreen finds the cause: the stop signs, a symptom, at most six questions, one
// a screen, and the causes in their order. All of its state is in the address, so that
// the browser's back takes back an answer.
type triageScreen struct {
	app.Compo
	view triageView
}

// triageStage says how far one has come.
type triageStage int

const (
	stopSigns triageStage = iota
	stopNow               // one of them is so
	symptoms
	questions
	causes
)

// triageView is what the screen draws.
type triageView struct {
	stage    triageStage
	rigs     []fieldkit.Rig
	rig      fieldkit.Rig
	position fieldkit.Position
	stop     triage.Stop
	stopped  []repair.Guide // repairs that may follow the stop sign
	sign     triage.Symptom // none where one began without
	begun    string         // what is in the address for it
	answers  []triage.Answer
	triage.View
}

// noSign in the address stands for a symptom that one cannot name.
const noSign = "none"

func (s *triageScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *triageScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *triageScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	k := kept.kit()
	s.view = viewTriage(k, data.Catalog(), guidesOf(k), data.Triage(), today(), func(name string) string { return param(ctx, name) })
	if v := s.view; v.stage >= questions {
		rememberTriage(v.address(v.answers, v.stage == causes), v.words())
	}
}

// viewTriage reads an address: rig, position, stop (a sign that is so), clear (none
// is), sign, answers, and list (no more questions). What it does not know it takes for
// not said.
func viewTriage(k fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, book triage.Book, day fieldkit.Date, param func(string) string) triageView {
	v := triageView{rigs: k.Rigs}
	on, known := k.Rig(param("rig"))
	if p, ok := k.Position(param("position")); ok {
		v.position = p
		on, known = k.RigOf(p)
	}
	if v.rig = on; !known {
		v.rig = rigOut(k, day)
	}
	var ok bool
	if v.stop, ok = book.Stop(param("stop")); ok {
		v.stage = stopNow
		for _, id := range v.stop.Repairs {
			if g, ok := repair.Named(guides, id); ok {
				v.stopped = append(v.stopped, g)
			}
		}
		return v
	}
	if param("clear") == "" {
		return v
	}
	v.begun = param("sign")
	if v.sign, ok = book.Symptom(v.begun); !ok && v.begun != noSign {
		v.stage, v.begun = symptoms, ""
		return v
	}
	v.answers = triage.ReadAnswers(param("answers"))
	v.View = triage.Open(book, guides, k, cat, triage.Talk{Rig: v.rig.ID, Position: v.position.ID, Sign: v.sign.ID, Answers: v.answers}).View()
	if v.stage = questions; v.Done || param("list") != "" {
		v.stage = causes
	}
	return v
}

// at is the address of a stage before the questions.
func (v triageView) at(pairs ...string) string {
	rig := v.rig.ID
	if v.position.ID != "" {
		rig = ""
	}
	return link("/repair/triage", append([]string{"rig", rig, "position", v.position.ID}, pairs...)...)
}

// address is that of the talk with such answers; list asks no more.
func (v triageView) address(answers []triage.Answer, list bool) string {
	asked := ""
	if list {
		asked = "yes"
	}
	return v.at("clear", "yes", "sign", v.begun, "answers", triage.WriteAnswers(answers), "list", asked)
}

// before is the address one step back.
func (v triageView) before() string {
	if n := len(v.answers); n > 0 {
		return v.address(v.answers[:n-1], false)
	}
	return v.at("clear", "yes")
}

// with is the address once the question has that answer; "" is "I don't know".
func (v triageView) with(option string) string {
	return v.address(append(slices.Clone(v.answers), triage.Answer{Question: v.Question.ID, Option: option}), false)
}

// words name the talk in a line.
func (v triageView) words() string {
	begun := v.sign.Says
	if begun == "" {
		begun = v.position.Title()
	}
	return strings.Join(nonEmpty(v.rig.Name, begun, counted(len(v.Said), "answer")), " · ")
}

func (s *triageScreen) Render() app.UI {
	v := s.view
	p := page{title: "Find the cause", sub: v.rig.Name, dest: "/repair", back: link("/repair", "position", v.position.ID)}
	if v.position.ID != "" {
		p.sub += ": " + v.position.Title()
	}
	switch v.stage {
	case stopSigns:
		p.body = s.stopSigns()
	case stopNow:
		p.body = s.stopNow()
		p.back = v.at()
	case symptoms:
		p.body = s.symptoms()
		p.back = v.at()
	case questions:
		p.body = s.question()
		p.back = v.before()
	case causes:
		p.body = s.causes()
		p.back = v.before()
	}
	return frame(p)
}

// stopSigns come before everything else.
func (s *triageScreen) stopSigns() []app.UI {
	v := s.view
	return []app.UI{
		app.P().Class("instruction").Text("First: is one of these so? Then tap it."),
		app.Ul().Class("list").Aria("label", "Stop signs").Body(app.Range(data.Triage().Stops).Slice(func(i int) app.UI {
			stop := data.Triage().Stops[i]
			return openRow(v.at("stop", stop.ID), stop.Sign, "", "")
		})),
		goTo("act wide", "None of these", v.at("clear", "yes")),
	}
}

// stopNow says what to do at once.
func (s *triageScreen) stopNow() []app.UI {
	v := s.view
	return []app.UI{
		app.Div().Class("caution").Role("note").Body(app.B().Text(v.stop.Sign)),
		section("Now", app.Ol().Class("bullets").Body(app.Range(v.stop.Now).Slice(func(i int) app.UI {
			return app.Li().Class("strong").Text(v.stop.Now[i])
		}))),
		goTo("act wide", "Ask for help: position and a text", link("/repair/help", "rig", v.rig.ID, "what", v.stop.Sign)),
		section("Once it is safe", app.Ul().Class("list").Body(app.Range(v.stopped).Slice(func(i int) app.UI {
			g := v.stopped[i]
			return openRow(link("/repair/guide", "id", g.ID, "rig", v.rig.ID), g.Title, g.Summary, "")
		}))),
		goTo("quiet wide", "It is safe now: find the cause", v.at("clear", "yes")),
		goTo("quiet wide", "What still drives?", link("/repair/limp", "rig", v.rig.ID)),
	}
}

// senseWords head the groups of symptoms.
var senseWords = map[string]string{
	"hear": "You hear", "see": "You see", "smell": "You smell", "feel": "You feel", "does not work": "It does not work",
}

func (s *triageScreen) symptoms() []app.UI {
	v := s.view
	body := []app.UI{
		app.If(len(v.rigs) > 1 && v.position.ID == "", func() app.UI {
			return choice("Rig", "triage rig", v.rig.ID, rigOptions(fieldkit.Kit{Rigs: v.rigs}), func(ctx app.Context, rig string) {
				rewriteQuery("rig", rig, "clear", "yes")
				s.load(ctx)
			})
		}),
		app.P().Class("instruction").Text("What struck you first?"),
	}
	if v.position.ID != "" {
		body = append(body, goTo("act wide", "I only know where: "+v.position.Title(), v.at("clear", "yes", "sign", noSign)))
	}
	for _, sense := range triage.Senses {
		var rows []app.UI
		for _, symptom := range data.Triage().Symptoms {
			if symptom.Sense == sense {
				rows = append(rows, openRow(v.at("clear", "yes", "sign", symptom.ID), symptom.Says, "", ""))
			}
		}
		body = append(body, section(senseWords[sense], app.Ul().Class("list").Aria("label", senseWords[sense]).Body(rows...)))
	}
	return append(body, goTo("quiet wide", "I cannot say", v.at("clear", "yes", "sign", noSign)))
}

// question draws one question with large answers.
func (s *triageScreen) question() []app.UI {
	v := s.view
	q := v.Question
	answers := append(slices.Clone(q.Options), triage.Option{Answer: "I don't know"})
	return []app.UI{
		app.Div().Body(
			app.H2().Class("plain figures").ID(stepID).TabIndex(-1).Text(fmt.Sprintf("Question %d of at most %d", v.Number, triage.MostQuestions)),
			app.Progress().Class("meter").Max(triage.MostQuestions).Value(v.Number-1).Aria("label", "questions answered"),
		),
		app.P().Class("instruction").Text(q.Ask),
		app.If(q.Caution != "", func() app.UI {
			return app.Div().Class("caution").Role("note").Body(app.B().Text("Take care"), app.P().Text(q.Caution))
		}),
		app.P().Text(q.How),
		app.Div().Class("choice stack").Role("group").Aria("label", "Answers").Body(app.Range(answers).Slice(func(i int) app.UI {
			o := answers[i]
			return button("", o.Answer, "triage "+q.ID+" "+o.ID, func(ctx app.Context) { ctx.Navigate(s.view.with(o.ID)) })
		})),
		app.Div().Class("two no-print").Body(
			goTo("quiet", "Back", v.before()),
			goTo("quiet", "Show the causes now", v.address(v.answers, true)),
		),
	}
}

// causes lists what was found, and what it rests on.
func (s *triageScreen) causes() []app.UI {
	v := s.view
	return []app.UI{
		app.P().Class("instruction").Text("Most likely first. Look before you take anything apart."),
		app.Ol().Class("list").Aria("label", "Causes").Body(app.Range(v.Ranked).Slice(func(i int) app.UI { return s.cause(v.Ranked[i]) })),
		s.said(),
		app.P().Class("soft").Text("The order rests on your answers, on your log and the age of what is fitted, and on starting guesses where nobody has measured. It proves nothing."),
		app.Div().Class("two no-print").Body(
			goTo("quiet", "Back", v.before()),
			goTo("quiet", "Begin again", v.at()),
			goTo("quiet", "What still drives?", link("/repair/limp", "rig", v.rig.ID)),
			goTo("quiet", "Ask for help", link("/repair/help", "rig", v.rig.ID, "what", strings.ToLower(v.sign.Says))),
		),
	}
}

// cause draws a cause with why it stands where it stands; it opens the repair.
func (s *triageScreen) cause(f triage.Found) app.UI {
	v := s.view
	how := likelyWords(f.Probability)
	if f.Guessed {
		how += ", a starting guess"
	}
	lines := []app.UI{app.B().Text(unbroken(capital(f.Name))), app.Span().Class("aside").Text(how)}
	if f.Position.ID != "" {
		lines = append(lines, app.Span().Text("Look first at: "+f.Position.Title()))
	}
	lines = append(lines, app.Span().Text("Repair: "+f.Guide.Title))
	lines = append(lines, sentences(f.For)...)
	for _, line := range f.Against {
		lines = append(lines, app.Span().Class("why").Text("Against it, "+line))
	}
	to := func(guide string) string {
		return link("/repair/guide", "id", guide, "rig", v.rig.ID, "position", f.Position.ID)
	}
	row := []app.UI{app.A().Class("open").Href(to(f.Guide.ID)).Body(app.Span().Class("what").Body(lines...))}
	for _, own := range f.Own {
		row = append(row, goTo("quiet wide", "Our own repair: "+own.Title, to(own.ID)))
	}
	return app.Li().Body(row...)
}

// likelyWords puts a probability in words that promise no more digits than it has.
func likelyWords(p float64) string {
	switch n := int(math.Round(p * 10)); {
	case p >= 0.95:
		return "more than 9 in 10"
	case p < 0.05:
		return "less than 1 in 20"
	default:
		return fmt.Sprintf("about %d in 10", n)
	}
}

// said lists the answers, folded.
func (s *triageScreen) said() app.UI {
	said := s.view.Said
	if len(said) == 0 {
		return app.Div().Hidden(true)
	}
	return app.Details().Class("group").Body(
		app.Summary().Body(app.Text("What you said"), app.Span().Class("count").Text(itoa(len(said)))),
		app.Div().Class("in").Body(app.Ul().Class("list").Body(app.Range(said).Slice(func(i int) app.UI {
			answer := said[i].Answer
			if answer == "" {
				answer = "I don't know"
			}
			return plainRow(said[i].Question, answer)
		}))),
	)
}
