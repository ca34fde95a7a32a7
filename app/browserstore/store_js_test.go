package browserstore

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/journal/journaltest"
)

var ctx = context.Background()

// needDatabase skips outside a browser: node has no IndexedDB.
func needDatabase(t *testing.T) {
	if !global("indexedDB").Truthy() {
		t.Skip("there is no IndexedDB here")
	}
}

func TestStore(t *testing.T) {
	needDatabase(t)
	journaltest.Run(t, func(t *testing.T, name string) journal.Store { return openStore(t, name) })
}

// The second copy is a store like the first, in a place of its own.
func TestSecond(t *testing.T) {
	needDatabase(t)
	if !global("navigator").Get("storageBuckets").Truthy() {
		t.Skip("there are no storage buckets here")
	}
	journaltest.Run(t, func(t *testing.T, name string) journal.Store {
		s, err := OpenSecond(ctx, name)
		require.NoError(t, err)
		return s
	})
	first, second := openStore(t, "twice"), func() *Store {
		s, err := OpenSecond(ctx, "twice")
		require.NoError(t, err)
		return s.(*Store)
	}()
	fill(t, first, 2)
	require.Zero(t, head(t, second).Seq, "another database of the same name")
	names, err := SecondNames(ctx)
	require.NoError(t, err)
	require.Contains(t, names, "twice")
	require.NoError(t, second.Close())
	require.NoError(t, DeleteSecond(ctx, "twice"))
	names, err = SecondNames(ctx)
	require.NoError(t, err)
	require.NotContains(t, names, "twice")
	require.EqualValues(t, 2, head(t, first).Seq)
}

// A second copy that is given up leaves nothing that takes room; another tab that has it
// open finds it empty, and can write it again.
func TestSecondGivenUp(t *testing.T) {
	needDatabase(t)
	if !buckets().Truthy() {
		t.Skip("there are no storage buckets here")
	}
	opened, err := OpenSecond(ctx, t.Name())
	require.NoError(t, err)
	other, err := OpenSecond(ctx, t.Name())
	require.NoError(t, err)
	fill(t, opened.(*Store), 3)
	require.EqualValues(t, 3, head(t, other.(*Store)).Seq)
	require.NoError(t, opened.GiveUp(ctx))
	all, err := called(ctx, buckets(), "keys")
	require.NoError(t, err)
	for _, v := range list(all) {
		require.NotEqual(t, secondBucket, text(v), "nothing is left in it")
	}
	require.Zero(t, head(t, other.(*Store)).Seq)
	fill(t, other.(*Store), 2)
	w, err := OpenSecondWreck(ctx, t.Name())
	require.NoError(t, err)
	require.Len(t, w.Salvage(ctx).Records, 2)
	w.Close()
	require.NoError(t, DeleteBoth(ctx, t.Name()))
	_, err = OpenSecondWreck(ctx, t.Name())
	require.ErrorIs(t, err, errNoWreck)
	names, err := SecondNames(ctx)
	require.NoError(t, err)
	require.NotContains(t, names, t.Name())
}

// openStore opens a database that the test leaves behind deleted.
func openStore(t *testing.T, name string) *Store {
	t.Helper()
	needDatabase(t)
	s, err := Open(ctx, name)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, s.Delete(ctx)) })
	return s
}

// fill appends entries up to seq.
func fill(t *testing.T, s *Store, upTo uint64) {
	t.Helper()
	for {
		tail, err := s.Since(ctx, upTo)
		require.NoError(t, err)
		if tail.Head.Seq >= upTo {
			return
		}
		require.NoError(t, s.Append(ctx, next(t, tail.Head), nil))
	}
}

func next(t *testing.T, head journal.Head) journal.Record {
	t.Helper()
	r, err := journal.Seal(journal.Entry{Seq: head.Seq + 1, ID: "entry", What: "log failure"}, head)
	require.NoError(t, err)
	return r
}

func head(t *testing.T, s *Store) journal.Head {
	t.Helper()
	tail, err := s.Since(ctx, 0)
	require.NoError(t, err)
	return tail.Head
}
