package app

import (
	"context"
	"errors"
	"io"
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/backup"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/merge"
)

// wreck reads what is left of a kit that does not open.
type wreck interface {
	Salvage(context.Context) journal.Salvage
	Photo(ctx context.Context, hash string) (journal.Blob, error)
	Close()
}

// storeAt is where a store of a kit lies.
type storeAt struct {
	which  string
	copy   int
	second bool // its second copy
}

// copyOf tells which of a kit's stores is the one in use, from 1.
func copyOf(which string) int {
	n, _ := strconv.Atoi(remembered(prefPrefix + "copy." + which)) // none is the first
	return max(n, 1)
}

func useCopy(which string, copy int) { remember(prefPrefix+"copy."+which, itoa(copy)) }

// damaged says whether the kit in hand misses something that was set aside.
func (s *store) damaged() bool {
	return s.session != nil && len(s.session.Report().Damaged) > 0
}

// answer does what follows when the disk has answered, whatever screen is shown by
// then, and draws the block again.
func (r *rescueBlock) answer(do func(app.Context)) {
	kept.post(func(ctx app.Context) {
		do(ctx)
		kept.publish(ctx)
	})
}

// look reads what is left, piece by piece.
func (r *rescueBlock) look(ctx app.Context) {
	which := kept.which
	ctx.Async(func() {
		found := salvage(which)
		r.answer(func(app.Context) { r.found, r.looked = found, true })
	})
}

func salvage(which string) salvaged {
	s := lookInto(storeAt{which: which, copy: copyOf(which)})
	s.later = laterCopy(which)
	if second := lookInto(storeAt{which, copyOf(which), true}); second.none == nil {
		s.second = &second
	}
	return s
}

func lookInto(at storeAt) salvaged {
	w, err := openWreck(context.Background(), at)
	if err != nil {
		return salvaged{at: at, none: err}
	}
	defer w.Close()
	s := salvaged{at: at, raw: w.Salvage(context.Background())}
	s.copy, s.report, s.none = s.raw.Recover(context.Background(), nothingYet)
	return s
}

// nothingYet is what a kit whose beginning is lost is put together on: nothing that
// nobody wrote may be in it.
func nothingYet() fieldkit.Kit {
	blank := data.BlankKit(newID())
	return fieldkit.Kit{Format: blank.Format, Version: blank.Version, ID: blank.ID, Name: "Recovered kit", Currency: blank.Currency}
}

// saveRaw hands out one file with all that could be read of a store.
func (r *rescueBlock) saveRaw(of salvaged) {
	r.busy, r.told, r.err = "Putting the file together …", "", nil
	handOutRaw(of.at, of.raw, func(said string, err error) { r.busy, r.told, r.err = "", said, err })
}

// handOutRaw gives the person one file with all that could be read of a store, and then
// says what became of it.
func handOutRaw(at storeAt, raw journal.Salvage, then func(said string, err error)) {
	go func() {
		var file outside
		missing, err := writeRaw(&file, at, raw)
		file.flush()
		kept.post(func(ctx app.Context) {
			if err != nil {
				then("", err)
				kept.publish(ctx)
				return
			}
			name := "trail-field-kit-raw-" + today().String() + ".zip"
			saveParts(ctx, name, "application/zip", file.parts, func(ctx app.Context, said string, _ bool) {
				if len(missing) > 0 {
					said += " " + counted(len(missing), "photo") + " could not be read: not in it."
				}
				then(said, nil)
				kept.publish(ctx)
			})
		})
	}()
}

func writeRaw(file io.Writer, at storeAt, raw journal.Salvage) (missing []string, err error) {
	w, err := openWreck(context.Background(), at)
	if err != nil {
		return nil, err
	}
	defer w.Close()
	return backup.WriteRaw(file, raw, func(hash string) (journal.Blob, error) { return w.Photo(context.Background(), hash) })
}

// goOn begins a new store with what could be read of one.
func (r *rescueBlock) goOn(ctx app.Context, from salvaged) {
	which := kept.which
	what := "Went on with what could be read of the kit before"
	if from.at.second {
		what = "Went on with what the second copy of the kit held"
	}
	r.busy = "Beginning a new store …"
	ctx.Async(func() {
		photos := salvagePhotos(from)
		r.startOver(ctx, which, what, from.copy, photos, fieldkit.Moment{})
	})
}

// salvagePhotos reads the photos that are whole.
func salvagePhotos(of salvaged) (whole []journal.Blob) {
	w, err := openWreck(context.Background(), of.at)
	if err != nil {
		return nil
	}
	defer w.Close()
	for _, hash := range of.raw.Photos {
		if b, err := w.Photo(context.Background(), hash); err == nil && b.Whole() {
			whole = append(whole, b)
		}
	}
	return whole
}

// restore begins a new store with a backup.
func (r *rescueBlock) restore(ctx app.Context, c backup.Contents, name string) {
	which := kept.which
	r.busy = "Restoring …"
	kept.work(ctx, func() {
		r.startOver(ctx, which, "Restored "+name, c.Replica(), c.Photos, c.Made)
	})
}

// startOver keeps a copy in a store of its own beside the one that does not open, and
// opens that from now on. The copy lies in a backup made at that moment, if it is one. It
// must not run on the UI goroutine.
func (r *rescueBlock) startOver(ctx app.Context, which, what string, from merge.Replica, photos []journal.Blob, made fieldkit.Moment) {
	err := startCopy(context.Background(), which, what, from, photos)
	r.answer(func(ctx app.Context) {
		if r.busy, r.err = "", err; err == nil {
			r.backup.chosen = nil
			if which == ownKit {
				noteRestored("", made, today())
			}
			kept.open(ctx, which)
		}
	})
}

// startCopy makes the next store of a kit. It is the kit's only when everything is in
// it; a store that holds anything is left alone.
func startCopy(ctx context.Context, which, what string, from merge.Replica, photos []journal.Blob) error {
	for next := copyOf(which) + 1; ; next++ {
		keeper, _, err := openKeeper(ctx, which, next, nil)
		if err != nil {
			return err
		}
		err = journal.Begin(ctx, keeper, what, now(), from, photos...)
		_ = keeper.Close() // what was acknowledged is on disk
		if errors.Is(err, journal.ErrBehind) {
			continue
		}
		if err == nil {
			useCopy(which, next)
			secondCopy.settle(settleLimit) // which store it is must outlive a dead battery too
		}
		return err
	}
}

// laterCopies is how many stores beyond the one in use are looked for.
const laterCopies = 4

// laterCopy finds a store that was begun after the one in use, 0 if there is none: the
// choice of the store may be lost where the stores are not.
func laterCopy(which string) (later int) {
	for n := copyOf(which) + 1; n <= copyOf(which)+laterCopies; n++ {
		w, err := openWreck(context.Background(), storeAt{which: which, copy: n})
		if err != nil {
			continue
		}
		if len(w.Salvage(context.Background()).Records) > 0 {
			later = n
		}
		w.Close()
	}
	return later
}

func (r *rescueBlock) openLater(ctx app.Context) {
	useCopy(kept.which, r.found.later)
	kept.open(ctx, kept.which)
}

// settle goes on in the same journal with what is here.
func (r *rescueBlock) settle(ctx app.Context) {
	session := kept.session
	const what = "Went on without what was set aside"
	ctx.Async(func() {
		entry, err := session.GoOn(context.Background(), what, now(), newID)
		r.answer(func(ctx app.Context) {
			if r.err = err; err == nil {
				kept.trouble, kept.said = nil, said{text: what, entry: entry.ID}
				r.look(ctx)
			}
		})
	})
}
