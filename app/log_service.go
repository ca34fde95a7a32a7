package app

import (
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/findings"
	"trailfieldkit/fieldkit/journal"
)

// serviceScreen adds a service to a rig, changes one, and writes down that it was done.
type serviceScreen struct {
	app.Compo
	form   *form // the service itself
	done   *form // that it was done
	rig    fieldkit.Rig
	found  bool // the rig
	id     string
	of     string
	now    fieldkit.Service
	known  bool
	asking bool
}

func (s *serviceScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *serviceScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *serviceScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	of, id := param(ctx, "rig"), param(ctx, "id")
	s.rig, s.found = kept.kit().Rig(of)
	s.now, s.known = serviceOf(s.rig, id)
	fresh, did := serviceFields(s.rig, s.now, s.known, kept.first()), doneFields(s.rig, kept.first(), today())
	if s.form != nil && s.id == id && s.of == of {
		follow(s.form, fresh)
		follow(s.done, did)
		return
	}
	s.id, s.of, s.asking = id, of, false
	s.form = newForm("service/"+of+"/"+id, fresh)
	s.done = newForm("service done/"+of+"/"+id, did)
}

func serviceOf(r fieldkit.Rig, id string) (fieldkit.Service, bool) {
	i := slices.IndexFunc(r.Services, func(s fieldkit.Service) bool { return s.ID == id })
	if i < 0 {
		return fieldkit.Service{}, false
	}
	return r.Services[i], true
}

func serviceFields(r fieldkit.Rig, s fieldkit.Service, known bool, first fieldkit.System) map[string]string {
	fields := map[string]string{baseField: baseOf(r)}
	if !known {
		return fields
	}
	fields["name"], fields["note"] = s.Name, s.Note
	fields["every"] = amountText(s.Every, first, fieldkit.ParseDistance)
	for name, n := range map[string]int{"hours": s.Hours, "months": s.Months, "crossings": s.Crossings} {
		if n != 0 {
			fields[name] = itoa(n)
		}
	}
	return fields
}

// doneFields is what is filled in for a service that was done today.
func doneFields(r fieldkit.Rig, first fieldkit.System, day fieldkit.Date) map[string]string {
	fields := map[string]string{"on": day.String(), "odometer": amountText(r.Odometer, first, fieldkit.ParseOdometer)}
	if r.EngineHours > 0 {
		fields["hours"] = itoa(r.EngineHours)
	}
	return fields
}

func (s *serviceScreen) Render() app.UI {
	p := page{title: "Add a service", sub: s.rig.Name, dest: "/log", back: link("/log/due")}
	if s.id != "" {
		p.title = "Service"
	}
	if s.form == nil {
		return frame(p)
	}
	if !s.found || s.id != "" && !s.known {
		p.body = []app.UI{emptyLine("There is no such service or rig in this kit. It may have been deleted, or the link is for another kit.")}
		return frame(p)
	}
	f := s.form
	p.body = []app.UI{
		app.If(s.known, s.didIt),
		f.restoredNotice(),
		section("When it comes round",
			f.text("name", "What is done", "engine oil and filter"),
			app.P().Class("soft").Text("Whichever is first counts; leave out what does not matter. The maker's intervals stand; hard use shortens them."),
			f.amount("every", "Every so far", "5000 mi or 8000 km", " km", " mi"),
			f.whole("hours", "Every so many engine hours", "250; the hour meter's reading is kept with the rig"),
			f.whole("months", "Every so many months", "12"),
			f.whole("crossings", "After so many deep crossings", "1 for hubs and axles that may have taken water"),
			f.area("note", "Note", "how, with what, how much: 6.2 L of 15W-40"),
		),
		f.saving("Save service", s.save),
		app.If(s.known, s.deleting),
	}
	return frame(p)
}

// didIt writes down that the service was done, and shows when it was.
func (s *serviceScreen) didIt() app.UI {
	f := s.done
	var rows []app.UI
	for _, d := range slices.Backward(s.now.Done) {
		rows = append(rows, plainRow(d.On.Show(), doneLines(d, kept.first())...))
	}
	return app.Div().Class("block").Body(
		app.P().Class("big").Text(capital(s.now.Name)),
		app.P().Class("soft").Text(capital(findings.Rule(s.now, kept.first()))),
		section("Done",
			f.date("on", "Date", today()),
			f.amount("odometer", "Odometer", "", " km", " mi"),
			f.whole("hours", "Hour meter", "whole hours, if there is one"),
			f.area("note", "What was found", ""),
			problem(s.done.err),
			button("act wide", "It was done", "done "+s.id, s.keepDone),
		),
		app.If(len(rows) > 0, func() app.UI {
			return app.Details().Class("group").Body(
				app.Summary().Body(app.Text("Done before"), app.Span().Class("count").Text(itoa(len(rows)))),
				app.Div().Class("in").Body(app.Ul().Class("list").Body(rows...)),
			)
		}),
	)
}

func doneLines(d fieldkit.ServiceDone, first fieldkit.System) []string {
	hours := ""
	if d.Hours > 0 {
		hours = counted(d.Hours, "engine hour")
	}
	return nonEmpty(odometerWords(d.Odometer, first), hours, d.Note)
}

// readService makes a service of what was typed; every wrong field is marked.
func readService(f *form, was fieldkit.Service, first fieldkit.System) (fieldkit.Service, bool) {
	ok := f.short()
	var err error
	if was.Name = f.typed("name"); was.Name == "" {
		ok = f.refuse("name", badField("it does not say what is done", "write it in a few words")) && ok
	}
	was.Every, err = optionalAmount(f.get("every"), first, fieldkit.ParseDistance)
	ok = f.refuse("every", err) && ok
	for _, w := range []struct {
		name string
		most int
		to   *int
	}{{"hours", fieldkit.MaxEngineHours, &was.Hours}, {"months", fieldkit.MaxMonths, &was.Months}, {"crossings", 1000, &was.Crossings}} {
		*w.to, err = optionalWhole(f.get(w.name), 0, w.most)
		ok = f.refuse(w.name, err) && ok
	}
	if ok && was.Every == 0 && was.Hours == 0 && was.Months == 0 && was.Crossings == 0 {
		ok = f.refuse("every", badField("it does not say when this comes round", "fill in a distance, hours, months or crossings"))
	}
	was.Note = f.typed("note")
	return was, ok
}

// readDone makes an entry of what was typed.
func readDone(f *form, first fieldkit.System, day fieldkit.Date) (d fieldkit.ServiceDone, ok bool) {
	ok = f.short()
	var err error
	d.On, err = f.dayOf("on", day)
	ok = f.refuse("on", err) && ok
	d.Odometer, err = optionalAmount(f.get("odometer"), first, fieldkit.ParseOdometer)
	ok = f.refuse("odometer", err) && ok
	d.Hours, err = optionalWhole(f.get("hours"), 0, fieldkit.MaxEngineHours)
	ok = f.refuse("hours", err) && ok
	d.Note = f.typed("note")
	return d, ok
}

// withDone is a rig whose service was done; meters that show more than the rig's do are
// taken over.
func withDone(r fieldkit.Rig, id string, d fieldkit.ServiceDone) fieldkit.Rig {
	r.Services = slices.Clone(r.Services)
	for i := range r.Services {
		if r.Services[i].ID == id {
			r.Services[i].Done = append(slices.Clone(r.Services[i].Done), d)
		}
	}
	if d.Odometer > r.Odometer {
		r.Odometer, r.OdometerOn = d.Odometer, d.On
	}
	if d.Hours > r.EngineHours {
		r.EngineHours, r.EngineHoursOn = d.Hours, d.On
	}
	return r
}

func (s *serviceScreen) save(ctx app.Context) {
	service, ok := readService(s.form, s.now, kept.first())
	if !ok {
		s.form.wrongAbove(ctx)
		return
	}
	rig := s.rig
	rig.Services = slices.Clone(rig.Services)
	if s.known {
		i := slices.IndexFunc(rig.Services, func(one fieldkit.Service) bool { return one.ID == s.id })
		rig.Services[i] = service
	} else {
		service.ID = s.form.recordID()
		rig.Services = append(rig.Services, service)
	}
	s.form.keep(ctx, "Service: "+service.Name, rig, to(link("/log/due")))
}

func (s *serviceScreen) keepDone(ctx app.Context) {
	d, ok := readDone(s.done, kept.first(), today())
	if !ok {
		s.done.wrongAbove(ctx)
		return
	}
	id, of := s.id, s.of
	s.done.edit(ctx, "Done: "+s.now.Name, func(e *journal.Edit) error {
		rig, there := e.Kit().Rig(of)
		if _, known := serviceOf(rig, id); !there || !known {
			return badField("this service is not in the kit any more", "go back to the list")
		}
		e.Put(withDone(rig, id, d))
		return nil
	}, to(link("/log/due")))
}

// deleting asks once more before a service and its history go.
func (s *serviceScreen) deleting() app.UI {
	if !s.asking {
		return button("danger wide", "Delete service", "delete "+s.id, func(app.Context) { s.asking = true })
	}
	return button("danger wide", "Delete it with all it says was done", "really "+s.id, func(ctx app.Context) {
		rig := s.rig
		rig.Services = slices.DeleteFunc(slices.Clone(rig.Services), func(one fieldkit.Service) bool { return one.ID == s.id })
		s.form.keep(ctx, "Deleted service: "+s.now.Name, rig, to(link("/log/due")))
	})
}
