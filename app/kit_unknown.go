package app

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit/kitfile"
)

// saidAtMost is how many things a file names in vain are said one by one.
const saidAtMost = 5

// unknownKinds says what a file to be restored names that this version of the app does
// not know: kinds of a later catalog, or a slip. They are kept as they stand.
func unknownKinds(problems []kitfile.Problem) app.UI {
	return saidOfFile("It names what this app does not know. That is kept as it stands, and no search, repair or estimate goes by it:", problems)
}

// disguised says which texts of what is to be taken over are not what they read like.
func disguised(problems []kitfile.Problem) app.UI {
	return saidOfFile("Some of its texts are not what they read like. They are kept as they stand; type anew what you go by:", problems)
}

// saidOfFile lists what is to be known of a file before it is taken over.
func saidOfFile(words string, problems []kitfile.Problem) app.UI {
	if len(problems) == 0 {
		return app.Div().Hidden(true)
	}
	var lines []app.UI
	for _, p := range problems[:min(saidAtMost, len(problems))] {
		lines = append(lines, app.Li().Text(p.Where+": "+p.What))
	}
	if more := len(problems) - saidAtMost; more > 0 {
		lines = append(lines, app.Li().Text("and "+itoa(more)+" more"))
	}
	return app.Div().Class("block").Body(
		app.P().Text(words),
		app.Ul().Class("bullets").Body(lines...),
	)
}
