package app

import (
	"fmt"
	"maps"
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// rigEditScreen adds a rig, or changes one: its name, what the papers say, its
// odometer and tyres, and how it is built where repairs differ.
type rigEditScreen struct {
	app.Compo
	form   *form
	kit    fieldkit.Kit
	cat    fieldkit.Catalog
	id     string // none when adding
	rig    fieldkit.Rig
	found  bool
	onIt   onRig
	asking bool // the second tap on delete is awaited
}

// Ways to begin a rig.
const (
	beginBlank = "blank" // with the usual systems and positions, to fill in
	beginEmpty = "empty"
)

func (s *rigEditScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *rigEditScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *rigEditScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	s.kit, s.cat = kept.kit(), data.Catalog()
	id := param(ctx, "id")
	s.rig, s.found = s.kit.Rig(id)
	s.onIt = findOnRig(s.kit, id)
	fields := rigFields(s.rig, s.found, s.cat, kept.first())
	if s.form != nil && s.id == id {
		follow(s.form, fields)
		return
	}
	s.id, s.asking = id, false
	s.form = newForm("rig/"+id, fields)
}

func traitField(id string) string { return "trait/" + id }

func rigFields(r fieldkit.Rig, known bool, cat fieldkit.Catalog, first fieldkit.System) map[string]string {
	if !known {
		return map[string]string{"begin": beginBlank}
	}
	fields := map[string]string{
		baseField: baseOf(r), "name": r.Name, "papers": r.Registration, "odometerOn": r.OdometerOn.String(), "tyre": r.Tyre, "note": r.Note,
		"odometer": amountText(r.Odometer, first, fieldkit.ParseOdometer), "figures": figureLines(r.Figures), "contacts": contactLines(r.Contacts),
	}
	if r.EngineHours != 0 {
		fields["engineHours"], fields["engineHoursOn"] = itoa(r.EngineHours), r.EngineHoursOn.String()
	}
	if r.Oversize != 0 {
		fields["oversize"] = strconv.Itoa(r.Oversize)
	}
	for _, t := range cat.Traits {
		if v := r.Traits[t.ID]; v != "" {
			fields[traitField(t.ID)] = v
		}
	}
	return fields
}

func (s *rigEditScreen) Render() app.UI {
	p := page{title: "Add a rig", dest: "/rig", back: link("/rig", "rig", s.id)}
	if s.id != "" {
		p.title = "About this rig"
	}
	if s.form == nil {
		return frame(p)
	}
	if s.id != "" && !s.found {
		p.body = []app.UI{emptyLine("There is no such rig in this kit. It may have been deleted, or the link is for another kit.")}
		return frame(p)
	}
	f := s.form
	p.sub = s.rig.Name
	p.body = []app.UI{
		f.restoredNotice(),
		section("The rig",
			f.text("name", "Name", "what the crew calls it"),
			f.text("papers", "What the papers say", "make, model and year: the wrong thing to ask for at a counter"),
			f.amount("odometer", "Odometer", "120 km or 75 mi", " km", " mi"),
			f.date("odometerOn", "Read on", today()),
			f.whole("engineHours", "Hour meter", "whole hours of the engine, if there is a meter"),
			f.date("engineHoursOn", "Hour meter read on", today()),
			f.text("tyre", "Tyre", "as on the sidewall: 37x12.50R17 or 315/70R17"),
			f.whole("oversize", "Tyre over the size the axles were built for, in per cent", "0 if it is that size; more wears joints and bearings faster"),
			f.area("note", "Note", ""),
		),
		app.If(s.id == "", func() app.UI { return s.begin() }),
		s.inNeed(),
		s.traits(),
		f.saving("Save rig", s.save),
		s.deleting(),
	}
	return frame(p)
}

func (s *rigEditScreen) begin() app.UI {
	return section("Begin with",
		s.form.pick("begin", "Systems and positions", []option{{beginBlank, "the usual ones, to fill in"}, {beginEmpty, "none"}}),
		app.P().Class("soft").Text("Positions can be added, renamed and deleted later."),
	)
}

// traits asks how the rig is built: each question says how to find out.
func (s *rigEditScreen) traits() app.UI {
	known := 0
	var body []app.UI
	for _, t := range s.cat.Traits {
		if s.form.get(traitField(t.ID)) != "" {
			known++
		}
		options := []option{{"", "not known"}}
		for _, o := range t.Options {
			options = append(options, option{o, o})
		}
		name := traitField(t.ID)
		body = append(body, app.Div().Class("field rowform").Body(
			app.Span().Class("label").Text(capital(t.Name)),
			app.P().Class("hint").Text(t.Ask),
			choice(t.Name, s.form.key+name, s.form.get(name), withPresent(s.form.start[name], options), func(_ app.Context, v string) { s.form.set(name, v) }),
		))
	}
	return app.Details().Class("group").Body(
		app.Summary().Body(app.Text("How it is built"), app.Span().Class("count").Text(fmt.Sprintf("%d of %d known", known, len(s.cat.Traits)))),
		app.Div().Class("in block").Body(append([]app.UI{app.P().Class("soft").Text("Repairs and the question whether it can roll go by this. Crawl under and look; not known is better than a guess.")}, body...)...),
	)
}

func (s *rigEditScreen) deleting() app.UI {
	if s.id == "" {
		return app.Div().Hidden(true)
	}
	if !s.asking {
		return button("danger wide", "Delete rig", "delete "+s.id, func(ctx app.Context) {
			if s.onIt.empty() {
				s.delete(ctx)
				return
			}
			s.asking = true
			intoSight(ctx, ".work .asks")
		})
	}
	return app.Div().Class("note bad asks").Role("alert").Body(
		app.P().Class("strong").Text("The rig goes with "+s.onIt.words()+"."),
		app.P().Text("Parts, donors and stock stay. One undo brings all of it back."),
		app.Div().Class("row").Body(
			button("danger", "Delete the rig with "+s.onIt.brief(), "really "+s.id, s.delete),
			button("quiet", "Keep it", "keep "+s.id, func(app.Context) { s.asking = false }),
		),
	)
}

// readRig makes a rig of what was typed; every wrong field is marked.
func readRig(f *form, r fieldkit.Rig, cat fieldkit.Catalog, first fieldkit.System, today fieldkit.Date) (fieldkit.Rig, bool) {
	ok := f.short()
	if r.Name = f.typed("name"); r.Name == "" {
		ok = f.refuse("name", badField("the rig has no name", "write what the crew calls it")) && ok
	}
	r.Registration, r.Tyre, r.Note = f.typed("papers"), f.typed("tyre"), f.typed("note")
	was := r.Odometer
	var err error
	r.Odometer, err = optionalAmount(f.get("odometer"), first, fieldkit.ParseOdometer)
	ok = f.refuse("odometer", err) && ok
	r.OdometerOn, err = f.pastDate("odometerOn", today)
	ok = f.refuse("odometerOn", err) && ok
	if r.Odometer != was && f.get("odometerOn") == f.start["odometerOn"] {
		r.OdometerOn = today // a new reading with the old date left standing was taken now
	}
	hours := r.EngineHours
	r.EngineHours, err = optionalWhole(f.get("engineHours"), 0, fieldkit.MaxEngineHours)
	ok = f.refuse("engineHours", err) && ok
	r.EngineHoursOn, err = f.pastDate("engineHoursOn", today)
	ok = f.refuse("engineHoursOn", err) && ok
	if r.EngineHours != hours && f.get("engineHoursOn") == f.start["engineHoursOn"] {
		r.EngineHoursOn = today
	}
	r.Oversize, err = optionalWhole(f.get("oversize"), -50, 200)
	ok = f.refuse("oversize", err) && ok
	r.Figures, err = readFigures(untabbed(f.get("figures")), r.Figures)
	ok = f.refuse("figures", err) && ok
	r.Contacts, err = readContacts(untabbed(f.get("contacts")), r.Contacts)
	ok = f.refuse("contacts", err) && ok
	r.Traits = maps.Clone(r.Traits)
	for _, t := range cat.Traits {
		if v := f.get(traitField(t.ID)); v != "" {
			if r.Traits == nil {
				r.Traits = map[string]string{}
			}
			r.Traits[t.ID] = v
		} else {
			delete(r.Traits, t.ID)
		}
	}
	return r, ok
}

func (s *rigEditScreen) save(ctx app.Context) {
	r, ok := readRig(s.form, s.rig, s.cat, kept.first(), today())
	if !ok {
		s.form.wrongAbove(ctx)
		return
	}
	var begin fieldkit.Kit
	if s.id == "" {
		r.ID = s.form.recordID()
		if s.form.get("begin") == beginBlank {
			begin = blankFor(data.BlankKit(r.ID), r.ID)
		}
	}
	s.form.keepWith(ctx, "Saved rig: "+r.Name, r, func(e *journal.Edit) error {
		putBeginning(e, begin)
		return nil
	}, to(link("/rig", "rig", r.ID)))
}

func (s *rigEditScreen) delete(ctx app.Context) {
	r := s.rig
	s.asking = false
	s.form.edit(ctx, "Deleted rig: "+r.Name, func(e *journal.Edit) error {
		deleteRig(e, r.ID)
		return nil
	}, to(link("/rig")))
}
