package diary

import (
	"context"
	"errors"
	"fmt"
	"math"

	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
)

// Run is how a script went.
type Run struct {
	Acknowledged []int    `json:"acknowledged"`
	Told         []string `json:"told"`  // what the person was told, each an action that was tried again
	Stuck        []string `json:"stuck"` // steps that failed twice
}

// Script does what a person does in a day, in two tabs, and lets each step that
// failed be tried once more, as a person would. Open opens the kept data anew. At last a
// kit of another place is begun and thrown away for good.
func Script(ctx context.Context, open, other func(context.Context) (journal.Store, error)) Run {
	var run Run
	step := func(name string, do func() error) bool {
		err := do()
		if err == nil {
			return true
		}
		run.Told = append(run.Told, err.Error())
		if err = do(); err == nil {
			return true
		}
		run.Told = append(run.Told, err.Error())
		run.Stuck = append(run.Stuck, fmt.Sprintf("%s: %v", name, err))
		return false
	}
	tab := func(name string) *Diary {
		var d *Diary
		step(name, func() error {
			store, err := open(ctx)
			if err != nil {
				return err
			}
			if d, err = Open(ctx, store); err != nil {
				store.Close()
			}
			return err
		})
		return d
	}
	write := func(d *Diary, n int) {
		if step(fmt.Sprint("action ", n), func() error { return d.Do(ctx, n) }) {
			run.Acknowledged = append(run.Acknowledged, n)
		}
	}
	one := tab("open")
	if one == nil {
		return run
	}
	defer one.Store.Close()
	write(one, 1)
	write(one, 2)
	write(one, 4)
	step("undo", func() error { return one.Undo(ctx, 4) })
	step("snapshot", func() error { return one.Snapshot(ctx, kitfile.Save) })
	two := tab("open beside it")
	if two == nil {
		return run
	}
	defer two.Store.Close()
	write(two, 5)
	write(one, 3)
	step("take in", func() error { _, err := two.Session.Refresh(ctx); return err })
	step("as it was", func() error { _, err := one.Session.KitAt(ctx, 2); return err })
	step("photo", func() error {
		b, _ := Photo(1)
		_, err := two.Session.Blob(ctx, b.Hash)
		return err
	})
	step("throw away", func() error {
		store, err := other(ctx)
		if err != nil {
			return err
		}
		if _, err := Open(ctx, store); err != nil {
			store.Close()
			return err
		}
		return store.Delete(ctx)
	})
	step("look whether it is gone", func() error {
		store, err := other(ctx)
		if err != nil {
			return err
		}
		defer store.Close()
		tail, err := store.Since(ctx, math.MaxUint64)
		if err == nil && tail.Head.Seq != 0 {
			err = errors.New("what was thrown away is there again")
		}
		return err
	})
	return run
}

// Missing lists what was acknowledged and is not there.
func Missing(acknowledged, here []int) (missing []int) {
	there := map[int]bool{}
	for _, n := range here {
		there[n] = true
	}
	for _, n := range acknowledged {
		if !there[n] {
			missing = append(missing, n)
		}
	}
	return missing
}
