package journaltest

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

func snapshotAndTail(t *testing.T, open func() journal.Store) {
	ctx, s := context.Background(), open()
	want := fill(t, s, 8)
	snapshot := journal.NewSnapshot(want[4].Head(), []byte(`{"name":"after five"}`)).With([]byte(`{"clock":"1.0.a"}`))
	require.NoError(t, s.PutSnapshot(ctx, snapshot))
	saved, err := s.Load(ctx, everything)
	require.NoError(t, err)
	require.Equal(t, &snapshot, saved.Snapshot)
	require.True(t, saved.Snapshot.Whole())
	require.Equal(t, want[5:], saved.Records)
	require.Equal(t, want[7].Head(), saved.Head)
	saved, err = s.Load(ctx, 5)
	require.NoError(t, err)
	require.Equal(t, &snapshot, saved.Snapshot)
	require.Equal(t, want[5:], saved.Records)
	saved, err = s.Load(ctx, 4)
	require.NoError(t, err)
	require.Nil(t, saved.Snapshot)
	require.Equal(t, want, saved.Records)
	holds(t, s, want) // a snapshot removes nothing
}

func snapshotsKept(t *testing.T, open func() journal.Store) {
	ctx, s := context.Background(), open()
	want := fill(t, s, 12)
	put := func(seq uint64, kit string) journal.Snapshot {
		snapshot := journal.NewSnapshot(want[seq-1].Head(), []byte(kit))
		require.NoError(t, s.PutSnapshot(ctx, snapshot))
		return snapshot
	}
	load := func(upTo uint64) *journal.Snapshot {
		saved, err := s.Load(ctx, upTo)
		require.NoError(t, err)
		return saved.Snapshot
	}
	put(2, "two")
	four, nine, eleven := put(4, "four"), put(9, "nine"), put(11, "eleven")
	require.Equal(t, &eleven, load(everything))
	require.Equal(t, &nine, load(10))
	require.Equal(t, &four, load(8))
	require.Nil(t, load(3), "only the newest are kept")

	put(3, "late, from a tab that lags")
	require.Equal(t, &eleven, load(everything))
	require.Equal(t, &four, load(8))
	require.Nil(t, load(3))

	again := put(11, "eleven once more")
	require.Equal(t, &again, load(everything))
	require.Equal(t, &nine, load(10))
	require.Equal(t, &four, load(8))
}

// restoreUndone goes through a session, because a restore is an entry like any
// other to a store.
func restoreUndone(t *testing.T, open func() journal.Store) {
	ctx := context.Background()
	ids := 0
	newID := func() string { ids++; return "id-" + string(rune('a'+ids)) }
	blank := func() fieldkit.Kit {
		return fieldkit.Kit{Format: fieldkit.Format, Version: "1.1", ID: "k", Name: "Old", Currency: "USD"}
	}
	s, report, err := journal.Open(ctx, open(), blank)
	require.NoError(t, err)
	require.True(t, report.New)
	other, report, err := journal.Open(ctx, open(), blank)
	require.NoError(t, err)
	require.False(t, report.New)

	restored := blank()
	restored.Name = "Restored"
	photo := journal.NewBlob("image/jpeg", []byte("from the backup"))
	e, err := s.Replace(ctx, "restore a backup", fieldkit.Moment{}, newID, restored, photo)
	require.NoError(t, err)
	require.Equal(t, "Restored", s.Kit().Name)
	changed, err := other.Refresh(ctx)
	require.NoError(t, err)
	require.True(t, changed)
	require.Equal(t, "Restored", other.Kit().Name)
	require.Equal(t, s.Seq(), other.Seq())

	_, err = other.Undo(ctx, e.ID, fieldkit.Moment{}, newID)
	require.NoError(t, err)
	require.Equal(t, "Old", other.Kit().Name)
	third, report, err := journal.Open(ctx, open(), blank)
	require.NoError(t, err)
	require.Empty(t, report.Damaged)
	require.Equal(t, "Old", third.Kit().Name)
	require.Equal(t, uint64(3), third.Seq(), "numbers go on rising")
	_, err = third.Blob(ctx, photo.Hash)
	require.NoError(t, err)
}
