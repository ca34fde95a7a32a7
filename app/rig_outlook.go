package app

import (
	"fmt"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

// outlookView is how likely a position is to fail on the next trip of its rig.
type outlookView struct {
	trip       fieldkit.Trip
	ahead      bool // there is a trip ahead
	likelihood spares.Likelihood
}

func viewOutlook(k fieldkit.Kit, cat fieldkit.Catalog, p fieldkit.Position) (v outlookView) {
	rig, _ := k.RigOf(p)
	if v.trip, v.ahead = tripAhead(k, rig.ID); v.ahead {
		v.likelihood = spares.LikelihoodOf(k, cat, v.trip, p)
	}
	return v
}

// tripAhead is the soonest trip of a rig that is not done; one without a day comes
// last.
func tripAhead(k fieldkit.Kit, rig string) (next fieldkit.Trip, ok bool) {
	for _, t := range k.Trips {
		goes := false
		for _, r := range t.Rigs {
			goes = goes || r == rig
		}
		sooner := !ok || !t.Start.IsZero() && (next.Start.IsZero() || t.Start.Before(next.Start))
		if goes && !t.Done && sooner {
			next, ok = t, true
		}
	}
	return next, ok
}

// outlook shows the likelihood on the next trip with its interval and what it rests on.
func (s *positionScreen) outlook() app.UI {
	o, kind := s.view.outlook, s.view.kind.ID
	if !o.ahead || o.likelihood.Expected <= 0 {
		return app.Div().Hidden(true)
	}
	l := o.likelihood
	body := []app.UI{
		app.P().Class("big figures").Text(spares.Guess(spares.Percent(l.Probability), l.Guessed()) + " likely to fail"),
		app.P().Class("soft").Text(fmt.Sprintf("On %s. Nine times in ten between %s and %s.", o.trip.Name, spares.Percent(l.Interval[0]), spares.Percent(l.Interval[1]))),
		blaze(evidenceMark(l), capital(l.Evidence)),
	}
	if l.Due {
		body = append(body, app.P().Class("note warn").Text("By its readings it is at its limit before the trip is over. Change it before leaving."))
	}
	body = append(body,
		app.Details().Class("group").Body(
			app.Summary().Body(app.Text("How this was reckoned")),
			app.Div().Class("in").Body(bullets(capitals(l.Detail))),
		),
		app.Div().Class("two no-print").Body(
			goTo("quiet", "What it costs", link("/pack/cost", "trip", o.trip.ID, "position", s.view.position.ID)),
			goTo("quiet", "Figures of the kind", link("/rig/prior", "kind", kind)),
		),
	)
	return section("On the next trip", body...)
}

// evidenceMark is the blaze of a likelihood: measured, partly, or guessed.
func evidenceMark(l spares.Likelihood) string {
	switch {
	case !l.Guessed():
		return "good"
	case l.LogWeight > 0.05 || l.Readings > 0:
		return "part"
	}
	return "none"
}

func capitals(list []string) []string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = capital(s)
	}
	return out
}
