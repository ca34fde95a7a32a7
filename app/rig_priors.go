package app

import (
	"fmt"
	"math"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

// priorsScreen lists what is taken for how parts of each kind fail, and what of it is
// still a guess.
type priorsScreen struct {
	app.Compo
	rows []priorRow
}

type priorRow struct {
	kind, name, system, says string
	own                      bool
}

func (s *priorsScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *priorsScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *priorsScreen) load(app.Context) { s.rows = viewPriors(kept.kit(), data.Catalog()) }

func viewPriors(k fieldkit.Kit, cat fieldkit.Catalog) (rows []priorRow) {
	for _, kind := range cat.PartKinds {
		p, own, ok := k.PriorOf(kind)
		if !ok {
			continue
		}
		rows = append(rows, priorRow{kind.ID, kind.Name, kind.System, priorWords(p, own), own})
	}
	return rows
}

// priorWords says a prior in a line; own are figures the crew set itself.
func priorWords(p fieldkit.Prior, own bool) string {
	words := spares.Guess(fmt.Sprintf("%d in a million km", p.Rate), !own)
	if p.Life > 0 && p.Shape > 0 {
		words += ", life " + spares.Guess(p.Life.Show(kept.first()), !own)
	}
	if !p.Wear.IsZero() {
		words += ", wears " + spares.Guess(p.Wear.Show(fieldkit.Metric)+" in 10 000 km", !own)
	}
	return words
}

func (s *priorsScreen) Render() app.UI {
	p := page{title: "How parts fail", dest: "/rig", back: link("/rig")}
	p.body = []app.UI{app.P().Text("Starting guesses, not measured, of one place on a rig in a million km of rough track. Your log corrects them by itself; where you know better, write down your own.")}
	system := ""
	var list []app.UI
	flush := func() {
		if len(list) > 0 {
			p.body = append(p.body, app.Details().Class("group").Body(
				app.Summary().Body(app.Text(capital(system)), app.Span().Class("count").Text(itoa(len(list)))),
				app.Div().Class("in").Body(app.Ul().Class("list").Body(list...)),
			))
			list = nil
		}
	}
	for _, system = range systemsIn(s.rows) {
		for _, r := range s.rows {
			if r.system == system {
				list = append(list, openRow(link("/rig/prior", "kind", r.kind), capital(r.name), r.says+" · "+standingWord(r.own), ""))
			}
		}
		flush()
	}
	return frame(p)
}

func systemsIn(rows []priorRow) (names []string) {
	for _, r := range rows {
		if len(names) == 0 || !strings.Contains("\n"+strings.Join(names, "\n")+"\n", "\n"+r.system+"\n") {
			names = append(names, r.system)
		}
	}
	return names
}

func standingWord(own bool) string {
	if own {
		return "your own figures"
	}
	return "starting guess"
}

// priorScreen changes what is taken for one part kind.
type priorScreen struct {
	app.Compo
	form  *form
	kind  fieldkit.PartKind
	prior fieldkit.Prior
	own   bool
	found bool
}

func (s *priorScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *priorScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *priorScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	id := param(ctx, "kind")
	same := s.form != nil && s.kind.ID == id
	s.kind, s.found = data.Catalog().PartKind(id)
	s.prior, s.own, _ = kept.kit().PriorOf(s.kind)
	fields := priorFields(s.prior, s.own, kept.first())
	if same {
		follow(s.form, fields)
		return
	}
	s.form = newForm("prior/"+id, fields)
}

// mostFail is the largest rate that is kept: one failure every 10 km.
const mostFail = 100_000

// priorWholes are the whole numbers of the form.
var priorWholes = []struct {
	field, label, hint string
	most               int
	at                 func(*fieldkit.Prior) *int
}{
	{"rate", "Failures in a million km", "of rough track, at one place", mostFail, func(p *fieldkit.Prior) *int { return &p.Rate }},
	{"shape", "Shape of lives, in hundredths", "100 does not age, 200 wears out, 300 wears out all at once", 1000, func(p *fieldkit.Prior) *int { return &p.Shape }},
	{"sudden", "Failures that wear does not announce, in per cent", "", 100, func(p *fieldkit.Prior) *int { return &p.Sudden }},
	{"terrain", "Terrain, power in hundredths", "100 feels it in full, 0 not at all", 1000, func(p *fieldkit.Prior) *int { return &p.Terrain }},
	{"tyres", "Larger tyres, power in hundredths", "300 where life falls with the third power of load", 1000, func(p *fieldkit.Prior) *int { return &p.Tyre }},
	{"load", "Load on the axles, power in hundredths", "", 1000, func(p *fieldkit.Prior) *int { return &p.Load }},
	{"dust", "Heavy dust adds, in per cent", "", 1000, func(p *fieldkit.Prior) *int { return &p.Dust }},
}

func priorFields(p fieldkit.Prior, own bool, first fieldkit.System) map[string]string {
	fields := map[string]string{"life": amountText(p.Life, first, fieldkit.ParseDistance), "water": amountText(p.Water, first, fieldkit.ParseDistance), "note": p.Note}
	if own {
		fields[baseField] = baseOf(p)
	}
	if !p.Wear.IsZero() {
		fields["wear"] = valueText(p.Wear, first)
	}
	for _, w := range priorWholes {
		if n := *w.at(&p); n != 0 {
			fields[w.field] = itoa(n)
		}
	}
	return fields
}

func (s *priorScreen) Render() app.UI {
	p := page{title: capital(s.kind.Name), sub: "How parts of this kind fail", dest: "/rig", back: link("/rig/priors")}
	if s.form == nil {
		return frame(p)
	}
	if !s.found {
		p.title, p.body = "How parts fail", []app.UI{emptyLine("There is no such part kind.")}
		return frame(p)
	}
	f := s.form
	mark := map[bool]string{true: "good", false: "none"}[s.own]
	fields := []app.UI{blaze(mark, capital(map[bool]string{true: "your own figures", false: "starting guess, not measured"}[s.own]))}
	for _, w := range priorWholes {
		if w.field == "sudden" && s.kind.Wear == nil {
			continue
		}
		fields = append(fields, f.whole(w.field, w.label, w.hint))
		switch w.field {
		case "shape":
			fields = append(fields, f.amount("life", "Life", "by which 63 in 100 have failed; follows the failures if only they are changed", " km", " mi"))
			if s.kind.Wear != nil {
				fields = append(fields, f.size("wear", capital(s.kind.Wear.Name)+" in 10 000 km", "how far the reading moves on rough track"))
			}
		}
	}
	fields = append(fields, f.amount("water", "One deep crossing is as bad as", "", " km", " mi"), f.area("note", "What you know it from", ""))
	p.body = []app.UI{f.restoredNotice(), section("Figures", fields...), f.saving("Save as your own figures", s.save)}
	if s.own {
		p.body = append(p.body, button("danger wide", "Back to the starting guess", "drop "+s.kind.ID, s.drop))
	}
	return frame(p)
}

// readPrior makes a prior of what was typed; every wrong field is marked.
func readPrior(f *form, p fieldkit.Prior, kind fieldkit.PartKind, first fieldkit.System) (fieldkit.Prior, bool) {
	ok, before := f.short(), p
	p.ID = kind.ID
	for _, w := range priorWholes {
		n, err := optionalWhole(f.get(w.field), 0, w.most)
		if err == nil && w.field == "rate" && n < 1 {
			err = badField("nothing never fails", "write how many fail in a million km, 1 or more")
		}
		ok = f.refuse(w.field, err) && ok
		*w.at(&p) = n
	}
	var err error
	p.Life, err = optionalAmount(f.get("life"), first, fieldkit.ParseDistance)
	ok = f.refuse("life", err) && ok
	p.Water, err = optionalAmount(f.get("water"), first, fieldkit.ParseDistance)
	ok = f.refuse("water", err) && ok
	p.Wear = fieldkit.Value{}
	if kind.Wear != nil {
		p.Wear, err = optionalValue(f.typed("wear"), kind.Wear.Limit.Dim, first)
		ok = f.refuse("wear", err) && ok
	}
	p.Note = f.typed("note")
	if ok {
		if p = inStep(before, p); p.Rate > mostFail {
			ok = f.refuse("life", badField("parts of so short a life fail more than once every 10 km", "write a longer one"))
		}
	}
	return p, ok
}

// inStep lets the life follow a rate that alone was changed, and the other way round:
// both say how long parts of all ages last.
func inStep(before, p fieldkit.Prior) fieldkit.Prior {
	switch {
	case before.Rate <= 0 || before.Life <= 0 || p.Life <= 0:
	case p.Rate != before.Rate && p.Life == before.Life:
		p.Life = fieldkit.Distance(math.Round(float64(before.Life) * float64(before.Rate) / float64(p.Rate)))
	case p.Life != before.Life && p.Rate == before.Rate:
		p.Rate = max(int(math.Round(float64(before.Rate)*float64(before.Life)/float64(p.Life))), 1)
	}
	return p
}

func (s *priorScreen) save(ctx app.Context) {
	p, ok := readPrior(s.form, s.prior, s.kind, kept.first())
	if !ok {
		s.form.wrongAbove(ctx)
		return
	}
	s.form.keep(ctx, "Saved how parts fail: "+s.kind.Name, p, to(link("/rig/priors")))
}

func (s *priorScreen) drop(ctx app.Context) {
	s.form.drop(ctx, "Back to the starting guess: "+s.kind.Name, s.prior, to(link("/rig/priors")))
}
