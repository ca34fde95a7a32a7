package app

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// donorScreen adds a donor, or changes one, and lists what came from it. Opened
// from the part form it goes back there with the donor chosen.
type donorScreen struct {
	app.Compo
	form *form
	kit  fieldkit.Kit
	id   string // none when adding
	part string // of the part form to go back to: an ID, "new", or none
	at   string // the position that form was opened for
	view donorView
}

type donorView struct {
	missing bool
	donor   fieldkit.Donor
	parts   []fieldkit.Part
	uses    []use
}

func (s *donorScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *donorScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *donorScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	s.kit = kept.kit()
	id, part, at := param(ctx, "id"), param(ctx, "part"), param(ctx, "position")
	s.view = viewDonor(s.kit, id)
	fields := donorFields(s.view.donor)
	if s.form != nil && s.id == id && s.part == part && s.at == at {
		follow(s.form, fields)
		return
	}
	s.id, s.part, s.at = id, part, at
	s.form = newForm("donor/"+id+"/"+part, fields)
}

func viewDonor(k fieldkit.Kit, id string) donorView {
	if id == "" {
		return donorView{}
	}
	d, ok := k.Donor(id)
	return donorView{missing: !ok, donor: d, parts: partsFrom(k, id), uses: donorUses(k, id)}
}

func donorFields(d fieldkit.Donor) map[string]string {
	fields := map[string]string{
		"make": d.Make, "model": d.Model, "yearFrom": yearText(d.YearFrom), "yearTo": yearText(d.YearTo), "drive": d.Drive,
		"rear": d.RearWheels, "engine": d.Engine, "axle": d.Axle, "vin": d.VIN, "note": d.Note,
	}
	if d.ID != "" {
		fields[baseField] = baseOf(d)
	}
	return fields
}

func yearText(year int) string {
	if year == 0 {
		return ""
	}
	return strconv.Itoa(year)
}

func (s *donorScreen) Render() app.UI {
	title := "Add a donor"
	if s.id != "" {
		title = "Donor"
	}
	p := page{title: title, dest: "/rig", back: s.back("")}
	if s.form == nil {
		return frame(p)
	}
	if s.view.missing {
		p.body = []app.UI{emptyLine("There is no such donor in this kit. It may have been deleted, or the link is for another kit.")}
		return frame(p)
	}
	f := s.form
	p.sub = s.view.donor.Title()
	p.body = []app.UI{
		f.restoredNotice(),
		section("The vehicle",
			f.text("make", "Make", ""),
			f.text("model", "Model", ""),
			app.Div().Class("two").Body(
				f.whole("yearFrom", "First year", ""),
				f.whole("yearTo", "Last year", "same, if you know it"),
			),
			f.pick("drive", "Drive", withPresent(f.start["drive"], []option{{"", "not known"}, {"4x4", "4x4"}, {"4x2", "4x2"}})),
			f.pick("rear", "Rear wheels", []option{{"", "not known"}, {"single", "single"}, {"dual", "dual"}}),
		),
		section("What tells its variants apart",
			f.text("engine", "Engine", "size and fuel"),
			f.text("axle", "Axle", "what is on its tag, or what decides: ratio, drum width, ton rating"),
			f.text("vin", "VIN", "on the dash or the door post; a dealer looks nothing up without one"),
			f.area("note", "Note", ""),
		),
		f.saving("Save donor", s.save),
		s.partsOf(),
	}
	return frame(p)
}

// withPresent adds what the record says to the answers when it is none of them.
func withPresent(now string, options []option) []option {
	if offers(options, now) {
		return options
	}
	return append(options, option{now, now})
}

func (s *donorScreen) partsOf() app.UI {
	if s.id == "" {
		return app.Div().Hidden(true)
	}
	if len(s.view.uses) == 0 {
		return app.Div().Class("block").Body(
			emptyLine("No part is said to come from it. Choose it in a part's form."),
			button("danger wide", "Delete donor", "delete "+s.id, s.delete))
	}
	parts := s.view.parts
	return section("Parts from it",
		app.Ul().Class("list").Body(app.Range(parts).Slice(func(i int) app.UI {
			return openRow(link("/rig/part/edit", "id", parts[i].ID), capital(parts[i].Name), orWord(titles(s.kit.FittedAt(parts[i].ID)), "not fitted now"), "")
		})),
		app.P().Class("soft").Text("The donor can be deleted once no part comes from it."),
	)
}

// read makes a donor of what was typed; every wrong field is marked.
func readDonor(f *form, d fieldkit.Donor) (fieldkit.Donor, bool) {
	ok := f.short()
	d.Make, d.Model, d.Engine, d.Axle = f.typed("make"), f.typed("model"), f.typed("engine"), f.typed("axle")
	d.Drive, d.RearWheels, d.Note = f.get("drive"), f.get("rear"), f.typed("note")
	d.VIN = strings.ToUpper(strings.Join(strings.Fields(f.get("vin")), ""))
	if d.Make == "" {
		ok = f.refuse("make", badField("the donor has no make", "write who built it")) && ok
	}
	if d.Model == "" {
		ok = f.refuse("model", badField("the donor has no model", "write what it is called")) && ok
	}
	var err error
	d.YearFrom, err = optionalWhole(f.get("yearFrom"), 1900, 2199)
	ok = f.refuse("yearFrom", err) && ok
	d.YearTo, err = optionalWhole(f.get("yearTo"), 1900, 2199)
	if err == nil && d.YearTo != 0 && d.YearTo < d.YearFrom {
		err = badField(fmt.Sprintf("%d is before %d, the first year", d.YearTo, d.YearFrom), "swap the two years")
	}
	ok = f.refuse("yearTo", err) && ok
	return d, ok
}

func (s *donorScreen) save(ctx app.Context) {
	d, ok := readDonor(s.form, s.view.donor)
	if !ok {
		s.form.wrongAbove(ctx)
		return
	}
	if s.id == "" {
		d.ID = s.form.recordID()
	}
	s.form.keep(ctx, "Saved donor: "+d.Title(), d, to(s.back(d.ID)))
}

// back leads to the part form that asked for a donor, or to the list.
func (s *donorScreen) back(donor string) string {
	switch s.part {
	case "":
		return link("/rig/donors")
	case "new":
		return link("/rig/part/edit", "position", s.at, "donor", donor)
	}
	return link("/rig/part/edit", "id", s.part, "position", s.at, "donor", donor)
}

func (s *donorScreen) delete(ctx app.Context) {
	d := s.view.donor
	s.form.edit(ctx, "Deleted donor: "+d.Title(), func(e *journal.Edit) error {
		if list := donorUses(e.Kit(), d.ID); len(list) > 0 {
			return stillUsed(d.Title(), list)
		}
		e.Delete(d.Collection(), d.ID)
		return nil
	}, to(link("/rig/donors")))
}
