package app

import (
	"fmt"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/fastener"
	"trailfieldkit/fieldkit/standards"
)

// torqueScreen says how tight a bolt is to be where the maker's figure is not at
// hand, and how to come near it without a torque wrench.
type torqueScreen struct {
	app.Compo
	form *form
}

func (s *torqueScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *torqueScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *torqueScreen) load(ctx app.Context) {
	if kept.phase == open && s.form == nil {
		s.form = newForm("torque", map[string]string{
			"thread": param(ctx, "thread"), "grade": param(ctx, "grade"), "friction": fastener.Dry.Name, "percent": itoa(fastener.UsualPercent),
		})
	}
}

// inchGrades and metricGrades are what the heads of bolts on a rig are marked with.
var (
	inchGrades   = []option{{"2", "2: no marks"}, {"5", "5: three lines"}, {"8", "8: six lines"}}
	metricGrades = []option{{"4.6", "4.6"}, {"5.8", "5.8"}, {"8.8", "8.8"}, {"10.9", "10.9"}, {"12.9", "12.9"}}
)

// torqueView is what the typed bolt gives.
type torqueView struct {
	metric bool // the thread typed is a metric one
	bolt   standards.Bolt
	ask    fastener.Ask
	answer fastener.Answer
	ok     bool
	lever  fieldkit.Length
	grip   fieldkit.Length
}

// viewTorque reads the form; what cannot be read is marked. Nothing is said of fields
// that are still empty.
func viewTorque(f *form, book *standards.Handbook, first fieldkit.System) (v torqueView) {
	thread := f.typed("thread")
	v.metric = strings.HasPrefix(strings.ToUpper(thread), "M")
	ok := true
	friction, _ := fastener.FrictionNamed(f.get("friction"))
	percent, err := optionalWhole(f.typed("percent"), fastener.LeastPercent, fastener.MostPercent)
	ok = f.refuse("percent", err) && ok
	v.lever, err = optionalAmount(f.typed("lever"), first, fieldkit.ParseLength)
	ok = f.refuse("lever", err) && ok
	v.grip, err = optionalAmount(f.typed("grip"), first, fieldkit.ParseLength)
	ok = f.refuse("grip", err) && ok
	if thread == "" {
		return v
	}
	if !v.metric {
		_, err = book.ParseInchThread(thread)
	} else {
		_, err = book.ParseMetricThread(thread)
	}
	if !f.refuse("thread", err) || f.get("grade") == "" || !ok {
		return v
	}
	text := thread + " grade " + f.get("grade")
	if v.metric {
		text = thread + " " + f.get("grade")
	}
	if v.bolt, err = book.ParseBolt(text); err != nil {
		return v // a grade of the other system: none of those shown is chosen
	}
	v.ask = fastener.Ask{Bolt: v.bolt, Friction: friction, Percent: float64(percent)}
	v.answer, err = fastener.Tighten(v.ask)
	v.ok = f.refuse("thread", err)
	return v
}

func (s *torqueScreen) Render() app.UI {
	f := s.form
	if f == nil {
		return frame(page{title: "How tight", dest: "/repair", back: link("/repair")})
	}
	first := kept.first()
	v := viewTorque(f, data.Handbook(), first)
	grades := inchGrades
	if v.metric {
		grades = metricGrades
	}
	return frame(page{title: "How tight", dest: "/repair", back: link("/repair"), body: []app.UI{
		caution("The maker's figure goes first", "A bolt of brakes, steering or wheels that is too loose or too tight comes off or breaks.",
			"Use this only where there is no figure, and never for wheel nuts, gaskets or bolts that are used once."),
		f.field("thread", "Thread", "1/2-13, 9/16-18 UNF, M12x1.75", field{Keys: []string{"M", "x", "/", "-"}}),
		f.pick("grade", "Marks on the head", grades),
		f.pick("friction", "The thread is", frictionOptions()),
		app.If(v.ok, func() app.UI { return torqueAnswer(v, first) }),
		section("Without a torque wrench",
			f.amount("lever", "Your hand to the middle of the bolt", "pull square to the wrench", " in", " mm"),
			f.amount("grip", "What the bolt holds together", "from under the head to under the nut", " in", " mm"),
			app.If(v.ok, func() app.UI { return withoutWrench(v, first) }),
		),
		f.whole("percent", "Preload, per cent of the proof load", "75 for a bolt that is to come out again, 90 for one that stays"),
	}})
}

func frictionOptions() []option {
	var list []option
	for _, f := range fastener.Frictions() {
		list = append(list, option{f.Name, f.Says})
	}
	return list
}

func torqueAnswer(v torqueView, first fieldkit.System) app.UI {
	a := v.answer
	return app.Div().Class("block").Role("status").Body(
		app.Div().Class("plate").Body(
			app.P().Class("stamp").Text(a.Torque.Both(first)),
			app.P().Class("said").Text(v.bolt.String()+", computed"),
		),
		app.If(a.Stretches, func() app.UI {
			return app.P().Class("note").Text("If it is as slippery as it may be, this torque stretches the bolt beyond its proof load: stay near the lower end, or clean it dry.")
		}),
		facts(
			fact{"Range", fmt.Sprintf("%s to %s, by how slippery it is", a.Low.Both(first), a.High.Both(first))},
			fact{"Nut factor", fmt.Sprintf("%.2f, found from %.2f to %.2f", a.K, v.ask.Friction.Low, v.ask.Friction.High)},
			fact{"Clamps with", fmt.Sprintf("%.1f kN (%.0f lb)", a.PreloadN/1000, fastener.PoundForce(a.PreloadN))},
			fact{"Stress area", fmt.Sprintf("%.1f mm²", a.AreaMM2)},
			fact{"Proof strength", fmt.Sprintf("%.0f MPa", a.ProofMPa)},
		),
		app.Details().Class("group").Body(app.Summary().Body(app.Text("Where the figures are from")),
			app.Div().Class("in").Body(bullets(a.Sources))),
	)
}

// withoutWrench says the pull at the end of a lever, and the turn from snug.
func withoutWrench(v torqueView, first fieldkit.System) app.UI {
	var lines []string
	if v.lever > 0 {
		n := fastener.Pull(v.answer.Torque, v.lever)
		lines = append(lines, fmt.Sprintf("Pull with %.0f kg (%.0f lb) at %s. By feel that is within %d %% at best; a spring balance does better.",
			fastener.KilogramForce(n), fastener.PoundForce(n), v.lever.Both(first), fastener.FeelPercent))
	}
	if v.grip > 0 {
		if turn, ok := v.ask.TurnFromSnug(v.grip); ok {
			lines = append(lines, fmt.Sprintf("Or turn %.0f° from snug (%.0f° to %.0f° by how stiff the parts are); a flat of the nut is 60°. Not with a gasket.", turn.Degrees, turn.Low, turn.High))
		} else {
			lines = append(lines, "By turning there is no telling here: it takes a grip of one to twelve times the bolt's diameter.")
		}
	}
	if len(lines) == 0 {
		return app.Div().Hidden(true)
	}
	return app.Div().Class("note figures").Body(bullets(lines))
}
