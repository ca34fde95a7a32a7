package journal_test

import (
	"context"
	"errors"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit/journal"
)

// hooked does something before each append, or refuses it.
type hooked struct {
	journal.Copy
	before func(journal.Record, []journal.Blob) error
}

func (h hooked) Append(ctx context.Context, r journal.Record, b []journal.Blob) error {
	if h.before != nil {
		if err := h.before(r, b); err != nil {
			return err
		}
	}
	return h.Copy.Append(ctx, r, b)
}

// What is acknowledged is in both: either may be thrown away in the next moment.
func TestAcknowledgedIsInBoth(t *testing.T) {
	first, second := newPlace(), newPlace()
	d, _ := doubled(t, first, second)
	photo := journal.NewBlob("image/jpeg", []byte("a bent tie rod"))
	for seq := range uint64(20) {
		jotDown(t, d, "a note", photo)
		require.Equal(t, seq+1, second.head(t))
		require.Equal(t, []string{photo.Hash}, second.photos(t))
	}
}

// A copy that hangs while it is written holds up nobody who writes something down for
// longer than a moment, once. When it has caught up it is waited for again.
func TestCopyHoldsNobodyUp(t *testing.T) {
	first, second := newPlace(), newPlace()
	hang := make(chan struct{})
	in := make(chan struct{}, 100)
	d, _, err := journal.OpenDoubled(t.Context(), first.store(), copyingTo(func() journal.Copy {
		return hooked{second.store(), func(journal.Record, []journal.Blob) error { in <- struct{}{}; <-hang; return nil }}
	}))
	require.NoError(t, err)
	jot(t, d, 1)
	<-in
	done := make(chan struct{})
	go func() { jot(t, d, 12); close(done) }()
	select {
	case <-done:
	case <-time.After(8 * time.Second): // twelve seconds, were each waited for
		t.Fatal("Append of the first waits for the second")
	}
	assert.Zero(t, second.head(t))
	close(hang)
	require.NoError(t, d.Follow(t.Context()))
	jot(t, d, 1)
	assert.EqualValues(t, 14, second.head(t))
}

// Two tabs take the kit back at the same time: neither opens a part of it.
func TestTwoTabsTakeItBack(t *testing.T) {
	first, second := lost(t, 10)
	n := 0
	slow := hooked{first.store(), func(r journal.Record, _ []journal.Blob) error {
		if n++; n == 3 { // another tab is one entry ahead
			require.NoError(t, first.store().Append(t.Context(), r, nil))
		}
		return nil
	}}
	_, _, err := journal.OpenDoubled(t.Context(), slow, copyingTo(second.store))
	require.NoError(t, err)
	assert.EqualValues(t, 10, first.head(t))
}

// A kit that has no room to come back whole is not opened in part.
func TestNoRoomToComeBack(t *testing.T) {
	first, second := lost(t, 10)
	full := hooked{first.store(), func(r journal.Record, _ []journal.Blob) error {
		if r.Seq > 4 {
			return journal.ErrFull
		}
		return nil
	}}
	_, _, err := journal.OpenDoubled(t.Context(), full, copyingTo(second.store))
	require.Error(t, err)
}

// A photo whose copy failed comes with the next entry.
func TestPhotoAfterAFailedRun(t *testing.T) {
	first, second := newPlace(), newPlace()
	var fail atomic.Bool
	fail.Store(true)
	d, _, err := journal.OpenDoubled(t.Context(), first.store(), copyingTo(func() journal.Copy {
		return hooked{second.store(), func(journal.Record, []journal.Blob) error {
			if fail.Load() {
				return errors.New("lost")
			}
			return nil
		}}
	}))
	require.NoError(t, err)
	jot(t, d, 1, journal.NewBlob("image/jpeg", []byte("x")))
	require.Error(t, d.Follow(t.Context()))
	fail.Store(false)
	jot(t, d, 1)
	require.NoError(t, d.Follow(t.Context()))
	assert.EqualValues(t, 2, second.head(t))
	assert.Len(t, second.photos(t), 1)
}

// blind is a copy whose photos cannot be read: the kit opens without them.
type blind struct{ journal.Copy }

func (b blind) BlobsOf(context.Context, []string) ([]journal.Blob, error) {
	return nil, errors.New("unreadable photo")
}

func TestUnreadablePhotoHoldsNothingBack(t *testing.T) {
	first, second := lost(t, 2, journal.NewBlob("image/jpeg", []byte("x")))
	_, _, err := journal.OpenDoubled(t.Context(), first.store(), copyingTo(func() journal.Copy { return blind{second.store()} }))
	require.NoError(t, err)
}

// An empty first and a copy that does not say what it has: nothing is begun in its place.
func TestCopyThatDoesNotSay(t *testing.T) {
	first, _ := lost(t, 6)
	_, _, err := journal.OpenDoubled(t.Context(), first.store(), copying(func() (journal.Copy, error) { return nil, errors.New("backing store") }))
	assert.ErrorIs(t, err, journal.ErrCopyUnread)
}

// The answer comes while the page is busy, and so is there together with the end of
// patience: it counts.
func TestAnswerAtTheLastMoment(t *testing.T) {
	missed := 0
	for range 40 {
		first, second := lost(t, 4)
		first.takeBack(t, second.entries(t)[0])
		answered := make(chan struct{}, 10)
		none := copyingTo(func() journal.Copy { return answering{second.store(), answered} })
		none.Patience = 0
		_, r, err := journal.OpenDoubled(t.Context(), busy{first.store(), answered}, none)
		require.NoError(t, err)
		if r == 0 {
			missed++
		}
	}
	assert.Less(t, missed, 10, "taken by chance, about 20") // a few may be so late on a busy computer
}

// busy answers a while after the copy has.
type busy struct {
	journal.Store
	answered chan struct{}
}

func (b busy) Since(ctx context.Context, s uint64) (journal.Tail, error) {
	<-b.answered
	time.Sleep(3 * time.Millisecond)
	return b.Store.Since(ctx, s)
}

// answering says that it has answered.
type answering struct {
	journal.Copy
	answered chan struct{}
}

func (a answering) Since(ctx context.Context, s uint64) (journal.Tail, error) {
	defer func() {
		select {
		case a.answered <- struct{}{}:
		default:
		}
	}()
	return a.Copy.Since(ctx, s)
}
