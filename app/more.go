package app

import (
	"fmt"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// rowsAtOnce is how many rows of a long list are drawn before more are asked for: a
// season's log, and little enough to be there at once.
const rowsAtOnce = 100

// longList is how much of a list is drawn. The zero value draws rowsAtOnce rows.
type longList struct{ pages int }

// most is how many rows are drawn.
func (l longList) most() int { return rowsAtOnce * (l.pages + 1) }

// rest draws the button that shows more of a list of n rows; print says on paper what
// is left out.
func (l *longList) rest(n int, what string, load func(app.Context)) app.UI {
	if n <= l.most() {
		return app.Div().Hidden(true)
	}
	return app.Div().Class("block").Body(
		app.P().Class("soft").Text(fmt.Sprintf("%d of %d %s are shown.", l.most(), n, what)),
		button("quiet wide no-print", "Show more", "more "+itoa(l.pages), func(ctx app.Context) {
			l.pages++
			load(ctx)
		}),
	)
}
