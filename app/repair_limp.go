package app

import (
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/limp"
	"trailfieldkit/fieldkit/repair"
	"trailfieldkit/fieldkit/standards"
)

// limpScreen answers what still drives, stops and steers: ticks for what is broken,
// the verdict with its limits above them. What is ticked is in the address, so that
// it is there again after the phone died.
type limpScreen struct {
	app.Compo
	view limpView
	form *form
}

type limpView struct {
	rigs   []fieldkit.Rig
	rig    fieldkit.Rig
	broken []limp.Fault
	cat    fieldkit.Catalog
}

func (s *limpScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *limpScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *limpScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	was := s.view.rig.ID
	s.view = viewLimp(kept.kit(), data.Catalog(), param(ctx, "rig"), param(ctx, "broken"))
	if s.form == nil || was != s.view.rig.ID {
		s.form = newForm("limp "+s.view.rig.ID, limpFields(s.view.rig, kept.first()))
	}
}

// viewLimp reads the address: a rig, the first if none is asked for, and the numbers
// of the faults ticked.
func viewLimp(k fieldkit.Kit, cat fieldkit.Catalog, rig, broken string) limpView {
	v := limpView{rigs: k.Rigs, cat: cat}
	var ok bool
	if v.rig, ok = k.Rig(rig); !ok && len(k.Rigs) > 0 {
		v.rig = k.Rigs[0]
	}
	asked := strings.Split(broken, ".")
	for _, f := range limp.Faults() {
		if slices.Contains(asked, faultKey(f)) {
			v.broken = append(v.broken, f)
		}
	}
	return v
}

// faultKey is a fault in an address.
func faultKey(f limp.Fault) string { return strings.ReplaceAll(string(f), " ", "-") }

// limpFields are the figures the answer may use, as far as the rig says them.
func limpFields(rig fieldkit.Rig, first fieldkit.System) map[string]string {
	fields := map[string]string{"tyre": rig.Tyre, "axle": string(limp.RearAxle)}
	if d := rig.Driveline; d != nil && d.Front.Load > 0 && d.Rear.Load > 0 {
		fields["weight"] = amountText(d.Front.Load+d.Rear.Load, first, fieldkit.ParseMass)
		fields["share"] = itoa(int(100 * float64(d.Front.Load) / float64(d.Front.Load+d.Rear.Load)))
	}
	return fields
}

// limpFacts reads the figures; what cannot be read is marked and left out.
func limpFacts(f *form, rig fieldkit.Rig, first fieldkit.System) limp.Facts {
	facts := limp.Facts{Traits: rig.Traits, First: first, SpareAxle: limp.Axle(f.get("axle"))}
	read := func(name string, err error) { f.refuse(name, err) }
	var err error
	facts.Tyre, err = tyreDiameter(f.typed("tyre"), first)
	read("tyre", err)
	facts.Spare, err = tyreDiameter(f.typed("spare"), first)
	read("spare", err)
	facts.Track, err = optionalAmount(f.typed("track"), first, fieldkit.ParseLength)
	read("track", err)
	facts.Weight, err = optionalAmount(f.typed("weight"), first, fieldkit.ParseMass)
	read("weight", err)
	facts.FrontShare, err = optionalWhole(f.typed("share"), 1, 99)
	read("share", err)
	facts.Wheelbase, err = optionalAmount(f.typed("wheelbase"), first, fieldkit.ParseLength)
	read("wheelbase", err)
	facts.CGHeight, err = optionalAmount(f.typed("cg"), first, fieldkit.ParseLength)
	read("cg", err)
	facts.SpareLoad, err = optionalAmount(f.typed("carries"), first, fieldkit.ParseMass)
	read("carries", err)
	facts.FuelLeft, err = optionalAmount(f.typed("fuel"), first, fieldkit.ParseVolume)
	read("fuel", err)
	facts.Burnt, err = optionalAmount(f.typed("burnt"), first, fieldkit.ParseVolume)
	read("burnt", err)
	facts.Driven, err = optionalAmount(f.typed("driven"), first, fieldkit.ParseDistance)
	read("driven", err)
	return facts
}

// tyreDiameter reads the size on a sidewall, or a diameter that was measured.
func tyreDiameter(text string, first fieldkit.System) (fieldkit.Length, error) {
	if text == "" {
		return 0, nil
	}
	if tyre, err := data.Handbook().ParseTyre(text); err == nil {
		if v, ok := standards.DimNamed(tyre, "diameter"); ok {
			return fieldkit.Length(v.Base), nil
		}
	}
	d, err := fieldkit.ParseLength(text, first)
	if err != nil {
		return 0, badField("“"+text+"” is no tyre size", "write it as on the sidewall, 35x12.50R17, or the diameter, 34.5 in")
	}
	return d, nil
}

func (s *limpScreen) tick(ctx app.Context, fault limp.Fault) {
	var keys []string
	for _, f := range limp.Faults() {
		if slices.Contains(s.view.broken, f) != (f == fault) {
			keys = append(keys, faultKey(f))
		}
	}
	s.ask(ctx, s.view.rig.ID, strings.Join(keys, "."))
}

func (s *limpScreen) ask(ctx app.Context, rig, broken string) {
	rewriteQuery("rig", rig, "broken", broken)
	s.load(ctx)
}

func (s *limpScreen) Render() app.UI {
	v := s.view
	if s.form == nil || v.rig.ID == "" {
		return frame(page{title: "Limp home", dest: "/repair", back: link("/repair"), body: []app.UI{
			emptyLine("There is no rig in this kit yet. Add one under Rig, and say how it is built."),
		}})
	}
	answer := limp.Assess(limpFacts(s.form, v.rig, kept.first()), limp.Damage{Broken: v.broken})
	return frame(page{title: "Limp home", sub: v.rig.Name, dest: "/repair", back: link("/repair"), body: []app.UI{
		app.If(len(v.rigs) > 1, func() app.UI {
			return choice("Rig", "limp rig", v.rig.ID, rigOptions(fieldkit.Kit{Rigs: v.rigs}), func(ctx app.Context, rig string) { s.ask(ctx, rig, "") })
		}),
		s.verdict(answer),
		section("What is broken?", app.Range(limp.Faults()).Slice(func(i int) app.UI {
			f := limp.Faults()[i]
			return tick(capital(string(f)), "", "broken "+string(f), slices.Contains(v.broken, f), func(ctx app.Context) { s.tick(ctx, f) })
		})),
		s.figures(),
	}})
}

// verdict says what may be done, how far and how fast, and what that rests on.
func (s *limpScreen) verdict(a limp.Answer) app.UI {
	class, word := "good", "It may be driven"
	switch a.Verdict {
	case repair.MayWithin:
		class, word = "part", "It may be moved within limits"
	case repair.MayNot:
		class, word = "none", "Do not move it"
	}
	first := kept.first()
	within, grade := "", ""
	if a.Within > 0 {
		within = a.Within.Both(first)
	}
	if a.Grade > 0 {
		grade = itoa(a.Grade) + " %"
	}
	return app.Div().Class("block").Role("status").Body(
		app.P().Class("big").Body(blaze(class, word)),
		app.If(a.Why != "", func() app.UI { return app.P().Class("strong").Text(a.Why) }),
		facts(fact{"Drives", a.Axles}, fact{"At most", speedWords(a.PerHour, first)}, fact{"No further than", within}, fact{"Slopes up to", grade}),
		s.asked(a.Ask),
		app.If(len(a.Lines) > 0, func() app.UI {
			return app.Ul().Class("list").Aria("label", "What to do and why").Body(app.Range(a.Lines).Slice(func(i int) app.UI {
				l := a.Lines[i]
				return app.Li().Body(app.Div().Class("open plain").Body(app.Span().Class("what").Body(
					app.Span().Text(l.Text), app.Span().Class("soft").Text(string(l.Basis)))))
			}))
		}),
		app.If(len(a.Watch) > 0, func() app.UI {
			return app.Div().Class("block").Body(app.H2().Text("Watch"), bullets(a.Watch))
		}),
		app.If(a.Verdict != repair.May, func() app.UI {
			return goTo("quiet wide", "Ask for help: position and a text to send", link("/repair/help", "rig", s.view.rig.ID, "what", helpWhat(s.view.broken)))
		}),
	)
}

// helpWhat names what is broken in a call for help.
func helpWhat(broken []limp.Fault) string {
	var words []string
	for _, f := range broken {
		words = append(words, string(f))
	}
	return strings.Join(words, ", ")
}

// speedWords prints a speed in both systems; 0 is none.
func speedWords(perHour fieldkit.Distance, first fieldkit.System) string {
	if perHour == 0 {
		return ""
	}
	return repair.Speed(perHour, first) + " (" + repair.Speed(perHour, first.Other()) + ")"
}

// asked says what of the rig was taken at its worst because it is not known.
func (s *limpScreen) asked(traits []string) app.UI {
	var names []string
	for _, id := range traits {
		if t, ok := s.view.cat.Trait(id); ok {
			names = append(names, t.Name)
		}
	}
	if len(names) == 0 {
		return app.Div().Hidden(true)
	}
	return app.Div().Class("note").Body(
		app.Text("Not known, so taken at the worst: "+strings.Join(names, ", ")+". "),
		goTo("link", "Say how it is built", link("/rig/edit", "id", s.view.rig.ID)),
	)
}

// figures are what the computed lines need; nothing has to be filled in.
func (s *limpScreen) figures() app.UI {
	f := s.form
	body := []app.UI{
		app.P().Class("soft").Text("Only for the computed lines. Leave out what you do not know."),
	}
	if slices.Contains(s.view.broken, limp.SpareFitted) {
		body = append(body,
			f.text("tyre", "Tyres fitted", "as on the sidewall, or the diameter"),
			f.text("spare", "Spare", "as on the sidewall, or the diameter"),
			f.pick("axle", "Spare is on the", []option{{string(limp.FrontAxle), "front axle"}, {string(limp.RearAxle), "rear axle"}}),
			f.amount("track", "Track", "middle of the left tyre to middle of the right", " in", " mm"),
			f.amount("carries", "The spare carries", "its load index or the figure on its sidewall", " lb", " kg"),
		)
	}
	body = append(body,
		f.amount("weight", "Weight as it stands", "", " lb", " kg"),
		f.whole("share", "Of it on the front axle, per cent", ""),
		f.amount("wheelbase", "Wheelbase", "", " in", " mm"),
		f.amount("cg", "Height of the centre of gravity", "about the crankshaft to the top of the engine, loaded", " in", " mm"),
		f.amount("fuel", "Fuel left", "", " gal", " L"),
		f.amount("driven", "Driven on the last filling", "", " mi", " km"),
		f.amount("burnt", "Fuel it took", "", " gal", " L"),
	)
	return app.Details().Class("group").Body(
		app.Summary().Body(app.Text("Figures of this rig")),
		app.Div().Class("in").Body(body...),
	)
}
