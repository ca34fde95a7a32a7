package app

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
)

// freshDays is how old a backup may get where the browser may clear the kit.
const freshDays = 7

// reminder says in one line why a backup is due; nothing if none is. The last backup
// is the zero date if there is none. forGood tells whether the browser keeps the kit
// for good.
func reminder(last fieldkit.Date, trips []fieldkit.Trip, today fieldkit.Date, forGood bool) string {
	var trip fieldkit.Trip
	var ended fieldkit.Date
	for _, t := range trips {
		if t.Start.IsZero() {
			continue
		}
		if end := t.Start.AddDays(max(t.Days, 1) - 1); end.Before(today) && ended.Before(end) {
			trip, ended = t, end
		}
	}
	switch {
	case !ended.IsZero() && last.IsZero():
		return "There is no backup yet of what " + trip.Name + " wrote into the kit."
	case !ended.IsZero() && last.Before(ended):
		return "The last backup is older than the end of " + trip.Name + "."
	case !forGood && last.IsZero():
		return "This browser may clear the kit, and there is no backup of it."
	case !forGood && last.DaysUntil(today) > freshDays:
		return "This browser may clear the kit, and the last backup is " + counted(last.DaysUntil(today), "day") + " old."
	}
	return ""
}

// backupDue is the reminder for the kit in hand. The demo needs none, nor a kit with
// nothing written down.
func backupDue() string {
	if kept.which != ownKit || kept.phase != open || kept.session == nil || kept.session.Seq() < 2 || !kept.storage.known {
		return ""
	}
	last, _ := fieldkit.ParseDate(remembered(prefPrefix + "backup")) // none yet is the zero date
	return reminder(last, kept.kit().Trips, today(), kept.storage.forGood)
}

// reminderLine draws the reminder, with one tap to the backup where that is elsewhere.
func reminderLine(elsewhere bool) app.UI {
	due := backupDue()
	if due == "" {
		return app.Div().Hidden(true)
	}
	if !elsewhere {
		return app.P().Class("note warn").Text(due)
	}
	return app.P().Class("note remind no-print").Body(app.Text(due+" "), goTo("link push", "Back up", link("/kit", "first", "backup")))
}

// askStorage asks once whether the browser keeps the kit for good.
func (s *store) askStorage(ctx app.Context) {
	if s.storage.asked || app.IsServer {
		return
	}
	s.storage.asked = true
	ctx.Async(func() {
		forGood, _, _ := storageFacts()
		s.post(func(ctx app.Context) {
			s.storage.known, s.storage.forGood = true, forGood
			s.publish(ctx)
		})
	})
}
