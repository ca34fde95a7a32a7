package app

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// lookForOffer asks whether the program that serves this page offers a kit file to
// take over. Only the desk program does, and it serves plain http; hosts of the
// static site are not asked. With no offer nothing is said. A file that is not a kit is said
// to be refused, and why.
func (s *store) lookForOffer() {
	if app.IsServer || app.Window().URL().Scheme != "http" {
		return
	}
	go func() {
		answer, ok := await(app.Window().Call("fetch", link("/offered-kit.json"), map[string]any{"cache": "no-store"}))
		if !ok || answer.Get("status").Int() != 200 {
			return
		}
		text, ok := await(answer.Call("text"))
		if !ok {
			return
		}
		k, err := kitfile.Load("the kit file served with this page", []byte(text.String()))
		s.post(func(ctx app.Context) {
			if err != nil {
				s.trouble = &fieldkit.Error{Kind: fieldkit.BadInput, What: err.Error(), Do: "mend the file and start the server again", Cause: err}
			} else {
				s.offer = &k
			}
			s.publish(ctx)
		})
	}()
}

// offerButton opens the kit on offer as one's own, on a phone that has none yet.
func offerButton() app.UI {
	if kept.offer == nil || everHad(ownKit) {
		return app.Div().Hidden(true)
	}
	return button("act tall wide", "Open "+kept.offer.Name, "offer", func(ctx app.Context) {
		offer := *kept.offer
		remember(prefPrefix+"had."+ownKit, "yes")
		kept.openWith(ctx, ownKit, func() fieldkit.Kit { return offer })
	})
}
