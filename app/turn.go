package app

import (
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// sliceLength is how long work goes on before the screen has its turn: half of what a
// frame has at 60 a second.
const sliceLength = 8 * time.Millisecond

// drawnBy is how long the screen takes to show what was asked of it: a frame to lay it
// out and one to paint it, with something to spare.
const drawnBy = 50 * time.Millisecond

// handOver gives the page its turn, and comes back once it had it. There is one thread,
// and the page has it only while every goroutine waits: of two that work in slices and
// sleep in between, one is always awake. So it waits for the page itself to call back.
func handOver() {
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
