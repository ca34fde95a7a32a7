package app

import (
	"fmt"
	"maps"
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// systemsScreen orders the systems of a rig: add, rename, move, delete empty ones.
type systemsScreen struct {
	app.Compo
	form *form
	rig  fieldkit.Rig
	rows []systemRow
	err  error
}

type systemRow struct {
	system    fieldkit.Assembly
	positions int
}

func (s *systemsScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *systemsScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *systemsScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	s.rig, s.rows = viewSystems(kept.kit(), param(ctx, "rig"))
	fields := map[string]string{}
	for _, r := range s.rows {
		fields[systemField(r.system.ID)] = r.system.Name
	}
	key := "systems/" + s.rig.ID
	if s.form == nil || s.form.key != key {
		s.form, s.err = newForm(key, fields), nil
		return
	}
	takeUp(s.form, fields)
}

func systemField(id string) string { return "name/" + id }

// takeUp brings fields nobody typed in up to date, one by one; the others keep
// what was typed.
func takeUp(f *form, fresh map[string]string) {
	for name, value := range fresh {
		was, known := f.start[name]
		if known && was == value {
			continue
		}
		if f.values[name] == was {
			f.values[name] = value
			f.revision++
		}
	}
	f.start = fresh
}

func viewSystems(k fieldkit.Kit, rig string) (fieldkit.Rig, []systemRow) {
	r, ok := k.Rig(rig)
	if !ok {
		return r, nil
	}
	var rows []systemRow
	for _, sys := range systemsOf(k, rig) {
		rows = append(rows, systemRow{sys, len(positionsIn(k, sys.ID))})
	}
	return r, rows
}

func positionsIn(k fieldkit.Kit, system string) []fieldkit.Position {
	var list []fieldkit.Position
	for _, p := range k.PositionsIn(system) {
		list = append(list, *p)
	}
	return list
}

func (s *systemsScreen) Render() app.UI {
	p := page{title: "Systems", sub: s.rig.Name, dest: "/rig", back: link("/rig", "rig", s.rig.ID)}
	if s.form == nil {
		return frame(p)
	}
	if s.rig.ID == "" {
		p.body = []app.UI{emptyLine("There is no such rig in this kit. It may have been deleted, or the link is for another kit.")}
		return frame(p)
	}
	body := []app.UI{
		s.form.restoredNotice(),
		app.If(len(s.rows) == 0, func() app.UI {
			return emptyLine("No system yet. Add one for each thing you would take to a store as a whole: steering, front axle, brakes.")
		}),
	}
	for i := range s.rows {
		body = append(body, s.row(i))
	}
	body = append(body,
		// Always in its place: were it to come and go, the line below it would be drawn anew.
		app.Div().Hidden(!s.renamed()).Body(button("act wide", "Save names", "names", s.saveNames)),
		problem(s.err),
		section("Add a system",
			s.form.text("new", "Name of the new system", ""),
			button("quiet wide", "Add system", "add", s.add),
		),
	)
	p.body = body
	return frame(p)
}

func (s *systemsScreen) row(i int) app.UI {
	r, id := s.rows[i], s.rows[i].system.ID
	name := r.system.Name
	return app.Div().Class("block rowform").Body(
		s.form.text(systemField(id), "System "+fmt.Sprint(i+1), ""),
		app.Div().Class("row").Body(
			moveButton("up", name, id, i == 0, func(ctx app.Context) { s.move(ctx, id, -1) }),
			moveButton("down", name, id, i == len(s.rows)-1, func(ctx app.Context) { s.move(ctx, id, 1) }),
			app.If(r.positions == 0, func() app.UI {
				return app.Button().Type("button").Class("danger").Aria("label", "Delete "+name).Text("Delete").
					OnClick(func(ctx app.Context, _ app.Event) { s.delete(ctx, id) }, app.EventScope("delete", id))
			}),
			app.If(r.positions > 0, func() app.UI { return app.Span().Class("soft").Text(countOf(r.positions, "position")) }),
		),
	)
}

// moveButton draws one of the two buttons that move something in a list.
func moveButton(way, name, id string, atEnd bool, do func(app.Context)) app.UI {
	return app.Button().Type("button").Class("quiet").Aria("label", "Move "+name+" "+way).Text(capital(way)).Disabled(atEnd).
		OnClick(func(ctx app.Context, _ app.Event) { do(ctx) }, app.EventScope("move", way, id))
}

// renamed says whether a name was changed and not saved.
func (s *systemsScreen) renamed() bool {
	for _, r := range s.rows {
		if s.form.typed(systemField(r.system.ID)) != r.system.Name {
			return true
		}
	}
	return false
}

func (s *systemsScreen) saveNames(ctx app.Context) {
	names := map[string]string{}
	ok := s.form.short()
	for _, r := range s.rows {
		name := systemField(r.system.ID)
		text := s.form.typed(name)
		if text == "" {
			ok = s.form.refuse(name, badField("the system has no name", "write what people call it"))
		}
		if text != r.system.Name {
			names[r.system.ID] = text
		}
	}
	if !ok {
		return
	}
	kept.do(ctx, "Renamed "+countOf(len(names), "system"), func(e *journal.Edit) error {
		renameSystems(e, names)
		return nil
	}, func(ctx app.Context, err error) {
		if s.err = err; err == nil {
			s.load(ctx)
			s.form.forget(slices.Collect(maps.Keys(s.form.start))...)
		}
	})
}

// renameSystems gives systems other names; one deleted meanwhile is left out.
func renameSystems(e *journal.Edit, names map[string]string) {
	for _, sys := range e.Kit().Systems {
		if name, ok := names[sys.ID]; ok {
			sys.Name = name
			e.Put(sys)
		}
	}
}

func (s *systemsScreen) add(ctx app.Context) {
	name, ok := s.form.typed("new"), s.form.short()
	if name == "" {
		ok = s.form.refuse("new", badField("the system has no name", "write what people call it"))
	}
	if !ok {
		return
	}
	added := fieldkit.Assembly{ID: s.form.recordID(), Rig: s.rig.ID, Name: name}
	kept.do(ctx, "Added system: "+name, func(e *journal.Edit) error {
		addSystem(e, added)
		return nil
	}, func(ctx app.Context, err error) {
		if s.err = err; err == nil {
			s.load(ctx)
			s.form.forget("new", "id")
		}
	})
}

// addSystem puts a system behind those its rig has.
func addSystem(e *journal.Edit, added fieldkit.Assembly) {
	for _, other := range systemsOf(e.Kit(), added.Rig) {
		added.Order = max(added.Order, other.Order+1)
	}
	e.Put(added)
}

func (s *systemsScreen) move(ctx app.Context, id string, by int) {
	sys, _ := kept.kit().System(id)
	kept.do(ctx, fmt.Sprintf("Moved system %s: %s", wayOf(by), sys.Name), func(e *journal.Edit) error {
		list := systemsOf(e.Kit(), sys.Rig)
		for i, other := range moved(list, func(a fieldkit.Assembly) bool { return a.ID == id }, by) {
			if other.Order != i {
				other.Order = i
				e.Put(other)
			}
		}
		return nil
	}, func(_ app.Context, err error) { s.err = err })
}

func (s *systemsScreen) delete(ctx app.Context, id string) {
	sys, _ := kept.kit().System(id)
	kept.do(ctx, "Deleted system: "+sys.Name, func(e *journal.Edit) error {
		if n := len(positionsIn(e.Kit(), id)); n > 0 {
			return &fieldkit.Error{Kind: fieldkit.Conflict, What: fmt.Sprintf("%q still has %s", sys.Name, countOf(n, "position")),
				Do: "move them to another system, or delete them first"}
		}
		e.Delete(sys.Collection(), id)
		return nil
	}, func(_ app.Context, err error) { s.err = err })
}
