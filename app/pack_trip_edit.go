package app

import (
	"reflect"
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// tripEditScreen adds a trip or changes one: how far, how hard, which towns, how
// much may be carried and spent.
type tripEditScreen struct {
	app.Compo
	form   *form
	kit    fieldkit.Kit
	id     string
	opened map[string]bool // towns that were wrong: they stay unfolded
}

func (s *tripEditScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *tripEditScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *tripEditScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	s.kit = kept.kit()
	id := param(ctx, "id")
	t, known := s.kit.Trip(id)
	fresh := tripFields(s.kit, t, known, kept.first())
	if s.form != nil && s.id == id {
		follow(s.form, fresh)
		return
	}
	s.id, s.opened = id, map[string]bool{}
	s.form = newForm("trip/"+id, fresh)
}

func tripFields(k fieldkit.Kit, t fieldkit.Trip, known bool, first fieldkit.System) map[string]string {
	if !known {
		fields := map[string]string{"days": "3", "terrain": string(fieldkit.RoughTrack)}
		if len(k.Rigs) > 0 {
			fields["rigs"] = k.Rigs[0].ID
		}
		return fields
	}
	fields := map[string]string{
		"name": t.Name, "rigs": strings.Join(t.Rigs, " "), "start": t.Start.String(), "days": itoa(t.Days),
		"distance": amountText(t.Distance, first, fieldkit.ParseDistance), "terrain": string(t.Terrain), "note": t.Note,
		"mass":   amountText(t.Limits.Mass, first, fieldkit.ParseMass),
		"volume": amountText(t.Limits.Volume, first, fieldkit.ParseVolume), baseField: baseOf(t),
	}
	if t.Limits.Money != nil {
		fields["money"] = t.Limits.Money.String()
	}
	if t.Done {
		fields["done"] = "yes"
	}
	fillRows(fields, townRows, t.Towns, func(town fieldkit.Town) map[string]string {
		return map[string]string{"name": town.Name, "away": town.Away.String(), "stores": strings.Join(town.Stores, " "), "note": town.Note}
	})
	return fields
}

func (s *tripEditScreen) Render() app.UI {
	title, back := "Add a trip", link("/pack")
	if s.id != "" {
		title, back = "Edit trip", link("/pack/trip", "id", s.id)
	}
	if s.form == nil {
		return frame(page{title: title, dest: "/pack", back: back})
	}
	if _, known := s.kit.Trip(s.id); s.id != "" && !known {
		return frame(page{title: title, dest: "/pack", back: link("/pack"), body: []app.UI{emptyLine("This trip is not in the kit any more.")}})
	}
	f := s.form
	return frame(page{title: title, dest: "/pack", back: back, body: []app.UI{
		f.restoredNotice(),
		f.text("name", "Name", "where to"),
		s.ticks("rigs", "Rigs that go", rigOptions(s.kit)),
		f.dateAhead("start", "First day", today()),
		f.whole("days", "Days", ""),
		f.amount("distance", "Distance in all", "the whole drive, road and trail", " km", " mi"),
		f.choose("terrain", "The hardest terrain that matters", "", "", terrainOptions()),
		section("Limits of what may be carried",
			app.P().Class("soft").Text("Leave a limit empty for none."),
			f.amount("mass", "Weight", "", " kg", " lb"),
			f.amount("volume", "Space", "", " L", " gal"),
			f.text("money", "Money to spend before leaving", "in "+s.kit.Currency),
		),
		s.towns(),
		f.area("note", "Note", ""),
		app.If(s.id != "", func() app.UI {
			return tick("This trip is done", "it stays in the list of trips done", "done", f.get("done") != "", func(app.Context) { f.set("done", toggled(f.get("done"), "yes")) })
		}),
		f.saving("Save trip", s.save),
		app.If(s.id != "", func() app.UI { return button("danger wide", "Delete trip", "delete "+s.id, s.delete) }),
	}})
}

// towns draws the towns the trip has folded to a line until they are opened, added
// ones open.
func (s *tripEditScreen) towns() app.UI {
	f := s.form
	body := []app.UI{app.P().Class("soft").Text("What a town within reach sells is worth less to carry.")}
	for _, key := range f.rows(townRows) {
		body = append(body, s.town(key))
	}
	body = append(body, button("quiet wide", "Add a town", "add town", func(ctx app.Context) {
		id := f.cellID(townRows, f.addRow(townRows), "name")
		ctx.Defer(func(app.Context) { focusEnd(id) })
	}))
	return section("Towns on the way", body...)
}

// townRows is the form's list of towns.
const townRows = "towns"

func (s *tripEditScreen) town(key string) app.UI {
	f := s.form
	at := func(column string) string { return cell(townRows, key, column) }
	name, this := f.typed(at("name")), f.typed(at("name"))
	if name == "" {
		name, this = "New town", "this town"
	}
	return app.Details().Class("group").Open(isAdded(key) || s.opened[key]).Body(
		app.Summary().Body(app.Span().Class("what").Text(name), app.Span().Class("count").Text(f.typed(at("away")))),
		app.Div().Class("in block").Body(
			f.text(at("name"), "Town", ""),
			f.amount(at("away"), "Drive from the far end of the trail, one way", "1:30, 1.5 h or 90 min", " h", " min"),
			s.ticks(at("stores"), "Stores there", storeOptions(data.Catalog())),
			f.text(at("note"), "Note on the town", "days and hours, what they make up"),
			button("danger wide", "Remove "+this, "town "+key, func(app.Context) { f.dropRow(townRows, key) }),
		),
	)
}

func storeOptions(cat fieldkit.Catalog) []option {
	var list []option
	for _, st := range cat.Stores {
		list = append(list, option{st.ID, capital(st.Name)})
	}
	return list
}

// ticks draws several boxes whose chosen values share one field.
func (s *tripEditScreen) ticks(name, label string, options []option) app.UI {
	f := s.form
	on := strings.Fields(f.get(name))
	return app.Div().Class("field").Role("group").Aria("label", label).Body(
		app.Span().Class("label").Text(label),
		app.Range(options).Slice(func(i int) app.UI {
			o := options[i]
			return tick(o.label, "", name+o.value, slices.Contains(on, o.value), func(app.Context) {
				f.set(name, toggled(f.get(name), o.value))
			})
		}),
		app.If(f.wrong[name] != "", func() app.UI { return app.P().Class("wrong").Role("alert").Text(f.wrong[name]) }),
	)
}

// toggled adds a word to a list of words, or takes it out.
func toggled(words, word string) string {
	list := strings.Fields(words)
	if i := slices.Index(list, word); i >= 0 {
		return strings.Join(slices.Delete(list, i, i+1), " ")
	}
	return strings.Join(append(list, word), " ")
}

func terrainOptions() []option {
	var list []option
	for _, t := range fieldkit.Terrains {
		list = append(list, option{string(t), string(t)})
	}
	return list
}

func (s *tripEditScreen) save(ctx app.Context) {
	t, ok := s.read()
	if !ok {
		for _, key := range s.form.rows(townRows) {
			s.opened[key] = s.opened[key] || s.form.wrongRow(townRows, key)
		}
		s.form.wrongAbove(ctx)
		return
	}
	before, _ := s.kit.Trip(t.ID)
	s.form.keep(ctx, "Saved trip: "+t.Name, t, func(ctx app.Context) {
		if _, planned := packOf(kept.kit(), t.ID); planned && !t.Done && !reflect.DeepEqual(t.Limits, before.Limits) {
			plan(t.ID, "Planned "+t.Name+" within its limits", nil, func(_ app.Context, err error) { s.form.err = err })
		}
		goOn(ctx, link("/pack/trip", "id", t.ID))
	})
}

// read makes a trip of what was typed; every wrong field is marked.
func (s *tripEditScreen) read() (fieldkit.Trip, bool) {
	f, first := s.form, kept.first()
	t, known := s.kit.Trip(s.id)
	if !known {
		t = fieldkit.Trip{ID: f.recordID()}
	}
	ok := f.short()
	var err error
	if t.Name = f.typed("name"); t.Name == "" {
		ok = f.refuse("name", badField("the trip has no name", "write where to"))
	}
	if t.Rigs = strings.Fields(f.get("rigs")); len(t.Rigs) == 0 {
		ok = f.refuse("rigs", badField("no rig goes", "tick one, or add one under Rig first"))
	}
	t.Start, err = optionalDate(f.typed("start"))
	ok = f.refuse("start", err) && ok
	t.Days, err = wholeNumber(f.typed("days"), 1, 366)
	ok = f.refuse("days", err) && ok
	if t.Distance, err = optionalAmount(f.get("distance"), first, fieldkit.ParseDistance); err == nil && t.Distance == 0 {
		err = badField("the distance is missing", "write the whole drive, 400 km or 250 mi")
	}
	ok = f.refuse("distance", err) && ok
	t.Terrain, t.Note, t.Done = fieldkit.Terrain(f.get("terrain")), f.typed("note"), f.get("done") != ""
	t.Limits.Mass, err = optionalLimit(f.get("mass"), first, fieldkit.ParseMass)
	ok = f.refuse("mass", err) && ok
	t.Limits.Volume, err = optionalLimit(f.get("volume"), first, fieldkit.ParseVolume)
	ok = f.refuse("volume", err) && ok
	t.Limits.Money, err = optionalMoney(f.get("money"), s.kit.Currency)
	ok = f.refuse("money", err) && ok
	towns, fine := s.readTowns(t.Towns)
	t.Towns = towns
	return t, ok && fine
}

func (s *tripEditScreen) readTowns(before []fieldkit.Town) (towns []fieldkit.Town, ok bool) {
	f := s.form
	ok = true
	for _, key := range f.rows(townRows) {
		town, _ := wasRow(before, key)
		if town.Name = f.typed(cell(townRows, key, "name")); town.Name == "" {
			ok = f.refuse(cell(townRows, key, "name"), badField("the town has no name", "write it, or remove the town"))
		}
		var err error
		town.Away, err = fieldkit.ParseMinutes(f.typed(cell(townRows, key, "away")))
		ok = f.refuse(cell(townRows, key, "away"), err) && ok
		town.Stores, town.Note = strings.Fields(f.get(cell(townRows, key, "stores"))), f.typed(cell(townRows, key, "note"))
		towns = append(towns, town)
	}
	return towns, ok
}

// delete takes the trip away with its packing list; what the log says of it stays.
func (s *tripEditScreen) delete(ctx app.Context) {
	id := s.id
	t, _ := s.kit.Trip(id)
	s.form.edit(ctx, "Deleted trip: "+t.Name, func(e *journal.Edit) error {
		for _, f := range e.Kit().Failures.All() {
			if f.Trip == id {
				f.Trip = ""
				e.Put(f)
			}
		}
		if pack, ok := packOf(e.Kit(), id); ok {
			e.Delete(pack.Collection(), pack.ID)
		}
		e.Delete(t.Collection(), id)
		return nil
	}, to(link("/pack")))
}
