package app

import (
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
	form   *form
	photos *photoRoll
	kit    fieldkit.Kit
	id     string // of the entry being corrected, none when adding
	at     string // position it was opened for
	place  fieldkit.Place
	err    error
	told   string
	busy   bool
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
	s.id, s.at, s.err, s.told = id, at, nil, ""
	s.form = newForm("failure/"+id+"/"+at, fresh)
	s.place = placeOf(s.form)
	if s.photos != nil {
		s.photos.drop()
	}
	s.photos = newPhotoRoll(ctx, draftPrefix+"photos/failure/"+id+"/"+at, f.Photos)
}

func failureFields(k fieldkit.Kit, f fieldkit.Failure, known bool, at string, first fieldkit.System, day fieldkit.Date) map[string]string {
	if !known {
		p, _ := k.Position(at)
		rig, ok := k.RigOf(p)
		if !ok && len(k.Rigs) > 0 {
			rig = k.Rigs[0]
		}
		return map[string]string{
			"on": day.String(), "rig": rig.ID, "position": at,
			"odometer": amountText(rig.Odometer, first, fieldkit.ParseDistance),
		}
	}
	fields := map[string]string{
		"on": f.On.String(), "rig": f.Rig, "position": f.Position, "trip": f.Trip,
		"odometer": amountText(f.Odometer, first, fieldkit.ParseDistance),
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
		app.If(len(s.kit.Rigs) > 1, func() app.UI { return f.pick("rig", "Rig", rigOptions(s.kit)) }),
		f.choose("position", "Where on the rig", "", "not said", positionOptions(s.kit, f.get("rig"), "")),
		f.date("on", "Date", today()),
		f.amount("odometer", "Odometer", "", " km", " mi"),
		s.placeBlock(),
		f.area("why", "Why", "worn, hit, water, fitted wrongly …"),
		f.area("fix", "Fix", "what got it going again"),
		s.used(),
		f.amount("lost", "Time lost", "2 h 30 min, 2:30 or 1.5 h", " h", " min"),
		f.choose("trip", "Trip", "", "none", tripOptions(s.kit)),
		s.photos.draw(),
		problem(s.err),
		button("act tall wide", "Save", "save "+s.id, s.save),
		app.If(s.told != "", func() app.UI { return app.P().Class("note ok").Role("status").Text(s.told) }),
		app.If(s.id != "", func() app.UI { return button("danger wide", "Delete entry", "delete "+s.id, s.delete) }),
	}})
}

func (s *failureScreen) placeBlock() app.UI {
	return app.Div().Class("block").Body(
		s.form.text("place", "Place", "in words: second ford below the mine"),
		button("quiet wide", "Take the position of this device", "place", s.findPlace),
		app.If(s.place.HasFix(), func() app.UI {
			return app.P().Class("note figures").Body(app.Text(placeWords(s.place)+" "),
				button("link", "Remove", "no place", func(app.Context) { s.setPlace(fieldkit.Place{}) }))
		}),
	)
}

func (s *failureScreen) findPlace(ctx app.Context) {
	s.told = "Looking for the position … You can save meanwhile."
	findPlace(ctx, func(_ app.Context, p fieldkit.Place, err error) {
		s.told, s.err = "", err
		if err == nil {
			s.setPlace(p)
		}
	})
}

func (s *failureScreen) setPlace(p fieldkit.Place) {
	s.place = p
	s.form.set("fix at", "")
	if p.HasFix() {
		s.form.set("fix at", fixText(p))
	}
}

// used lists what was taken from stock, with a count each.
func (s *failureScreen) used() app.UI {
	f := s.form
	add := field{
		Form: f.key, Name: "used", Kind: "choose", Revision: f.revision, Label: "Used from stock", Value: "",
		Hint:    "stock goes down when you save",
		Options: append([]option{{"", "add a spare or a consumable …"}}, stockOptions(s.kit)...),
		OnType: func(_ app.Context, ref string) {
			if ref != "" {
				key := f.addRow("used")
				f.set(cell("used", key, "item"), ref)
				f.put(cell("used", key, "count"), "1")
			}
		},
	}
	return app.Div().Class("block").Body(
		app.Range(f.rows("used")).Slice(func(i int) app.UI {
			key := f.rows("used")[i]
			item := readUsed(f, key)
			name := itemName(s.kit, item.Type, item.Item)
			return app.Div().Class("row").Body(
				app.Span().Class("strong").Text(name),
				app.Span().Class("push").Body(stepper(name, "used "+key, item.Count, 0, func(_ app.Context, n int) {
					if n == 0 {
						f.dropRow("used", key)
						return
					}
					f.set(cell("used", key, "count"), itoa(n))
				})),
			)
		}),
		&add,
	)
}

func (s *failureScreen) save(ctx app.Context) {
	if s.busy {
		return
	}
	entry, ok := s.read()
	if !ok {
		s.err = badField("something above is not right yet", "mend the marked fields")
		return
	}
	s.busy, s.err = true, nil
	photos := s.photos.blobs()
	base := s.form.get(baseField)
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
			offerFresh(s.form, err)
			return
		}
		s.form.done()
		s.photos.done()
		goOn(ctx, link("/log"))
	}, photos...)
}

// read makes an entry of what was typed; every wrong field is marked.
func (s *failureScreen) read() (fieldkit.Failure, bool) {
	f := s.form
	entry, known := fieldkit.Find(s.kit.Failures, s.id)
	if !known {
		entry = fieldkit.Failure{ID: f.recordID(), At: now()}
	}
	ok := true
	var err error
	if entry.What = f.typed("what"); entry.What == "" {
		ok = f.refuse("what", badField("it does not say what broke", "write it in a few words"))
	}
	if entry.Rig = f.get("rig"); entry.Rig == "" {
		ok = f.refuse("what", badField("there is no rig in this kit yet", "add one under Rig first"))
	}
	entry.Position, entry.Trip = f.get("position"), f.get("trip")
	if p, there := s.kit.Position(entry.Position); there {
		if rig, found := s.kit.RigOf(p); found {
			entry.Rig = rig.ID
		}
		if entry.Part == "" {
			entry.Part = p.Part
		}
	}
	if entry.On, err = fieldkit.ParseDate(f.get("on")); err != nil {
		ok = f.refuse("on", err)
	}
	entry.Odometer, err = optionalAmount(f.get("odometer"), kept.first(), fieldkit.ParseDistance)
	ok = f.refuse("odometer", err) && ok
	entry.Lost = 0
	if text := f.typed("lost"); text != "" {
		entry.Lost, err = fieldkit.ParseMinutes(text)
		ok = f.refuse("lost", err) && ok
	}
	text := f.typed("place")
	entry.Place = s.place
	entry.Place.Text = text
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
	id := s.id
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
			s.form.done()
			s.photos.done()
			goOn(ctx, link("/log"))
		}
	})
}

// stockOptions lists what can be taken from stock.
func stockOptions(k fieldkit.Kit) []option {
	var list []option
	seen := map[string]bool{}
	for _, sp := range k.Spares {
		if part, ok := k.Part(sp.Part); ok && !seen[sp.Part] {
			seen[sp.Part] = true
			list = append(list, option{string(fieldkit.SpareItem) + ":" + sp.Part, part.Name + " (" + itoa(k.Stock(sp.Part)) + ")"})
		}
	}
	for _, c := range k.Consumables {
		list = append(list, option{string(fieldkit.ConsumableItem) + ":" + c.ID, c.Name + " (" + itoa(c.Count) + ")"})
	}
	return list
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
