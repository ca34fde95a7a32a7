package app

import (
	"context"
	"fmt"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/backup"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/merge"
)

// mergeBlock shows what merging the chosen backup would bring, before anything is
// done, and merges it as one change that can be undone.
type mergeBlock struct {
	same   bool // the backup is a copy of the kit in hand
	report merge.Report
	photos int // where it says nothing new: of the backup, not on this phone or damaged there
	picks  picks
	err    error
}

// previewMerge works out what merging would bring. It may take a second in a large
// kit and must not run on the UI goroutine.
func previewMerge(session *journal.Session, c backup.Contents) mergeBlock {
	if session == nil || session.Kit().ID != c.Kit.ID {
		return mergeBlock{}
	}
	_, report, err := merge.Join(session.Replica(), c.Replica())
	lacking := 0
	if err == nil && report.Nothing {
		lacking, err = session.Lacking(context.Background(), c.Photos)
	}
	return mergeBlock{same: true, report: report, photos: lacking, picks: picks{}, err: err}
}

func (b *backupBlock) drawMerge() app.UI {
	m := b.merge
	switch {
	case !m.same:
		return app.Div().Hidden(true)
	case m.err != nil:
		return app.Div().Class("block").Body(app.P().Text("It cannot be merged with your kit:"), problem(m.err))
	case m.report.Nothing && m.photos > 0:
		return app.Div().Class("block").Body(
			app.P().Class("strong").Text("It is a copy of this kit and says nothing that yours does not, but has "+counted(m.photos, "photo")+" that this phone has not, or has damaged."),
			button("act wide", "Take in the photos", "merge now", b.mergeNow))
	case m.report.Nothing:
		return app.P().Class("strong").Text("It is a copy of this kit and says nothing that yours does not.")
	}
	r := m.report
	k := kept.kit()
	return app.Div().Class("block").Body(
		app.P().Class("strong").Text("It is a copy of this kit. Merged with yours, nothing of either is lost:"),
		app.If(r.Name != "", func() app.UI { return app.P().Text("The kit is then called “" + r.Name + "”.") }),
		mergeList("Comes in", recordLines(k, b.chosen.Kit, r.New)),
		mergeList("Changes", changedLines(k, r.Changed)),
		mergeList("Goes, deleted on the other phone", recordLines(k, b.chosen.Kit, r.Gone)),
		m.drawClashes(k),
		mergeList("Deleted on one phone, changed on the other: stays deleted, can be taken back afterwards", recordLines(k, b.chosen.Kit, r.Edited)),
		mergeList("Held back, because what it hangs on was deleted", recordLines(k, b.chosen.Kit, r.Held)),
		button("act wide", "Merge with mine", "merge now", b.mergeNow),
	)
}

// listedAtOnce is how many lines of a list are shown; the count says how many there
// are.
const listedAtOnce = 40

func mergeList(title string, lines []string) app.UI {
	if len(lines) == 0 {
		return app.Div().Hidden(true)
	}
	shown := lines[:min(len(lines), listedAtOnce)]
	if more := len(lines) - len(shown); more > 0 {
		shown = append(shown[:len(shown):len(shown)], fmt.Sprintf("and %d more", more))
	}
	return app.Details().Class("group").Open(len(lines) <= 6).Body(
		app.Summary().Body(app.Text(title), app.Span().Class("count").Text(itoa(len(lines)))),
		app.Div().Class("in").Body(bullets(shown)),
	)
}

func (b *backupBlock) mergeNow(ctx app.Context) {
	session, contents := kept.session, b.chosen
	if session == nil || contents == nil || b.busy != "" {
		return
	}
	b.busy = "Merging …"
	what, merging := "Merged with "+b.name, b.merge
	kept.work(ctx, func() {
		entry, err := session.Merge(context.Background(), what, now(), newID, contents.Replica(), contents.Photos...)
		taken := 0
		var fault error // of taking the picked values: they are still open then
		if err == nil {
			taken, fault = merging.takePicked(session)
		}
		kept.post(func(ctx app.Context) {
			b.busy, b.err = "", err
			if err == nil {
				b.chosen, kept.said, kept.trouble, kept.picking = nil, said{text: what, entry: entry.ID}, fault, 0
			}
			if taken > 0 && fault == nil {
				kept.said = said{text: what + ", with " + counted(taken, "other value") + " taken"} // taken back one by one, under Latest changes
			}
			kept.publish(ctx)
		})
	})
}

// recordLines names records, those of either kit.
func recordLines(mine, theirs fieldkit.Kit, list []fieldkit.Record) []string {
	var lines []string
	for _, r := range list {
		k := mine
		if c, ok := fieldkit.CollectionNamed(r.Collection()); ok && c.Index(k, r.Key()) < 0 {
			k = theirs
		}
		lines = append(lines, recordTitle(k, r))
	}
	return lines
}

func changedLines(k fieldkit.Kit, list []merge.Changed) []string {
	var lines []string
	for _, c := range list {
		var names []string
		for _, f := range c.Fields {
			if words := fieldWords(f); len(names) == 0 || names[len(names)-1] != words {
				names = append(names, words)
			}
		}
		lines = append(lines, recordTitle(k, c.Record)+": "+strings.Join(names, ", "))
	}
	return lines
}

func clashLines(k fieldkit.Kit, list []merge.Clash) []string {
	var lines []string
	for _, c := range list {
		whose, other := "theirs", "yours"
		if c.Mine {
			whose, other = other, whose
		}
		var lost []string
		for _, v := range c.Lost {
			lost = append(lost, valueWords(k, c.Field, v.Value))
		}
		lines = append(lines, fmt.Sprintf("%s, %s: %s %s over %s %s", clashTitle(k, c), fieldWords(c.Field),
			whose, valueWords(k, c.Field, c.Wins.Value), other, strings.Join(lost, ", ")))
	}
	return lines
}

func clashTitle(k fieldkit.Kit, c merge.Clash) string {
	if c.Record == nil {
		return "kit"
	}
	return recordTitle(k, c.Record)
}
