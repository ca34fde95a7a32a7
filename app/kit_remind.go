package app

import (
	"strings"

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
	due := reminder(lastBackup(today()), kept.kit().Trips, today(), kept.storage.forGood)
	if due != "" && backupAhead(today()) {
		return aheadWords
	}
	return due
}

// Texts that this device remembers of backups: the day one was made here, and the entry
// with which one was restored with the day that was made.
const (
	backupMade     = prefPrefix + "backup"
	backupRestored = prefPrefix + "restored"
)

// lastBackup is the day of the last backup of one's own kit that this device knows of,
// made here or restored here; the zero date if there is none.
func lastBackup(today fieldkit.Date) fieldkit.Date {
	day, _ := backupDay(remembered(backupMade), remembered(backupRestored), today)
	return day
}

// backupAhead reports that all that is noted of backups bears a day to come.
func backupAhead(today fieldkit.Date) bool {
	_, ahead := backupDay(remembered(backupMade), remembered(backupRestored), today)
	return ahead
}

const aheadWords = "The last backup bears a date to come: the clock of this phone was changed. Make a backup now."

// backupDay reads the two texts. A day to come, noted while the clock was ahead, would
// keep the reminder silent until then: it counts for nothing, and ahead says so where
// nothing else counts. Tomorrow may be today beyond the date line.
func backupDay(made, restored string, today fieldkit.Date) (last fieldkit.Date, ahead bool) {
	_, restored, _ = strings.Cut(restored, " ")
	for _, text := range []string{made, restored} {
		switch day, err := fieldkit.ParseDate(text); {
		case err != nil:
		case today.AddDays(1).Before(day):
			ahead = true
		case last.Before(day):
			last = day
		}
	}
	return last, ahead && last.IsZero()
}

// noteRestored keeps in mind that the kit lies in a backup, which an entry restored. One
// that claims to be of a later day counts as of today, so that it is not trusted for
// longer than one made here.
func noteRestored(entry string, made fieldkit.Moment, today fieldkit.Date) {
	if made.IsZero() {
		return
	}
	day := fieldkit.DateOf(made.Local())
	if today.Before(day) {
		day = today
	}
	remember(backupRestored, entry+" "+day.String())
}

// forgetRestored is for a kit that is again what it was before it was restored.
func forgetRestored(entry string) {
	if of, _, _ := strings.Cut(remembered(backupRestored), " "); of == entry {
		remember(backupRestored, "")
	}
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
