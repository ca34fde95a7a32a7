package app

import (
	"fmt"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/spares"
)

// packLineScreen is one thing on a trip's list, or left out of it: what it is for,
// how many, which bin, pinned, or kept at home.
type packLineScreen struct {
	app.Compo
	view packLineView
	err  error
}

// packLineView is what the screen draws.
type packLineView struct {
	found  bool
	trip   fieldkit.Trip
	pack   fieldkit.Pack
	ref    spares.Ref
	name   string
	line   fieldkit.PackLine // the zero line when it is not on the list
	onList bool
	never  bool
	stock  int
	said   bool // what it is good for is known: reason and left
	reason spares.Line
	left   spares.LeftOut
	bins   []option
	back   string
}

func (s *packLineScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *packLineScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *packLineScreen) load(ctx app.Context) {
	ref := spares.Ref{Type: fieldkit.ItemType(param(ctx, "type")), Item: param(ctx, "item")}
	s.view = viewPackLine(kept, param(ctx, "trip"), ref)
	if v := s.view; v.found {
		ask := question{}
		switch {
		case !v.said:
		case v.onList:
			ask.drop = ref
		case v.left.Adds > 0 && v.left.Why == "":
			ask.entry = ref
		}
		reckon(v.trip, v.pack, ask)
	}
}

func viewPackLine(s *store, trip string, ref spares.Ref) packLineView {
	whole := viewPackTrip(s, trip)
	v := packLineView{found: whole.found && whole.planned, trip: whole.trip, ref: ref, back: link("/pack/trip", "id", trip)}
	if !v.found {
		return v
	}
	k := s.kit()
	v.pack = whole.pack
	v.name, v.stock = itemName(k, ref.Type, ref.Item), itemStock(k, ref)
	v.said, v.reason = whole.said, whole.reasons[ref]
	for _, l := range whole.pack.Lines {
		if spares.RefOf(l) == ref {
			v.line, v.onList = l, true
		}
	}
	v.never = staysAtHome(whole.pack, ref)
	for _, l := range whole.proposal.LeftOut {
		if l.Ref == ref {
			v.left = l
		}
	}
	for _, b := range whole.sheet.Bins {
		if b.Bin.ID != "" {
			v.bins = append(v.bins, option{b.Bin.ID, b.Bin.Name})
		}
	}
	for _, r := range whole.sheet.Rigs {
		v.bins = append(v.bins, option{looseBin + r.Rig.ID, looseOn(r.Rig.Name)})
	}
	return v
}

// itemStock counts what is owned of something that can be packed.
func itemStock(k fieldkit.Kit, ref spares.Ref) int {
	switch ref.Type {
	case fieldkit.SpareItem:
		return k.Stock(ref.Item)
	case fieldkit.ConsumableItem:
		c, _ := fieldkit.Find(k.Consumables, ref.Item)
		return c.Count
	case fieldkit.ToolItem:
		if t, _ := fieldkit.Find(k.Tools, ref.Item); t.Owned {
			return 1
		}
	}
	return 0
}

func (s *packLineScreen) Render() app.UI {
	v := s.view
	if !v.found {
		return frame(page{title: "Packing list", dest: "/pack", back: link("/pack"), body: []app.UI{emptyLine("This trip has no packing list.")}})
	}
	// What is pressed comes first, what follows from it after: nothing moves under a thumb.
	body := []app.UI{
		problem(s.err),
		app.Div().Class("rowline").Body(
			app.Span().Class("strong").Text("Pieces on this trip"),
			app.Span().Body(stepper(v.name, "count "+v.ref.Item, v.line.Count, 0, func(ctx app.Context, n int) {
				s.around(ctx, "Counted for "+v.trip.Name+": "+v.name, planSoon, func(p fieldkit.Pack) fieldkit.Pack { return addPieces(kept.kit(), p, v.ref, n-v.line.Count) })
			})),
		),
		app.Div().Class("rowline").Body(
			app.Span().Class("strong").Text("Pieces in a friend's rig"),
			app.Span().Body(stepper("in a friend's rig: "+v.name, "lent "+v.ref.Item, v.lent(), 0, s.lend)),
		),
	}
	if v.onList {
		body = append(body, s.place())
	}
	if v.never {
		body = append(body, app.P().Class("note warn").Text("Left at home on purpose: planning does not bring it back."))
	}
	body = append(body,
		s.home(),
		facts(fact{"In stock", itoa(v.stock)}, fact{"Saves", savesWords(v)}, fact{"Share of all that the list saves", shareWords(v)},
			fact{"Left at home", dropWords(v)}, fact{"Left out", v.left.Text(kept.first())}, fact{"To bring it in", entryWords(v)}),
		s.covers())
	return frame(page{title: capital(v.name), sub: v.trip.Name, dest: "/pack", back: v.back, body: body})
}

func savesWords(v packLineView) string {
	switch {
	case !v.said:
		return "working it out …"
	case v.onList && v.reason.Saves > 0:
		return strings.Join(nonEmpty(spares.Guess(v.reason.Saves.String(), v.reason.Guessed)+" on average beside the rest of the list", v.reason.Evidence), "; ")
	case !v.onList && v.left.Adds > 0:
		return "would be " + spares.Guess(v.left.Adds.String(), v.left.Guessed) + " on average"
	}
	return ""
}

// looseBin stands before a rig's ID in the choice of bins: on that rig, in no bin.
const looseBin = "loose on "

func (v packLineView) lent() int { return v.trip.WithFriends(v.ref.Type, v.ref.Item) }

// shareWords say which part of the list's savings is this line's, and by which rule.
func shareWords(v packLineView) string {
	if !v.onList || v.reason.Share == 0 {
		return ""
	}
	return spares.Guess(spares.Percent(v.reason.Share), v.reason.Guessed) + "; each failure mended is shared equally among the spare, the tools and the consumables its repair takes"
}

// dropWords say what leaving it at home costs with the rest planned anew.
func dropWords(v packLineView) string {
	d, ok := reckoned.drops[v.ref]
	switch {
	case !v.onList || !v.said:
		return ""
	case !ok:
		return "planning the rest anew …"
	}
	return strings.TrimPrefix(d.Words(v.reason.Guessed), "left at home and ")
}

// entryWords say how much more would bring in what was left out.
func entryWords(v packLineView) string {
	if v.onList || v.left.Adds <= 0 || v.left.Why != "" {
		return ""
	}
	if e, ok := reckoned.entries[v.ref]; ok {
		return e.Words(kept.first(), v.left.Guessed)
	}
	return "planning with more and more …"
}

// lend puts pieces into a friend's rig or takes them out, and plans again soon.
func (s *packLineScreen) lend(ctx app.Context, n int) {
	v := s.view
	by, what := n-v.lent(), "In a friend's rig for "+v.trip.Name+": "+v.name
	kept.doQuietly(ctx, what, func(e *journal.Edit) error {
		t, ok := e.Kit().Trip(v.trip.ID)
		if !ok {
			return badField("the trip was deleted meanwhile", "go back and look")
		}
		e.Put(lend(t, v.ref.Type, v.ref.Item, by))
		return nil
	}, func(ctx app.Context, err error) {
		if s.err = err; err != nil {
			return
		}
		if t, ok := kept.kit().Trip(v.trip.ID); ok {
			planSoon(t.ID, what+"; planned again", func(_ app.Context, err error) { s.err = err })
		}
	})
}

func (s *packLineScreen) place() app.UI {
	v := s.view
	lies := v.line.Bin
	if lies == "" && v.line.Rig != "" {
		lies = looseBin + v.line.Rig
	}
	bin := field{
		Form: "line" + v.ref.Item, Name: "bin", Kind: "choose", Label: "Bin", Value: lies,
		Options: append([]option{{"", "no bin"}}, v.bins...),
		OnType: func(ctx app.Context, id string) {
			s.change(ctx, "Moved: "+v.name, func(p fieldkit.Pack) fieldkit.Pack {
				if rig, loose := strings.CutPrefix(id, looseBin); loose {
					return spares.Move(p, v.ref, "", rig)
				}
				return spares.Move(p, v.ref, id, "")
			})
		},
	}
	return app.Div().Class("block").Body(&bin,
		tick("Stays when planned again", "", "pin "+v.ref.Item, v.line.Pinned, func(ctx app.Context) {
			s.around(ctx, "Pinned: "+v.name, planAtOnce, func(p fieldkit.Pack) fieldkit.Pack { return spares.Pin(p, v.ref, !v.line.Pinned) })
		}),
		tick("Packed", "", "packed "+v.ref.Item, v.line.Packed, func(ctx app.Context) {
			s.change(ctx, "Packed: "+v.name, func(p fieldkit.Pack) fieldkit.Pack { return spares.Tick(p, v.ref, !v.line.Packed) })
		}),
	)
}

// covers lists what it can mend, how likely that is needed and what it would cost
// without.
func (s *packLineScreen) covers() app.UI {
	r := s.view.reason
	if len(r.Covers) == 0 && len(r.Repairs) == 0 {
		return app.Div().Hidden(true)
	}
	if len(r.Covers) == 0 {
		return section("For these repairs", bullets(r.Repairs))
	}
	return section("What it can mend", app.Ul().Class("list").Body(app.Range(r.Covers).Slice(func(i int) app.UI {
		c := r.Covers[i]
		words := []string{spares.Guess(percent(c.Likelihood.Probability), c.Likelihood.Guessed()) + " likely", string(c.Grade)}
		if len(c.Changes) > 0 {
			words = append(words, strings.Join(c.Changes, "; "))
		}
		words = append(words, c.Likelihood.Evidence, "without it "+spares.Guess(c.Without.String(), c.Guessed)+", with it "+spares.Guess(c.With.String(), c.Guessed))
		if c.Worth < 1 {
			words = append(words, worthWords(c))
		}
		if c.Town != "" {
			words = append(words, "from "+c.Town)
		}
		return openRow(link("/rig/position", "id", c.Position), c.Rig+": "+c.Title, strings.Join(words, " · "), "")
	})), app.P().Class("soft").Text(spares.GuessMeans+"."))
}

// worthWords say why a spare that is no drop-in counts for less.
func worthWords(c spares.Cover) string {
	why := "it was only said or seen to fit"
	if c.Grade == fieldkit.WithChanges || len(c.Changes) > 0 {
		why = "changes cost time and may not work out"
		if c.Worth < 0.5 {
			why += ", and it was only said or seen to fit"
		}
	}
	return "counts for " + spares.Guess(spares.Percent(c.Worth), true) + " of what a drop-in saves: " + why
}

// percent prints a probability without pretending to know it better than that.
func percent(p float64) string {
	switch {
	case p < 0.005:
		return "under 1 %"
	case p > 0.995:
		return "over 99 %"
	}
	return fmt.Sprintf("%.0f %%", p*100)
}

func (s *packLineScreen) home() app.UI {
	v := s.view
	if v.never {
		return button("quiet wide", "May come along again", "allow "+v.ref.Item, func(ctx app.Context) {
			s.around(ctx, "May come along: "+v.name, planAtOnce, func(p fieldkit.Pack) fieldkit.Pack { return spares.Allow(p, v.ref) })
		})
	}
	return button("danger wide", "Leave at home", "ban "+v.ref.Item, func(ctx app.Context) {
		s.around(ctx, "Left at home: "+v.name, planAtOnce, func(p fieldkit.Pack) fieldkit.Pack { return spares.Ban(p, v.ref) })
	})
}

func (s *packLineScreen) around(ctx app.Context, what string, plan planner, edit func(fieldkit.Pack) fieldkit.Pack) {
	around(ctx, s.view.trip.ID, what, plan, edit, func(_ app.Context, err error) { s.err = err })
}

// planner is planSoon or planAtOnce.
type planner func(trip, what string, then func(app.Context, error))

// around changes the list of a trip and plans the rest of it again around that.
func around(ctx app.Context, trip, what string, plan planner, edit func(fieldkit.Pack) fieldkit.Pack, then func(app.Context, error)) {
	changePack(ctx, trip, what, edit, func(ctx app.Context, err error) {
		if then(ctx, err); err == nil {
			plan(trip, what+"; planned again", then)
		}
	})
}

func (s *packLineScreen) change(ctx app.Context, what string, edit func(fieldkit.Pack) fieldkit.Pack) {
	changePack(ctx, s.view.trip.ID, what, edit, func(_ app.Context, err error) { s.err = err })
}
