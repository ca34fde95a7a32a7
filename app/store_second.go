package app

import (
	"context"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// noRoomPref is the day on which there was last no room for the photos of the second copy.
// They are left out for the rest of it: copied again at each start and given up again for
// the next photo, they would only wear the phone out.
const noRoomPref = prefPrefix + "second.no-room"

func noRoomToday() bool { return remembered(noRoomPref) == today().String() }

// hearOfSecond takes up what happened to the second copy after the kit was opened: what
// came back late is read in, and said.
func (s *store) hearOfSecond(n journal.News) {
	if n.NoRoom {
		remember(noRoomPref, today().String())
	}
	trouble := lateNotice(n)
	if trouble == nil {
		return
	}
	s.post(func(ctx app.Context) {
		if s.which == ownKit {
			s.trouble = trouble
			s.publish(ctx)
			s.refresh()
		}
	})
}

// lateNotice says what happened to the second copy, nil if nobody need be told.
func lateNotice(n journal.News) error {
	switch {
	case n.Regained > 0:
		return regainedNotice(n.Regained)
	case n.Apart:
		return &fieldkit.Error{
			Kind: fieldkit.Storage,
			What: "the second copy of this kit held things that are not in the kit; they were set aside",
			Do:   "open Kit, Other stores of this kit, and look whether you miss something",
		}
	}
	return nil
}

// regainedNotice says that the kit came back from its second copy.
func regainedNotice(entries int) error {
	return &fieldkit.Error{
		Kind: fieldkit.Storage,
		What: "the browser had lost this kit, or the end of it; what was lost came back from its second copy (entries: " + itoa(entries) + ")",
		Do:   "look whether the last things you wrote are there, and make a backup now",
	}
}

// secondWords says how whole the second copy of the kit in hand is, nothing where there
// can be none.
func (s *store) secondWords() string {
	if doubled, ok := s.keeper.(interface{ Copied() journal.CopyState }); ok {
		return copyWords[doubled.Copied()]
	}
	return ""
}

// followSecond waits until the second copy is as far as it comes.
func (s *store) followSecond() {
	if doubled, ok := s.keeper.(interface{ Follow(context.Context) error }); ok {
		_ = doubled.Follow(context.Background()) // what is wrong with it is in secondWords
	}
}

var copyWords = map[journal.CopyState]string{
	journal.CopyBehind:   "A second copy of the kit lies apart in this browser. It is being brought up to the kit.",
	journal.CopyWhole:    "A second copy of the kit lies apart in this browser, photos too.",
	journal.CopyNoPhotos: "The second copy of the kit in this browser has all entries, but not all photos: there is no room for them.",
	journal.CopyNoRoom:   "There is no room for a second copy of the kit in this browser: make backups.",
	journal.CopyApart:    "The second copy of the kit in this browser was left as it is, because the kit is damaged or misses an entry: see the rescue.",
}
