package app

import (
	"fmt"
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

// worth says what the list saves, how sure that is and what it rests on, once that is known.
func (s *packTripScreen) worth() app.UI {
	p := s.view.proposal
	switch {
	case !s.view.said && s.view.sheet.Totals.Lines == 0:
		return app.P().Class("soft").Text(marked(workingOutWorth))
	case !s.view.said:
		return roomFor(workingOutWorth, costWords(twoFigures, twoFigures, true), outcomeWords([2]spares.Outcome{likelyOutcome, likelyOutcome}, true), bestLike(),
			app.Details().Class("group").Body(app.Summary().Text(restsOn)))
	case s.view.sheet.Totals.Lines == 0:
		return s.rests()
	}
	return app.Div().Class("block").Body(costWords(p.Bare, p.Left, p.Guessed), s.home(), s.rests())
}

const workingOutWorth = "Working out what this list is good for …"

func costWords(bare, left spares.Hours, guessed bool) app.UI {
	return app.P().Text(unbroken(fmt.Sprintf("Failures on this trip cost %s on average with nothing on board, %s with this list.",
		spares.Guess(bare.String(), guessed), spares.Guess(left.String(), guessed))))
}

const restsOn = "What this rests on"

// rests says what to know before relying on the list.
func (s *packTripScreen) rests() app.UI {
	notes := s.view.proposal.Notes
	if len(notes) == 0 {
		return app.Div().Hidden(true)
	}
	return app.Details().Class("group no-print").Body(
		app.Summary().Body(app.Text(restsOn), app.Span().Class("count").Text(itoa(len(notes)))),
		app.Div().Class("in").Body(bullets(notes)),
	)
}

// home says what getting home comes to with the list and without, and how sure that is.
func (s *packTripScreen) home() app.UI {
	h, guessed := reckoned.home, s.view.proposal.Guessed
	if h == nil || reckoned.of.trip.ID != s.view.trip.ID {
		working := s.workingOut("how likely every rig gets home")
		if s.putOff() {
			return app.Div().Body(app.P().Class("soft").Text(working), s.askAll())
		}
		return roomFor(working, outcomeWords([2]spares.Outcome{likelyOutcome, likelyOutcome}, guessed), bestLike())
	}
	best := app.P().Hidden(true)
	if b := reckoned.best; b != nil {
		ticked := slices.ContainsFunc(s.view.pack.Lines, func(l fieldkit.PackLine) bool { return l.Packed && !l.Pinned })
		best = app.P().Class("soft").Text(marked(b.Words(ticked, guessed)))
	}
	return app.Div().Class("block").Body(outcomeWords(*h, guessed), best)
}

// outcomeWords say what the trip comes to with the list and without.
func outcomeWords(h [2]spares.Outcome, guessed bool) app.UI {
	row := func(name string, o spares.Outcome) []app.UI {
		return []app.UI{
			app.Dt().Text(name),
			app.Dd().Text(unbroken("Home by itself " + spares.Guess(spares.Percent(o.Home), guessed) + ", 9 times in 10 between " + spares.Percent(o.HomeWithin[0]) + " and " + spares.Percent(o.HomeWithin[1]) +
				"; loses " + spares.Guess(o.Lost.String(), guessed) + ", between " + o.LostWithin[0].String() + " and " + o.LostWithin[1].String())),
		}
	}
	return app.Dl().Class("facts").Body(append(row("With this list", h[0]), row("With nothing on board", h[1])...)...)
}

// Figures as long as most are: the room for those that are still worked out.
const twoFigures spares.Hours = 20.5

var likelyOutcome = spares.Outcome{Home: 0.25, HomeWithin: [2]float64{0.25, 0.25}, Lost: twoFigures, LostWithin: [2]spares.Hours{twoFigures, twoFigures}}

func bestLike() app.UI {
	return app.P().Text(marked(spares.Best{Proved: true}.Words(false, false)))
}
