package app

import (
	"context"
	"errors"
	"fmt"
	"iter"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/backup"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
)

// backupBlock makes a backup and restores one. A backup that was chosen is checked
// whole and described before the person decides; nothing kept is touched until
// then, and the restore can be undone.
type backupBlock struct {
	busy      string
	told      string
	saved     bool // what told speaks of
	err       error
	chosen    *backup.Contents
	choices   int               // how many files were chosen: what comes of an earlier one is dropped
	checks    int               // how many are being checked, those dropped among them
	unknown   []kitfile.Problem // what the chosen one names that the catalog does not know
	disguises []kitfile.Problem // and its texts that are not what they read like
	raw       *rescueView       // what could be put together, if raw records were chosen
	name      string
	merge     mergeBlock
	friend    friendBlock
	anew      func(app.Context, backup.Contents, string) // in place of the kit in hand: where none is open
}

func (b *backupBlock) draw(demo bool) app.UI {
	what := "your kit with its photos"
	if demo {
		what = "the demo kit"
	}
	body := []app.UI{
		app.P().Text("One file holds " + what + ". Keep it somewhere else than on this phone."),
		app.If(!demo, func() app.UI { return app.P().Class("soft").Text(lastBackupWords()) }),
		reminderLine(false),
		button("act wide", "Make a backup", "backup", b.make),
		b.choice(),
		goTo("quiet wide", "Paste a link that was passed on", link("/take")),
		app.If(kept.offer != nil && b.chosen == nil, func() app.UI {
			return button("quiet wide", "Look at the kit file served with this page", "offer", b.chooseOffer)
		}),
		app.If(b.busy != "", func() app.UI { return app.P().Class("note").Role("status").Text(b.busy) }),
		app.If(b.told != "", func() app.UI {
			return app.P().Class(map[bool]string{true: "note ok", false: "note warn"}[b.saved]).Role("status").Text(b.told)
		}),
		b.refusal(),
	}
	if b.chosen != nil {
		body = append(body, b.ask())
	}
	return section("Backup", body...)
}

func (b *backupBlock) choice() app.UI {
	return app.Div().DataSet("checking", itoa(b.checks)).Body(
		chooseFile("quiet wide", "Open a backup or a code", "restore", ".zip,.json,.txt,application/zip,application/json,text/plain", false, b.choose))
}

// chooser is what the rescue offers of the block: to restore.
func (b *backupBlock) chooser() app.UI {
	body := []app.UI{
		b.choice(),
		app.If(b.busy != "", func() app.UI { return app.P().Class("note").Role("status").Text(b.busy) }),
		b.refusal(),
	}
	if b.chosen != nil {
		body = append(body, b.ask())
	}
	return section("Restore a backup", body...)
}

// refusal says why a file was refused and that nothing was changed.
func (b *backupBlock) refusal() app.UI {
	if b.err == nil {
		return app.Div().Hidden(true)
	}
	return app.Div().Class("block").Body(problem(b.err), app.P().Class("strong").Text("Nothing in your kit was changed."))
}

// ask shows what the backup holds and asks before it takes the kit's place.
func (b *backupBlock) ask() app.UI {
	c := b.chosen
	return app.Div().Class("note warn block").Body(
		app.If(b.raw == nil, func() app.UI { return app.P().Class("strong").Text(b.name + " is whole.") }),
		app.If(b.raw != nil, b.rawWords),
		unknownKinds(b.unknown),
		disguised(b.disguises),
		app.P().Text(kitWords(c.Kit, len(c.Photos))),
		app.If(!c.Made.IsZero(), func() app.UI {
			return app.P().Text("Made " + c.Made.Local().Format("2 Jan 2006 15:04") + ".")
		}),
		app.If(len(c.Missing) > 0, func() app.UI {
			return app.P().Text(counted(len(c.Missing), "photo") + " it speaks of: not in it.")
		}),
		app.If(kept.session != nil, func() app.UI { return app.P().Text("Now kept: " + kitWords(kept.kit(), -1)) }),
		app.If(b.anew == nil, b.drawMerge),
		app.If(b.anew == nil, b.drawFriend),
		app.Div().Class("row").Body(
			app.If(b.raw == nil, func() app.UI { return button("quiet", "Restore it in place of this kit", "restore now", b.restore) }),
			app.If(b.raw != nil, func() app.UI {
				return button("quiet", "Go on with it in a store of its own", "restore beside", b.restoreBeside)
			}),
			button("quiet", "Leave everything as it is", "restore no", func(app.Context) { b.chosen, kept.picking = nil, 0 }),
		),
	)
}

// kitWords sums a kit up; photos below zero are not said.
func kitWords(k fieldkit.Kit, photos int) string {
	list := []string{counted(len(k.Rigs), "rig"), counted(k.Positions.Len(), "position"), counted(k.Parts.Len(), "part"),
		counted(k.Failures.Len(), "failure"), counted(k.Inspections.Len(), "reading")}
	if photos >= 0 {
		list = append(list, counted(photos, "photo"))
	}
	return k.Name + ": " + strings.Join(list, ", ") + "."
}

func (b *backupBlock) make(ctx app.Context) {
	session := kept.session
	if session == nil {
		return
	}
	if b.busy != "" {
		b.sayBusy("press again")
		return
	}
	b.busy, b.told, b.err = "Making the backup …", "", nil
	which, at := kept.which, now()
	kept.work(ctx, func() {
		var file outside
		photos := func(hashes []string) iter.Seq2[journal.Blob, error] {
			return session.EachBlob(context.Background(), hashes)
		}
		missing, err := backup.WriteAll(&file, session.Replica(), photos, at, file.pace.turn)
		file.flush()
		kept.post(func(ctx app.Context) {
			b.busy, b.err = "", err
			if err != nil {
				return
			}
			name := "trail-field-kit-" + today().String() + ".zip"
			saveParts(ctx, name, "application/zip", file.parts, func(ctx app.Context, said string, saved bool) {
				b.told, b.saved = said, saved
				if len(missing) > 0 {
					b.told += " " + counted(len(missing), "photo") + " could not be read: not in it."
				}
				if saved && which == ownKit {
					remember(backupMade, today().String())
				}
				kept.publish(ctx)
			})
		})
	})
}

const checkingBackup = "Checking the backup …"

// choose checks a file and shows what it holds. One chosen while another is still being
// checked takes its place; one chosen while a kit is being written is refused.
func (b *backupBlock) choose(ctx app.Context, file app.Value) {
	if b.refuseBusy() {
		return
	}
	session := kept.session
	b.busy, b.told, b.err, b.chosen, b.raw, b.friend = checkingBackup, "", nil, nil, nil, friendBlock{}
	b.name = nameOf(file)
	b.choices++
	b.checks++
	kept.picking = 0
	nth := b.choices
	kept.work(ctx, func() {
		var contents backup.Contents
		var merging mergeBlock
		raw, err := fileOf(file, backup.Default.Total)
		var pieces *rescueView
		code := ""
		var unknown, disguises []kitfile.Problem
		if err == nil {
			switch code = codeInFile(raw); {
			case code != "":
			case backup.IsRaw(raw):
				contents, pieces, err = putTogether(raw)
			default:
				contents, err = backup.ReadFile(raw, backup.Default)
			}
		}
		if err == nil && code == "" && b.anew == nil {
			merging = previewMerge(session, contents)
		}
		if err == nil && code == "" {
			unknown, disguises = lookThrough(contents.Kit) // a second or more, in a large kit
		}
		kept.post(func(ctx app.Context) {
			defer kept.publish(ctx) // the block may be part of another component
			b.checks--
			if b.choices != nth {
				return // another file was chosen meanwhile
			}
			b.busy = ""
			if code != "" {
				ctx.Navigate(link("/take") + "#" + code)
				return
			}
			if err != nil {
				b.err = refusedFile(b.name, err)
				return
			}
			b.chosen, b.raw, b.merge = &contents, pieces, merging
			b.unknown, b.disguises = unknown, disguises
		})
	})
}

// refuseBusy says that no other file is taken up while a kit is being written.
func (b *backupBlock) refuseBusy() (refused bool) {
	if b.busy == "" || b.busy == checkingBackup {
		return false
	}
	b.sayBusy("choose this one again")
	return true
}

// sayBusy says why nothing came of a press, and what to do then.
func (b *backupBlock) sayBusy(again string) {
	b.told, b.err = "", &fieldkit.Error{Kind: fieldkit.Conflict, What: "another file is being worked on", Do: "wait until that is done, then " + again}
}

// chooseOffer treats the kit file on offer like a backup that was chosen. It takes the
// place of one that is still being checked.
func (b *backupBlock) chooseOffer(app.Context) {
	if b.refuseBusy() {
		return
	}
	b.choices++
	b.busy, b.told, b.err, b.raw, b.merge, b.friend = "", "", nil, nil, mergeBlock{}, friendBlock{}
	b.chosen, b.name, kept.picking = &backup.Contents{Kit: *kept.offer}, "the kit file served with this page", 0
	b.unknown, b.disguises = lookThrough(*kept.offer)
}

// lookThrough finds what is to be known of a kit before it is taken over: what it names that
// the catalog does not know, and its texts that are not what they read like.
func lookThrough(k fieldkit.Kit) (unknown, disguises []kitfile.Problem) {
	return kitfile.CheckAgainst(k, data.Catalog()), kitfile.CheckReading(k)
}

// refusedFile says which file was refused, where in it the fault is, and what to do.
func refusedFile(name string, err error) error {
	refused := &fieldkit.Error{Kind: fieldkit.BadInput, Where: name, What: err.Error(), Cause: err}
	var e *fieldkit.Error
	if errors.As(err, &e) {
		refused.Where, refused.What, refused.Do = strings.Join(nonEmpty(name, e.Where), ", "), e.What, e.Do
	}
	return refused
}

func (b *backupBlock) restore(ctx app.Context) {
	session, contents, which, raw := kept.session, b.chosen, kept.which, b.raw
	if contents == nil || b.busy != "" {
		return
	}
	if b.anew != nil {
		b.anew(ctx, *contents, b.name)
		return
	}
	if session == nil {
		b.err = &fieldkit.Error{Kind: fieldkit.Storage, What: "no kit is open", Do: "begin with a kit first, then restore"}
		return
	}
	b.busy = "Restoring …"
	what := "Restored " + b.name
	kept.work(ctx, func() {
		entry, err := session.Restore(context.Background(), what, now(), newID, contents.Replica(), contents.Photos...)
		// Not through ctx: the button that was pressed may be redrawn by now.
		kept.post(func(ctx app.Context) {
			b.busy, b.err = "", err
			if err == nil {
				b.chosen, kept.said, kept.picking = nil, said{text: what, entry: entry.ID}, 0
				if which == ownKit && raw == nil {
					noteRestored(entry.ID, contents.Made, today())
				}
			}
			kept.publish(ctx)
		})
	})
}

// lastBackupWords says of when the last backup of one's own kit is.
func lastBackupWords() string {
	d := lastBackup(today())
	if backupAhead(today()) {
		return aheadWords
	}
	if d.IsZero() {
		return "No backup was made on this phone yet."
	}
	switch days := d.DaysUntil(today()); {
	case days == 0:
		return "Last backup: today."
	case days == 1:
		return "Last backup: yesterday."
	case days > 1:
		return fmt.Sprintf("Last backup: %s, %d days ago.", d.Show(), days)
	}
	return "Last backup: " + d.Show() + "."
}
