package journaltest

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// Open opens a handle on the store of that name, which is empty the first time a
// name is used and keeps what is written for later handles.
type Open func(t *testing.T, name string) journal.Store

// opened counts the checks run, so that each has a store of its own.
var opened atomic.Int64

// Run checks everything a Store promises.
func Run(t *testing.T, open Open) {
	for _, c := range []struct {
		name  string
		check func(t *testing.T, open func() journal.Store)
	}{
		{"empty store", emptyStore},
		{"append and load in order", appendAndLoad},
		{"records come back to the byte", exactBytes},
		{"a number that is not the next is refused", behind},
		{"two handles racing lose nothing", racing},
		{"blobs come with their entry", blobsWithEntry},
		{"several blobs at once", severalBlobs},
		{"blobs that lie elsewhere", blobsFromElsewhere},
		{"a refused append leaves nothing", refusedAppend},
		{"a cancelled append leaves nothing", cancelledAppend},
		{"a blob kept already stays", sameBlobTwice},
		{"blobs without an entry", blobsAlone},
		{"blobs are given up", blobsGivenUp},
		{"snapshot and tail", snapshotAndTail},
		{"the newest snapshots are kept", snapshotsKept},
		{"a restore is undone", restoreUndone},
		{"three sessions racing agree", sessionsRacing},
		{"reopened, it is the same", reopened},
		{"a blob of one megabyte", bigBlob},
		{"five hundred entries", manyEntries},
		{"deleted twice", deletedTwice},
		{"deleted under another handle", deletedElsewhere},
		{"closed", closed},
	} {
		t.Run(strings.ReplaceAll(c.name, " ", "_"), func(t *testing.T) {
			name := fmt.Sprintf("check-%s-%d", t.Name(), opened.Add(1))
			t.Cleanup(func() { require.NoError(t, open(t, name).Delete(context.Background())) })
			c.check(t, func() journal.Store {
				s := open(t, name)
				t.Cleanup(func() { s.Close() })
				return s
			})
		})
	}
}

// entryAt makes an entry with text that needs care in JSON and in databases.
func entryAt(seq uint64, blobs ...journal.Blob) journal.Entry {
	after := fmt.Sprintf(`{"id":"note-%d","what":"snapped at 40°, said \"<ouch>\" & drove on","photos":[`, seq)
	for i, b := range blobs {
		if i > 0 {
			after += ","
		}
		after += `"` + b.Hash + `"`
	}
	return journal.Entry{
		Seq: seq, ID: fmt.Sprintf("entry-%d", seq), What: "log failure: axle U-joint, left",
		At:      fieldkit.Moment{Time: time.Date(2026, 5, 14, 18, 5, int(seq%60), 0, time.UTC)},
		Changes: []journal.Change{{Collection: "failures", ID: fmt.Sprintf("note-%d", seq), After: []byte(after + "]}")}},
	}
}

func record(t *testing.T, seq uint64, prev journal.Head, blobs ...journal.Blob) journal.Record {
	t.Helper()
	r, err := journal.Seal(entryAt(seq, blobs...), prev)
	require.NoError(t, err)
	return r
}

// fill appends records up to seq and returns them all.
func fill(t *testing.T, s journal.Store, upTo uint64) []journal.Record {
	t.Helper()
	saved, err := s.Load(context.Background(), 0)
	require.NoError(t, err)
	records, head := saved.Records, saved.Head
	for head.Seq < upTo {
		r := record(t, head.Seq+1, head)
		require.NoError(t, s.Append(context.Background(), r, nil))
		records, head = append(records, r), r.Head()
	}
	return records
}

// holds requires that the store's whole journal is exactly these records.
func holds(t *testing.T, s journal.Store, want []journal.Record) {
	t.Helper()
	tail, err := s.Since(context.Background(), 0)
	require.NoError(t, err)
	require.Len(t, tail.Records, len(want))
	for i := range want {
		require.Equal(t, want[i], tail.Records[i])
		_, err := tail.Records[i].Entry()
		require.NoError(t, err)
	}
	if len(want) > 0 {
		require.Equal(t, want[len(want)-1].Head(), tail.Head)
	}
}

func hasNoBlobs(t *testing.T, s journal.Store) {
	t.Helper()
	hashes, err := s.Blobs(context.Background())
	require.NoError(t, err)
	require.Empty(t, hashes)
}

func isKind(t *testing.T, err error, kind fieldkit.ErrorKind) {
	t.Helper()
	var e *fieldkit.Error
	require.True(t, errors.As(err, &e), "%v is no *fieldkit.Error", err)
	require.Equal(t, kind, e.Kind, "%v", err)
	require.NotEmpty(t, e.What)
}

// everything is past any entry.
const everything = math.MaxUint64
