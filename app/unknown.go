package app

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// unknownScreen answers an address that is none of ours: mistyped, or from a newer
// version of the program.
type unknownScreen struct{ app.Compo }

func (s *unknownScreen) OnMount(ctx app.Context) { watch(ctx, func(app.Context) {}) }
func (s *unknownScreen) OnNav(ctx app.Context)   { arrive(ctx, func(app.Context) {}) }

func (s *unknownScreen) Render() app.UI {
	return frame(page{title: "Not here", back: link("/rig"), body: []app.UI{
		emptyLine("There is no such screen. The link may be mistyped, or from a newer version of the program."),
		goTo("act wide", "To the rig", link("/rig")),
	}})
}
