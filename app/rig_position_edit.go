package app

import (
	"fmt"
	"slices"
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// positionEditScreen adds a position, or changes one: where it is, what kind of
// part sits there, which part is fitted and how that was proven.
type positionEditScreen struct {
	app.Compo
	form    *form
	kit     fieldkit.Kit
	cat     fieldkit.Catalog
	id      string // of the position being changed, none when adding
	rig     string
	fitted  bool // asked what is fitted: that stands first
	missing bool // the address names a position that is not in the kit

	parts    []option // what can be fitted, for the kind chosen when they were gathered
	partsFor string
}

func (s *positionEditScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *positionEditScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *positionEditScreen) load(ctx app.Context) {
	if kept.phase != open {
		return // a form made before the kit is there would start empty
	}
	s.kit, s.cat, s.parts = kept.kit(), data.Catalog(), nil
	id, rig := param(ctx, "id"), param(ctx, "rig")
	p, ok := s.kit.Position(id)
	if ok {
		if on, found := s.kit.RigOf(p); found {
			rig = on.ID
		}
	}
	s.fitted = param(ctx, "what") == whatFitted
	s.missing = id != "" && !ok
	if s.missing && s.form != nil && s.id == id {
		return
	}
	fields := positionFields(p, ok, kept.first())
	if s.form != nil && s.id == id && s.rig == rig {
		follow(s.form, fields)
		return
	}
	s.id, s.rig = id, rig
	s.form = newForm("position/"+id+"/"+rig, fields)
}

// whatFitted in the address opens the form at what is fitted.
const whatFitted = "fitted"

const newPart = "new" // chosen in place of a part: it is written down next

func (s *positionEditScreen) Render() app.UI {
	title, back := "Add a position", link("/rig", "rig", s.rig)
	if s.id != "" {
		title, back = "Edit position", link("/rig/position", "id", s.id)
	}
	if s.form == nil {
		return frame(page{title: title, dest: "/rig"})
	}
	if s.missing {
		return frame(page{title: title, dest: "/rig", back: link("/rig"), body: []app.UI{
			emptyLine("There is no such position in this kit. It may have been deleted, or the link is for another kit."),
		}})
	}
	f := s.form
	p, _ := s.kit.Position(s.id)
	first, second := s.questions()
	return frame(page{title: title, sub: p.Title(), dest: "/rig", back: back, body: []app.UI{
		f.restoredNotice(), first, second, f.saving("Save position", s.save), s.order(),
	}})
}

// questions puts first what was asked for.
func (s *positionEditScreen) questions() (first, second app.UI) {
	if s.fitted {
		return s.whatIsFitted(), s.where()
	}
	return s.where(), s.whatIsFitted()
}

func (s *positionEditScreen) where() app.UI {
	f := s.form
	return section("Where",
		f.text("name", "Name of the position", "without the side: wheel bearing, outer"),
		chosenThen(f.choose("system", "System", "", "", systemOptions(s.kit, s.rig)), s.systemChosen),
		f.pick("side", "Side, seen from the driver's seat", []option{{"", "none"}, {"left", "left"}, {"right", "right"}, {"centre", "centre"}}),
		f.choose("parent", "Belongs under", "for parts of a wheel end or an axle", "nothing", parentOptions(s.kit, f.get("system"), s.id)),
		f.choose("kind", "Kind of part", "", "", kindOptions(s.cat)),
		f.whole("quantity", "Pieces here", ""),
	)
}

// whatIsFitted asks for the part. Where none is known, writing one down comes
// first: saving it fits it here.
func (s *positionEditScreen) whatIsFitted() app.UI {
	f := s.form
	p, known := s.kit.Position(s.id)
	return section("What is fitted",
		app.If(known && p.Part == "", func() app.UI {
			return goTo("act wide", "A part not written down yet", link("/rig/part/edit", "position", p.ID))
		}),
		f.choose("part", "Part", "a part on both sides is one part at two positions", "not known yet", s.partOptions()),
		f.date("fitted", "Fitted on", today()),
		f.amount("fittedAt", "Odometer when fitted", "120 km or 75 mi", " km", " mi"),
		f.choose("how", "How do you know it sits here", "", "not proven yet", evidenceOptions()),
		f.text("by", "Who proved it", ""),
		f.area("note", "Note", ""),
	)
}

// systemChosen lets go of a parent that is not in the system now chosen.
func (s *positionEditScreen) systemChosen() {
	f := s.form
	if f.get("parent") != "" && !offers(parentOptions(s.kit, f.get("system"), s.id), f.get("parent")) {
		f.put("parent", "")
	}
}

// order moves the position among those it is shown with.
func (s *positionEditScreen) order() app.UI {
	p, ok := s.kit.Position(s.id)
	if !ok {
		return app.Div().Hidden(true)
	}
	list := siblings(s.kit, p)
	i := slices.IndexFunc(list, func(q fieldkit.Position) bool { return q.ID == p.ID })
	system, _ := s.kit.System(p.System)
	within := system.Name
	if parent, ok := s.kit.Position(shownUnder(s.kit, p)); ok {
		within = parent.Title()
	}
	return section("Order",
		app.P().Text(fmt.Sprintf("%d of %d in %s. Saved at once.", i+1, len(list), within)),
		app.Div().Class("row").Body(
			moveButton("up", p.Title(), p.ID, i == 0, func(ctx app.Context) { s.move(ctx, -1) }),
			moveButton("down", p.Title(), p.ID, i == len(list)-1, func(ctx app.Context) { s.move(ctx, 1) }),
		),
	)
}

func (s *positionEditScreen) move(ctx app.Context, by int) {
	p, _ := s.kit.Position(s.id)
	kept.do(ctx, "Moved "+wayOf(by)+": "+p.Title(), func(e *journal.Edit) error {
		movePosition(e, p.ID, by)
		return nil
	}, func(_ app.Context, err error) { s.form.err = err })
}

// partOptions lists parts of the chosen kind first.
func (s *positionEditScreen) partOptions() []option {
	kind := s.form.get("kind")
	if s.parts != nil && s.partsFor == kind {
		return s.parts
	}
	list := []option{{newPart, "a part not written down yet …"}}
	for _, same := range []bool{true, false} {
		for _, p := range s.kit.Parts.Refs() {
			if (p.Kind == kind) == same {
				list = append(list, option{p.ID, p.Name})
			}
		}
	}
	s.parts, s.partsFor = list, kind
	return list
}

func (s *positionEditScreen) save(ctx app.Context) {
	was, known := s.kit.Position(s.id)
	if !known {
		was = fieldkit.Position{ID: s.form.recordID(), Order: s.kit.Positions.Len()}
	}
	p, ok := readPosition(s.form, was, s.kit, kept.first(), today())
	if !ok {
		s.form.wrongAbove(ctx)
		return
	}
	base, next := s.form.get(baseField), link("/rig/position", "id", p.ID)
	if s.form.get("part") == newPart {
		next = link("/rig/part/edit", "position", p.ID)
	}
	s.form.edit(ctx, "Saved position: "+p.Title(), func(e *journal.Edit) error {
		return savePosition(e, base, p)
	}, to(next))
}

// savePosition keeps a position that was read from a form begun at base.
func savePosition(e *journal.Edit, base string, p fieldkit.Position) error {
	now, there := e.Kit().Position(p.ID)
	if err := unchanged(base, anyOrder(now), there, anyOrder(p)); err != nil {
		return err
	}
	if there {
		p.Order = now.Order
	}
	putPosition(e, p)
	return nil
}

// anyOrder leaves the order out of what a form began with: moving a position is
// saved at once and is no change of what is typed.
func anyOrder(p fieldkit.Position) fieldkit.Position {
	p.Order = 0
	return p
}

// proofOf changes a proof by what was chosen, dating a new one today.
func proofOf(old *fieldkit.Proof, how, by string) *fieldkit.Proof {
	if how == "" {
		return nil
	}
	if old != nil && string(old.How) == how && old.By == by {
		return old
	}
	return &fieldkit.Proof{How: fieldkit.Evidence(how), By: by, On: today()}
}

func offers(options []option, value string) bool {
	return slices.ContainsFunc(options, func(o option) bool { return o.value == value })
}

func badField(what, do string) error {
	return &fieldkit.Error{Kind: fieldkit.BadInput, What: what, Do: do}
}

// wholeNumber reads a whole number within bounds.
func wholeNumber(text string, least, most int) (int, error) {
	n, err := strconv.Atoi(text)
	if err != nil || n < least || n > most {
		return 0, badField(fmt.Sprintf("%q is not a whole number from %d to %d", text, least, most), "write a number")
	}
	return n, nil
}
