package app

import (
	"context"
	"fmt"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// kitScreen holds what belongs to no destination: units, theme, backup, restore,
// the demo, how well this phone keeps the data, and the history of changes.
type kitScreen struct {
	app.Compo
	name    *form
	backup  backupBlock
	open    clashBlock
	old     oldStores
	storage storageState
	history []historyRow
	changed longList // how many of them are drawn
	read    changesRead
	err     error
	told    string
	first   string // what the address asks for before all else: "backup"
}

// changesRead says which part of the journal was read last: an entry that carries a
// whole kit is long, and need not be read again while nothing was written.
type changesRead struct {
	session *journal.Session
	seq     uint64
	most    int
}

func (s *kitScreen) OnMount(ctx app.Context) {
	watch(ctx, s.load)
	s.storage.look(ctx)
}

func (s *kitScreen) OnNav(ctx app.Context) { arrive(ctx, s.load) }

func (s *kitScreen) load(ctx app.Context) {
	s.first = param(ctx, "first")
	session := kept.session
	if session == nil {
		return
	}
	fresh := map[string]string{"name": kept.kit().Name, "currency": kept.kit().Currency}
	if s.name == nil {
		s.name = newForm("kit", fresh)
	} else {
		follow(s.name, fresh)
	}
	s.open.load(ctx, session)
	s.old.load(ctx)
	s.loadChanges(ctx)
}

// loadChanges reads the latest entries of the journal.
func (s *kitScreen) loadChanges(ctx app.Context) {
	session := kept.session
	want := changesRead{session, session.Seq(), s.changed.most()}
	if want == s.read {
		return
	}
	s.read = want
	ctx.Async(func() {
		list, err := session.History(context.Background(), want.most)
		ctx.Dispatch(func(app.Context) {
			switch {
			case s.read != want: // a later answer is there or on its way
			case err == nil:
				s.history = viewHistory(list)
			default:
				s.read = changesRead{} // the next time again
			}
		})
	})
}

func (s *kitScreen) Render() app.UI {
	return frame(page{title: "Kit", sub: kept.kit().Name, dest: "/kit", back: link("/rig"), body: []app.UI{
		app.If(s.first == "backup", func() app.UI { return s.backup.draw(kept.which == demoKit) }),
		s.open.draw(),
		s.device(),
		s.storage.draw(),
		app.If(s.first != "backup", func() app.UI { return s.backup.draw(kept.which == demoKit) }),
		s.names(),
		s.demo(),
		s.old.draw(),
		s.open.drawDeleted(),
		s.changes(),
		s.about(),
	}})
}

// device holds the choices of this phone.
func (s *kitScreen) device() app.UI {
	return section("Units and theme",
		app.Div().Class("field").Body(app.Span().Class("label").Text("Units read first"),
			choice("Units read first", "units", string(kept.prefs.Units), []option{{string(fieldkit.Inch), "inch, lb, mi"}, {string(fieldkit.Metric), "mm, kg, km"}}, func(ctx app.Context, v string) {
				kept.prefs.Units = fieldkit.System(v)
				writePref("units", v)
				kept.publish(ctx)
			})),
		app.Div().Class("field").Body(app.Span().Class("label").Text("Theme"),
			choice("Theme", "theme", kept.prefs.Theme, []option{{daylight, "Daylight"}, {night, "Night"}}, func(ctx app.Context, v string) {
				kept.prefs.Theme = v
				writePref("theme", v)
				applyTheme(v)
				kept.publish(ctx)
			})),
		app.Div().Class("field").Body(app.Span().Class("label").Text("Place in new photos"),
			choice("Place in new photos", "photo place", photoPlace(), []option{{"", "Leave it out"}, {keepPlace, "Keep it"}}, func(ctx app.Context, v string) {
				kept.prefs.KeepPlace = v == keepPlace
				writePref("photo place", v)
				kept.publish(ctx)
			}),
			app.P().Class("hint").Text("Photos never keep what else a camera writes into them. Whoever gets a backup sees the place too.")),
	)
}

// photoPlace is the choice of this device as an option's value.
func photoPlace() string {
	if kept.prefs.KeepPlace {
		return keepPlace
	}
	return ""
}

func (s *kitScreen) names() app.UI {
	if s.name == nil {
		return app.Div().Hidden(true)
	}
	f := s.name
	return section("This kit",
		f.restoredNotice(),
		f.text("name", "Name of the kit", "the crew's, for backups"),
		f.text("currency", "Currency of all prices", "three letters: USD, EUR, CAD; prices keep their figures and take the new name"),
		problem(s.err),
		button("quiet wide", "Save name and currency", "names", s.saveNames),
	)
}

func (s *kitScreen) saveNames(ctx app.Context) {
	f := s.name
	name, currency := f.typed("name"), strings.ToUpper(f.typed("currency"))
	ok := f.short()
	if name == "" {
		ok = f.refuse("name", badField("the kit has no name", "write one"))
	}
	if _, err := fieldkit.ParseMoney("0 "+currency, ""); err != nil {
		ok = f.refuse("currency", badField(fmt.Sprintf("%q is no currency", currency), "write its three letters, such as USD"))
	}
	if !ok {
		s.err = showWrong(ctx)
		return
	}
	kept.do(ctx, "Named the kit "+name, func(e *journal.Edit) error {
		e.SetName(name)
		if currency != e.Kit().Currency {
			for _, r := range fieldkit.Relabelled(e.Kit(), currency) {
				e.Put(r)
			}
			e.SetCurrency(currency)
		}
		return nil
	}, func(_ app.Context, err error) {
		if s.err = err; err == nil {
			f.done()
		}
	})
}

func (s *kitScreen) demo() app.UI {
	if kept.which == demoKit {
		return section("Demo kit",
			app.P().Text("You are looking at the demo kit. Your own kit is not touched by anything done here."),
			button("act wide", "Throw the demo away", "leave demo", func(ctx app.Context) { toRig(ctx, kept.leaveDemo) }),
			button("quiet wide", "My own kit, keep the demo", "own kit", func(ctx app.Context) {
				toRig(ctx, func(ctx app.Context) { kept.begin(ctx, ownKit) })
			}),
		)
	}
	return section("Demo kit",
		app.P().Text("A crew with two rigs, their parts, spares, trips and log: all invented. Your own kit stays as it is."),
		button("quiet wide", "Look around in the demo kit", "demo kit", func(ctx app.Context) {
			toRig(ctx, func(ctx app.Context) { kept.begin(ctx, demoKit) })
		}),
	)
}

// toRig changes the kit in hand and shows its first screen: no other address means
// anything in another kit.
func toRig(ctx app.Context, change func(app.Context)) {
	change(ctx)
	ctx.Navigate(link("/rig"))
}

// historyRow is one of the latest changes.
type historyRow struct {
	what, when string
	undo       string // ID of the entry to take back, none if it cannot be
	before     uint64 // of a restore: the entry before it, whose kit can be taken over again
}

// viewHistory puts the latest changes in words, newest first. The beginning of the
// kit cannot be taken back, nor what was taken back already.
func viewHistory(entries []journal.Entry) []historyRow {
	var rows []historyRow
	undone := map[string]bool{}
	for _, e := range entries {
		row := historyRow{what: capital(e.What), undo: e.ID}
		if !e.At.IsZero() {
			row.when = e.At.Local().Format("2 Jan 2006 15:04")
		}
		if undone[e.ID] {
			row.undo, row.when = "", strings.Join(nonEmpty(row.when, "taken back"), " · ")
		} else if e.Undoes != "" {
			undone[e.Undoes] = true
		}
		switch {
		case e.Kit != nil && e.Seq == 1:
			row.undo = ""
		case e.Kit != nil:
			row.before = e.Seq - 1
		}
		rows = append(rows, row)
	}
	return rows
}

// changes lists the latest entries of the journal, each with its undo.
func (s *kitScreen) changes() app.UI {
	if kept.session == nil {
		return app.Div().Hidden(true)
	}
	return app.Details().Class("group no-print").Body(
		app.Summary().Body(app.Text("Latest changes"), app.Span().Class("count").Text(itoa(int(kept.session.Seq())))),
		app.Div().Class("in").Body(app.Ul().Class("list").Body(app.Range(s.history).Slice(func(i int) app.UI {
			row := s.history[i]
			return app.Li().Body(app.Div().Class("open plain").Body(
				app.Span().Class("what").Body(append([]app.UI{app.B().Text(row.what)}, spans(row.when)...)...),
				app.If(row.before > 0, func() app.UI {
					return button("quiet", "Kit before", "before "+row.when, func(ctx app.Context) { kept.takeOver(ctx, row.before, row.what) })
				}),
				app.If(row.undo != "" && row.before == 0, func() app.UI {
					return button("quiet", "Undo", "undo "+row.undo, func(ctx app.Context) { kept.undo(ctx, row.undo) })
				}),
			))
		})), s.changed.rest(int(kept.session.Seq()), "changes", s.loadChanges)),
	)
}

func (s *kitScreen) about() app.UI {
	return section("About",
		app.P().Class("soft").Text("A memory aid for people who know what they are doing. The vehicle maker's instructions, local rules and licensed mechanics come first. Rates, limits and torques that the program brings along are starting guesses."),
		app.P().Class("soft").Text("Version "+shortVersion()+". Free software, MIT licence."),
		newestLink(),
	)
}

func shortVersion() string {
	v := app.Getenv("GOAPP_VERSION")
	if len(v) > 10 {
		v = v[:10]
	}
	return v
}
