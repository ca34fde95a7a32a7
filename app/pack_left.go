package app

import (
	"fmt"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit/spares"
)

// leftOut lists what stays at home and what it would save, the most useful first.
func (s *packTripScreen) leftOut() app.UI {
	if !s.view.said {
		return app.Div().Class("no-print").Body(roomFor("Working out what else would help …",
			app.Details().Class("group").Body(app.Summary().Text("Left at home"))))
	}
	list := s.view.proposal.LeftOut
	if len(list) == 0 {
		return app.Div().Hidden(true)
	}
	just, entry := s.view.proposal.JustLeftOut(), ""
	if just >= 0 {
		entry = s.workingOut("how much more would bring it in")
		if e, ok := reckoned.entries[list[just].Ref]; ok {
			entry = capital(e.Words(kept.first(), list[just].Guessed))
		}
	}
	shown := list[:min(len(list), s.left.most())]
	return app.Details().Class("group no-print").Body(
		app.Summary().Body(app.Text("Left at home"), app.Span().Class("count").Text(fmt.Sprint(len(list)))),
		app.Div().Class("in").Body(app.Ul().Class("list").Body(app.Range(shown).Slice(func(i int) app.UI {
			l := shown[i]
			words := "Would save " + spares.Guess(l.Adds.String(), l.Guessed) + " · " + l.Text(kept.first())
			if i == just {
				words += " · " + entry
			}
			return openRow(link("/pack/line", "trip", s.view.trip.ID, "type", string(l.Ref.Type), "item", l.Ref.Item), l.Name, words, "")
		})), s.left.rest(len(list), "things", s.load)),
	)
}

// mostCompared is up to how many things that could go along the screen works out by
// itself how lists compare: beyond, that would keep a phone busy for minutes.
const mostCompared = 500

// putOff reports whether comparing lists waits until it is asked for.
func (s *packTripScreen) putOff() bool {
	return len(s.view.proposal.LeftOut) > mostCompared && !s.allTheSame
}

// workingOut says that something is being worked out, or waits to be asked for.
func (s *packTripScreen) workingOut(what string) string {
	if s.putOff() {
		return "Not worked out: " + what + "."
	}
	return marked("Working out " + what + " …")
}

// askAll asks for what was put off.
func (s *packTripScreen) askAll() app.UI {
	return app.Div().Class("block no-print").Hidden(!s.putOff()).Body(
		app.P().Class("soft").Text(fmt.Sprintf("%d more things could go along. Comparing lists of so many takes minutes, so it waits for your word.", len(s.view.proposal.LeftOut))),
		button("quiet wide", "Compare all the same", "all the same", func(ctx app.Context) {
			s.allTheSame = true
			s.load(ctx)
		}),
	)
}
