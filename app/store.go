package app

import (
	"context"
	"crypto/rand"
	"encoding/hex"
	"errors"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/interchange"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/lookup"
)

// phase is how far the kit in hand is.
type phase string

const (
	opening  phase = "opening"
	choosing phase = "choosing" // first start: blank or demo
	open     phase = "open"
	closed   phase = "closed" // it could not be opened; nothing kept was touched
)

// kitChanged is posted whenever what screens show may have changed.
const kitChanged = "kit changed"

// store holds the kit in hand for all screens of this page. Everything happens on
// go-app's one UI goroutine except waiting for the disk, which is done in
// goroutines that come back through Dispatch.
type store struct {
	started  bool // the kit was asked for
	phase    phase
	which    string // ownKit or demoKit
	keeper   journal.Store
	session  *journal.Session
	stopWait func()         // ends listening to other tabs
	err      error          // why the kit is closed
	trouble  error          // said on top of every screen until it is closed
	leftOut  []journal.Blob // photos for which there was no room, while a write is answered

	shown         shownScreen
	offer         *fieldkit.Kit // a kit file the server of this page offers, if it does
	updateWaiting bool          // a new version is stored whole
	updateOffered bool          // and said, since a screen was opened
	updating      bool          // the person said to use it now
	ready         readiness
	gone          string // what is known of a kit that was kept here and is gone
	typing        int    // number of the screen on which something typed is not saved, 0 for none
	picking       int    // number of the screen on which values are picked for a merge, 0 for none
	atWork        int    // how many things are under way that must not be broken off
	plain         plainKeeping
	said          said
	storage       struct{ asked, known, forGood bool } // whether the browser keeps the kit for good
	prefs         prefs

	revision   int           // raised with every published kit
	index      *lookup.Index // of the kit as it was last searched
	explained  explained
	explaining *explaining   // nil if nothing is being worked out
	patience   time.Duration // for working it out at once
	takeable   takeable
}

// said is what was last written down.
type said struct {
	text  string
	entry string // ID of the journal entry, for undo; none if it cannot be undone
	seen  int    // screens opened since
}

// passOn keeps what was said for the screen that follows, where saving leads, and
// forgets it with the one after.
func (s *said) passOn() {
	if s.seen++; s.seen > 1 {
		*s = said{}
	}
}

// kept is the one store of this page.
var kept = &store{phase: opening, patience: patience}

// kit returns the kit as last published. It is never changed in place.
func (s *store) kit() fieldkit.Kit {
	if s.session == nil {
		return fieldkit.Kit{}
	}
	return s.session.Kit()
}

// first is the system of units read first.
func (s *store) first() fieldkit.System { return s.prefs.Units }

// today is the calendar day on this device.
func today() fieldkit.Date { return fieldkit.DateOf(time.Now()) }

// now is the moment an entry is stamped with.
func now() fieldkit.Moment { return fieldkit.Moment{Time: time.Now().UTC().Truncate(time.Second)} }

// localNow is the moment in the zone of the device, where "today" is the
// person's own.
func localNow() fieldkit.Moment { return fieldkit.Moment{Time: time.Now()} }

// newID makes a key that no other device makes.
func newID() string {
	var b [10]byte
	_, _ = rand.Read(b[:]) // crypto/rand does not fail (Go 1.24 and later)
	return hex.EncodeToString(b[:])
}

// interchange returns the graph of the present kit.
func (s *store) interchange() *interchange.Graph {
	k := s.kit()
	return interchange.Of(k.Parts, k.Links)
}

// lookup returns the search index of the present kit and the published tables. The
// tables are read when they are first searched; after an edit only what it touched is
// made anew.
func (s *store) lookup() *lookup.Index {
	if s.index == nil {
		s.index = lookup.New(s.kit(), data.Catalog(), data.Shelf())
	} else {
		s.index = s.index.Following(s.kit())
	}
	return s.index
}

// do carries out one user action. Edit may run more than once, each time on the
// freshest kit. Then runs on the UI goroutine: with nil once the change is on
// disk, with the error if nothing was kept.
func (s *store) do(ctx app.Context, what string, edit func(*journal.Edit) error, then func(app.Context, error), photos ...journal.Blob) {
	s.carryOut(ctx, what, edit, func(ctx app.Context, entry journal.Entry, err error) {
		if err == nil {
			s.said = said{text: what, entry: entry.ID}
		}
		s.publish(ctx)
		then(ctx, err)
	}, photos...)
}

// doQuietly is do for steps so small that saying each would be noise: the steps of
// a repair, the ticks of a list. They are in the journal all the same.
func (s *store) doQuietly(ctx app.Context, what string, edit func(*journal.Edit) error, then func(app.Context, error)) {
	s.carryOut(ctx, what, edit, func(ctx app.Context, _ journal.Entry, err error) {
		if err == nil {
			s.said = said{} // it could be taken back no more without this step
		}
		s.publish(ctx)
		then(ctx, err)
	})
}

func (s *store) carryOut(ctx app.Context, what string, edit func(*journal.Edit) error, then func(app.Context, journal.Entry, error), photos ...journal.Blob) {
	session := s.session
	if session == nil {
		then(ctx, journal.Entry{}, &fieldkit.Error{Kind: fieldkit.Storage, What: "no kit is open", Do: "open a kit first"})
		return
	}
	var entry journal.Entry
	var err error
	var leftOut []journal.Blob
	answer := s.forThisScreen(func(ctx app.Context) {
		if s.leftOut = leftOut; len(leftOut) > 0 {
			s.trouble = errPhotoLeftOut
		}
		then(ctx, entry, err)
		s.leftOut = nil
	})
	s.work(ctx, func() {
		var refused error
		entry, refused = session.Do(context.Background(), what, now(), newID, edit, photos...)
		if len(photos) > 0 && errors.Is(refused, journal.ErrFull) {
			// There may be room for the words.
			entry, refused = session.Do(context.Background(), what, now(), newID, func(e *journal.Edit) error {
				err := edit(e)
				e.DropPhotos(photos)
				return err
			})
			if refused == nil {
				leftOut = photos
			}
		}
		err = withoutAction(refused, what)
		if err == nil && s.which == ownKit && remembered(prefPrefix+"asked") == "" {
			// There is something to lose now. Some browsers ask the person, once.
			remember(prefPrefix+"asked", "yes")
			persistStorage()
			s.storage.asked = false
			s.post(s.askStorage)
		}
		s.post(answer)
	})
}

var errPhotoLeftOut = &fieldkit.Error{Kind: fieldkit.Storage,
	What: "the phone's storage is full: the photo was not kept, everything else was",
	Do:   "free some space, then open the entry and save it again with the photo"}

// undo takes back an entry.
func (s *store) undo(ctx app.Context, entry string) {
	session := s.session
	s.work(ctx, func() {
		_, err := session.Undo(context.Background(), entry, now(), newID)
		s.post(func(ctx app.Context) {
			s.trouble = err
			if err == nil {
				s.said = said{text: "Taken back."}
				forgetRestored(entry)
			}
			s.publish(ctx)
		})
	})
}

// takeOver makes the kit as it was after an earlier entry the kit of today, as one
// change that can be undone: the way back to before a restore.
func (s *store) takeOver(ctx app.Context, seq uint64, before string) {
	session, which := s.session, s.which
	what := "Back to the kit before: " + before
	s.work(ctx, func() {
		old, err := session.ReplicaAt(context.Background(), seq)
		var entry journal.Entry
		if err == nil {
			entry, err = session.Restore(context.Background(), what, now(), newID, old)
		}
		s.post(func(ctx app.Context) {
			if s.trouble = err; err == nil {
				s.said = said{text: what, entry: entry.ID}
				if which == ownKit {
					remember(backupRestored, "")
				}
			}
			s.publish(ctx)
		})
	})
}

// hush closes the line that says what was done.
func (s *store) hush(ctx app.Context) {
	s.said, s.trouble = said{}, nil
	s.publish(ctx)
}

// publish makes every screen load its view again after the kit was changed.
func (s *store) publish(ctx app.Context) {
	s.loadAgain(ctx)
	s.keepPlainSoon()
}

// loadAgain makes every screen load its view again.
func (s *store) loadAgain(ctx app.Context) {
	s.revision++
	ctx.NewAction(kitChanged)
}

// withoutAction takes the words of the action off the place an error names: they
// are meant for the log, and read there as if it had been done.
func withoutAction(err error, what string) error {
	var e *fieldkit.Error
	if !errors.As(err, &e) || !strings.HasPrefix(e.Where, what) {
		return err
	}
	plain := *e
	plain.Where = strings.TrimLeft(strings.TrimPrefix(e.Where, what), ", ")
	return &plain
}
