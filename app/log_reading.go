package app

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
)

// readingScreen writes down one wear reading, or corrects one.
type readingScreen struct {
	app.Compo
	form *form
	kit  fieldkit.Kit
	id   string
	at   string
}

func (s *readingScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *readingScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *readingScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	s.kit = kept.kit()
	id, at := param(ctx, "id"), param(ctx, "position")
	r, known := s.kit.Inspections.Find(id)
	fresh := readingFields(s.kit, data.Catalog(), r, known, at, kept.first(), today())
	if s.form != nil && s.id == id && s.at == at {
		follow(s.form, fresh)
		return
	}
	s.id, s.at = id, at
	s.form = newForm("reading/"+id+"/"+at, fresh)
}

func readingFields(k fieldkit.Kit, cat fieldkit.Catalog, r fieldkit.Inspection, known bool, at string, first fieldkit.System, day fieldkit.Date) map[string]string {
	if !known {
		fields := map[string]string{"on": day.String(), "position": at}
		if p, ok := k.Position(at); ok {
			rig, _ := k.RigOf(p)
			fields["odometer"] = amountText(rig.Odometer, first, fieldkit.ParseOdometer)
			if kind, ok := cat.PartKind(p.Kind); ok && kind.Wear != nil {
				fields["name"] = kind.Wear.Name
			}
		}
		return fields
	}
	return map[string]string{
		"on": r.On.String(), "position": r.Position, "name": r.Name, "value": valueText(r.Value, first), "how": r.How, "note": r.Note,
		"odometer": amountText(r.Odometer, first, fieldkit.ParseOdometer), "engineHours": wholeText(r.EngineHours), baseField: baseOf(r),
	}
}

// wear returns what wears on the part at the chosen position.
func (s *readingScreen) wear() *fieldkit.Wear {
	p, _ := s.kit.Position(s.form.get("position"))
	kind, _ := data.Catalog().PartKind(p.Kind)
	return kind.Wear
}

func (s *readingScreen) Render() app.UI {
	title := "Write a reading"
	if s.id != "" {
		title = "Reading"
	}
	if s.form == nil {
		return frame(page{title: title, dest: "/log", back: link("/log")})
	}
	if _, known := s.kit.Inspections.Find(s.id); s.id != "" && !known {
		return frame(page{title: title, dest: "/log", back: link("/log"), body: []app.UI{emptyLine("This reading is not in the log any more.")}})
	}
	f, hint, limit := s.form, "3/16 in, 4.8 mm, or a number", ""
	if w := s.wear(); w != nil {
		hint = w.How
		limit = "limit " + w.Limit.Both(kept.first()) + ": a starting guess; the maker's figure stands"
	}
	return frame(page{title: title, dest: "/log", back: link("/log"), body: []app.UI{
		f.restoredNotice(),
		chosenThen(f.choose("position", "Where on the rig", "", "choose …", positionOptions(s.kit, "", "")), s.positionChosen),
		f.text("name", "What is measured", "lining thickness, play, tread depth"),
		f.size("value", "Reading", hint),
		app.If(limit != "", func() app.UI { return app.P().Class("soft").Text(capital(limit)) }),
		f.text("how", "Measured with", "caliper, depth gauge, dial gauge"),
		f.date("on", "Date", today()),
		f.amount("odometer", "Odometer", "", " km", " mi"),
		f.whole("engineHours", "Engine hours", "if it has an hour meter"),
		f.area("note", "Note", ""),
		f.saving("Save", s.save),
		app.If(s.id != "", func() app.UI { return button("danger wide", "Delete reading", "delete "+s.id, s.delete) }),
	}})
}

// positionChosen fills in what is usually measured there.
func (s *readingScreen) positionChosen() {
	if w := s.wear(); w != nil && s.form.typed("name") == "" {
		s.form.put("name", w.Name)
	}
}

func (s *readingScreen) save(ctx app.Context) {
	r, ok := s.read()
	if !ok {
		s.form.wrongAbove(ctx)
		return
	}
	s.form.keep(ctx, "Reading: "+r.Name+" "+r.Value.Show(kept.first()), r, to(link("/log")))
}

func (s *readingScreen) read() (fieldkit.Inspection, bool) {
	f := s.form
	r, known := s.kit.Inspections.Find(s.id)
	if !known {
		r = fieldkit.Inspection{ID: f.recordID()}
	}
	ok := f.short()
	var err error
	if r.Position = f.get("position"); r.Position == "" {
		ok = f.refuse("position", badField("no position is chosen", "choose where it was measured")) && ok
	}
	if r.Name = f.typed("name"); r.Name == "" {
		ok = f.refuse("name", badField("it does not say what was measured", "write it in a word or two"))
	}
	dim := fieldkit.DimText
	if w := s.wear(); w != nil && w.Name == r.Name {
		dim = w.Limit.Dim
	}
	r.Value, err = fieldkit.ParseValueAs(f.typed("value"), dim, kept.first())
	ok = f.refuse("value", err) && ok
	r.On, err = f.dayOf("on", today())
	ok = f.refuse("on", err) && ok
	r.Odometer, err = optionalAmount(f.get("odometer"), kept.first(), fieldkit.ParseOdometer)
	ok = f.refuse("odometer", err) && ok
	r.EngineHours, err = optionalWhole(f.get("engineHours"), 0, fieldkit.MaxEngineHours)
	ok = f.refuse("engineHours", err) && ok
	r.How, r.Note = f.typed("how"), f.typed("note")
	return r, ok
}

func (s *readingScreen) delete(ctx app.Context) {
	r, _ := s.kit.Inspections.Find(s.id)
	s.form.drop(ctx, "Deleted reading: "+r.Name, r, to(link("/log")))
}
