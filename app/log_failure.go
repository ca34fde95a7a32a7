package app

import (
	"fmt"
	"slices"
	"strings"

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
	err      error
	busy     bool
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
	id, at := param(ctx, "id"), param(ctx, "position")
	f, known := fieldkit.Find(s.kit.Failures, id)
	fresh := failureFields(s.kit, f, known, at, kept.first(), today())
	if s.form != nil && s.id == id && s.at == at {
		follow(s.form, fresh)
		return
	}
	s.id, s.at, s.err, s.placeErr, s.told = id, at, nil, nil, ""
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
		return map[string]string{
			"on": day.String(), "rig": rig.ID, "position": at, "trip": tripOn(k, day),
			"odometer": amountText(rig.Odometer, first, fieldkit.ParseOdometer),
		}
	}
	fields := map[string]string{
		"on": f.On.String(), "rig": f.Rig, "position": f.Position, "trip": f.Trip,
		"odometer": amountText(f.Odometer, first, fieldkit.ParseOdometer),
		"what":     f.What, "why": f.Why, "fix": f.Fix, "place": f.Place.Text, baseField: baseOf(f),
	}
	if f.Place.HasFix() {
		fields["fix at"] = fixText(f.Place)
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
	if _, known := fieldkit.Find(s.kit.Failures, s.id); s.id != "" && !known {
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
		f.date("on", "Date", today()),
		f.amount("odometer", "Odometer", "", " km", " mi"),
		s.placeBlock(),
		f.area("why", "Why", "worn, hit, water, fitted wrongly …"),
		f.area("fix", "Fix", "what got it going again"),
		s.used(),
		f.amount("lost", "Time lost", lostHint(f.typed("lost")), " h", " min"),
		f.choose("trip", "Trip", "", "none", tripOptions(s.kit)),
		section("Photos", s.photos.draw()),
		problem(s.err),
		f.saving("Save", s.save),
		app.If(s.id != "", func() app.UI { return button("danger wide", "Delete entry", "delete "+s.id, s.delete) }),
	}})
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

// used lists what was taken from stock, with a count each, and offers more.
func (s *failureScreen) used() app.UI {
	f := s.form
	var rows []app.UI
	for _, key := range f.rows("used") {
		item := readUsed(f, key)
		name := itemName(s.kit, item.Type, item.Item)
		rows = append(rows, app.Li().Body(app.Div().Class("row packline").Body(
			app.Div().Class("open plain").Body(app.Span().Class("what").Body(app.B().Text(capital(name)))),
			stepper(name, "used "+key, item.Count, 0, func(_ app.Context, n int) {
				if n == 0 {
					f.dropRow("used", key)
					return
				}
				f.set(cell("used", key, "count"), itoa(n))
			}),
		)))
	}
	more := f.field("used", "Take from stock", "stock goes down when you save", field{
		Kind: "choose", Options: append([]option{{"", "a spare or a consumable …"}}, stockOptions(s.kit)...),
	})
	more.Value = ""
	more.OnType = func(_ app.Context, ref string) {
		if ref != "" {
			addUsed(f, ref)
			f.revision++ // the list offers everything again
		}
	}
	return section("Used", app.If(len(rows) > 0, func() app.UI { return app.Ul().Class("list").Body(rows...) }), more)
}

// addUsed counts one more piece of something from stock.
func addUsed(f *form, ref string) {
	for _, key := range f.rows("used") {
		if f.get(cell("used", key, "item")) == ref {
			f.set(cell("used", key, "count"), itoa(readUsed(f, key).Count+1))
			return
		}
	}
	key := f.addRow("used")
	f.set(cell("used", key, "item"), ref)
	f.set(cell("used", key, "count"), "1")
}

func (s *failureScreen) save(ctx app.Context) {
	if s.busy {
		return
	}
	entry, ok := s.read()
	if !ok {
		s.err = showWrong(ctx)
		return
	}
	s.busy, s.err = true, nil
	f, roll, base := s.form, s.photos, s.form.get(baseField)
	kept.do(ctx, "Logged: "+entry.What, func(e *journal.Edit) error {
		before, known := fieldkit.Find(e.Kit().Failures, entry.ID)
		if err := unchanged(base, before, known, entry); err != nil {
			return err
		}
		changed, _ := repair.Adjust(e.Kit(), before.Used, entry.Used)
		for _, r := range changed {
			e.Put(r)
		}
		e.Put(entry)
		return nil
	}, func(ctx app.Context, err error) {
		s.busy, s.err = false, err
		if err != nil {
			offerFresh(f, err)
			return
		}
		f.done()
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
	entry, known := fieldkit.Find(s.kit.Failures, s.id)
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

func (s *failureScreen) delete(ctx app.Context) {
	id, f, roll := s.id, s.form, s.photos
	entry, _ := fieldkit.Find(s.kit.Failures, id)
	kept.do(ctx, "Deleted from the log: "+entry.What, func(e *journal.Edit) error {
		now, known := fieldkit.Find(e.Kit().Failures, id)
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
	}, func(ctx app.Context, err error) {
		if s.err = err; err == nil {
			f.done()
			roll.done()
			goOn(ctx, link("/log"))
		}
	})
}

// tripOn is the trip that a day falls into, none if there is none.
func tripOn(k fieldkit.Kit, day fieldkit.Date) string {
	for _, t := range k.Trips {
		if n := t.Start.DaysUntil(day); !t.Start.IsZero() && n >= 0 && n < max(t.Days, 1) {
			return t.ID
		}
	}
	return ""
}

// stockOptions lists what can be taken from stock: what there is first, by name.
func stockOptions(k fieldkit.Kit) []option {
	var have, none []option
	seen := map[string]bool{}
	add := func(t fieldkit.ItemType, id, name string, n int) {
		if n > 0 {
			have = append(have, option{string(t) + ":" + id, fmt.Sprintf("%s (%d)", name, n)})
		} else {
			none = append(none, option{string(t) + ":" + id, name + " (none in stock)"})
		}
	}
	for _, sp := range k.Spares {
		if part, ok := k.Part(sp.Part); ok && !seen[sp.Part] {
			seen[sp.Part] = true
			add(fieldkit.SpareItem, sp.Part, part.Name, k.Stock(sp.Part))
		}
	}
	for _, c := range k.Consumables {
		add(fieldkit.ConsumableItem, c.ID, c.Name, c.Count)
	}
	byName := func(a, b option) int { return strings.Compare(strings.ToLower(a.label), strings.ToLower(b.label)) }
	slices.SortStableFunc(have, byName)
	slices.SortStableFunc(none, byName)
	return append(have, none...)
}

func usedCells(it fieldkit.Item) map[string]string {
	return map[string]string{"item": string(it.Type) + ":" + it.Item, "count": itoa(it.Count)}
}

func readUsed(f *form, key string) fieldkit.Item {
	kind, id, _ := strings.Cut(f.get(cell("used", key, "item")), ":")
	n, _ := wholeNumber(f.get(cell("used", key, "count")), 0, 999)
	return fieldkit.Item{Type: fieldkit.ItemType(kind), Item: id, Count: n}
}

func tripOptions(k fieldkit.Kit) []option {
	var list []option
	for i := len(k.Trips) - 1; i >= 0; i-- {
		list = append(list, option{k.Trips[i].ID, k.Trips[i].Name})
	}
	return list
}
