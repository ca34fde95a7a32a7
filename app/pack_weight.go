package app

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

// weighed remembers the curve of weight against hours saved, and what it was made for.
type weighed struct {
	trip  fieldkit.Trip
	never []fieldkit.Item
	hand  []fieldkit.PackLine // set by hand
	basis basis
	curve []spares.CurvePoint
	work  *work // not done yet
}

var weights weighed

// drawCurve has the curve of a trip worked out, unless it is there or under way. If it is
// not its turn yet, a curve of another list is only forgotten.
func drawCurve(trip fieldkit.Trip, pack fieldkit.Pack, itsTurn bool) {
	if !app.IsClient {
		return
	}
	now := weighed{trip: trip, never: pack.Never, basis: basisOf(kept.kit())}
	now.trip.Limits.Mass = 0 // the curve is the same whatever the limit of now
	keep := pack
	keep.Lines = nil
	for _, l := range pack.Lines {
		if spares.Stays(l) {
			keep.Lines = append(keep.Lines, l)
			now.hand = append(now.hand, fieldkit.PackLine{Type: l.Type, Item: l.Item, Count: l.Count})
		}
	}
	same := weights
	same.curve, same.work = nil, nil
	if reflect.DeepEqual(same, now) {
		return
	}
	if weights.work != nil {
		weights.work.dropped = true
	}
	if weights = (weighed{}); !itsTurn {
		return
	}
	w := &work{trip: trip.ID, since: time.Now()}
	now.work = w
	weights = now
	k := kept.kit()
	go func() {
		time.Sleep(400 * time.Millisecond) // the list first
		w.keepGoing()
		curve := spares.WeightCurve(k, data.Catalog(), guidesOf(k), trip, &keep, w.keepGoing)
		kept.post(func(app.Context) {
			if weights.work == w {
				weights.curve, weights.work = curve, nil
			}
		})
	}()
}

// massStep is what the slider moves by.
func massStep(first fieldkit.System) (step fieldkit.Mass, unit string) {
	if first == fieldkit.Inch {
		return fieldkit.Pound, "lb"
	}
	return fieldkit.Kilogram, "kg"
}

// weightChoice is the slider for the trip's limit of weight, with the curve under it and
// the same figures as a table.
func (s *packTripScreen) weightChoice() app.UI {
	v, first := s.view, kept.first()
	if v.sheet.Totals.Lines == 0 && v.said && len(v.proposal.LeftOut) == 0 {
		return app.Div().Hidden(true) // no weight would bring in anything
	}
	step, _ := massStep(first)
	limit := v.trip.Limits.Mass
	curve := s.curve()
	at, top := s.slider()
	set := func(ctx app.Context) {
		n, err := strconv.Atoi(ctx.JSSrc().Get("value").String())
		if err == nil {
			s.slide = n
		}
	}
	label := "Weight limit: " + at.Both(first)
	if limit == 0 && s.slide == 0 {
		label = "Weight limit: none"
	}
	return section("More or less weight",
		app.Label().Class("strong").For("weight-limit").Text(label),
		app.Input().Type("range").ID("weight-limit").Class("slider").Min(1).Max(int(top/step)).Step(1).Value(int(at/step)).
			Aria("valuetext", label).
			OnInput(func(ctx app.Context, _ app.Event) { set(ctx) }).
			OnChange(func(ctx app.Context, _ app.Event) {
				set(ctx)
				mass := fieldkit.Mass(s.slide) * step
				s.plan("Planned "+v.trip.Name+" within "+mass.Show(first), &mass)
			}, app.EventScope(v.trip.ID)),
		s.drawnCurve(curve, at, top),
	)
}

// drawnCurve is the curve in words, as a drawing and as a table, or room for it.
func (s *packTripScreen) drawnCurve(curve []spares.CurvePoint, at, top fieldkit.Mass) app.UI {
	guessed, first := s.view.proposal.Guessed, kept.first()
	working := s.workingOut("what more or less weight would save")
	there := len(curve) > 1
	if !there && s.putOff() {
		return app.P().Class("soft").Text(working)
	}
	if !there { // two points that need about as much room
		curve = []spares.CurvePoint{{}, {Limit: top, Value: twoFigures}}
	}
	_, unit := massStep(first)
	words := curveWords(curve, at, first, guessed)
	parts := []app.UI{
		app.P().Class("soft").Text("Hours saved, by weight carried from nothing to " + top.Show(first) + "."),
		app.Raw(curveDrawing(curve, at, top, words)),
		app.P().Class("soft").Text(marked(words)),
		curveTable(curve, first, unit, guessed),
	}
	if !there {
		return roomFor(working, parts...)
	}
	return app.Div().Class("block").Body(parts...)
}

// curve is the trip's, none while it is worked out.
func (s *packTripScreen) curve() []spares.CurvePoint {
	if weights.trip.ID != s.view.trip.ID {
		return nil
	}
	return weights.curve
}

// slider is where the slider stands and how far it goes: as far as the curve under it.
func (s *packTripScreen) slider() (at, top fieldkit.Mass) {
	limit := s.view.trip.Limits.Mass
	top = max(2*limit, s.view.sheet.Totals.Mass, 20*fieldkit.Kilogram)
	if curve := s.curve(); len(curve) > 0 {
		top = max(curve[len(curve)-1].Limit, limit)
	}
	at = limit
	if at == 0 {
		at = top
	}
	if s.slide > 0 {
		step, _ := massStep(kept.first())
		at = fieldkit.Mass(s.slide) * step
	}
	return at, top
}

// setSlider puts a slider that was just drawn where it should stand: it gets its
// attributes in any order, and one that gets its value before its end stops at a hundred.
func (s *packTripScreen) setSlider(ctx app.Context) {
	ctx.Defer(func(app.Context) {
		if e := app.Window().GetElementByID("weight-limit"); e.Truthy() && s.slide == 0 {
			at, _ := s.slider()
			step, _ := massStep(kept.first())
			e.Set("value", int(at/step))
		}
	})
}

// curveWords say what the chosen limit saves and what a step up would bring.
func curveWords(curve []spares.CurvePoint, at fieldkit.Mass, first fieldkit.System, guessed bool) string {
	here, next := curve[0], curve[len(curve)-1]
	for i, p := range curve {
		if p.Limit <= at {
			here = p
			next = curve[min(i+1, len(curve)-1)]
		}
	}
	words := fmt.Sprintf("With up to %s the best list saves %s on average.", here.Limit.Show(first), spares.Guess(here.Value.String(), guessed))
	if next.Value > here.Value {
		words += fmt.Sprintf(" Up to %s it saves %s.", next.Limit.Show(first), spares.Guess(next.Value.String(), guessed))
	} else {
		words += " More weight saves no more."
	}
	return words
}

// curveDrawing is hours saved above weight carried, up to the slider's end, with the
// chosen limit marked. Beyond its last point the curve is level. The words under it and
// the table say the same.
func curveDrawing(curve []spares.CurvePoint, at, end fieldkit.Mass, words string) string {
	const width, height, edge = 320.0, 140.0, 10.0
	last, top := curve[len(curve)-1], 0.0
	end = max(end, last.Limit)
	for _, p := range curve {
		top = max(top, float64(p.Value))
	}
	if end <= 0 || top <= 0 {
		return `<svg class="curve" viewBox="0 0 320 140" aria-hidden="true"></svg>`
	}
	x := func(m fieldkit.Mass) float64 {
		return edge + (width-2*edge)*min(float64(m)/float64(end), 1)
	}
	y := func(h spares.Hours) float64 { return height - edge - (height-2*edge)*float64(h)/top }
	var line strings.Builder
	mark := curve[0].Value
	for i, p := range curve {
		fmt.Fprintf(&line, "%.1f,%.1f ", x(p.Limit), y(p.Value))
		if p.Limit <= at {
			mark = p.Value
			if i+1 < len(curve) { // on the line between the two
				q := curve[i+1]
				share := min(float64(at-p.Limit)/float64(max(q.Limit-p.Limit, 1)), 1)
				mark += spares.Hours(share) * (q.Value - p.Value)
			}
		}
	}
	fmt.Fprintf(&line, "%.1f,%.1f", x(end), y(last.Value))
	return fmt.Sprintf(`<svg class="curve" viewBox="0 0 %.0f %.0f" role="img" aria-label="%s" fill="none" stroke="currentColor">`+
		`<path d="M%.0f %.0fV%.0fH%.0f" stroke-width="2"/><polyline points="%s" stroke-width="4" stroke-linejoin="round"/>`+
		`<path d="M%.1f %.0fV%.0f" stroke-width="2" stroke-dasharray="6 5"/><circle cx="%.1f" cy="%.1f" r="7" fill="currentColor"/></svg>`,
		width, height, plainAttribute(words), edge, edge, height-edge, width-edge, strings.TrimSpace(line.String()),
		x(at), edge, height-edge, x(at), y(mark))
}

func plainAttribute(text string) string {
	return strings.NewReplacer("&", "&amp;", `"`, "&quot;", "<", "&lt;").Replace(text)
}

func curveTable(curve []spares.CurvePoint, first fieldkit.System, unit string, guessed bool) app.UI {
	return app.Details().Class("group no-print").Body(
		app.Summary().Body(app.Text("The same as a table, in "+unit)),
		app.Div().Class("in").Body(app.Ul().Class("list").Body(app.Range(curve).Slice(func(i int) app.UI {
			p := curve[i]
			note := "proved the best"
			if !p.Proved {
				note = "no list saves more than " + spares.Guess(p.Bound.String(), guessed)
			}
			return plainRow("Up to "+p.Limit.Show(first), "Saves "+spares.Guess(p.Value.String(), guessed), "Weighs "+spares.Guess(p.Mass.Show(first), p.Typical)+", "+note)
		}))),
	)
}
