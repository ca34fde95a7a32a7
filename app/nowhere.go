package app

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// nowhereScreen answers an address that leads to no screen: a mistyped one, or a
// link from a newer version.
type nowhereScreen struct{ app.Compo }

func (s *nowhereScreen) OnMount(ctx app.Context) { watch(ctx, func(app.Context) {}) }
func (s *nowhereScreen) OnNav(ctx app.Context)   { arrive(ctx, func(app.Context) {}) }

func (s *nowhereScreen) Render() app.UI {
	return frame(page{title: "No such page", back: link("/rig"), body: []app.UI{
		emptyLine("This address leads nowhere. It may be mistyped, or from a newer version. The five places below are all there."),
	}})
}
