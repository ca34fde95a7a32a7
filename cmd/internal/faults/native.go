package faults

import (
	"context"
	"fmt"
	"math/rand/v2"
	"time"

	"trailfieldkit/cmd/internal/faults/diary"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
)

// stored is what a store reports when a call fails.
var storeFault = &fieldkit.Error{Kind: fieldkit.Storage, What: "the browser cut the connection to its database", Do: "try again"}

// callsNatively is class b over the store in memory: each call of a scripted day fails
// once, before it did anything and, of a write, also after it was kept but before that
// was said.
func callsNatively(ctx context.Context, _ *site, _ amounts) (*Class, error) {
	c := &Class{Name: "b  each call fails once, injected"}
	calls := 0
	for at := 0; at == 0 || at <= calls; at++ {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		memory := journal.NewMemory()
		count := 0
		faulty := func(m *journal.Memory) func(context.Context) (journal.Store, error) {
			return func(context.Context) (journal.Store, error) {
				handle := m.Handle()
				handle.Fault = func(string) error {
					if count++; count == at {
						return storeFault
					}
					return nil
				}
				return handle, nil
			}
		}
		run := diary.Script(ctx, faulty(memory), faulty(journal.NewMemory()))
		calls = max(calls, count)
		c.judgeRun(fmt.Sprintf("call %d", at), run)
		c.judgeStore(ctx, fmt.Sprintf("call %d", at), memory.Handle(), run.Acknowledged)
	}
	c.Note = fmt.Sprintf("%d calls in a scripted day", calls)
	return c, nil
}

// judgeRun counts a scripted day; what failed must have worked when tried again.
func (c *Class) judgeRun(name string, run diary.Run) {
	c.Cases++
	c.Acknowledged += len(run.Acknowledged)
	for _, message := range run.Told {
		c.tell(message)
	}
	for _, stuck := range run.Stuck {
		c.bad("%s: failed twice: %s", name, stuck)
	}
}

// judgeStore opens what was kept once more and compares.
func (c *Class) judgeStore(ctx context.Context, name string, store journal.Store, acknowledged []int) {
	d, err := diary.Open(ctx, store)
	if err != nil {
		c.Closed++
		c.bad("%s: %v", name, err)
		return
	}
	c.judgeFound(name, d.Look(ctx), acknowledged)
}

func (c *Class) judgeFound(name string, found diary.Found, acknowledged []int) {
	if missing := diary.Missing(acknowledged, found.Here); len(missing) > 0 {
		c.Lost += len(missing)
		c.bad("%s: acknowledged and lost: %v", name, missing)
	}
	for _, w := range found.Wrong {
		c.bad("%s: %s", name, w)
	}
}

// snapshotsRefused is the second half of class g: whatever snapshot cannot be written,
// and at whatever call a session that keeps one dies, the journal has it all. Entries
// are never removed, so what is removed after a snapshot is only older snapshots.
func snapshotsRefused(ctx context.Context, _ *site, _ amounts) (*Class, error) {
	c := &Class{Name: "g  a snapshot that cannot be written"}
	const actions = 6
	for _, op := range []string{"snapshot", "since", "acknowledge", "append"} {
		for first := 1; first <= actions; first++ {
			for _, ever := range []bool{false, true} {
				memory := journal.NewMemory()
				d, err := diary.Open(ctx, memory)
				if err != nil {
					return nil, err
				}
				var acknowledged []int
				count := 0
				memory.Fault = func(called string) error {
					if called != op {
						return nil
					}
					if count++; count == first || ever && count > first {
						return storeFault
					}
					return nil
				}
				for n := 1; n <= actions; n++ {
					if d.Do(ctx, n) == nil {
						acknowledged = append(acknowledged, n)
					}
					if err := d.Snapshot(ctx, kitfile.Save); err != nil {
						c.tell(err.Error())
					}
				}
				c.Cases++
				c.Acknowledged += len(acknowledged)
				c.judgeStore(ctx, fmt.Sprintf("%s %d", op, first), memory.Handle(), acknowledged)
				if op == "snapshot" && len(acknowledged) != actions {
					c.bad("%d of %d actions were kept without a snapshot", len(acknowledged), actions)
				}
			}
		}
	}
	return c, nil
}

// clocksNatively stamps actions with moments no sane clock shows.
func clocksNatively(ctx context.Context, c *Class, rounds int) error {
	rnd := rand.New(rand.NewPCG(11, 4))
	for round := range rounds {
		memory := journal.NewMemory()
		tabs := make([]*diary.Diary, 2)
		for i := range tabs {
			var err error
			if tabs[i], err = diary.Open(ctx, memory.Handle()); err != nil {
				return err
			}
		}
		var acknowledged []int
		now := time.Date(2026, 5, 14, 18, 5, 0, 0, time.UTC)
		for n := 1; n <= 12; n++ {
			switch rnd.IntN(6) {
			case 0: // it stands still
			case 1:
				now = now.Add(-time.Duration(rnd.IntN(1_000_000)) * time.Second)
			case 2:
				now = now.Add(time.Duration(rnd.IntN(90)) * time.Second)
			case 3:
				now = time.Date(1970+rnd.IntN(8000), 1, 1, 0, 0, 0, 0, time.UTC)
			case 4:
				now = time.UnixMilli(8_640_000_000_000_000).UTC() // the last moment a browser's clock can show, in the year 275760
			default:
				now = time.Time{}.Add(time.Duration(rnd.IntN(100)) * time.Hour)
			}
			err := diary.Do(ctx, tabs[rnd.IntN(2)].Session, n, fieldkit.Moment{Time: now})
			if err != nil {
				c.tell(err.Error())
				continue
			}
			acknowledged = append(acknowledged, n)
		}
		c.Cases++
		c.Acknowledged += len(acknowledged)
		name := fmt.Sprintf("clock %d", round)
		if len(acknowledged) < 12 {
			c.bad("%s: %d of 12 actions kept", name, len(acknowledged))
		}
		c.judgeStore(ctx, name, memory.Handle(), acknowledged)
		entries, err := tabs[0].Session.History(ctx, 100)
		if err != nil {
			return err
		}
		// The latest is what can be undone, whatever the clock said.
		if _, err := tabs[0].Session.Refresh(ctx); err != nil {
			c.bad("%s: %v", name, err)
		}
		if entries, err = tabs[0].Session.History(ctx, 1); err != nil || len(entries) != 1 {
			c.bad("%s: no latest entry: %v", name, err)
			continue
		}
		if _, err := tabs[0].Session.Undo(ctx, entries[0].ID, fieldkit.Moment{Time: now}, func() string { return "undo" }); err != nil {
			c.bad("%s: the latest cannot be undone: %v", name, err)
		}
	}
	return nil
}
