package app

import (
	"fmt"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/merge"
)

// rescueScreen is the rescue under its own address: what was set aside of a kit that is
// open.
type rescueScreen struct{ app.Compo }

func (s *rescueScreen) OnMount(ctx app.Context) { watch(ctx, func(app.Context) {}) }
func (s *rescueScreen) OnNav(ctx app.Context)   { arrive(ctx, func(app.Context) {}) }

func (s *rescueScreen) Render() app.UI {
	return frame(page{title: "Rescue", sub: "what can be read, and what not", dest: "/kit", back: link("/kit"), body: []app.UI{&rescueBlock{}}})
}

// rescueBlock stands in place of every screen while the kit does not open. It says what
// could be read and what not, and offers the ways on. It only reads: whatever is chosen,
// the bytes that are kept stay as they are.
type rescueBlock struct {
	app.Compo
	looked bool
	found  salvaged
	backup backupBlock
	away   throwAway
	busy   string
	told   string
	err    error
}

// salvaged is what is left of a store, and the kit it still gives.
type salvaged struct {
	at     storeAt
	raw    journal.Salvage
	copy   merge.Replica
	report journal.Report
	none   error     // why there is no kit to go on with
	later  int       // a store begun after this one, 0 if there is none
	second *salvaged // what the second copy holds, nil if it gives no kit
}

func (r *rescueBlock) OnMount(ctx app.Context) {
	r.backup.anew = r.restore
	ctx.Handle(kitChanged, func(app.Context, app.Action) {}) // to be drawn again
	r.look(ctx)
}

func (r *rescueBlock) Render() app.UI {
	if kept.phase == opening || kept.phase == choosing {
		return app.P().Class("soft").Text("Opening your kit …")
	}
	v := viewRescue(r.found)
	shut := kept.phase == closed
	return app.Div().Class("block").Body(
		app.If(shut, func() app.UI {
			return app.P().Class("lead strong").Text("Your kit could not be opened. Nothing in it was changed.")
		}),
		app.If(shut, func() app.UI { return problem(kept.err) }),
		app.If(shut, func() app.UI {
			return button("act wide", "Try again", "again", func(ctx app.Context) { kept.open(ctx, kept.which) })
		}),
		section("What can be read", r.readable(v)...),
		app.If(len(v.lost) > 0, func() app.UI {
			return section("What cannot be read",
				app.Ul().Class("bullets").Body(app.Range(v.lost).Slice(func(i int) app.UI { return app.Li().Text(capital(v.lost[i])) })),
				app.P().Class("soft").Text("It stays on this phone as it is."))
		}),
		r.ways(v, shut),
		app.If(r.busy != "", func() app.UI { return app.P().Class("note").Role("status").Text(r.busy) }),
		app.If(r.told != "", func() app.UI { return app.P().Class("note ok").Role("status").Text(r.told) }),
		problem(r.err),
		app.If(shut, func() app.UI { return r.backup.chooser() }),
		app.If(shut, plainLink),
		app.If(shut, previousLink),
	)
}

func (r *rescueBlock) readable(v rescueView) []app.UI {
	if !r.looked {
		return []app.UI{app.P().Class("soft").Text("Looking at what is kept …")}
	}
	list := []app.UI{app.P().Text(v.counts)}
	if v.kit != "" {
		list = append(list, app.P().Text("Put together, that is "+v.kit))
	}
	if v.second != "" {
		list = append(list, app.P().Text(v.second))
	}
	return list
}

// ways are the ways on.
func (r *rescueBlock) ways(v rescueView, shut bool) app.UI {
	if !r.looked || r.busy != "" {
		return app.Div().Hidden(true)
	}
	return section("Ways on",
		app.If(shut && r.found.later > 0, func() app.UI {
			return app.Div().Class("block").Body(
				button("act wide", "Open the later copy on this phone", "later", r.openLater),
				app.P().Class("soft").Text("It was begun when this one did not open before, or holds what was set aside."))
		}),
		app.If(v.anything, func() app.UI {
			return app.Div().Class("block").Body(
				button("quiet wide", "Save the raw records", "raw", func(app.Context) { r.saveRaw(r.found) }),
				app.P().Class("soft").Text("One file with every record as it is, photos too. Do this first: whoever mends kits can work with it."))
		}),
		app.If(shut && v.kit != "", func() app.UI {
			return app.Div().Class("block").Body(
				button("quiet wide", "Go on with what could be read", "go on", func(ctx app.Context) { r.goOn(ctx, r.found) }),
				app.P().Class("soft").Text("A new store is begun with it. The old one stays on this phone, untouched."))
		}),
		app.If(v.second != "" && (shut || kept.damaged()), func() app.UI {
			return app.Div().Class("block").Body(
				button("quiet wide", "Go on with the second copy", "go on second", func(ctx app.Context) { r.goOn(ctx, *r.found.second) }),
				button("quiet wide", "Save the second copy's raw records", "raw second", func(app.Context) { r.saveRaw(*r.found.second) }),
				app.P().Class("soft").Text("A new store is begun with what the second copy holds. The old one stays on this phone, untouched."))
		}),
		app.If(shut && v.anything, func() app.UI {
			which := kept.which
			return app.Div().Class("block").Body(
				r.away.draw(r.found.at, r.found.raw, func(ctx app.Context) {
					kept.forgetKit(ctx, which)
					ctx.Navigate(link("/rig"))
				}),
				r.away.said(),
				app.P().Class("soft").Text("Only if none of the other ways helps: the kit then begins empty."))
		}),
		app.If(!shut && kept.damaged(), func() app.UI {
			return app.Div().Class("block").Body(
				button("quiet wide", "I have seen it: go on with what is here", "seen", r.settle),
				app.P().Class("soft").Text("It is not named at each start any more. The damaged records stay, and this can be undone."))
		}),
		app.If(!shut, func() app.UI { return goTo("quiet wide", "Restore a backup", link("/kit")) }),
	)
}

// givesKit says whether there is a kit to go on with.
func (s salvaged) givesKit() bool {
	return s.none == nil && (s.report.Replayed > 0 || !s.report.BaseLost && len(s.raw.Records)+len(s.raw.Snapshots) > 0)
}

// rescueView is what the block says.
type rescueView struct {
	counts   string
	kit      string   // the kit it gives, none if it gives none
	second   string   // what the second copy holds, none if it gives no kit
	lost     []string // each thing that cannot be read
	anything bool     // something is left
}

// lostShown is how many unreadable things the screen lists; the raw file lists all.
const lostShown = 40

func viewRescue(s salvaged) rescueView {
	v := rescueView{anything: len(s.raw.Records)+len(s.raw.Snapshots)+len(s.raw.Photos) > 0}
	v.counts = fmt.Sprintf("%s, %s, %s.", entriesWords(len(s.raw.Records)), counted(len(s.raw.Snapshots), "snapshot"), counted(len(s.raw.Photos), "photo"))
	if s.givesKit() {
		v.kit = kitWords(s.copy.Kit, -1)
	}
	if s.second != nil && s.second.givesKit() {
		v.second = fmt.Sprintf("Its second copy, which lies apart, holds %s and %s. Put together, that is %s", entriesWords(len(s.second.raw.Records)),
			counted(len(s.second.raw.Photos), "photo"), kitWords(s.second.copy.Kit, -1))
	}
	v.lost = append(v.lost, s.raw.Unread...)
	v.lost = append(v.lost, s.report.Short(lostShown)...)
	if n := s.report.LostSnapshots; n > 0 {
		v.lost = append(v.lost, counted(n, "snapshot")+" not whole; nothing is lost by that alone")
	}
	if s.none != nil && v.anything {
		v.lost = append(v.lost, s.none.Error())
	}
	if len(v.lost) > lostShown {
		v.lost = append(v.lost[:lostShown:lostShown], fmt.Sprintf("and %d more", len(v.lost)-lostShown))
	}
	return v
}

func entriesWords(n int) string {
	if n == 1 {
		return "1 entry"
	}
	return itoa(n) + " entries"
}
