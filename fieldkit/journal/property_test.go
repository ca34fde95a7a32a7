package journal_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// Three tabs do, undo and refresh at random over one store that breaks down at
// random. Afterwards they agree, their kit is what a replay of the journal gives,
// and every action that was acknowledged is in the journal, once.
func TestTabsAgreeWhateverBreaks(t *testing.T) {
	for seed := range uint64(60) {
		t.Run(fmt.Sprint("seed ", seed), func(t *testing.T) {
			rnd := rand.New(rand.NewPCG(seed, 1))
			store := journal.NewMemory()
			broken := errors.New("connection lost")
			tabs := make([]*journal.Session, 3)
			var faulty bool
			for i := range tabs {
				handle := store.Handle()
				tabs[i] = open(t, handle)
				handle.Fault = func(string) error {
					if faulty && rnd.IntN(6) == 0 {
						return broken
					}
					return nil
				}
			}
			faulty = true
			newID := counter("entry")
			acknowledged := map[string]bool{}
			var done []journal.Entry
			for range 80 {
				tab := tabs[rnd.IntN(len(tabs))]
				before, seq := tab.Kit(), tab.Seq()
				var e journal.Entry
				var err error
				switch rnd.IntN(6) {
				case 0:
					_, err = tab.Refresh(ctx)
				case 1:
					if len(done) > 0 {
						e, err = tab.Undo(ctx, done[rnd.IntN(len(done))].ID, now, newID)
					}
				default:
					e, err = tab.Do(ctx, "random edit", now, newID, randomEdit(rnd))
				}
				var explained *fieldkit.Error
				require.True(t, err == nil || errors.Is(err, broken) || errors.As(err, &explained), "%v", err)
				if err == nil && e.ID != "" {
					require.False(t, acknowledged[e.ID], "entry %s twice", e.ID)
					acknowledged[e.ID] = true
					done = append(done, e)
				}
				if err != nil && tab.Seq() == seq {
					sameKit(t, before, tab.Kit(), "an action that failed changed the kit")
				}
			}
			faulty = false

			log := open(t, store.Handle())
			for _, tab := range tabs {
				_, err := tab.Refresh(ctx)
				require.NoError(t, err)
				require.Equal(t, log.Seq(), tab.Seq())
				sameKit(t, log.Kit(), tab.Kit(), "state is the replay of the journal")
				require.True(t, tab.Report().Whole())
			}
			history, err := log.History(ctx, 1000)
			require.NoError(t, err)
			require.Len(t, history, int(log.Seq()))
			for _, e := range history {
				delete(acknowledged, e.ID)
			}
			require.Empty(t, acknowledged, "acknowledged and not in the journal")
		})
	}
}

// randomEdit changes a few records of several collections, sometimes against the
// rules.
func randomEdit(rnd *rand.Rand) func(*journal.Edit) error {
	kind, a, b := rnd.IntN(7), rnd.IntN(6), rnd.IntN(6)
	return func(ed *journal.Edit) error {
		position := fmt.Sprint("place-", a)
		switch kind {
		case 0:
			ed.SetName(fmt.Sprint("kit ", a, b))
		case 1:
			ed.Put(fieldkit.Position{ID: position, System: "front-axle", Name: fmt.Sprint("hub ", b), Kind: "hub", Quantity: 1})
		case 2:
			ed.Delete("positions", position)
			ed.Delete("positions", fmt.Sprint("place-", b))
		case 3:
			ed.Put(fieldkit.Part{ID: fmt.Sprint("part-", a), Kind: "hub", Name: fmt.Sprint("hub ", b)})
		case 4: // refused if there is no such part or place
			p, ok := ed.Kit().Position(position)
			if !ok {
				return &fieldkit.Error{Kind: fieldkit.NotFound, What: "no such place"}
			}
			p.Part = fmt.Sprint("part-", b)
			ed.Put(p)
		case 5: // refused while it is fitted
			ed.Delete("parts", fmt.Sprint("part-", a))
		default:
			return logFailure(fmt.Sprint("failure-", a, b), "snapped")(ed)
		}
		return nil
	}
}

// Each undo in turn, the last first, leads back through every kit there was.
func TestUndoLeadsBackStepByStep(t *testing.T) {
	for seed := range uint64(20) {
		rnd := rand.New(rand.NewPCG(seed, 2))
		s := open(t, journal.NewMemory())
		newID := counter("entry")
		var kits []fieldkit.Kit
		var entries []journal.Entry
		for len(entries) < 25 {
			before := s.Kit()
			e, err := s.Do(ctx, "random edit", now, newID, randomEdit(rnd))
			if err == nil && e.ID != "" {
				kits, entries = append(kits, before), append(entries, e)
			}
		}
		for i := len(entries) - 1; i >= 0; i-- {
			_, err := s.Undo(ctx, entries[i].ID, now, newID)
			require.NoError(t, err)
			sameKit(t, kits[i], s.Kit(), "seed %d, step %d", seed, i)
		}
	}
}
