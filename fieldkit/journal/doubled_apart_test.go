package journal_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit/journal"
)

// shelf is where copies that have come apart are set aside.
type shelf struct {
	mu     sync.Mutex
	places []*place
}

func (s *shelf) setAside(ctx context.Context, from journal.Store) error {
	return journal.SetAside(ctx, from, func(_ context.Context, n int) (journal.Store, error) {
		s.mu.Lock()
		defer s.mu.Unlock()
		for len(s.places) <= n {
			s.places = append(s.places, newPlace())
		}
		return s.places[n].store(), nil
	})
}

// entriesOf lists the entries and photos of places, by their hashes.
func entriesOf(t *testing.T, places ...*place) map[string]bool {
	t.Helper()
	all := map[string]bool{}
	for _, p := range places {
		for _, r := range p.entries(t) {
			all[r.Hash] = true
		}
		for _, hash := range p.photos(t) {
			all[hash] = true
		}
	}
	return all
}

// apart makes a kit and a copy that have a beginning in common and then each its own.
func apart(t *testing.T, random *rand.Rand) (first, second *place) {
	t.Helper()
	first, second = newPlace(), newPlace()
	for n := range random.IntN(4) {
		photo := journal.NewBlob("image/jpeg", []byte{byte(n), 1})
		jot(t, first.store(), 1, photo)
		jot(t, second.store(), 1, photo)
	}
	for i, p := range []*place{first, second} {
		for n := range 1 + random.IntN(5) {
			jotDown(t, p.store(), fmt.Sprint("apart ", i, n), journal.NewBlob("image/jpeg", []byte{byte(n), byte(i), 2}))
		}
	}
	return first, second
}

// A copy that has come apart is made anew from the first, and what only it held is set
// aside, to the last photo; at whatever call that is interrupted, nothing is lost, and the
// next run ends it.
func TestCopyHeals(t *testing.T) {
	interrupted := 0
	for seed := range uint64(120) {
		random := rand.New(rand.NewPCG(seed, 9))
		first, second := apart(t, random)
		before := entriesOf(t, first, second)
		aside := &shelf{}
		fault := random.IntN(40) // the call that fails; late ones never come
		told := journal.News{}
		count := 0
		how := copying(func() (journal.Copy, error) {
			m := second.kept.Handle()
			m.Fault = func(string) error {
				if count++; count == fault {
					interrupted++
					return errors.New("connection lost")
				}
				return nil
			}
			return m, nil
		})
		how.SetAside = aside.setAside
		how.Told = func(n journal.News) { told = n }
		d, regained, err := journal.OpenDoubled(t.Context(), first.store(), how)
		require.NoError(t, err)
		require.Zero(t, regained)
		mine := entriesOf(t, first)
		for range 3 {
			if err = d.Follow(t.Context()); err == nil && d.Copied() == journal.CopyWhole {
				break
			}
			assert.Subset(t, keys(entriesOf(t, append(aside.places, first, second)...)), keys(before), "seed %d: lost on the way", seed)
		}
		require.NoError(t, err, "seed %d", seed)
		require.Equal(t, mine, entriesOf(t, first), "seed %d: the first is not touched", seed)
		require.Equal(t, mine, entriesOf(t, second), "seed %d: the copy is whole", seed)
		require.Equal(t, journal.CopyWhole, d.Copied())
		require.Subset(t, keys(entriesOf(t, append(aside.places, first)...)), keys(before), "seed %d: nothing is lost", seed)
		require.Len(t, aside.places, 1, "seed %d: set aside once", seed)
		require.Equal(t, journal.News{Apart: true}, told)
		require.NoError(t, d.Close())
	}
	require.Greater(t, interrupted, 40)
}

func keys(of map[string]bool) (list []string) {
	for k := range of {
		list = append(list, k)
	}
	return list
}

// Two tabs find at the same time that the copy has come apart: nothing is lost, and it is
// whole afterwards.
func TestTwoTabsHeal(t *testing.T) {
	for seed := range uint64(60) {
		first, second := apart(t, rand.New(rand.NewPCG(seed, 3)))
		before, mine := entriesOf(t, first, second), entriesOf(t, first)
		aside := &shelf{}
		var tabs [2]*journal.Doubled
		how := copyingTo(second.store)
		how.SetAside = aside.setAside
		for i := range tabs {
			var err error
			tabs[i], _, err = journal.OpenDoubled(t.Context(), first.store(), how)
			require.NoError(t, err)
		}
		var both sync.WaitGroup
		for _, d := range tabs {
			both.Go(func() { _ = d.Follow(t.Context()) }) // the other may be in between
		}
		both.Wait()
		for _, d := range tabs {
			require.NoError(t, d.Follow(t.Context()))
		}
		require.Equal(t, mine, entriesOf(t, first), "seed %d", seed)
		require.Equal(t, mine, entriesOf(t, second), "seed %d", seed)
		require.Subset(t, keys(entriesOf(t, append(aside.places, first)...)), keys(before), "seed %d", seed)
	}
}

// A kit that is damaged itself leaves its copy alone: that may have what is missing.
func TestDamagedKitLeavesItsCopyAlone(t *testing.T) {
	first, second := lost(t, 3)
	whole := second.entries(t)
	damaged := slices.Clone(whole)
	damaged[1].Body = []byte("spoilt")
	damaged[2] = journal.Reseal(damaged[2], []byte("{}"))
	first.takeBack(t, damaged...)
	aside := &shelf{}
	how := copyingTo(second.store)
	how.SetAside = aside.setAside
	d, _, err := journal.OpenDoubled(t.Context(), first.store(), how)
	require.NoError(t, err)
	require.NoError(t, d.Follow(t.Context()))
	assert.Equal(t, journal.CopyApart, d.Copied())
	assert.Equal(t, whole, second.entries(t))
	assert.Empty(t, aside.places)
}

// What the copy has comes after opening was tired of waiting: it is told then. If somebody
// wrote on before it came, nothing of either is lost.
func TestComesLate(t *testing.T) {
	for name, wroteOn := range map[string]bool{"nobody wrote on": false, "somebody wrote on": true} {
		t.Run(name, func(t *testing.T) {
			first, second := newPlace(), newPlace()
			jot(t, first.store(), 2)
			jot(t, second.store(), 5)
			before := entriesOf(t, first, second)
			aside := &shelf{}
			answer, told := make(chan struct{}), make(chan journal.News, 4)
			how := copying(func() (journal.Copy, error) { <-answer; return second.store(), nil })
			how.Patience, how.SetAside, how.Told = 0, aside.setAside, func(n journal.News) { told <- n }
			d, regained, err := journal.OpenDoubled(t.Context(), first.store(), how)
			require.NoError(t, err)
			require.Zero(t, regained)
			if wroteOn {
				jotDown(t, d, "meanwhile")
			}
			close(answer)
			news := <-told
			require.NoError(t, d.Follow(t.Context()))
			assert.Subset(t, keys(entriesOf(t, append(aside.places, first)...)), keys(before))
			assert.Equal(t, entriesOf(t, first), entriesOf(t, second))
			if wroteOn {
				assert.Equal(t, journal.News{Apart: true}, news)
				assert.EqualValues(t, 3, first.head(t))
			} else {
				assert.Equal(t, journal.News{Regained: 3}, news)
				assert.EqualValues(t, 5, first.head(t))
			}
		})
	}
}
