package app

import (
	"sync"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// go-app drops what is dispatched through a screen that was left meanwhile. What
// the store learns from the disk must never be dropped, so it is queued, and done
// through whatever screen is shown by then.

// shownScreen is what the store knows of the screen on the page.
type shownScreen struct {
	ctx    app.Context
	number int // raised with every screen
	queue  queue
	left   bool // what runs now was asked for by a screen that is gone
	loaded shownState
}

// queue is what is to be done on the UI goroutine. Others put in while that takes out: even
// on one thread, where Go may turn to another goroutine whenever memory is asked for.
type queue struct {
	mu   sync.Mutex
	list []func(app.Context)
}

func (q *queue) put(do func(app.Context)) {
	q.mu.Lock()
	defer q.mu.Unlock()
	q.list = append(q.list, do)
}

// take gives what was put in first, nil if there is nothing.
func (q *queue) take() (do func(app.Context)) {
	q.mu.Lock()
	defer q.mu.Unlock()
	if len(q.list) > 0 {
		do, q.list = q.list[0], q.list[1:]
	}
	return do
}

// shownState is what a view was worked out from: which screen at which address, and
// which state of the kit.
type shownState struct {
	screen, revision int
	address          string
}

// changedSince reports whether anything is otherwise than when it was last asked, just
// before a view was loaded: a screen that an edit leads to is navigated to and told of
// the edit, all at once, and loads its view once.
func (s *store) changedSince(ctx app.Context) bool {
	now := shownState{s.shown.number, s.revision, ctx.Page().URL().String()}
	changed := now != s.shown.loaded
	s.shown.loaded = now
	return changed
}

// show is called when a screen is mounted.
func (s *store) show(ctx app.Context) {
	s.shown.ctx = ctx
	s.shown.number++
	s.drain(ctx)
}

// post runs a function on the UI goroutine, now or when the next screen is
// mounted.
func (s *store) post(do func(app.Context)) {
	s.shown.queue.put(do)
	s.shown.ctx.Dispatch(s.drain)
}

func (s *store) drain(ctx app.Context) {
	for do := s.shown.queue.take(); do != nil; do = s.shown.queue.take() {
		do(ctx)
	}
}

// forThisScreen marks an answer so that goOn does nothing if the person has gone
// elsewhere before it came.
func (s *store) forThisScreen(answer func(app.Context)) func(app.Context) {
	asked := s.shown.number
	return func(ctx app.Context) {
		s.shown.left = asked != s.shown.number
		answer(ctx)
		s.shown.left = false
	}
}

// goOn opens the next screen once something is on disk, unless the person has
// gone elsewhere meanwhile. Where this screen was opened from there, it goes back,
// to the line that was left.
func goOn(ctx app.Context, href string) {
	switch {
	case kept.shown.left:
	case app.IsClient && openedFrom(scrolls.from, href):
		goBack()
	default:
		ctx.Navigate(href)
	}
}
