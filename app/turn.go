package app

import (
	"runtime"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// sliceLength is how long work goes on before the screen has its turn: half of what a
// frame has at 60 a second.
const sliceLength = 8 * time.Millisecond

// drawnBy is how long the screen takes to show what was asked of it: a frame to lay it
// out and one to paint it, with something to spare.
const drawnBy = 50 * time.Millisecond

// work is what takes longer than a frame. It runs in a goroutine of its own, and stops
// every few milliseconds to let the screen draw and the finger be heard.
type work struct {
	trip    string
	stopped bool      // the person takes what there is so far
	dropped bool      // nobody wants what comes of it any more
	since   time.Time // of this slice
}

// keepGoing yields when the slice is used up, and as long as other work comes first; it
// says whether to go on. What was stopped yields too, as long as it tidies up. What was
// dropped ends here, whatever it was at, and its goroutine with it.
func (w *work) keepGoing() bool {
	for !w.dropped && time.Since(w.since) > sliceLength {
		handOver()
		if w.comesFirst() {
			w.since = time.Now()
		}
	}
	if w.dropped {
		runtime.Goexit()
	}
	return !w.stopped
}

// comesFirst reports whether nothing else is under way that somebody waits for: first a
// plan, then what a list is good for.
func (w *work) comesFirst() bool {
	switch {
	case w.stopped:
		return true
	case planning != nil && planning.begun:
		return w == &planning.work
	case kept.explaining != nil:
		return w == &kept.explaining.work
	}
	return true
}

// handOver gives the page its turn, and comes back once it had it. There is one thread,
// and the page has it only while every goroutine waits: of two that work in slices and
// sleep in between, one is always awake. So it waits for the page itself to call back.
// Tests put a page of their own in its place.
var handOver = func() {
	if !app.IsClient {
		time.Sleep(time.Millisecond)
		return
	}
	called := make(chan struct{})
	back := app.FuncOf(func(app.Value, []app.Value) any {
		close(called)
		return nil
	})
	defer back.Release()
	app.Window().Call("setTimeout", back, 0)
	<-called
}

// pace lets work that is not for the eye go on for a while before the page has its turn.
type pace struct{ since time.Time }

// pacedFor is longer than a frame, since each turn costs some milliseconds, and too short
// to be felt under a finger.
const pacedFor = 40 * time.Millisecond

// turn is called again and again in the midst of the work, not on the UI goroutine.
func (p *pace) turn() {
	switch now := time.Now(); {
	case p.since.IsZero():
		p.since = now
	case now.Sub(p.since) > pacedFor:
		handOver()
		p.since = time.Now()
	}
}
