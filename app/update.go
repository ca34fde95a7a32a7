package app

import (
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
)

// listenForUpdates notes when a new version has been stored whole, and when it is no
// more. It is offered on every screen and used when the person says so, never in the
// middle of work. The page's start script does the looking.
func (s *store) listenForUpdates() {
	if app.IsServer {
		return
	}
	ready := func() bool { return app.Window().Get("fieldkitUpdateReady").Truthy() }
	note := func() {
		s.post(func(ctx app.Context) {
			s.updateWaiting, s.updating = ready(), false
			if !s.updateWaiting || s.phase == opening || s.phase == choosing {
				s.offerUpdate()
			}
			s.publish(ctx)
		})
	}
	app.Window().Set("goappOnUpdate", app.FuncOf(func(app.Value, []app.Value) any {
		note()
		return nil
	}))
	if ready() {
		note()
	}
}

// offerUpdate says from now on that a new version waits, if one does: with the next
// screen, or while nobody looks. Said over a screen in hand, it would move what is under
// the thumb.
func (s *store) offerUpdate() { s.updateOffered = s.updateWaiting }

// listenForReturn reads the kit again when the app comes back into view: another
// tab may have written, and a phone may have cut the connection meanwhile.
func (s *store) listenForReturn() {
	if app.IsServer {
		return
	}
	doc := app.Window().Get("document")
	doc.Call("addEventListener", "visibilitychange", app.FuncOf(func(app.Value, []app.Value) any {
		if doc.Get("visibilityState").String() == "visible" {
			s.refresh()
		} else {
			s.keepPlainNow() // it may be the last chance before the phone dies
			s.post(func(ctx app.Context) {
				if s.updateWaiting && !s.updateOffered && s.typing != s.shown.number {
					s.offerUpdate()
					s.publish(ctx)
				}
			})
		}
		return nil
	}))
}

// applyUpdate takes up the waiting version; the page starts again in it, as soon as it
// has taken over. While anything is in the way, it waits for that.
func applyUpdate(ctx app.Context) {
	if err := inTheWay(); err != nil {
		kept.trouble = err
		kept.publish(ctx)
		return
	}
	apply := app.Window().Get("fieldkitApplyUpdate")
	if kept.updating || !apply.Truthy() {
		return
	}
	kept.updating = true
	kept.publish(ctx)
	apply.Invoke(app.FuncOf(func(app.Value, []app.Value) any {
		kept.updating = false
		kept.post(kept.publish) // where the page stays, the offer stands again
		return inTheWay() == nil
	}))
}

// inTheWay says what a new start of the page would break off: something typed on the
// screen that is shown and not saved, a change being written, a restore, a backup, a photo
// being made smaller, a plan. Nil if nothing is.
func inTheWay() error {
	switch {
	case kept.shown.number != 0 && slices.Contains([]int{kept.typing, kept.picking}, kept.shown.number):
		return &fieldkit.Error{Kind: fieldkit.Conflict, What: "something is typed or picked here and not saved",
			Do: "save it, or leave this screen, then use the new version"}
	case kept.atWork > 0 || planning != nil:
		return &fieldkit.Error{Kind: fieldkit.Conflict, What: "something is still being worked on here",
			Do: "wait until it is done, or stop it, then use the new version"}
	}
	return nil
}

// work does beside the screen what must not be broken off: until its answer was taken in,
// a new version waits.
func (s *store) work(ctx app.Context, do func()) {
	s.atWork++
	ctx.Async(func() {
		do()
		s.post(func(app.Context) { s.atWork-- })
	})
}

// updateNotice offers a new version that waits.
func updateNotice() app.UI {
	if kept.updating {
		return app.Div().Class("note ok no-print").Aria("live", "polite").Text("Changing to the new version …")
	}
	return app.Div().Class("note ok no-print").Body(
		app.Text("A new version is here and checked. It is used at the next start, or now. What you typed is kept."),
		app.Div().Class("row").Body(button("quiet", "Use it now", "update", applyUpdate)),
	)
}

// standing is which version of the program this is, beside the others kept.
type standing struct {
	newest   bool // else this is the one before a version that did not start
	previous bool // the one before this is still kept, because this has not proven itself
}

func whereItStands() standing {
	if app.IsServer {
		return standing{newest: true}
	}
	v := app.Window().Get("fieldkitStanding")
	if !v.Truthy() {
		return standing{newest: true}
	}
	return standing{newest: v.Get("version").String() == v.Get("newest").String(), previous: v.Get("previous").Truthy()}
}

// previousLink offers the version before this one, where it is still kept.
func previousLink() app.UI {
	if !whereItStands().previous {
		return app.Div().Hidden(true)
	}
	return goTo("quiet wide", "Start the version before this one", link("/previous-version"))
}

// newestLink offers the newest version again after it was left for the one before.
func newestLink() app.UI {
	if whereItStands().newest {
		return app.Div().Hidden(true)
	}
	return app.Div().Class("note warn").Body(
		app.P().Text("This is the version before the newest one, which did not start here."),
		goTo("quiet", "Try the newest again", link("/newest-version")),
	)
}
