package app

import (
	"context"
	"fmt"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit/journal"
)

// oldStores lists the stores of a kit beside the one in use: one that did not open and
// was gone on without, or one that stepped aside for a kit put together from raw
// records. Each can be opened again, handed out as raw records, or thrown away.
type oldStores struct {
	list []oldStore
	away throwAway
}

type oldStore struct {
	at  storeAt
	raw journal.Salvage
}

// load looks for them beside the UI goroutine.
func (o *oldStores) load(ctx app.Context) {
	which := kept.which
	ctx.Async(func() {
		var list []oldStore
		for n := 1; n <= copyOf(which)+laterCopies; n++ {
			if n == copyOf(which) {
				continue
			}
			for _, second := range []bool{false, true} { // the second copy where that alone is left
				at := storeAt{which, n, second}
				w, err := openWreck(context.Background(), at)
				if err != nil {
					continue
				}
				raw := w.Salvage(context.Background())
				w.Close()
				if len(raw.Records)+len(raw.Snapshots) > 0 {
					list = append(list, oldStore{at, raw})
					break
				}
			}
		}
		ctx.Dispatch(func(app.Context) { o.list = list })
	})
}

func (o *oldStores) draw() app.UI {
	if len(o.list) == 0 && o.away.told == "" && o.away.err == nil {
		return app.Div().Hidden(true)
	}
	which := kept.which
	body := []app.UI{app.P().Text("They take room and are not what is shown. Nothing is taken from them unless you say so.")}
	for _, s := range o.list {
		body = append(body, app.Div().Class("note block").Body(
			app.P().Class("strong").Text(fmt.Sprintf("Store %d%s: %s.", s.at.copy, whichCopy(s.at), leftWords(s.raw))),
			button("quiet wide", "Open it in place of the one in use", fmt.Sprint("open ", s.at.copy), func(ctx app.Context) {
				useCopy(which, s.at.copy)
				kept.open(ctx, which)
			}),
			app.If(!o.away.busy && o.away.asked != s.at.copy, func() app.UI { return o.away.saver(s.at, s.raw) }),
			o.away.draw(s.at, s.raw, func(ctx app.Context) { o.load(ctx) }),
		))
	}
	return section("Other stores of this kit on this phone", append(body, o.away.said())...)
}

// whichCopy says that of a store only its second copy is left.
func whichCopy(at storeAt) string {
	if at.second {
		return ", its second copy"
	}
	return ""
}

// leftWords counts what is left of a store.
func leftWords(s journal.Salvage) string {
	return fmt.Sprintf("%s, %s, %s", entriesWords(len(s.Records)), counted(len(s.Snapshots), "snapshot"), counted(len(s.Photos), "photo"))
}

// throwAway hands out a store's raw records and throws it away in two steps, of which
// the second names what goes.
type throwAway struct {
	asked int // the store that was asked about, 0 for none
	busy  bool
	told  string
	err   error
}

func (a *throwAway) draw(at storeAt, raw journal.Salvage, then func(app.Context)) app.UI {
	if a.busy {
		return app.P().Class("soft").Text("Working …")
	}
	if a.asked != at.copy {
		return button("quiet wide", "Throw this store away …", fmt.Sprint("ask ", at.copy), func(app.Context) { a.asked, a.told, a.err = at.copy, "", nil })
	}
	return app.Div().Class("note bad block").Role("alert").Body(
		app.P().Class("strong").Text("For good: "+leftWords(raw)+"."),
		app.P().Text("Nobody can bring it back. Save its raw records first and look that the file is there."),
		a.saver(at, raw),
		button("quiet wide", "Throw it away for good", fmt.Sprint("away ", at.copy), func(ctx app.Context) { a.do(ctx, at, then) }),
		button("act wide", "Leave it", fmt.Sprint("leave ", at.copy), func(app.Context) { a.asked = 0 }),
	)
}

func (a *throwAway) saver(at storeAt, raw journal.Salvage) app.UI {
	return button("quiet wide", "Save its raw records", fmt.Sprint("save ", at.copy), func(app.Context) { a.save(at, raw) })
}

func (a *throwAway) said() app.UI {
	return app.Div().Class("block").Body(
		app.If(a.told != "", func() app.UI { return app.P().Class("note ok").Role("status").Text(a.told) }),
		problem(a.err),
	)
}

func (a *throwAway) save(at storeAt, raw journal.Salvage) {
	a.busy, a.told, a.err = true, "", nil
	handOutRaw(at, raw, func(said string, err error) { a.busy, a.told, a.err = false, said, err })
}

func (a *throwAway) do(ctx app.Context, at storeAt, then func(app.Context)) {
	a.busy = true
	ctx.Async(func() {
		err := deleteKit(context.Background(), at.which, at.copy)
		kept.post(func(ctx app.Context) {
			a.busy, a.asked, a.err = false, 0, err
			if err == nil {
				a.told = "Thrown away."
				then(ctx)
			}
			kept.publish(ctx)
		})
	})
}

// forgetKit begins anew after the store in use was thrown away, by the person's word:
// it is not said to be gone, not even if the phone dies in the next moment. Half-written
// forms stay.
func (s *store) forgetKit(ctx app.Context, which string) {
	s.close()
	writePref("kept."+which, "")
	writePref("kit", "")
	forgetCards(which)
	s.prefs.Kit, s.phase, s.err, s.gone = "", opening, nil, ""
	s.publish(ctx)
	ctx.Async(func() {
		if cache, ok := plainCache(); ok {
			await(cache.Call("note", ""))
		}
		dropPlain()
		secondCopy.settle(settleLimit)
		s.post(func(ctx app.Context) {
			s.phase, s.which = choosing, ""
			s.publish(ctx)
		})
	})
}
