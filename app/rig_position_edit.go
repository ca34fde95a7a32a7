package app

import (
	"fmt"
	"slices"
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// positionEditScreen adds a position, or changes one: where it is, what kind of
// part sits there, which part is fitted and how that was proven.
type positionEditScreen struct {
	app.Compo
	form *form
	kit  fieldkit.Kit
	cat  fieldkit.Catalog
	id   string // of the position being changed, none when adding
	rig  string
	err  error
}

func (s *positionEditScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *positionEditScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *positionEditScreen) load(ctx app.Context) {
	if kept.phase != open {
		return // a form made before the kit is there would start empty
	}
	s.kit, s.cat = kept.kit(), kept.catalog
	id, rig := param(ctx, "id"), param(ctx, "rig")
	p, ok := s.kit.Position(id)
	if ok {
		if on, found := s.kit.RigOf(p); found {
			rig = on.ID
		}
	}
	if s.form != nil && s.id == id && s.rig == rig {
		return // the kit changed underneath: what is typed stays
	}
	s.id, s.rig = id, rig
	s.form = newForm("position/"+id+"/"+rig, positionFields(p, ok, kept.first()))
}

func positionFields(p fieldkit.Position, known bool, first fieldkit.System) map[string]string {
	if !known {
		return map[string]string{"quantity": "1"}
	}
	fields := map[string]string{
		"name": p.Name, "system": p.System, "parent": p.Parent, "side": string(p.Side), "kind": p.Kind,
		"quantity": strconv.Itoa(p.Quantity), "part": p.Part, "fitted": p.Fitted.String(), "note": p.Note,
	}
	if p.FittedAt > 0 {
		fields["fittedAt"] = p.FittedAt.Show(first)
	}
	if p.Proof != nil {
		fields["how"], fields["by"] = string(p.Proof.How), p.Proof.By
	}
	return fields
}

const newPart = "new" // chosen in place of a part: it is written down next

func (s *positionEditScreen) Render() app.UI {
	title, back := "Add a position", link("/rig", "rig", s.rig)
	if s.id != "" {
		title, back = "Edit position", link("/rig/position", "id", s.id)
	}
	if s.form == nil {
		return frame(page{title: title, dest: "/rig"})
	}
	f := s.form
	return frame(page{title: title, dest: "/rig", back: back, body: []app.UI{
		f.restoredNotice(),
		section("Where",
			f.text("name", "Name of the position", "without the side: wheel bearing, outer"),
			chosenThen(f.choose("system", "System", "", "", systemOptions(s.kit, s.rig)), s.systemChosen),
			f.pick("side", "Side, seen from the driver's seat", []option{{"", "none"}, {"left", "left"}, {"right", "right"}, {"centre", "centre"}}),
			f.choose("parent", "Belongs under", "for parts of a wheel end or an axle", "nothing", parentOptions(s.kit, f.get("system"), s.id)),
			f.choose("kind", "Kind of part", "", "", kindOptions(s.cat)),
			f.whole("quantity", "Pieces here", ""),
		),
		section("What is fitted",
			f.choose("part", "Part", "a part on both sides is one part at two positions", "not known yet", s.partOptions()),
			f.date("fitted", "Fitted on", today()),
			f.amount("fittedAt", "Odometer when fitted", "120 km or 75 mi", " km", " mi"),
			f.choose("how", "How do you know it sits here", "", "not proven yet", evidenceOptions()),
			f.text("by", "Who proved it", ""),
			f.area("note", "Note", ""),
		),
		problem(s.err),
		f.saving("Save position", s.save),
		s.order(),
	}})
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
	}, func(_ app.Context, err error) { s.err = err })
}

func (s *positionEditScreen) partOptions() []option {
	list := []option{{newPart, "a part not written down yet …"}}
	kind := s.form.get("kind")
	for _, same := range []bool{true, false} {
		for _, p := range s.kit.Parts {
			if (p.Kind == kind) == same {
				list = append(list, option{p.ID, p.Name})
			}
		}
	}
	return list
}

func (s *positionEditScreen) save(ctx app.Context) {
	p, ok := s.read()
	if !ok {
		s.err = showWrong(ctx)
		return
	}
	isNew, writePart := s.id == "", s.form.get("part") == newPart
	what := "Saved position: " + p.Title()
	kept.do(ctx, what, func(e *journal.Edit) error {
		putPosition(e, p)
		return nil
	}, func(ctx app.Context, err error) {
		if s.err = err; err != nil {
			return
		}
		s.form.done()
		switch {
		case writePart:
			goOn(ctx, link("/rig/part/edit", "position", p.ID))
		case isNew:
			goOn(ctx, link("/rig/position", "id", p.ID))
		default:
			goOn(ctx, link("/rig/position", "id", s.id))
		}
	})
}

// read makes a position of what was typed; every wrong field is marked.
func (s *positionEditScreen) read() (fieldkit.Position, bool) {
	f := s.form
	p, known := s.kit.Position(s.id)
	if !known {
		p = fieldkit.Position{ID: newID(), Order: len(s.kit.Positions)}
	}
	ok := f.short()
	if p.Name = f.get("name"); p.Name == "" {
		ok = f.refuse("name", badField("the position has no name", "write what people call it")) && ok
	}
	if p.System = f.get("system"); p.System == "" {
		ok = f.refuse("system", badField("no system is chosen", "choose one, or add one under Systems")) && ok
	}
	if p.Kind = f.get("kind"); p.Kind == "" {
		ok = f.refuse("kind", badField("no kind is chosen", "choose what sits here")) && ok
	}
	n, err := wholeNumber(f.get("quantity"), 1, 999)
	ok = f.refuse("quantity", err) && ok
	p.Quantity = n
	p.Side, p.Parent, p.Note = fieldkit.Side(f.get("side")), f.get("parent"), f.get("note")
	if !offers(parentOptions(s.kit, p.System, s.id), p.Parent) {
		p.Parent = "" // it belonged under something of the system it has left
	}
	if p.Part = f.get("part"); p.Part == newPart {
		p.Part = ""
	}
	p.Fitted, err = optionalDate(f.get("fitted"))
	ok = f.refuse("fitted", err) && ok
	p.FittedAt, err = optionalDistance(f.get("fittedAt"), kept.first())
	ok = f.refuse("fittedAt", err) && ok
	p.Proof = proofOf(p.Proof, f.get("how"), f.get("by"))
	return p, ok
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

func optionalDate(text string) (fieldkit.Date, error) {
	if text == "" {
		return fieldkit.Date{}, nil
	}
	return fieldkit.ParseDate(text)
}

func optionalDistance(text string, first fieldkit.System) (fieldkit.Distance, error) {
	if text == "" {
		return 0, nil
	}
	return fieldkit.ParseDistance(text, first)
}
