package app

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
)

// visitScreen writes down whether a store had what was asked for, or corrects that.
type visitScreen struct {
	app.Compo
	form *form
	id   string
	kit  fieldkit.Kit
}

// Answers of the store.
const (
	storeHad  = "had"
	storeNone = "none"
)

func (s *visitScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *visitScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *visitScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	s.kit = kept.kit()
	id, store, kind := param(ctx, "id"), param(ctx, "store"), param(ctx, "kind")
	visit, known := fieldkit.Find(s.kit.Visits, id)
	fresh := visitFields(visit, known, s.kit, store, kind, today())
	key := "visit/" + id + "/" + store + "/" + kind
	if s.form != nil && s.form.key == key {
		follow(s.form, fresh)
		return
	}
	s.id = id
	s.form = newForm(key, fresh)
}

// visitFields is what the form starts with; the store of the last visit of that kind
// is the likeliest to be visited again.
func visitFields(v fieldkit.Visit, known bool, k fieldkit.Kit, store, kind string, day fieldkit.Date) map[string]string {
	if !known {
		fields := map[string]string{"store": store, "kind": kind, "on": day.String()}
		for _, visit := range k.Visits {
			if visit.Store == store && visit.On == day {
				fields["name"] = visit.Name
			}
		}
		return fields
	}
	fields := map[string]string{"store": v.Store, "kind": v.Kind, "on": v.On.String(), "name": v.Name, "note": v.Note, "had": storeNone, baseField: baseOf(v)}
	if v.Had {
		fields["had"] = storeHad
	}
	return fields
}

func (s *visitScreen) Render() app.UI {
	p := page{title: "A visit to a store", dest: "/counter", back: link("/counter/store")}
	if s.form == nil {
		return frame(p)
	}
	if _, known := fieldkit.Find(s.kit.Visits, s.id); s.id != "" && !known {
		p.body = []app.UI{emptyLine("This visit is not in the kit any more.")}
		return frame(p)
	}
	f := s.form
	p.back = link("/counter/store", "kind", f.get("store"))
	p.body = []app.UI{
		f.restoredNotice(),
		f.choose("store", "Kind of store", "", "choose …", storeOptions(data.Catalog())),
		f.choose("kind", "What you asked for", "", "choose …", partKindOptions(s.kit, data.Catalog())),
		f.pick("had", "Did they have one that fits?", []option{{storeHad, "they had it"}, {storeNone, "they had none"}}),
		wrongLine(f, "had"),
		f.text("name", "Name of the store", "and the town"),
		f.date("on", "Date", today()),
		f.area("note", "Note", ""),
		f.saving("Save visit", s.save),
		app.If(s.id != "", func() app.UI { return button("danger wide", "Delete visit", "delete "+s.id, s.delete) }),
	}
	return frame(p)
}

// partKindOptions lists the kinds that the rigs have first.
func partKindOptions(k fieldkit.Kit, cat fieldkit.Catalog) (list []option) {
	fitted := map[string]bool{}
	for _, p := range k.Positions.All() {
		fitted[p.Kind] = true
	}
	for _, first := range []bool{true, false} {
		for _, kind := range cat.PartKinds {
			if fitted[kind.ID] == first {
				list = append(list, option{kind.ID, kind.Name})
			}
		}
	}
	return list
}

func (s *visitScreen) read() (fieldkit.Visit, bool) {
	f := s.form
	v, known := fieldkit.Find(s.kit.Visits, s.id)
	if !known {
		v = fieldkit.Visit{ID: f.recordID()}
	}
	ok := f.short()
	if v.Store = f.get("store"); v.Store == "" {
		ok = f.refuse("store", badField("no kind of store is chosen", "choose the one it is most like")) && ok
	}
	if v.Kind = f.get("kind"); v.Kind == "" {
		ok = f.refuse("kind", badField("it is not said what was asked for", "choose it")) && ok
	}
	if f.get("had") == "" {
		ok = f.refuse("had", badField("it is not said whether they had it", "choose one")) && ok
	}
	v.Had = f.get("had") == storeHad
	var err error
	v.On, err = f.dayOf("on", today())
	ok = f.refuse("on", err) && ok
	v.Name, v.Note = f.typed("name"), f.typed("note")
	return v, ok
}

func (s *visitScreen) save(ctx app.Context) {
	v, ok := s.read()
	if !ok {
		s.form.wrongAbove(ctx)
		return
	}
	st, _ := data.Catalog().Store(v.Store)
	s.form.keep(ctx, strings.Join([]string{"Visit", st.Name, kindName(data.Catalog(), v.Kind)}, ": "), v, to(link("/counter/store", "kind", v.Store)))
}

func (s *visitScreen) delete(ctx app.Context) {
	v, _ := fieldkit.Find(s.kit.Visits, s.id)
	s.form.drop(ctx, "Deleted a visit: "+kindName(data.Catalog(), v.Kind), v, to(link("/counter/store", "kind", v.Store)))
}
