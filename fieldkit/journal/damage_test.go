package journal_test

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
)

// spoiled is a store whose kept data was damaged: what is read is what is set
// here.
type spoiled struct {
	journal.Store
	head      journal.Head
	records   []journal.Record
	snapshots []journal.Snapshot
}

func (s *spoiled) Load(_ context.Context, upTo uint64) (journal.Saved, error) {
	var saved journal.Saved
	from := uint64(0)
	for _, snapshot := range s.snapshots {
		if snapshot.Head.Seq <= upTo {
			saved.Snapshot, from = &snapshot, snapshot.Head.Seq
		}
	}
	saved.Tail, _ = s.Since(ctx, from)
	return saved, nil
}

func (s *spoiled) Since(_ context.Context, seq uint64) (journal.Tail, error) {
	var last journal.Record
	var t journal.Tail
	for _, r := range s.records {
		if last = r; r.Seq > seq {
			t.Records = append(t.Records, r)
		}
	}
	var newest journal.Snapshot
	if n := len(s.snapshots); n > 0 {
		newest = s.snapshots[n-1]
	}
	t.Head = journal.Latest(s.head, last, newest)
	return t, nil
}

// written keeps a journal of failures, one an entry, with snapshots on the way.
func written(t *testing.T, notes int) *spoiled {
	store := journal.NewMemory()
	s := open(t, store)
	newID := counter("entry")
	sp := &spoiled{Store: store}
	for i := range notes {
		_, err := s.Do(ctx, fmt.Sprintf("log failure: note %d", i+2), now, newID, func(ed *journal.Edit) error {
			ed.Put(failure(fmt.Sprintf("note-%d", i+2), fmt.Sprintf("broke for the %d. time", i+2)))
			return nil
		})
		require.NoError(t, err)
		if n := i + 2; n%10 == 0 {
			tail, err := store.Since(ctx, uint64(n-1))
			require.NoError(t, err)
			sp.snapshots = append(sp.snapshots, journal.NewSnapshot(tail.Head, kitfile.Save(s.Kit())))
		}
	}
	tail, err := store.Since(ctx, 0)
	require.NoError(t, err)
	sp.head, sp.records = tail.Head, tail.Records
	return sp
}

func opened(t *testing.T, s journal.Store) (*journal.Session, journal.Report) {
	t.Helper()
	session, report, err := journal.Open(ctx, s, begin)
	require.NoError(t, err)
	return session, report
}

func hasNote(s *journal.Session, n int) bool {
	_, ok := s.Kit().Failures.Find(fmt.Sprintf("note-%d", n))
	return ok
}

func TestDamage(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(s *spoiled)
		lost  []int  // notes that cannot be there any more
		says  string // of the first damage
		base  bool
		snaps int
	}{
		"a bit flipped": {
			func(s *spoiled) { s.records[14].Body = flip(s.records[14].Body, 60) }, []int{15}, "entry 15", false, 0},
		"cut short": {
			func(s *spoiled) { s.records[14].Body = s.records[14].Body[:40] }, []int{15}, "entry 15: its checksum", false, 0},
		"emptied": {
			func(s *spoiled) { s.records[14] = journal.Record{Seq: 15} }, []int{15}, "entry 15: its checksum", false, 0},
		"checksum changed": {
			func(s *spoiled) { s.records[14].Hash = "x" + s.records[14].Hash[1:] }, []int{15}, "entry 15", false, 0},
		"predecessor changed": {
			func(s *spoiled) { s.records[14].Prev = s.records[3].Hash }, []int{15}, "entry 15", false, 0},
		"one missing": {
			func(s *spoiled) { s.records = slices.Delete(s.records, 14, 15) }, []int{15}, "entry 15: missing", false, 0},
		"three missing": {
			func(s *spoiled) { s.records = slices.Delete(s.records, 13, 16) }, []int{14, 15, 16}, "entries 14 to 16: missing", false, 0},
		"the last missing": {
			func(s *spoiled) { s.records = s.records[:17] }, []int{18}, "entry 18: missing", false, 0},
		"two swapped": {
			func(s *spoiled) {
				s.records[13], s.records[15] = s.records[15], s.records[13]
				s.records[13].Seq, s.records[15].Seq = 14, 16
			}, []int{14, 16}, "entry 14 (\"log failure: note 16\"): it is number 16", false, 0},
		"before the snapshot": {
			func(s *spoiled) { s.records[4].Body = nil }, nil, "", false, 0},
		"the snapshot": {
			func(s *spoiled) { s.snapshots[0].Kit = flip(s.snapshots[0].Kit, 100) }, nil, "", false, 1},
		"the snapshot cut short": {
			func(s *spoiled) { s.snapshots[0].Kit = s.snapshots[0].Kit[:100] }, nil, "", false, 1},
		"the snapshot and an entry under it": {
			func(s *spoiled) { s.snapshots[0].Sum = ""; s.records[4].Body = nil }, []int{5}, "entry 5", false, 1},
		"the snapshot and the first entry": {
			func(s *spoiled) { s.snapshots = nil; s.records[0].Body = nil }, nil, "entry 1", true, 0},
		"all but the last entry": {
			func(s *spoiled) { s.snapshots = nil; s.records = s.records[17:] },
			[]int{2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17}, "entries 1 to 17: missing", true, 0},
		"the head": {
			func(s *spoiled) { s.head = journal.Head{} }, nil, "", false, 0},
		"the head absurd": {
			func(s *spoiled) { s.head = journal.Head{Seq: 1 << 62} }, nil, "", false, 0},
		"all entries": {
			func(s *spoiled) { s.records = nil },
			[]int{11, 12, 13, 14, 15, 16, 17, 18}, "entries 11 to 18: missing", false, 0},
	} {
		t.Run(name, func(t *testing.T) {
			store := written(t, 17) // entries 1 to 18, a snapshot after 10
			require.Len(t, store.records, 18)
			require.Len(t, store.snapshots, 1)
			c.spoil(store)
			s, report := opened(t, store)
			require.False(t, report.New, "damaged is not empty")
			for n := 2; n <= 18; n++ {
				require.Equal(t, !slices.Contains(c.lost, n), hasNote(s, n), "note %d; %s", n, report)
			}
			named := map[int]bool{}
			for _, d := range report.Damaged {
				for n := d.Seq; n <= d.Last && !d.Used; n++ {
					named[int(n)] = true
				}
			}
			for _, n := range c.lost {
				require.True(t, named[n], "note %d is lost and not named", n)
			}
			require.Equal(t, c.base, report.BaseLost)
			require.Equal(t, c.snaps, report.LostSnapshots)
			if c.says == "" {
				require.Empty(t, report.Damaged)
				require.True(t, report.Whole())
				return
			}
			require.False(t, report.Whole())
			require.Contains(t, report.Damaged[0].String(), c.says)
			require.Contains(t, report.String(), c.says)
		})
	}
}

func flip(b []byte, i int) []byte {
	b = bytes.Clone(b)
	b[i] ^= 4
	return b
}

// After damage the kit goes on: new entries are kept, the damage is named at
// every start, no snapshot hides it, and a restore makes the kit whole again.
func TestGoingOnAfterDamage(t *testing.T) {
	store := journal.NewMemory()
	s := open(t, store)
	newID := counter("entry")
	later := journal.Entry{Seq: 2, ID: "later", What: "from a newer program",
		Changes: []journal.Change{{Collection: "cupboards", ID: "c", After: []byte(`{"id":"c"}`)}}}
	tail, err := store.Since(ctx, 0)
	require.NoError(t, err)
	rec, err := journal.Seal(later, tail.Head)
	require.NoError(t, err)
	require.NoError(t, store.Append(ctx, rec, nil))

	for i := range journal.SnapshotEvery + 10 {
		_, err := s.Do(ctx, "log failure", now, newID, func(ed *journal.Edit) error {
			ed.Put(failure(fmt.Sprint("f", i), "snapped"))
			return nil
		})
		require.NoError(t, err)
	}
	require.Len(t, s.Report().Damaged, 1)
	again, report := opened(t, store.Handle())
	require.Len(t, report.Damaged, 1)
	require.Contains(t, report.String(), `"from a newer program"`)
	require.Contains(t, report.String(), "cupboards")
	require.Equal(t, rec.Body, report.Damaged[0].Left)
	sameKit(t, s.Kit(), again.Kit())
	saved, err := store.Load(ctx, 1<<40)
	require.NoError(t, err)
	require.Nil(t, saved.Snapshot)

	_, err = again.Replace(ctx, "restore", now, newID, again.Kit())
	require.NoError(t, err)
	_, err = again.Do(ctx, "log failure", now, newID, func(ed *journal.Edit) error {
		ed.Put(failure("last", "snapped"))
		return nil
	})
	require.NoError(t, err)
	saved, err = store.Load(ctx, 1<<40)
	require.NoError(t, err)
	require.NotNil(t, saved.Snapshot, "whole again")
	last, report := opened(t, store.Handle())
	require.True(t, report.Whole())
	sameKit(t, again.Kit(), last.Kit())
}

// A kit that misses a record after damage has problems, and can still be edited
// as long as no new ones come.
func TestEditingADamagedKit(t *testing.T) {
	store := journal.NewMemory()
	s := open(t, store)
	newID := counter("entry")
	put := func(r fieldkit.Record) {
		_, err := s.Do(ctx, "put "+r.Key(), now, newID, func(ed *journal.Edit) error { ed.Put(r); return nil })
		require.NoError(t, err)
	}
	put(fieldkit.Part{ID: "seal", Kind: "seal", Name: "axle seal"})
	fitted, _ := s.Kit().Position("seal-left")
	fitted.Part = "seal"
	put(fitted)
	tail, err := store.Since(ctx, 0)
	require.NoError(t, err)
	sp := &spoiled{Store: store, head: tail.Head, records: tail.Records}
	sp.records[1].Body = nil

	damaged, report := opened(t, sp)
	require.Len(t, report.Damaged, 1)
	require.NotEmpty(t, kitfile.Check(damaged.Kit()))
	_, err = damaged.Do(ctx, "log failure", now, newID, logFailure("f", "snapped"))
	require.NoError(t, err)
	_, err = damaged.Do(ctx, "bad", now, newID, func(ed *journal.Edit) error { ed.Delete("parts", "joint"); return nil })
	require.Error(t, err)
}

// Whatever happens to the stored bytes, the kit opens, undamaged entries are in
// it and nothing lost goes unnamed.
func TestRandomDamage(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 3))
	whole := written(t, 27)
	for round := range 400 {
		s := &spoiled{Store: whole.Store, head: whole.head, records: slices.Clone(whole.records), snapshots: slices.Clone(whole.snapshots)}
		hurt := map[int]bool{}
		for range 1 + rnd.IntN(4) {
			i := rnd.IntN(len(s.records))
			switch r := &s.records[i]; rnd.IntN(6) {
			case 0:
				if len(r.Body) > 0 {
					r.Body = flip(r.Body, rnd.IntN(len(r.Body)))
					hurt[int(r.Seq)] = true
				}
			case 1:
				r.Body = r.Body[:len(r.Body)/2]
				hurt[int(r.Seq)] = true
			case 2:
				r.Hash = r.Hash[1:]
				hurt[int(r.Seq)] = true
			case 3: // that the last is missing only the head can tell
				if r.Seq == 28 && s.head != whole.head {
					continue
				}
				hurt[int(r.Seq)] = true
				s.records = slices.Delete(s.records, i, i+1)
			case 4:
				j := rnd.IntN(len(s.snapshots))
				s.snapshots[j].Kit = flip(s.snapshots[j].Kit, rnd.IntN(len(s.snapshots[j].Kit)))
			case 5:
				if hurt[28] {
					continue
				}
				s.head = journal.Head{Seq: rnd.Uint64N(30), Hash: "damaged"}
			}
		}
		session, report := opened(t, s)
		require.False(t, report.New)
		named := map[int]bool{}
		for _, d := range report.Damaged {
			for n := d.Seq; n <= d.Last && !d.Used; n++ {
				named[int(n)] = true
			}
		}
		for n := 2; n <= 28; n++ {
			if !hurt[n] {
				require.True(t, hasNote(session, n), "round %d: note %d was sound; %s", round, n, report)
			}
			require.True(t, hasNote(session, n) || named[n], "round %d: note %d lost and not named; %s", round, n, report)
		}
	}
}
