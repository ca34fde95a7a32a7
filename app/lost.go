package app

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// lostScreen stands at addresses that are none of ours.
type lostScreen struct{ app.Compo }

func (s *lostScreen) OnMount(ctx app.Context) { watch(ctx, func(app.Context) {}) }
func (s *lostScreen) OnNav(ctx app.Context)   { arrive(ctx, func(app.Context) {}) }

func (s *lostScreen) Render() app.UI {
	return frame(page{title: "Nothing here", back: link("/rig"), body: []app.UI{
		emptyLine("There is no screen at this address. The link may be from another version, or cut short."),
		goTo("act wide", "To the rig", link("/rig")),
	}})
}
