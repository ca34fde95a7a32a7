package app

import (
	"context"
	"errors"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// ensureOpen opens the kit this device last had in hand, once. With none it
// leaves the choice to the person.
func (s *store) ensureOpen(ctx app.Context) {
	if s.started {
		return
	}
	s.started = true
	s.prefs = readPrefs()
	s.listenForUpdates()
	s.listenForReturn()
	s.listenForReadiness()
	s.lookForOffer()
	s.askStorage(ctx)
	ctx.Async(func() {
		takeUpTexts()
		s.post(s.openLast)
	})
}

// openLast opens the kit that the choices of this device name, once both copies of
// them agree.
func (s *store) openLast(ctx app.Context) {
	s.prefs = readPrefs()
	applyTheme(s.prefs.Theme)
	if s.prefs.Kit == "" {
		ctx.Async(func() {
			was, copy := notedKit(), 0
			if was != "" { // the texts of this device are gone, as all else may be
				copy = latestSecond(context.Background(), ownKit)
			} else {
				dropPlain() // of a kit that was thrown away, if the phone died over it
			}
			s.post(func(ctx app.Context) {
				if copy == 0 {
					s.sayGone(ctx, was)
					return
				}
				useCopy(ownKit, copy)
				noteKept(ownKit) // a kit that does not come back after all is not begun anew
				s.open(ctx, ownKit)
			})
		})
		return
	}
	s.open(ctx, s.prefs.Kit)
}

// open opens one of this device's kits, the blank or the demo kit if it is new.
// A kit that cannot be read whole is left untouched and said so.
func (s *store) open(ctx app.Context, which string) {
	blank := func() fieldkit.Kit { return data.BlankKit(newID()) }
	if which == demoKit {
		blank = data.DemoKit
	}
	s.openWith(ctx, which, blank)
}

// openWith opens a kit that begins with what blank makes, if it is new.
func (s *store) openWith(ctx app.Context, which string, blank func() fieldkit.Kit) {
	s.close()
	s.phase, s.which, s.err = opening, which, nil
	s.publish(ctx)
	ctx.Async(func() {
		keeper, session, report, err := openSession(which, blank, s.hearOfSecond)
		was := ""
		if errors.Is(err, errKitGone) {
			if was = notedKit(); was == "" {
				was = "Nothing more is known of it."
			}
		}
		s.post(func(ctx app.Context) {
			if was != "" {
				s.sayGone(ctx, was)
				return
			}
			if err != nil {
				s.phase, s.err = closed, err
				s.publish(ctx)
				return
			}
			s.phase, s.keeper, s.session = open, keeper, session
			switch {
			case len(report.Damaged) > 0:
				s.trouble = damagedNotice(report)
			case report.Regained > 0:
				s.trouble = regainedNotice(report.Regained)
			}
			s.prefs.Kit = which
			writePref("kit", which)
			noteKept(which)
			s.gone = ""
			s.stopWait = watchOtherTabs(which, s.refresh)
			s.publish(ctx)
		})
	})
}

// snapshotAfter is how long after an action a snapshot of the whole kit is written:
// when its answer is on the screen.
const snapshotAfter = 2 * time.Second

// openSession opens a kit. One that was begun before and is gone, or of which the
// beginning is lost, is not opened: it would look like a kit nobody has written in yet.
func openSession(which string, blank func() fieldkit.Kit, told func(journal.News)) (journal.Store, *journal.Session, journal.Report, error) {
	keeper, regained, err := openKeeper(context.Background(), which, copyOf(which), told)
	if err != nil {
		return nil, nil, journal.Report{}, err
	}
	begins := keeper
	if keptHere(which) {
		begins = onlyIfThere{keeper}
	}
	session, report, err := journal.Open(context.Background(), begins, blank)
	if err == nil && report.BaseLost {
		err = errBeginningLost
	}
	if err != nil {
		_ = keeper.Close() // the failure to open is what the person needs to know
		return nil, nil, report, err
	}
	report.Regained = regained
	session.KeepSnapshotsLater(func(keep func()) { time.AfterFunc(snapshotAfter, keep) })
	return keeper, session, report, nil
}

// close lets go of the kit in hand.
func (s *store) close() {
	if s.stopWait != nil {
		s.stopWait()
	}
	if s.keeper != nil {
		_ = s.keeper.Close() // every write is on disk already
	}
	s.keeper, s.session, s.stopWait = nil, nil, nil
	s.said, s.trouble = said{}, nil
}

// refresh takes up what another tab wrote.
func (s *store) refresh() {
	session := s.session
	if session == nil {
		return
	}
	go func() {
		changed, err := session.Refresh(context.Background())
		s.post(func(ctx app.Context) {
			if session != s.session {
				return // another kit was opened meanwhile
			}
			if err != nil {
				s.trouble = err
			}
			if changed || err != nil {
				s.publish(ctx)
			}
		})
	}()
}

// leaveDemo throws the demo kit away and takes up one's own.
func (s *store) leaveDemo(ctx app.Context) {
	s.close()
	s.phase = opening
	s.publish(ctx)
	ctx.Async(func() {
		err := deleteKit(context.Background(), demoKit, copyOf(demoKit))
		dropPlain()
		s.post(func(ctx app.Context) {
			forgetDrafts(demoKit)
			forgetCards(demoKit)
			if err != nil {
				s.trouble = err
			}
			if !everHad(ownKit) {
				writePref("kit", "")
				s.prefs.Kit, s.phase, s.which = "", choosing, ""
				s.publish(ctx)
				return
			}
			s.open(ctx, ownKit)
		})
	})
}

// everHad says whether a kit of one's own was begun on this device.
func everHad(which string) bool { return remembered(prefPrefix+"had."+which) != "" }

// begin opens a kit for the first time, by the person's choice.
func (s *store) begin(ctx app.Context, which string) {
	remember(prefPrefix+"had."+which, "yes")
	if s.gone != "" {
		writePref("kept."+which, "") // begun anew, by the person's word
	}
	s.open(ctx, which)
}

var errBeginningLost = &fieldkit.Error{Kind: fieldkit.Storage,
	What: "the beginning of this kit cannot be read, only what was written down later",
	Do:   "save the raw records, then restore a backup or go on with what could be read"}

// damageNamed is how many damaged entries the notice names; the screen behind it names
// all.
const damageNamed = 3

// damagedNotice names what could not be read and was set aside.
func damagedNotice(r journal.Report) error {
	return &fieldkit.Error{
		Kind: fieldkit.Storage,
		What: "some entries could not be read and were set aside: " + strings.Join(r.Short(damageNamed), "; "),
		Do:   "everything else is here; make a backup now",
	}
}
