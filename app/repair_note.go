package app

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// stepNoteScreen writes down what the crew learned at a step of a repair. The note is
// shown at that step from then on.
type stepNoteScreen struct {
	app.Compo
	form        *form
	guide, step string
	run         string // the repair under way to go back to
	says        string // what the step says
	found       bool
}

func (s *stepNoteScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *stepNoteScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *stepNoteScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	k := kept.kit()
	guide, step := param(ctx, "guide"), param(ctx, "step")
	g, _ := repair.Named(guidesOf(k), guide)
	at, there := g.Step(step)
	note, known := fieldkit.Find(k.StepNotes, fieldkit.NoteID(guide, step))
	s.says, s.found, s.run = at.Text, there || known, param(ctx, "run")
	fresh := map[string]string{"note": note.Text}
	if known {
		fresh[baseField] = baseOf(note)
	}
	if s.form != nil && s.guide == guide && s.step == step {
		follow(s.form, fresh)
		return
	}
	s.guide, s.step = guide, step
	s.form = newForm("step note/"+guide+"/"+step, fresh)
}

func (s *stepNoteScreen) back() string {
	if s.run != "" {
		return link("/repair/run", "id", s.run)
	}
	return link("/repair/guide", "id", s.guide)
}

func (s *stepNoteScreen) Render() app.UI {
	p := page{title: "Note at this step", dest: "/repair", back: s.back()}
	if s.form == nil {
		return frame(p)
	}
	if !s.found {
		p.body = []app.UI{emptyLine("There is no such step here. The link may be from a newer version.")}
		return frame(p)
	}
	f := s.form
	p.body = []app.UI{
		f.restoredNotice(),
		app.P().Class("lead").Text(s.says),
		f.area("note", "What you noted", "left-hand thread on ours; the 19 mm ring is too thick"),
		app.P().Class("soft").Text("It stays when the program is updated, and goes along in backups. An empty note is taken away."),
		f.saving("Save note", s.save),
	}
	return frame(p)
}

func (s *stepNoteScreen) save(ctx app.Context) {
	f := s.form
	if !f.short() {
		s.form.wrongAbove(ctx)
		return
	}
	note := fieldkit.StepNote{ID: fieldkit.NoteID(s.guide, s.step), Guide: s.guide, Step: s.step, Text: paragraph(f.get("note")), On: today()}
	if note.Text == "" {
		f.drop(ctx, "Note taken away", note, to(s.back()))
		return
	}
	f.keep(ctx, "Note: "+note.Text, note, to(s.back()))
}
