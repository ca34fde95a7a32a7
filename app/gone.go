package app

import (
	"context"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// A kit can go while the program stays: the system clears databases and caches
// apart, and so do people. An empty kit in its place would look as if nothing had
// ever been written down. So both sides keep a note of the other: the texts of this
// device say that a kit was kept, and beside the program's files lies a note of it.

// errKitGone is the error of a kit that was kept here and is not any more.
var errKitGone = &fieldkit.Error{Kind: fieldkit.NotFound, What: "the kit that was kept here is gone", Do: "restore a backup, or begin anew"}

// onlyIfThere is a store that does not begin: a journal's first entry is refused.
type onlyIfThere struct{ journal.Store }

func (o onlyIfThere) Append(ctx context.Context, r journal.Record, blobs []journal.Blob) error {
	if r.Seq == 1 {
		return errKitGone
	}
	return o.Store.Append(ctx, r, blobs)
}

// keptHere says whether this device's texts know of a kit that must be there.
func keptHere(which string) bool { return remembered(prefPrefix+"kept."+which) != "" }

func noteKept(which string) {
	if which == ownKit && !keptHere(which) {
		writePref("kept."+which, "yes")
	}
}

// sayGone offers what can be done about it, on the first screen.
func (s *store) sayGone(ctx app.Context, words string) {
	s.phase, s.which, s.gone = choosing, "", words
	s.publish(ctx)
}

// goneNotice says that the kit is gone, what is known of it, and that it is not the
// person's doing to find out.
func goneNotice() app.UI {
	_, plain := plainCache()
	return app.Div().Class("note bad").Role("alert").Body(
		app.P().Class("strong").Text("The kit that was kept here is gone."),
		app.P().Text(kept.gone),
		app.P().Text("The system, the browser or somebody cleared the data of this app. Restore your last backup, or begin anew."),
		app.If(plain, func() app.UI { return goTo("link", "Read what is left as plain pages", link("/plain/")) }),
		button("act wide", "Restore a backup", "restore gone", func(ctx app.Context) {
			kept.begin(ctx, ownKit)
			ctx.Navigate(link("/kit"))
		}),
	)
}
