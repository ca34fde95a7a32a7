package app

import (
	"context"
	"io"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/backup"
)

// putTogether reads a file of raw records and gives the kit they still make, and what
// of it could not be read.
func putTogether(file *io.SectionReader) (backup.Contents, *rescueView, error) {
	raw, photos, err := backup.ReadRaw(file, backup.Raw)
	if err != nil {
		return backup.Contents{}, nil, err
	}
	found := salvaged{raw: raw}
	found.copy, found.report, found.none = raw.Recover(context.Background(), nothingYet)
	v := viewRescue(found)
	if v.kit == "" {
		none := &fieldkit.Error{Kind: fieldkit.BadInput, What: "no kit can be put together from these raw records", Do: "use a backup; keep this file all the same"}
		if found.none != nil {
			none.Cause = found.none
		}
		return backup.Contents{}, nil, none
	}
	return backup.Of(found.copy, photos), &v, nil
}

// rawWords says what raw records gave and what is missing.
func (b *backupBlock) rawWords() app.UI {
	return app.Div().Class("block").Body(
		app.P().Class("strong").Text(b.name+" holds raw records: "+b.raw.counts),
		app.If(len(b.raw.lost) > 0, func() app.UI { return mergeList("What cannot be read", b.raw.lost) }),
		app.P().Text("Put together, that is:"),
	)
}

// restoreBeside begins a store of its own with what was put together. It may have holes,
// which no kit in use takes over; the store in use stays as it is.
func (b *backupBlock) restoreBeside(ctx app.Context) {
	which, contents := kept.which, b.chosen
	if contents == nil || b.busy != "" {
		return
	}
	if b.anew != nil {
		b.anew(ctx, *contents, b.name)
		return
	}
	b.busy = "Beginning a new store …"
	kept.work(ctx, func() {
		err := startCopy(context.Background(), which, "Put together from "+b.name, contents.Replica(), contents.Photos)
		kept.post(func(ctx app.Context) {
			if b.busy, b.err = "", err; err == nil {
				b.chosen = nil
				kept.open(ctx, which)
			}
			kept.publish(ctx)
		})
	})
}
