package app

import (
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// ownRepairScreen writes, changes or deletes a repair of the crew's own.
type ownRepairScreen struct {
	app.Compo
	form *form
	id   string
	kit  fieldkit.Kit
}

// guidesOf are the repairs of the program and those of the crew.
func guidesOf(k fieldkit.Kit) []repair.Guide { return repair.WithOwn(data.Guides(), k) }

func (s *ownRepairScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *ownRepairScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *ownRepairScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	s.kit = kept.kit()
	id := param(ctx, "id")
	own, known := fieldkit.Find(s.kit.OwnRepairs, id)
	fresh := ownRepairFields(own, known)
	if s.form != nil && s.id == id {
		follow(s.form, fresh)
		return
	}
	s.id = id
	s.form = newForm("own repair/"+id, fresh)
}

func ownRepairFields(own fieldkit.OwnRepair, known bool) map[string]string {
	if !known {
		return map[string]string{}
	}
	fields := map[string]string{
		"title": own.Title, "system": own.System, "summary": own.Summary, "steps": fieldkit.ShowOwnSteps(own.Steps),
		"stopSigns": strings.Join(own.StopSigns, "\n"), "afterwards": strings.Join(own.Afterwards, "\n"), "by": own.By,
		"partKinds": strings.Join(own.PartKinds, " "), "tools": strings.Join(own.Tools, " "), "consumables": strings.Join(own.Consumables, " "),
		baseField: baseOf(own),
	}
	if own.Hands > 0 {
		fields["hands"] = itoa(own.Hands)
	}
	if own.Time > 0 {
		fields["time"] = own.Time.String()
	}
	return fields
}

func (s *ownRepairScreen) Render() app.UI {
	p := page{title: "A repair of our own", dest: "/repair", back: link("/repair")}
	if s.form == nil {
		return frame(p)
	}
	if _, known := fieldkit.Find(s.kit.OwnRepairs, s.id); s.id != "" && !known {
		p.body = []app.UI{emptyLine("This repair is not in the kit any more.")}
		return frame(p)
	}
	if s.id != "" {
		p.back = link("/repair/guide", "id", s.id)
	}
	f, cat := s.form, data.Catalog()
	p.body = []app.UI{
		f.restoredNotice(),
		f.text("title", "What it is called", "shackle bush pressed in with a vice"),
		f.area("summary", "What it looks like", ""),
		f.area("steps", "Steps", "one a line; a line that begins with ! is the caution before the step on the next line"),
		f.area("stopSigns", "Stop at once if", "one a line"),
		s.kinds("partKinds", "What it mends", partKindOptions(s.kit, cat)),
		s.kinds("tools", "Tools", toolKindOptions(cat)),
		s.kinds("consumables", "Consumables", consumableOptions(cat)),
		f.whole("hands", "Hands", "people needed"),
		f.amount("time", "Time", lostHint(f.typed("time")), " h", " min"),
		f.choose("system", "System", "", "our own", systemNameOptions(cat)),
		f.area("afterwards", "Look at again afterwards", "one a line"),
		f.text("by", "Who wrote it", ""),
		app.P().Class("soft").Text("It is kept in your kit: updates leave it as it is, and it goes along in backups. Where a step can hurt somebody, write the caution before it. The maker's instructions, local rules and licensed mechanics come first."),
		f.saving("Save repair", s.save),
		app.If(s.id != "", func() app.UI { return button("danger wide", "Delete repair", "delete "+s.id, s.delete) }),
	}
	return frame(p)
}

// kinds lists the kinds chosen, each to be taken out with a tap, and offers the rest.
func (s *ownRepairScreen) kinds(name, label string, options []option) app.UI {
	f := s.form
	chosen := strings.Fields(f.get(name))
	rest := slices.DeleteFunc(slices.Clone(options), func(o option) bool { return slices.Contains(chosen, o.value) })
	more := f.field(name, label, "", field{Kind: "choose", Options: append([]option{{"", "add …"}}, rest...)})
	more.Value = ""
	more.OnType = func(_ app.Context, id string) {
		if id != "" {
			f.set(name, strings.Join(append(chosen, id), " "))
			f.revision++ // the list offers the rest again
		}
	}
	return app.Div().Class("block").Body(more, app.Ul().Class("list").Hidden(len(chosen) == 0).Body(app.Range(chosen).Slice(func(i int) app.UI {
		id := chosen[i]
		return app.Li().Body(app.Div().Class("row packline").Body(
			app.Div().Class("open plain").Body(app.Span().Class("what").Body(app.B().Text(capital(labelOf(options, id))))),
			button("link", "Take out", "out "+name+" "+id, func(app.Context) {
				f.set(name, strings.Join(slices.DeleteFunc(strings.Fields(f.get(name)), func(other string) bool { return other == id }), " "))
				f.revision++
			}),
		))
	})))
}

func labelOf(options []option, value string) string {
	for _, o := range options {
		if o.value == value {
			return o.label
		}
	}
	return value
}

// systemNameOptions lists the systems that kinds of part belong to.
func systemNameOptions(cat fieldkit.Catalog) (list []option) {
	for _, k := range cat.PartKinds {
		if !slices.ContainsFunc(list, func(o option) bool { return o.value == k.System }) {
			list = append(list, option{k.System, k.System})
		}
	}
	return list
}

func (s *ownRepairScreen) read() (fieldkit.OwnRepair, bool) {
	f := s.form
	own, known := fieldkit.Find(s.kit.OwnRepairs, s.id)
	if !known {
		own = fieldkit.OwnRepair{ID: f.recordID(), On: today()}
	}
	ok := f.short()
	if own.Title = f.typed("title"); own.Title == "" {
		ok = f.refuse("title", badField("it has no name", "write what it is called, in a few words")) && ok
	}
	steps, err := fieldkit.ParseOwnSteps(untabbed(f.get("steps")))
	if err == nil && len(steps) == 0 {
		err = badField("there is no step yet", "write what to do, one step a line")
	}
	ok = f.refuse("steps", err) && ok
	own.Steps = steps
	own.Hands, err = 0, nil
	if text := f.typed("hands"); text != "" {
		own.Hands, err = wholeNumber(text, 1, 20)
	}
	ok = f.refuse("hands", err) && ok
	own.Time, err = 0, nil
	if text := f.typed("time"); text != "" {
		own.Time, err = fieldkit.ParseMinutes(text)
	}
	ok = f.refuse("time", err) && ok
	own.Summary, own.System, own.By = paragraph(f.get("summary")), f.get("system"), f.typed("by")
	own.StopSigns, own.Afterwards = lines(f.get("stopSigns")), lines(f.get("afterwards"))
	own.PartKinds, own.Tools, own.Consumables = strings.Fields(f.get("partKinds")), strings.Fields(f.get("tools")), strings.Fields(f.get("consumables"))
	return own, ok
}

func (s *ownRepairScreen) save(ctx app.Context) {
	own, ok := s.read()
	if !ok {
		s.form.wrongAbove(ctx)
		return
	}
	s.form.keep(ctx, "Own repair: "+own.Title, own, to(link("/repair/guide", "id", own.ID)))
}

func (s *ownRepairScreen) delete(ctx app.Context) {
	own, _ := fieldkit.Find(s.kit.OwnRepairs, s.id)
	s.form.drop(ctx, "Deleted own repair: "+own.Title, own, to(link("/repair")))
}
