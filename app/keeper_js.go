package app

import (
	"context"
	"errors"
	"math"
	"strconv"
	"strings"
	"time"

	"trailfieldkit/app/browserstore"
	"trailfieldkit/fieldkit/journal"
)

func init() { journal.SumWith(browserstore.Sum) }

// databaseName ties a kit of this device to its database. A kit that was gone on with
// after damage has another one than the damaged, which stays as it is.
func databaseName(which string, copy int) string {
	name := map[string]string{ownKit: "trail-field-kit", demoKit: "trail-field-kit-demo"}[which]
	if copy > 1 {
		name += "-" + itoa(copy)
	}
	return name
}

// followAfter is how long after opening the second copy is brought up: when the screen is
// drawn.
const followAfter = 3 * time.Second

// openKeeper opens a kit of this device; one's own has a second copy. regained is how many
// entries came back from that; what happens to it later is told.
func openKeeper(ctx context.Context, which string, copy int, told func(journal.News)) (keeper journal.Store, regained int, err error) {
	name := databaseName(which, copy)
	first, err := browserstore.Open(ctx, name)
	if err != nil {
		return nil, 0, err
	}
	if which != ownKit {
		return first, 0, nil
	}
	doubled, regained, err := journal.OpenDoubled(ctx, first, journal.Copying{
		Open: func(ctx context.Context) (journal.Copy, error) { return browserstore.OpenSecond(ctx, name) },
		SetAside: func(ctx context.Context, from journal.Store) error {
			return journal.SetAside(ctx, from, func(ctx context.Context, n int) (journal.Store, error) {
				if n >= laterCopies {
					return nil, errTooManyStores
				}
				return browserstore.Open(ctx, databaseName(which, copy+1+n))
			})
		},
		Patience:      journal.CopyPatience,
		WithoutPhotos: noRoomToday(),
		Told:          told,
	})
	if errors.Is(err, journal.ErrCopyUnread) && !(keptHere(which) && copy == copyOf(which)) {
		err = nil // there was no kit: one can be begun
	}
	if err != nil {
		_ = doubled.Close() // why it does not open is what counts
		return nil, 0, err
	}
	time.AfterFunc(followAfter, func() {
		_ = doubled.Follow(context.Background()) // the next entry tries again
	})
	return doubled, regained, nil
}

var errTooManyStores = errors.New("there are many stores of this kit already")

// latestSecond is the number of the latest store of a kit of which a second copy holds
// anything, 0 for none.
func latestSecond(ctx context.Context, which string) (copy int) {
	names, _ := browserstore.SecondNames(ctx) // not told is as good as none
	first := databaseName(which, 1)
	for _, name := range names {
		n := 1
		if rest, later := strings.CutPrefix(name, first+"-"); later {
			n, _ = strconv.Atoi(rest) // another kit's is no number
		} else if name != first {
			continue
		}
		if n > copy && holdsAnything(ctx, name) {
			copy = n
		}
	}
	return copy
}

func holdsAnything(ctx context.Context, name string) bool {
	second, err := browserstore.OpenSecond(ctx, name)
	if err != nil || second == nil {
		return false
	}
	defer second.Close()
	tail, err := second.Since(ctx, math.MaxUint64)
	return err == nil && tail.Head.Seq > 0
}

// openWreck opens what is left of a kit that does not open.
func openWreck(ctx context.Context, at storeAt) (wreck, error) {
	name := databaseName(at.which, at.copy)
	if at.second {
		return browserstore.OpenSecondWreck(ctx, name)
	}
	return browserstore.OpenWreck(ctx, name)
}

// openTexts opens the second copy of this device's texts.
func openTexts(ctx context.Context) (textKeeper, error) {
	return browserstore.OpenTexts(ctx, "trail-field-kit-device")
}

func deleteKit(ctx context.Context, which string, copy int) error {
	name := databaseName(which, copy)
	if which != ownKit {
		return browserstore.Delete(ctx, name)
	}
	return browserstore.DeleteBoth(ctx, name)
}

func watchOtherTabs(which string, changed func()) (stop func()) {
	return browserstore.Watch(databaseName(which, copyOf(which)), changed)
}

// storageFacts asks whether the browser keeps this site's data for good, and how
// much of its room is used. What a browser does not tell is nothing.
func storageFacts() (forGood bool, used, limit int64) {
	forGood, _ = browserstore.Persisted(context.Background())
	room, _ := browserstore.Estimate(context.Background())
	return forGood, room.Used, room.Limit
}

// persistStorage asks the browser to keep this site's data for good; it may ask
// the person, and may say no.
func persistStorage() { _, _ = browserstore.Persist(context.Background()) }
