package app

import (
	"context"
	"fmt"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/merge"
)

// picks are the values that would lose by merging and that the person wants all the
// same: by field, which of those that lose, from 1.
type picks map[string]int

func pickName(c merge.Clash) string { return fmt.Sprint(c.Key, " ", c.Field) }

// toggle picks a value, or the one that wins again. A new version waits until
// what is picked was merged, or the screen was left.
func (p picks) toggle(c merge.Clash, which int) {
	if p[pickName(c)] == which {
		delete(p, pickName(c))
	} else {
		p[pickName(c)] = which
	}
	kept.picking = 0
	if len(p) > 0 {
		kept.picking = kept.shown.number
	}
}

// drawClashes lists what both phones changed, each with the value that wins and a tick
// to take the other.
func (m mergeBlock) drawClashes(k fieldkit.Kit) app.UI {
	list := m.report.Clashes
	if len(list) == 0 {
		return app.Div().Hidden(true)
	}
	lines := clashLines(k, list)
	shown := min(len(list), listedAtOnce)
	rows := []app.UI{app.P().Class("soft").Text("Tick a value to take it in place of the one that wins.")}
	for i, c := range list[:shown] {
		rows = append(rows, app.P().Text(lines[i]))
		for n, v := range c.Lost {
			label := "Take " + short(valueWords(k, c.Field, v.Value), 40) + " instead"
			rows = append(rows, tick(label, "", fmt.Sprint("pick ", pickName(c), n), m.picks[pickName(c)] == n+1, func(app.Context) { m.picks.toggle(c, n+1) }))
		}
	}
	if more := len(list) - shown; more > 0 {
		rows = append(rows, app.P().Text(fmt.Sprintf("and %d more, which can be taken afterwards", more)))
	}
	return app.Details().Class("group").Open(len(list) <= 6).Body(
		app.Summary().Body(app.Text("Both changed; the later one wins unless you take the other, now or afterwards"), app.Span().Class("count").Text(itoa(len(list)))),
		app.Div().Class("in").Body(app.Div().Class("block").Body(rows...)),
	)
}

// takePicked takes the picked values in a kit that was just merged, as one change.
// Before it the merge is whole by itself: what is not taken is still open there.
func (m mergeBlock) takePicked(session *journal.Session) (taken int, err error) {
	for _, c := range m.report.Clashes {
		if n := m.picks[pickName(c)]; n > 0 && n <= len(c.Lost) {
			taken++
		}
	}
	if taken == 0 {
		return 0, nil
	}
	what := "Took the other value: " + counted(taken, "field")
	_, err = session.Do(context.Background(), what, now(), newID, func(e *journal.Edit) error {
		for _, c := range m.report.Clashes {
			if n := m.picks[pickName(c)]; n > 0 && n <= len(c.Lost) {
				if err := takeValue(e, c, c.Lost[n-1]); err != nil {
					return err
				}
			}
		}
		return nil
	})
	return taken, withoutAction(err, what)
}

// takeValue puts a value that lost in place of the one that won.
func takeValue(e *journal.Edit, c merge.Clash, v merge.Version) error {
	switch {
	case c.Record != nil:
		r, err := merge.Take(e.Kit(), c, v)
		if err != nil {
			return err
		}
		e.Put(r)
		e.Settle(c.Key.Collection, c.Key.ID, c.Field)
	case c.Field == "name":
		e.SetName(v.Text())
	case c.Field == "currency":
		for _, r := range fieldkit.Relabelled(e.Kit(), v.Text()) {
			e.Put(r)
		}
		e.SetCurrency(v.Text())
	}
	return nil
}
