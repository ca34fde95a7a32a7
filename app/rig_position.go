package app

import (
	"fmt"
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/counter"
	"trailfieldkit/fieldkit/interchange"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/likelihood"
)

// positionScreen shows all that is known of one place on the rig: what is
// fitted, where it came from, how that was proven, what else fits, what happened.
type positionScreen struct {
	app.Compo
	view positionView
	err  error
}

// wearAt is what the readings at a position say of its limit, where there are any.
type wearAt struct {
	line likelihood.WearLine
	read bool
}

// positionView is what the screen draws.
type positionView struct {
	found    bool
	position fieldkit.Position
	path     string // rig and system
	kind     fieldkit.PartKind
	part     fieldkit.Part
	hasPart  bool
	donor    fieldkit.Donor
	others   []fieldkit.Position // where the same part is fitted too
	mirror   fieldkit.Position   // the position on the other side
	ready    counter.Readiness
	standIns []counter.StandInLine
	stock    int
	failures []fieldkit.Failure
	readings []fieldkit.Inspection
	shared   []counter.Shared
	uses     []use          // what keeps the position from being deleted
	closed   []fieldkit.Run // repairs that go with it
	outlook  outlookView
	wear     wearAt
}

func (s *positionScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *positionScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *positionScreen) load(ctx app.Context) {
	s.view = viewPosition(kept.kit(), data.Catalog(), kept.interchange(), param(ctx, "id"))
}

func viewPosition(k fieldkit.Kit, cat fieldkit.Catalog, g *interchange.Graph, id string) positionView {
	p, ok := k.Position(id)
	if !ok {
		return positionView{}
	}
	v := positionView{found: true, position: p}
	rig, _ := k.RigOf(p)
	system, _ := k.System(p.System)
	v.path = rig.Name + ", " + system.Name
	v.kind, _ = cat.PartKind(p.Kind)
	v.mirror, _ = k.Mirror(p)
	v.ready = counter.ReadyAt(k, cat, p)
	if v.part, v.hasPart = k.Part(p.Part); v.hasPart {
		v.donor, _ = k.Donor(v.part.Donor)
		v.stock = k.Stock(v.part.ID)
		for _, other := range k.FittedAt(v.part.ID) {
			if other.ID != p.ID {
				v.others = append(v.others, other)
			}
		}
		if card, err := counter.CardFor(k, cat, g, v.part.ID, p.ID); err == nil {
			v.standIns = card.StandIns
		}
	}
	v.shared = counter.SharedInside(k, cat, g, p.ID)
	for _, f := range k.FailuresAt(p.ID) {
		v.failures = append(v.failures, *f)
	}
	for _, r := range k.ReadingsAt(p.ID) {
		v.readings = append(v.readings, *r)
	}
	v.outlook = viewOutlook(k, cat, p)
	v.wear.line, v.wear.read = likelihood.WearAt(k, cat, p)
	v.uses, v.closed = positionUses(k, p.ID), closedRuns(k, p.ID)
	slices.SortStableFunc(v.failures, func(a, b fieldkit.Failure) int { return b.On.Compare(a.On) })
	slices.SortStableFunc(v.readings, func(a, b fieldkit.Inspection) int { return b.On.Compare(a.On) })
	return v
}

func (s *positionScreen) Render() app.UI {
	v := s.view
	if !v.found {
		return frame(page{title: "Position", dest: "/rig", back: link("/rig"), body: []app.UI{
			emptyLine("There is no such position in this kit. It may have been deleted, or the link is for another kit."),
		}})
	}
	body := []app.UI{problem(s.err), s.readiness()}
	if v.hasPart {
		body = append(body, s.fitted(), s.numbers(), s.measurements(), s.standIns())
	} else {
		body = append(body, section("Fitted",
			emptyLine("Nothing is known of what sits here. Read a number off it, or measure it."),
			facts(fact{"Pieces here", itoa(v.position.Quantity)}, fact{"Note", v.position.Note}),
			goTo("act wide", "Say what is fitted", link("/rig/position/edit", "id", v.position.ID, "what", whatFitted)),
		))
	}
	if len(v.shared) > 0 {
		body = append(body, section("Shares parts with", app.Ul().Class("list").Body(app.Range(v.shared).Slice(func(i int) app.UI {
			return openRow(link("/rig/position", "id", v.shared[i].Other), v.shared[i].OtherAt, sharedWords(v.shared[i]), "")
		}))))
	}
	if len(v.position.Compared) > 0 {
		body = append(body, section("Compared", comparedList(v.position.Compared, kept.first())))
	}
	body = append(body, s.outlook(), s.readings(), s.failures(), s.actions())
	return frame(page{title: capital(v.position.Title()), sub: v.path, dest: "/rig", back: link("/rig", "rig", v.ready.Rig), body: body})
}

func (s *positionScreen) readiness() app.UI {
	class, word := readyMark(s.view.ready.State)
	return app.Div().Class("block").Body(
		blaze(class, capital(word)),
		app.If(len(s.view.ready.Gaps) > 0, func() app.UI {
			return app.Ul().Body(app.Range(s.view.ready.Gaps).Slice(func(i int) app.UI { return app.Li().Text("· " + s.view.ready.Gaps[i]) }))
		}),
		app.If(s.view.hasPart, func() app.UI {
			return goTo("act wide", "Counter card", link("/counter/card", "part", s.view.part.ID, "position", s.view.position.ID))
		}),
		app.If(s.view.hasPart, func() app.UI { return rightPart(s.view.part, s.view.position.ID) }),
	)
}

func (s *positionScreen) fitted() app.UI {
	v := s.view
	stock := fmt.Sprintf("%d carried or at home", v.stock)
	body := []app.UI{
		app.P().Class("big").Text(v.part.Name),
		facts(
			fact{"Kind", v.kind.Name},
			fact{"From donor", v.donor.Title()},
			fact{"Donor's axle", v.donor.Axle},
			fact{"Pieces here", fmt.Sprint(v.position.Quantity)},
			fact{"Fitted", fittedWhen(v.position, kept.first())},
			fact{"Proven", proofWords(v.position.Proof)},
			fact{"Also fitted at", titles(v.others)},
			fact{"Spares", stock},
			fact{"Note", v.position.Note},
			fact{"About the part", v.part.Note},
		),
	}
	body = append(body, app.Div().Class("two no-print").Body(
		goTo("quiet", "Edit part", link("/rig/part/edit", "id", v.part.ID, "position", v.position.ID)),
		goTo("quiet", "Another part", link("/rig/position/edit", "id", v.position.ID, "what", whatFitted)),
	))
	return section("Fitted", body...)
}

func (s *positionScreen) numbers() app.UI {
	numbers := s.view.part.Numbers
	if len(numbers) == 0 {
		return section("Numbers", emptyLine("No number yet. Look for a tag, a stamp or a casting mark and write it down as it stands."))
	}
	return section("Numbers", app.Range(numbers).Slice(func(i int) app.UI {
		n := numbers[i]
		return app.Div().Class("plate").Body(
			app.P().Class("stamp").Text(n.Value),
			app.P().Class("said").Text(numberWords(n)),
		)
	}))
}

func (s *positionScreen) measurements() app.UI {
	list := s.view.part.Measurements
	if len(list) == 0 {
		return section("Measurements", emptyLine("Nothing measured yet. The counter card says which measurements decide."))
	}
	var lines []fact
	for _, m := range list {
		lines = append(lines, fact{m.Name, measurementWords(m, kept.first())})
	}
	return section("Measurements", facts(lines...))
}

func (s *positionScreen) standIns() app.UI {
	add := goTo("quiet wide no-print", "Add an interchange", link("/rig/link/edit", "part", s.view.part.ID))
	if len(s.view.standIns) == 0 {
		return section("What else fits", emptyLine("No interchange is known. Add one when you learn of it, with how sure it is."), add)
	}
	return section("What else fits",
		app.Ul().Class("list").Body(app.Range(s.view.standIns).Slice(func(i int) app.UI {
			in := s.view.standIns[i]
			return openRow(link("/counter/card", "part", in.Part, "position", s.view.position.ID), in.Name, standInWords(in), "")
		})),
		add,
	)
}

func (s *positionScreen) readings() app.UI {
	v := s.view
	add := goTo("quiet wide no-print", "Write down a reading", link("/log/reading", "position", v.position.ID))
	if v.kind.Wear == nil && len(v.readings) == 0 {
		return app.Div().Hidden(true)
	}
	if len(v.readings) == 0 {
		return section("Wear readings", emptyLine("No reading yet. "+capital(v.kind.Wear.Name)+": "+v.kind.Wear.How), add)
	}
	return section("Wear readings",
		app.Ul().Class("list").Body(app.Range(v.readings).Slice(func(i int) app.UI {
			r := v.readings[i]
			return openRow(link("/log/reading", "id", r.ID), r.Value.Both(kept.first()), strings.Join(nonEmpty(r.Name, r.On.Show(), engineHours(r.EngineHours)), " · "), odometer(r.Odometer))
		})),
		limitLine(v.kind),
		app.If(v.wear.read, func() app.UI {
			return app.P().Class("figures").Text(capital(limitWords(v.wear.line, kept.first())))
		}),
		app.If(v.wear.read, func() app.UI {
			return goTo("quiet wide no-print", capital(wearOver(v.wear.line)), link("/log/wear", "position", v.position.ID))
		}),
		add,
	)
}

func limitLine(kind fieldkit.PartKind) app.UI {
	if kind.Wear == nil {
		return app.Div().Hidden(true)
	}
	return app.P().Class("soft").Text("Limit " + kind.Wear.Limit.Both(kept.first()) + ": a starting guess; the maker's figure stands.")
}

func (s *positionScreen) failures() app.UI {
	v := s.view
	if len(v.failures) == 0 {
		return app.Div().Hidden(true)
	}
	return section("Failures", app.Ul().Class("list").Body(app.Range(v.failures).Slice(func(i int) app.UI {
		f := v.failures[i]
		return openRow(link("/log/failure", "id", f.ID), f.What, f.On.Show()+" · "+f.Fix, odometer(f.Odometer))
	})))
}

func (s *positionScreen) actions() app.UI {
	v := s.view
	acts := []app.UI{
		goTo("act wide", "It broke", link("/repair", "position", v.position.ID)),
		goTo("quiet wide", "Find the cause", link("/repair/triage", "position", v.position.ID)),
		goTo("quiet wide", "Log a failure", link("/log/broke", "position", v.position.ID)),
	}
	if v.hasPart && v.position.Side.Opposite() != fieldkit.NoSide {
		acts = append(acts, button("quiet wide", "Copy to the "+string(v.position.Side.Opposite())+" side", "mirror "+v.position.ID, s.copyAcross))
	}
	acts = append(acts,
		goTo("quiet wide", "Edit position", link("/rig/position/edit", "id", v.position.ID)),
		goTo("quiet wide", "Pass on to another phone", link("/pass", "position", v.position.ID)),
		goTo("quiet wide", "As it was on a day", link("/rig/position/then", "id", v.position.ID)),
		s.deleting(),
	)
	return app.Section().Class("block no-print").Body(acts...)
}

// sharedWords says at which part inside two assemblies interchange, and why.
func sharedWords(s counter.Shared) string {
	if s.Standard == "" {
		return "interchanges at " + s.At + ": the same part"
	}
	return "interchanges at " + s.At + ": both bear " + s.Standard
}

// copyAcross fits the same part on the other side, making that position if the
// rig has none yet.
func (s *positionScreen) copyAcross(ctx app.Context) {
	p := s.view.position
	kept.do(ctx, "Copied to the "+string(p.Side.Opposite())+" side: "+p.Name, func(e *journal.Edit) error {
		mirror, ok := e.Kit().Mirror(p)
		if !ok {
			mirror = fieldkit.Position{ID: newID(), System: p.System, Parent: mirrorParent(e.Kit(), p), Name: p.Name, Side: p.Side.Opposite(), Order: p.Order, Kind: p.Kind}
		}
		mirror.Part, mirror.Quantity, mirror.Kind = p.Part, p.Quantity, p.Kind
		mirror.Fitted, mirror.FittedAt, mirror.Proof = p.Fitted, p.FittedAt, p.Proof
		e.Put(mirror)
		return nil
	}, s.keepErr)
}

// mirrorParent finds the parent on the other side, so that a copied bearing lands
// under its own wheel end.
func mirrorParent(k fieldkit.Kit, p fieldkit.Position) string {
	parent, ok := k.Position(p.Parent)
	if !ok {
		return ""
	}
	if other, ok := k.Mirror(parent); ok {
		return other.ID
	}
	return parent.ID
}

func (s *positionScreen) keepErr(_ app.Context, err error) { s.err = err }
