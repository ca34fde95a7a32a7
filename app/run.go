package app

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// Run registers the screens and starts them. It returns at once outside a
// browser.
func Run() {
	registerRoutes()
	applyTheme(readPrefs().Theme)
	watchScrolling()
	watchPrinting()
	app.RunWhenOnBrowser()
}
