package app

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// partEditScreen adds a part, or changes one: what it is, where it came from, its
// numbers, its measurements and what passes for it. Opened for a position, a new
// part is fitted there when it is saved.
type partEditScreen struct {
	app.Compo
	form  *form
	kit   fieldkit.Kit
	cat   fieldkit.Catalog
	id    string // of the part being changed, none when adding
	at    string // of the position it was opened for, none otherwise
	view  partEditView
	shown map[string]bool // rows of the record that are unfolded
}

// partEditView is what the screen draws besides the form.
type partEditView struct {
	missing  bool // the address names a part that is not in the kit
	part     fieldkit.Part
	position fieldkit.Position
	fitted   []fieldkit.Position
	canSplit bool // it is fitted here and elsewhere too
	uses     []use
	links    []linkRow
}

func (s *partEditScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *partEditScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *partEditScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	s.kit, s.cat = kept.kit(), data.Catalog()
	id, at := param(ctx, "id"), param(ctx, "position")
	s.view = viewPartEdit(s.kit, id, at)
	fields := partFields(s.view.part, id != "", s.view.position, kept.first())
	if s.form != nil && s.id == id && s.at == at {
		follow(s.form, fields)
		return
	}
	s.id, s.at, s.shown = id, at, map[string]bool{}
	key := "part/" + id
	if id == "" {
		key = "part/new/" + at
	}
	s.form = newForm(key, fields)
	// Back from writing down a donor: it is the one that was meant.
	if d := param(ctx, "donor"); d != "" && (s.form.get("donor") == newDonor || s.form.get("donor") == "") {
		s.form.set("donor", d)
	}
}

func viewPartEdit(k fieldkit.Kit, id, at string) partEditView {
	v := partEditView{}
	v.position, _ = k.Position(at)
	if id == "" {
		return v
	}
	var ok bool
	if v.part, ok = k.Part(id); !ok {
		v.missing = true
		return v
	}
	v.fitted = k.FittedAt(id)
	v.canSplit = v.position.Part == id && len(v.fitted) > 1
	v.uses = partUses(k, id)
	v.links = linksOf(k, id)
	return v
}

func (s *partEditScreen) Render() app.UI {
	title := "Add a part"
	if s.id != "" {
		title = "Edit part"
	}
	p := page{title: title, dest: "/rig", back: s.back()}
	if s.form == nil {
		return frame(p)
	}
	if s.view.missing {
		p.body = []app.UI{emptyLine("There is no such part in this kit. It may have been deleted, or the link is for another kit.")}
		return frame(p)
	}
	if s.view.position.ID != "" {
		p.sub = "for " + s.view.position.Title()
	}
	f := s.form
	kind, _ := s.cat.PartKind(f.get("kind"))
	p.body = []app.UI{
		f.restoredNotice(),
		s.fittedNotice(),
		section("What it is",
			f.text("name", "Name", "what you would call it at a counter"),
			f.choose("kind", "Kind of part", "", "", kindOptions(s.cat)),
			app.If(kind.Caution != "", func() app.UI { return app.P().Class("note warn").Text(kind.Caution) }),
			f.choose("donor", "From donor", "the vehicle it came off, not the rig it is on", "not known yet",
				append([]option{{newDonor, "a donor not written down yet …"}}, donorOptions(s.kit)...)),
			app.If(f.get("donor") == newDonor, func() app.UI {
				return goTo("act wide", "Write down the donor, then come back", link("/rig/donor", "part", orNew(s.id), "position", s.at))
			}),
		),
		s.numbers(),
		s.deciding(kind),
		s.otherMeasurements(kind),
		s.lookAlikes(),
		section("At the counter and in the bin",
			f.area("buyWith", "Buy with it", "one a line, beyond what every "+orWord(kind.Name, "such part")+" needs"),
			f.amount("mass", "Weight of one as carried", typical(kind.Mass.Both(kept.first()), kind.Mass != 0), " kg", " g", " lb", " oz"),
			f.amount("volume", "Space one takes as packed", typical(kind.Volume.Both(kept.first()), kind.Volume != 0), " L", " mL", " qt"),
			f.text("price", "Price of one", "in "+s.kit.Currency),
			f.area("note", "Note", ""),
		),
		f.saving("Save part", s.save),
		s.interchange(),
		s.deleting(),
	}
	return frame(p)
}

func (s *partEditScreen) back() string {
	switch {
	case s.at != "":
		return link("/rig/position", "id", s.at)
	case len(s.view.fitted) > 0:
		return link("/rig/position", "id", s.view.fitted[0].ID)
	case s.id != "":
		return link("/counter/card", "part", s.id)
	}
	return link("/rig")
}

// orNew names a part that has no ID yet in an address.
func orNew(id string) string {
	if id == "" {
		return "new"
	}
	return id
}

func orWord(word, instead string) string {
	if word == "" {
		return instead
	}
	return word
}

// typical says what one of the kind usually is, where that is known.
func typical(amount string, known bool) string {
	if !known {
		return ""
	}
	return "typical: " + amount
}

// fittedNotice says where else a change will hold, and offers to part the two.
func (s *partEditScreen) fittedNotice() app.UI {
	v := s.view
	if len(v.fitted) == 0 {
		return app.Div().Hidden(true)
	}
	return app.Div().Class("note").Body(
		app.P().Text("Fitted at "+titles(v.fitted)+"."),
		app.If(len(v.fitted) > 1, func() app.UI { return app.P().Class("strong").Text(changesHold(s.kit, v.fitted)) }),
		app.If(v.canSplit, func() app.UI {
			return app.Div().Class("row").Body(
				button("quiet", "Make it a part of its own for this position", "split "+s.id+s.at, s.split))
		}),
	)
}

// changesHold says for which positions a change of the part holds.
func changesHold(k fieldkit.Kit, fitted []fieldkit.Position) string {
	if len(fitted) == 2 {
		if other, ok := k.Mirror(fitted[0]); ok && other.ID == fitted[1].ID {
			return "Changes here hold for both sides."
		}
	}
	return "Changes here hold for all of them."
}

func (s *partEditScreen) interchange() app.UI {
	if s.id == "" {
		return app.Div().Hidden(true)
	}
	return section("Interchange",
		linkList(s.view.links, s.at),
		goTo("quiet wide", "Add an interchange", link("/rig/link/edit", "part", s.id, "position", s.at)),
	)
}

func (s *partEditScreen) deleting() app.UI {
	if s.id == "" {
		return app.Div().Hidden(true)
	}
	if len(s.view.uses) > 0 {
		return section("Used by", app.P().Class("soft").Text("The part can be deleted once none of these needs it."), useList(s.view.uses))
	}
	return button("danger wide", "Delete part", "delete "+s.id, s.delete)
}

func (s *partEditScreen) save(ctx app.Context) {
	reading := partReading{s.kit, s.cat, kept.first(), today()}
	was, _ := s.kit.Part(s.id)
	part, ok := reading.read(s.form, was)
	if !ok {
		s.form.wrongAbove(ctx)
		return
	}
	isNew, at := s.id == "", s.at
	if isNew {
		part.ID = s.form.recordID()
	}
	s.form.keepWith(ctx, "Saved part: "+part.Name, part, func(e *journal.Edit) error {
		if isNew {
			fitIfEmpty(e, part.ID, at)
		}
		return nil
	}, s.saved(part.ID))
}

// saved opens where the part sits.
func (s *partEditScreen) saved(part string) func(app.Context) {
	at := s.at
	return func(ctx app.Context) {
		fitted := kept.kit().FittedAt(part)
		switch {
		case at != "":
			goOn(ctx, link("/rig/position", "id", at))
		case len(fitted) > 0:
			goOn(ctx, link("/rig/position", "id", fitted[0].ID))
		default:
			goOn(ctx, link("/counter/card", "part", part))
		}
	}
}

// fitIfEmpty fits a part at a position where nothing is known to be fitted.
func fitIfEmpty(e *journal.Edit, part, position string) {
	if p, ok := e.Kit().Position(position); ok && p.Part == "" {
		p.Part = part
		e.Put(p)
	}
}

// split makes a copy of the part, with what was typed, and fits it at this position
// only. What is fitted elsewhere stays as it was.
func (s *partEditScreen) split(ctx app.Context) {
	was, _ := s.kit.Part(s.id)
	part, ok := partReading{s.kit, s.cat, kept.first(), today()}.read(s.form, was)
	if !ok {
		s.form.wrongAbove(ctx)
		return
	}
	at := s.view.position
	part = ownCopy(part, was, at, s.form.recordID())
	s.form.edit(ctx, "A part of its own: "+part.Name, func(e *journal.Edit) error {
		return fitCopy(e, part, was.ID, at.ID)
	}, s.saved(part.ID))
}

// ownCopy is a part with an ID of its own; where the name was not changed, the
// side keeps the two apart.
func ownCopy(part, was fieldkit.Part, at fieldkit.Position, id string) fieldkit.Part {
	part.ID = id
	if part.Name == was.Name && at.Side != fieldkit.NoSide {
		part.Name += ", " + string(at.Side)
	}
	return part
}

// fitCopy keeps a copied part and fits it in place of the one it was copied from.
func fitCopy(e *journal.Edit, part fieldkit.Part, was, position string) error {
	p, ok := e.Kit().Position(position)
	if !ok || p.Part != was {
		return &fieldkit.Error{Kind: fieldkit.Conflict, What: "something else is fitted at this position by now", Do: "go back and look"}
	}
	p.Part = part.ID
	e.Put(part)
	e.Put(p)
	return nil
}

func (s *partEditScreen) delete(ctx app.Context) {
	part := s.view.part
	s.form.edit(ctx, "Deleted part: "+part.Name, func(e *journal.Edit) error {
		if uses := partUses(e.Kit(), part.ID); len(uses) > 0 {
			return stillUsed(part.Name, uses)
		}
		e.Delete(part.Collection(), part.ID)
		return nil
	}, to(link("/rig")))
}
