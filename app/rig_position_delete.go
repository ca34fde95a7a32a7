package app

import (
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/repair"
)

// deleting offers to delete the position, or says what still needs it.
func (s *positionScreen) deleting() app.UI {
	v := s.view
	if len(v.uses) > 0 {
		return section("Used by", app.P().Class("soft").Text("The position can be deleted once none of these needs it."), useList(v.uses))
	}
	return app.Div().Class("block").Body(
		button("danger wide", "Delete position", "delete "+v.position.ID, s.delete),
		app.If(len(v.closed) > 0, func() app.UI {
			return app.P().Class("soft").Text(countOf(len(v.closed), "closed repair") + " done here and not in the log will go with it.")
		}),
	)
}

func (s *positionScreen) delete(ctx app.Context) {
	p := s.view.position
	kept.do(ctx, "Deleted position: "+p.Title(), func(e *journal.Edit) error {
		return deletePosition(e, p)
	}, func(ctx app.Context, err error) {
		s.err = err
		if err == nil {
			goOn(ctx, link("/rig", "rig", s.view.ready.Rig))
		}
	})
}

// deletePosition deletes a position nothing needs any more. Closed repairs go with
// it; those of a logged failure stay as its record, without the position.
func deletePosition(e *journal.Edit, p fieldkit.Position) error {
	if list := positionUses(e.Kit(), p.ID); len(list) > 0 {
		return stillUsed(p.Title(), list)
	}
	remove(e, closedRuns(e.Kit(), p.ID))
	for _, r := range e.Kit().Runs {
		if r.Position == p.ID {
			r.Position = ""
			e.Put(r)
		}
	}
	dropCosts(e, map[string]bool{p.ID: true})
	e.Delete(p.Collection(), p.ID)
	return nil
}

// dropCosts takes what trips say of positions that go out of the trips.
func dropCosts(e *journal.Edit, gone map[string]bool) {
	for _, t := range e.Kit().Trips {
		left := slices.DeleteFunc(slices.Clone(t.Costs), func(c fieldkit.Cost) bool { return gone[c.Position] })
		if len(left) < len(t.Costs) {
			t.Costs = left
			e.Put(t)
		}
	}
}

// positionUses lists what needs a position: what belongs under it, what the log
// says of it, and repairs under way. A repair that is closed needs it no more.
func positionUses(k fieldkit.Kit, position string) []use {
	var list []use
	for _, r := range kitfile.ReferringTo(k, fieldkit.Position{}.Collection(), position) {
		u := useOf(k, r)
		switch r := r.(type) {
		case fieldkit.Trip: // what it costs there goes with the position
			continue
		case fieldkit.Run:
			if !repair.Open(r) {
				continue
			}
			u.what = "repair under way"
		case fieldkit.Position:
			u = use{"position under it", r.Title(), u.href}
		}
		list = append(list, u)
	}
	return list
}

// closedRuns lists the closed repairs at a position that no logged failure names.
func closedRuns(k fieldkit.Kit, position string) []fieldkit.Run {
	var list []fieldkit.Run
	for _, r := range k.Runs {
		if r.Position == position && !repair.Open(r) && r.Failure == "" {
			list = append(list, r)
		}
	}
	if len(list) == 0 {
		return nil
	}
	logged := map[string]bool{}
	for _, f := range k.Failures.Refs() {
		logged[f.Run] = true
	}
	return slices.DeleteFunc(list, func(r fieldkit.Run) bool { return logged[r.ID] })
}
