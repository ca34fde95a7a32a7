package app

import (
	"fmt"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/spares"
)

// listBefore is the list that was made last for another trip, with that trip. ok is false
// if there is none with a line on it.
func listBefore(k fieldkit.Kit, trip string) (last fieldkit.Pack, from fieldkit.Trip, ok bool) {
	for _, p := range k.Packs {
		of, known := k.Trip(p.Trip)
		if known && p.Trip != trip && len(p.Lines) > 0 && !p.Made.Before(last.Made) {
			last, from, ok = p, of, true
		}
	}
	return last, from, ok
}

// again offers the list that was made last for another trip.
func (s *packTripScreen) again() app.UI {
	last, from, ok := listBefore(kept.kit(), s.view.trip.ID)
	if !ok {
		return app.Div().Hidden(true)
	}
	return button("quiet wide", "Take the list of "+from.Name+" again", "take "+last.ID, func(ctx app.Context) {
		to, id, day := s.view.trip.ID, newID(), today()
		kept.do(ctx, "Took the list of "+from.Name+" for "+s.view.trip.Name, func(e *journal.Edit) error {
			return takeAgain(e, from.ID, to, id, day)
		}, func(_ app.Context, err error) { s.err = err })
	})
}

// takeAgain makes the list that one trip has by now the list of another; id is for a trip
// that had none.
func takeAgain(e *journal.Edit, from, to, id string, day fieldkit.Date) error {
	k := e.Kit()
	trip, known := k.Trip(to)
	last, there := packOf(k, from)
	if !known || !there || len(last.Lines) == 0 {
		return badField("the trip or the list to take was deleted meanwhile", "go back and look")
	}
	here, _ := packOf(k, to)
	if len(here.Lines) > 0 {
		return badField("the trip got a list meanwhile", "go back and look")
	}
	if here.ID == "" {
		here.ID = id
	}
	pack := spares.TakeAgain(k, data.Catalog(), guidesOf(k), trip, last, here)
	pack.Made = day
	e.Put(pack)
	return nil
}

// restock lists what was used on the trip, once there is something, with what to buy for
// the list to be whole again.
func (s *packTripScreen) restock() app.UI {
	list := s.view.restock
	if len(list) == 0 {
		return app.Div().Hidden(true)
	}
	return section("Used on this trip: restock", app.Ul().Class("list").Body(app.Range(list).Slice(func(i int) app.UI {
		title, cost, lines := restockWords(list[i])
		return needRow(list[i], title, cost, lines)
	})))
}

// restockWords say what to buy of something that was used, and how many were and are.
func restockWords(n spares.Need) (title, cost string, lines []string) {
	count := fmt.Sprintf("%d used, %d left", n.Used, n.Stock)
	if n.Count == 0 {
		return n.Name, "nothing to buy", []string{count + ": enough for this list"}
	}
	title, cost, lines = needWords(n)
	return title, cost, append([]string{count}, lines...)
}
