package app

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/repair"
)

// failureScreen writes down a failure, or corrects one. What was used is taken
// from stock in the same action, what was taken too much is put back.
type failureScreen struct {
	app.Compo
	form     *form
	photos   *photoRoll
	kit      fieldkit.Kit
	id       string // of the entry being corrected, none when adding
	at       string // position it was opened for
	told     string // of the search for the place
	placeErr error
	stock    []option // what can be taken from stock
}

func (s *failureScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *failureScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *failureScreen) OnDismount() {
	if s.photos != nil {
		s.photos.drop()
	}
}

func (s *failureScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	s.kit = kept.kit()
	s.stock = kept.takeable.of(s.kit)
	id, at := param(ctx, "id"), param(ctx, "position")
	f, known := s.kit.Failures.Find(id)
	fresh := failureFields(s.kit, f, known, at, kept.first(), today())
	if s.form != nil && s.id == id && s.at == at {
		follow(s.form, fresh)
		return
	}
	s.id, s.at, s.placeErr, s.told = id, at, nil, ""
	s.form = newForm("failure/"+id+"/"+at, fresh)
	if s.photos != nil {
		s.photos.drop()
	}
	s.photos = newPhotoRoll(ctx, photosKey(id, at), f.Photos)
}

// photosKey is where photos that are not saved yet are remembered.
func photosKey(id, at string) string { return draftKey("photos/failure/" + id + "/" + at) }

func failureFields(k fieldkit.Kit, f fieldkit.Failure, known bool, at string, first fieldkit.System, day fieldkit.Date) map[string]string {
	if !known {
		p, _ := k.Position(at)
		rig, ok := k.RigOf(p)
		if !ok && len(k.Rigs) > 0 {
			rig = k.Rigs[0]
		}
		trip, _ := k.TripOn(rig.ID, day)
		return map[string]string{
			"on": day.String(), "rig": rig.ID, "position": at, "trip": trip.ID,
			"odometer": amountText(rig.Odometer, first, fieldkit.ParseOdometer),
		}
	}
	fields := map[string]string{
		"on": f.On.String(), "rig": f.Rig, "position": f.Position, "trip": f.Trip,
		"odometer": amountText(f.Odometer, first, fieldkit.ParseOdometer),
		"what":     f.What, "mode": string(f.Mode), "conditions": f.Conditions, "why": f.Why, "fix": f.Fix, "place": f.Place.Text, baseField: baseOf(f),
	}
	if f.Place.HasFix() {
		fields["fix at"] = fixText(f.Place)
	}
	if !f.Before.IsZero() {
		fields["before"] = valueText(f.Before, first)
	}
	if f.Lost > 0 {
		fields["lost"] = f.Lost.String()
	}
	fillRows(fields, "used", f.Used, usedCells)
	return fields
}

func (s *failureScreen) Render() app.UI {
	title := "Log a failure"
	if s.id != "" {
		title = "Failure"
	}
	if s.form == nil {
		return frame(page{title: title, dest: "/log", back: link("/log")})
	}
	if _, known := s.kit.Failures.Find(s.id); s.id != "" && !known {
		return frame(page{title: title, dest: "/log", back: link("/log"), body: []app.UI{
			emptyLine("This entry is not in the log any more."),
		}})
	}
	f := s.form
	return frame(page{title: title, dest: "/log", back: link("/log"), body: []app.UI{
		f.restoredNotice(),
		f.text("what", "What broke", "axle U-joint seized, left"),
		app.If(len(s.kit.Rigs) > 1, func() app.UI {
			return app.Div().Class("field").Body(app.Span().Class("label").Text("Rig"),
				choice("Rig", f.key+"rig", f.get("rig"), rigOptions(s.kit), func(_ app.Context, rig string) { chooseRig(s.kit, f, rig) }))
		}),
		f.choose("position", "Where on the rig", "", "not said", positionOptions(s.kit, f.get("rig"), "")),
		f.choose("mode", "How it failed", "", "not said", modeOptions()),
		f.date("on", "Date", today()),
		f.amount("odometer", "Odometer", "", " km", " mi"),
		s.placeBlock(),
		f.area("why", "Why", "worn, hit, water, fitted wrongly …"),
		f.text("conditions", "What the rig was doing", "low range, second gear, climbing wet rock"),
		f.size("before", "Last reading before", "4.8 mm, 3/16 in, or a number"),
		f.area("fix", "Fix", "what got it going again"),
		s.used(),
		f.amount("lost", "Time lost", lostHint(f.typed("lost")), " h", " min"),
		f.choose("trip", "Trip", "", "none", tripOptions(s.kit)),
		section("Photos", s.photos.draw()),
		f.saving("Save", s.save),
		app.If(s.id != "", func() app.UI { return button("danger wide", "Delete entry", "delete "+s.id, s.delete) }),
	}})
}

func modeOptions() (list []option) {
	for _, m := range fieldkit.Modes {
		list = append(list, option{string(m), string(m)})
	}
	return list
}

// lostHint says how a span of time is read while it is typed: a bare number is
// hours.
func lostHint(typed string) string {
	if m, err := fieldkit.ParseMinutes(typed); err == nil {
		return "read as " + m.String()
	}
	return "2 h 30 min, 2:30 or 1.5 h"
}

// chooseRig takes a rig, and lets go of a position that is on another one.
func chooseRig(k fieldkit.Kit, f *form, rig string) {
	f.set("rig", rig)
	if p, ok := k.Position(f.get("position")); ok {
		if on, _ := k.RigOf(p); on.ID != rig {
			f.put("position", "")
		}
	}
}

func (s *failureScreen) placeBlock() app.UI {
	fix := placeOf(s.form)
	return app.Div().Class("block").Body(
		s.form.text("place", "Place", "in words: second ford below the mine"),
		button("quiet wide", "Take this phone's position", "place", s.findPlace),
		app.If(s.told != "", func() app.UI { return app.P().Class("note").Role("status").Text(s.told) }),
		problem(s.placeErr),
		app.If(fix.HasFix(), func() app.UI {
			return app.P().Class("note figures").Body(app.Text(placeWords(fix)+" "),
				button("link", "Remove", "no place", func(app.Context) { s.form.set("fix at", "") }))
		}),
	)
}

func (s *failureScreen) findPlace(ctx app.Context) {
	f := s.form
	s.told, s.placeErr = "Looking for the position … You can go on meanwhile.", nil
	findPlace(ctx, func(_ app.Context, p fieldkit.Place, err error) {
		s.told, s.placeErr = "", err
		if err == nil {
			f.set("fix at", fixText(p))
		}
	})
}

func (s *failureScreen) save(ctx app.Context) {
	entry, ok := s.read()
	if !ok {
		s.form.wrongAbove(ctx)
		return
	}
	roll := s.photos
	s.form.keepWith(ctx, "Logged: "+entry.What, entry, func(e *journal.Edit) error {
		before, _ := e.Kit().Failures.Find(entry.ID)
		changed, _ := repair.Adjust(e.Kit(), before.Used, entry.Used)
		for _, r := range changed {
			e.Put(r)
		}
		return nil
	}, func(ctx app.Context) {
		if len(kept.leftOut) > 0 {
			roll.passOn(photosKey(entry.ID, ""))
		} else {
			roll.done()
		}
		goOn(ctx, link("/log"))
	}, roll.blobs()...)
}

// read makes an entry of what was typed; every wrong field is marked.
func (s *failureScreen) read() (fieldkit.Failure, bool) {
	f := s.form
	entry, known := s.kit.Failures.Find(s.id)
	if !known {
		entry = fieldkit.Failure{ID: f.recordID(), At: now()}
	}
	ok := f.short()
	var err error
	if entry.What = f.typed("what"); entry.What == "" {
		ok = f.refuse("what", badField("it does not say what broke", "write it in a few words")) && ok
	}
	if entry.Rig = f.get("rig"); entry.Rig == "" {
		ok = f.refuse("what", badField("there is no rig in this kit yet", "add one under Rig first"))
	}
	moved := !known || entry.Position != f.get("position")
	entry.Position, entry.Trip = f.get("position"), f.get("trip")
	p, there := s.kit.Position(entry.Position)
	if rig, found := s.kit.RigOf(p); there && found {
		entry.Rig = rig.ID
	}
	if moved {
		entry.Part = p.Part // what sits there now; of an old entry another part may have broken
	}
	if entry.On, err = f.dayOf("on", today()); err != nil {
		ok = f.refuse("on", err)
	}
	entry.Odometer, err = optionalAmount(f.get("odometer"), kept.first(), fieldkit.ParseOdometer)
	ok = f.refuse("odometer", err) && ok
	entry.Mode, entry.Conditions = fieldkit.Mode(f.get("mode")), f.typed("conditions")
	entry.Before, err = readBefore(f.typed("before"), entry.Before, kept.first())
	ok = f.refuse("before", err) && ok
	entry.Lost = 0
	if text := f.typed("lost"); text != "" {
		entry.Lost, err = fieldkit.ParseMinutes(text)
		ok = f.refuse("lost", err) && ok
	}
	entry.Place = placeOf(f)
	entry.Place.Text = f.typed("place")
	entry.Why, entry.Fix = f.typed("why"), f.typed("fix")
	entry.Used = nil
	for _, key := range f.rows("used") {
		if item := readUsed(f, key); item.Count > 0 {
			entry.Used = append(entry.Used, item)
		}
	}
	entry.Photos = s.photos.hashes()
	return entry, ok
}

// readBefore reads the last reading before the failure: as what the kit already holds
// there, else as whatever the text says. A bare number is a count.
func readBefore(text string, before fieldkit.Value, first fieldkit.System) (fieldkit.Value, error) {
	switch {
	case text == "":
		return fieldkit.Value{}, nil
	case !before.IsZero():
		if v, err := fieldkit.ParseValueAs(text, before.Dim, first); err == nil {
			return v, nil
		}
	}
	return fieldkit.ParseValue(text)
}

func (s *failureScreen) delete(ctx app.Context) {
	id, roll := s.id, s.photos
	entry, _ := s.kit.Failures.Find(id)
	s.form.edit(ctx, "Deleted from the log: "+entry.What, func(e *journal.Edit) error {
		now, known := e.Kit().Failures.Find(id)
		if !known {
			return nil
		}
		changed, _ := repair.Adjust(e.Kit(), now.Used, nil)
		for _, r := range changed {
			e.Put(r)
		}
		for _, run := range e.Kit().Runs {
			if run.Failure == id {
				run.Failure = ""
				e.Put(run)
			}
		}
		e.Delete(now.Collection(), id)
		return nil
	}, func(ctx app.Context) {
		roll.done()
		goOn(ctx, link("/log"))
	})
}

func tripOptions(k fieldkit.Kit) []option {
	var list []option
	for i := len(k.Trips) - 1; i >= 0; i-- {
		list = append(list, option{k.Trips[i].ID, k.Trips[i].Name})
	}
	return list
}
