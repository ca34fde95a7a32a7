package app

import (
	"fmt"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/spares"
)

// packTripScreen is the list one packs from: planned for a trip, changed by hand,
// ticked off bin by bin.
type packTripScreen struct {
	app.Compo
	left       longList // of what stays at home
	allTheSame bool     // work out what was put off
	view       packTripView
	bin        string // unfolded when the list was opened: the first that is not packed
	err        error
	told       string
	// slide is where the slider of the weight limit stands, 0 where nobody moved it.
	slide int
}

// packTripView is what the screen draws.
type packTripView struct {
	found    bool
	trip     fieldkit.Trip
	rigs     string
	pack     fieldkit.Pack
	planned  bool
	sheet    spares.Sheet
	reasons  map[spares.Ref]spares.Line
	said     bool            // what the list is good for is known: reasons and proposal
	proposal spares.Proposal // the list as it stands, explained
	shopping []spares.Need
	restock  []spares.Need
}

func (s *packTripScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *packTripScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *packTripScreen) load(ctx app.Context) {
	before, limit := s.view.pack.ID, s.view.trip.Limits.Mass
	s.view = viewPackTrip(kept, param(ctx, "id"))
	if s.view.pack.ID != before {
		s.bin = firstUnpacked(s.view.sheet.Bins)
	}
	if s.view.pack.ID != before || s.view.trip.Limits.Mass != limit {
		s.slide = 0
	}
	s.setSlider(ctx)
	if s.view.planned {
		next, ask := s.view.said && !s.putOff(), question{}
		drawCurve(s.view.trip, s.view.pack, next)
		ask.home = next
		if i := s.view.proposal.JustLeftOut(); next && i >= 0 {
			ask.entry = s.view.proposal.LeftOut[i].Ref
		}
		reckon(s.view.trip, s.view.pack, ask)
	}
}

// firstUnpacked is the bin to go on with, none when all is packed.
func firstUnpacked(bins []spares.BinSheet) string {
	for _, b := range bins {
		if b.Ticked < len(b.Rows) {
			return binName(b)
		}
	}
	return ""
}

func binName(b spares.BinSheet) string {
	if b.Bin.ID == "" {
		return looseOn(b.Rig)
	}
	return b.Bin.Name
}

func viewPackTrip(s *store, id string) packTripView {
	k := s.kit()
	trip, ok := k.Trip(id)
	if !ok {
		return packTripView{}
	}
	v := packTripView{found: true, trip: trip, rigs: rigNames(k, trip), restock: spares.Restock(k, data.Catalog(), trip)}
	if v.pack, v.planned = packOf(k, id); !v.planned {
		return v
	}
	v.proposal, v.said = s.explain(trip, v.pack)
	v.sheet = spares.SheetOf(k, data.Catalog(), v.pack)
	v.shopping = spares.Shopping(k, data.Catalog(), v.pack)
	v.reasons = map[spares.Ref]spares.Line{}
	for _, l := range v.proposal.Lines {
		v.reasons[spares.RefOf(l.Line)] = l
	}
	return v
}

func rigNames(k fieldkit.Kit, t fieldkit.Trip) string {
	var names []string
	for _, id := range t.Rigs {
		if r, ok := k.Rig(id); ok {
			names = append(names, r.Name)
		}
	}
	return strings.Join(names, ", ")
}

func (s *packTripScreen) Render() app.UI {
	v := s.view
	if !v.found {
		return frame(page{title: "Trip", dest: "/pack", back: link("/pack"), body: []app.UI{emptyLine("There is no such trip in this kit.")}})
	}
	body := []app.UI{
		facts(
			fact{"Rigs", v.rigs},
			fact{"Towns", townWords(v.trip)},
		),
		app.Div().Class("two no-print").Body(
			goTo("quiet", "Edit trip", link("/pack/trip/edit", "id", v.trip.ID)),
			goTo("quiet", "What failures cost", link("/pack/costs", "trip", v.trip.ID)),
			goTo("quiet", "Rigs and friends", link("/pack/crew", "trip", v.trip.ID)),
			app.If(v.planned, func() app.UI { return goTo("quiet", "Add things", link("/pack/add", "trip", v.trip.ID)) }),
		),
		problem(s.err),
	}
	first, last := app.UI(app.Div().Hidden(true)), s.restock()
	if v.trip.Done { // home again, what was used comes first
		first, last = last, first
	}
	body = append(body, first)
	if !v.planned {
		body = append(body, emptyLine("No list yet. Plan one from what is on the rigs, what broke before, what you own and the limits of this trip."),
			planButton("act tall wide", "Plan the kit", v.trip.ID, s.planAgain), s.again(), last)
	} else if v.sheet.Totals.Lines == 0 {
		body = append(body, emptyLine("Nothing is on the list: nothing owned or on sale is known to save a minute within the limits of this trip. Say what is fitted on the rigs, write down spares and tools, or add things by hand."),
			s.again(), s.worth(), s.leftOut(), last, s.weightChoice(), s.actions())
	} else {
		body = append(body, s.totals())
		bins, rig := []app.UI{s.shopping()}, ""
		for _, b := range v.sheet.Bins {
			if len(v.sheet.Rigs) > 1 && b.RigID != rig {
				bins, rig = append(bins, s.rigHead(b.RigID)), b.RigID
			}
			bins = append(bins, s.drawBin(b))
		}
		bins = append(bins, s.friends())
		body = append(body, app.Div().Class("paper").Body(bins...), app.Div().Class("no-print").Body(s.weightChoice()), s.leftOut(), last, s.actions())
	}
	return frame(page{title: v.trip.Name, sub: tripWords(v.trip, kept.first()), dest: "/pack", back: link("/pack"), body: body})
}

// totals shows the list against its limits and what it is worth.
func (s *packTripScreen) totals() app.UI {
	t, limits, first := s.view.sheet.Totals, s.view.trip.Limits, kept.first()
	body := []app.UI{
		app.P().Class("big figures").Text(fmt.Sprintf("%d of %d packed", t.Ticked, t.Lines)),
		app.Progress().Class("meter").Max(max(t.Lines, 1)).Value(t.Ticked).Aria("label", "lines packed"),
		limitLineOf("Weight", spares.Guess(t.Mass.Both(first), t.Typical.Mass), int64(t.Mass), int64(limits.Mass), limits.Mass.Both(first)),
		limitLineOf("Space", spares.Guess(t.Volume.Both(first), t.Typical.Volume), int64(t.Volume), int64(limits.Volume), limits.Volume.Both(first)),
	}
	if limits.Money != nil {
		body = append(body, limitLineOf("To buy", t.Spend.String(), t.Spend.Cents, limits.Money.Cents, limits.Money.String()))
	} else if !t.Spend.IsZero() {
		body = append(body, facts(fact{"To buy", t.Spend.String()}))
	}
	for _, o := range t.Over {
		body = append(body, app.P().Class("note bad").Text(capital(o.Text(first))+". Take something off, or plan again."))
	}
	return app.Section().Class("block").Body(append(body, s.worth())...)
}

// limitLineOf shows an amount, its limit, and a meter between them.
func limitLineOf(name, amount string, used, limit int64, limitText string) app.UI {
	if limit <= 0 {
		return facts(fact{name, amount + ", no limit"})
	}
	class, word := "meter", " of "+limitText
	if used > limit {
		class, word = "meter over", ", over "+limitText
	}
	return app.Div().Body(
		app.P().Class("figures").Body(app.Span().Class("soft").Text(name+" "), app.B().Text(marked(amount)), app.Text(word)),
		app.Progress().Class(class).Max(limit).Value(min(used, limit)).Aria("label", name),
	)
}

func (s *packTripScreen) drawBin(b spares.BinSheet) app.UI {
	first, name := kept.first(), binName(b)
	mass := spares.Guess(b.Mass.Both(first), b.Typical.Mass)
	if b.Bin.MassLimit > 0 {
		mass += " of " + b.Bin.MassLimit.Show(first)
	}
	return app.Details().Class("group").Open(name == s.bin).Body(
		app.Summary().Body(
			app.Span().Class("what").Body(app.B().Text(name),
				app.Div().Class("soft").Text(strings.Join(nonEmpty(b.Rig, b.Bin.Place), " · ")), app.Div().Class("soft").Text(marked(mass))),
			app.Span().Class("count").Text(fmt.Sprintf("%d of %d", b.Ticked, len(b.Rows))),
		),
		app.Div().Class("in").Body(
			app.If(len(b.Rows) == 0, func() app.UI { return app.P().Class("soft").Text("Empty.") }),
			app.Ul().Class("list").Body(app.Range(b.Rows).Slice(func(i int) app.UI { return s.line(b.Rows[i]) })),
		),
	)
}

func (s *packTripScreen) line(r spares.Row) app.UI {
	ref := spares.RefOf(r.Line)
	byHand := ""
	if r.Line.Pinned {
		byHand = "by hand"
	}
	what := []app.UI{app.B().Text(fmt.Sprintf("%d × %s", r.Line.Count, r.Name))}
	if r.Short > 0 {
		what = append(what, blaze("part", fmt.Sprintf("%d to buy", r.Short)))
	}
	what = append(what, app.Span().Body(
		app.Text(marked(strings.Join(nonEmpty(spares.Guess(r.Mass.Show(kept.first()), r.Typical.Mass), byHand, s.why(ref)), " · "))),
		app.If(!s.view.said, func() app.UI { return app.Span().Class("like").Aria("hidden", true).Text("for 2 repairs") }),
	))
	return app.Li().Body(app.Div().Class("row packline").Body(
		tickLines(fmt.Sprint("line ", ref), r.Line.Packed, func(ctx app.Context) {
			s.change(ctx, "Packed: "+r.Name, func(p fieldkit.Pack) fieldkit.Pack { return spares.Tick(p, ref, !r.Line.Packed) })
		}, what...),
		app.A().Class("more no-print").Href(link("/pack/line", "trip", s.view.trip.ID, "type", string(ref.Type), "item", ref.Item)).Aria("label", "Change "+r.Name).Text("⋯"),
	))
}

// why says in a few words what a line is for.
func (s *packTripScreen) why(ref spares.Ref) string {
	l, ok := s.view.reasons[ref]
	switch {
	case !s.view.said:
		return "…"
	case !ok:
		return ""
	case len(l.Covers) == 1:
		return "for " + l.Covers[0].Title
	case len(l.Covers) > 1:
		return fmt.Sprintf("for %s and %d more", l.Covers[0].Title, len(l.Covers)-1)
	case len(l.Repairs) == 1:
		return "for " + uncapital(l.Repairs[0])
	case len(l.Repairs) > 1:
		return fmt.Sprintf("for %d repairs", len(l.Repairs))
	}
	return ""
}

// shopping is what to buy before leaving, folded: the bins are what one comes for.
func (s *packTripScreen) shopping() app.UI {
	list := s.view.shopping
	if len(list) == 0 {
		return app.P().Class("note ok").Text("Everything on the list is in stock: nothing to buy.")
	}
	return app.Details().Class("group").Body(
		app.Summary().Body(app.Text("Shopping list"), app.Span().Class("count").Text(s.view.sheet.Totals.Spend.String())),
		app.Div().Class("in").Body(needList(list)),
	)
}

func needList(list []spares.Need) app.UI {
	return app.Ul().Class("list").Body(app.Range(list).Slice(func(i int) app.UI {
		title, cost, lines := needWords(list[i])
		return needRow(list[i], title, cost, lines)
	}))
}

// needRow draws something to buy; a part leads to its counter card.
func needRow(n spares.Need, title, cost string, lines []string) app.UI {
	what := app.Span().Class("what").Body(append([]app.UI{
		app.B().Text(title), app.Span().Class("aside").Text(cost),
	}, spans(lines...)...)...)
	if n.Ref.Type != fieldkit.SpareItem {
		return app.Li().Body(app.Div().Class("open plain").Body(what))
	}
	return app.Li().Body(app.A().Class("open").Href(link("/counter/card", "part", n.Ref.Item)).Body(what))
}

// needWords say how many to buy, at what price, for which donor, and where it is sold.
func needWords(n spares.Need) (title, cost string, lines []string) {
	cost, donor := "price not known", ""
	if n.Cost != nil {
		cost = n.Cost.String()
	}
	if n.For != "" {
		donor = "For " + n.For
	}
	return fmt.Sprintf("%d × %s", n.Count, n.Name), cost, nonEmpty(donor, capital(strings.Join(n.Stores, ", ")))
}

func (s *packTripScreen) actions() app.UI {
	v := s.view
	return app.Section().Class("block no-print").Body(
		app.Div().Class("two").Body(
			planButton("quiet", "Plan again", v.trip.ID, s.planAgain),
			button("quiet", "Print list", "print", func(app.Context) { printPage() }),
			button("quiet", "Share as text", "share "+v.trip.ID, func(ctx app.Context) {
				shareText(ctx, v.trip.Name, spares.PackText(kept.kit(), data.Catalog(), v.pack, kept.first()), func(_ app.Context, said string) { s.told = said })
			}),
			button("danger", "Delete list", "drop "+v.pack.ID, s.drop),
		),
		app.P().Class("soft").Text("Planning again keeps what you added, pinned or ticked by hand, and leaves out what you left at home."),
		app.If(s.told != "", func() app.UI { return app.P().Class("note ok").Role("status").Text(s.told) }),
	)
}

// planAgain makes the list, or makes it again around what was set by hand.
func (s *packTripScreen) planAgain(app.Context) {
	s.plan("Planned the kit for "+s.view.trip.Name, nil)
}

func (s *packTripScreen) plan(what string, limit *fieldkit.Mass) {
	plan(s.view.trip.ID, what, limit, func(_ app.Context, err error) { s.err = err })
}

// change edits the list as it stands on disk by then, so that two quick taps both
// count.
func (s *packTripScreen) change(ctx app.Context, what string, edit func(fieldkit.Pack) fieldkit.Pack) {
	changePack(ctx, s.view.trip.ID, what, edit, func(_ app.Context, err error) { s.err = err })
}

func changePack(ctx app.Context, trip, what string, edit func(fieldkit.Pack) fieldkit.Pack, then func(app.Context, error)) {
	kept.doQuietly(ctx, what, func(e *journal.Edit) error {
		pack, ok := packOf(e.Kit(), trip)
		if !ok {
			return badField("the list was deleted meanwhile", "plan it again")
		}
		e.Put(edit(pack))
		return nil
	}, then)
}

func (s *packTripScreen) drop(ctx app.Context) {
	pack := s.view.pack
	kept.do(ctx, "Deleted the packing list of "+s.view.trip.Name, func(e *journal.Edit) error {
		e.Delete(pack.Collection(), pack.ID)
		return nil
	}, func(_ app.Context, err error) { s.err = err })
}

func townWords(t fieldkit.Trip) string {
	var words []string
	for _, town := range t.Towns {
		line := town.Name + ", " + town.Away.String() + " away"
		if town.Note != "" {
			line += ". " + town.Note
		}
		words = append(words, line)
	}
	return strings.Join(words, "\n")
}

// looseOn names what a rig carries in no bin.
func looseOn(rig string) string {
	if rig == "" {
		return "On no rig yet"
	}
	return "In no bin on " + rig
}
