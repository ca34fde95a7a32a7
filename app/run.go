package app

import (
	"runtime"
	"runtime/debug"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// Run registers the screens and starts them. It returns at once outside a
// browser.
func Run() {
	collectLater()
	registerRoutes()
	applyTheme(readPrefs().Theme)
	watchScrolling()
	watchPrinting()
	app.RunWhenOnBrowser()
}

// firstCollection is how much garbage lies before the first collection, in percent of
// the 4 MB from which Go collects else. A start makes less than these 16 MB and so
// collects nothing; the first screen waits for no collection.
const firstCollection = 400

// memoryWanted is where collecting garbage begins to be worth more than the time it
// takes: memory that the program has taken once is never given back, and a phone ends
// pages that take too much.
const memoryWanted = 400 << 20

func collectLater() {
	debug.SetMemoryLimit(memoryWanted)
	was := debug.SetGCPercent(firstCollection)
	first := new([64]byte)
	runtime.AddCleanup(first, func(percent int) { debug.SetGCPercent(percent) }, was) // after the first one: as usual
}
