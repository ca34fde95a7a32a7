package app

import (
	"fmt"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// storageState says how well this phone keeps the kit, and whether the app starts
// without signal.
type storageState struct {
	looked  bool
	forGood bool
	used    int64 // bytes
	limit   int64 // bytes, 0 when the browser does not tell
	offline offlineState
}

// offlineState is what the service worker says of its files, each checked byte for
// byte.
type offlineState struct {
	asked, ready bool
	missing      int
	reason       string
}

// look asks the browser; it never blocks the screen. How whole the second copy is shows once
// it has caught up.
func (s *storageState) look(ctx app.Context) {
	ctx.Async(func() {
		forGood, used, limit := storageFacts()
		offline := askOffline()
		ctx.Dispatch(func(app.Context) {
			kept.storage.forGood = forGood
			s.looked, s.forGood, s.used, s.limit, s.offline = true, forGood, used, limit, offline
		})
		kept.followSecond()
		ctx.Dispatch(func(app.Context) {})
	})
}

func (s *storageState) draw() app.UI {
	const title = "Kept on this phone"
	if !s.looked {
		likely := storageState{forGood: kept.storage.forGood, limit: 1e10, offline: offlineState{ready: true}}
		return section(title, roomFor("Checking …", likely.found()...))
	}
	return section(title, s.found()...)
}

// found says what the browser answered.
func (s *storageState) found() []app.UI {
	keeps := blaze("part", "The browser may clear this: back up")
	if s.forGood {
		keeps = blaze("good", "Kept for good")
	}
	starts := blaze("good", "Ready for no signal")
	if !s.offline.ready {
		starts = blaze("none", "Not ready for no signal")
	}
	room := ""
	if s.limit > 0 {
		room = fmt.Sprintf("%s used of %s", bytesWords(s.used), bytesWords(s.limit))
	}
	second := kept.secondWords()
	return []app.UI{
		starts,
		app.If(!s.offline.ready, func() app.UI {
			return app.P().Text(capital(s.offline.reason) + ". Stay where there is signal until this changes.")
		}),
		plainLink(),
		app.P().Class("soft").Text("Plain pages can be read before the program has started, and if it cannot: the emergency page, repairs under way, packing lists of trips to come, and the counter cards pinned or opened last."),
		keeps,
		app.If(!s.forGood, func() app.UI {
			return button("quiet wide", "Ask the browser to keep it for good", "persist", s.askForGood)
		}),
		app.If(room != "", func() app.UI { return app.P().Class("soft").Text(room) }),
		app.If(second != "", func() app.UI { return app.P().Class("soft").Text(second) }),
		button("link", "Check again", "look", func(ctx app.Context) { s.look(ctx) }),
	}
}

func (s *storageState) askForGood(ctx app.Context) {
	ctx.Async(func() {
		persistStorage()
		ctx.Dispatch(func(ctx app.Context) { s.look(ctx) })
	})
}

// askOffline lets the page's start script check every cached file against its
// hash. It must not run on the UI goroutine.
func askOffline() offlineState {
	ask := app.Window().Get("fieldkitOfflineReady")
	if !ask.Truthy() {
		return offlineState{asked: true, reason: "this browser cannot keep the app"}
	}
	v, ok := await(ask.Invoke())
	if !ok {
		return offlineState{asked: true, reason: "the check did not answer"}
	}
	o := offlineState{asked: true, ready: v.Get("ready").Bool(), reason: "some files are still on their way"}
	if m := v.Get("missing"); m.Truthy() {
		o.missing = m.Get("length").Int()
	}
	if o.missing > 0 {
		o.reason = counted(o.missing, "file") + " still missing"
	}
	return o
}

func bytesWords(n int64) string {
	switch {
	case n >= 1_000_000_000:
		return fmt.Sprintf("%.1f GB", float64(n)/1e9)
	case n >= 1_000_000:
		return fmt.Sprintf("%.1f MB", float64(n)/1e6)
	}
	return fmt.Sprintf("%d kB", n/1000)
}
