package journal_test

import (
	"errors"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

func TestOpenBegins(t *testing.T) {
	store := journal.NewMemory()
	s, report, err := journal.Open(ctx, store, begin)
	require.NoError(t, err)
	require.True(t, report.New)
	require.Equal(t, uint64(1), s.Seq())
	sameKit(t, begin(), s.Kit())

	other := func() fieldkit.Kit { k := begin(); k.Name = "another blank"; return k }
	again, report, err := journal.Open(ctx, store.Handle(), other)
	require.NoError(t, err)
	require.False(t, report.New)
	require.Equal(t, 1, report.Replayed)
	sameKit(t, begin(), again.Kit(), "the kit begun first stays")
}

func TestOpenSaysThatItCannotRead(t *testing.T) {
	store := journal.NewMemory()
	open(t, store)
	broken := errors.New("backing store")
	sick := store.Handle()
	sick.Fault = func(op string) error {
		if op == "load" {
			return broken
		}
		return nil
	}
	s, _, err := journal.Open(ctx, sick, begin)
	require.ErrorIs(t, err, broken)
	require.Nil(t, s, "a failed read is not an empty kit")
}

func TestDo(t *testing.T) {
	store := journal.NewMemory()
	s := open(t, store)
	photo := journal.NewBlob("image/jpeg", []byte("a snapped cross"))
	before := s.Kit()
	e, err := s.Do(ctx, "log failure: axle U-joint, left", now, counter("a"), logFailure("f1", "cross snapped", photo.Hash), photo)
	require.NoError(t, err)
	require.Equal(t, uint64(2), e.Seq)
	require.Equal(t, "a-1", e.ID)
	require.Equal(t, "log failure: axle U-joint, left", e.What)
	require.Len(t, e.Changes, 2)
	require.Equal(t, 1, s.Kit().Stock("joint"))
	require.Len(t, s.Kit().Failures.Slice(), 1)
	require.Empty(t, before.Failures.Slice(), "a kit handed out does not change")
	require.Equal(t, 2, before.Stock("joint"))

	again := open(t, store.Handle())
	sameKit(t, s.Kit(), again.Kit())
	back, err := again.Blob(ctx, photo.Hash)
	require.NoError(t, err)
	require.Equal(t, photo, back)
	history, err := again.History(ctx, 10)
	require.NoError(t, err)
	require.Len(t, history, 2)
	require.Equal(t, e.ID, history[0].ID, "newest first")
	require.Equal(t, now.Time, history[0].At.Time)
	require.Equal(t, "begin", history[1].ID)
	history, err = again.History(ctx, 1)
	require.NoError(t, err)
	require.Len(t, history, 1)
}

func TestDoNothing(t *testing.T) {
	s := open(t, journal.NewMemory())
	e, err := s.Do(ctx, "save", now, counter("a"), func(ed *journal.Edit) error {
		ed.Put(ed.Kit().Rigs[0])
		ed.Delete("parts", "never was")
		ed.SetName(ed.Kit().Name)
		return nil
	})
	require.NoError(t, err)
	require.Zero(t, e)
	require.Equal(t, uint64(1), s.Seq())
}

func TestDoNamesTheKit(t *testing.T) {
	store := journal.NewMemory()
	s := open(t, store)
	e, err := s.Do(ctx, "name the kit", now, counter("a"), func(ed *journal.Edit) error {
		ed.SetName("Salt Pan <crew> & co")
		ed.SetCurrency("EUR")
		return nil
	})
	require.NoError(t, err)
	require.Equal(t, "Salt Pan <crew> & co", open(t, store.Handle()).Kit().Name)
	require.Equal(t, "EUR", open(t, store.Handle()).Kit().Currency)
	_, err = s.Undo(ctx, e.ID, now, counter("b"))
	require.NoError(t, err)
	sameKit(t, begin(), s.Kit())
}

func TestDoRefused(t *testing.T) {
	noSpace := &fieldkit.Error{Kind: fieldkit.Storage, What: "the phone's storage is full"}
	misuse := errors.New("edit refused")
	photo := journal.NewBlob("image/jpeg", []byte("photo"))
	for name, c := range map[string]struct {
		fault  string
		edit   func(*journal.Edit) error
		blob   journal.Blob
		kind   fieldkit.ErrorKind
		is     error
		saying string
	}{
		"edit returns an error": {edit: func(*journal.Edit) error { return misuse }, is: misuse},
		"storage full":          {fault: "append", edit: logFailure("f", "snapped"), is: noSpace},
		"a reference leads nowhere": {edit: func(ed *journal.Edit) error {
			p, _ := ed.Kit().Position("joint-left")
			p.Part = "no such part"
			ed.Put(p)
			return nil
		}, kind: fieldkit.BadInput, saying: "no such part"},
		"a part still fitted is deleted": {edit: func(ed *journal.Edit) error {
			ed.Delete("parts", "joint")
			return nil
		}, kind: fieldkit.BadInput, saying: "joint"},
		"no such collection": {edit: func(ed *journal.Edit) error {
			ed.Delete("cupboards", "joint")
			return nil
		}, kind: fieldkit.BadInput, saying: "cupboards"},
		"a record without ID": {edit: func(ed *journal.Edit) error {
			ed.Put(fieldkit.Tool{Name: "hammer"})
			return nil
		}, kind: fieldkit.BadInput},
		"a photo that is not its hash": {edit: logFailure("f", "snapped"),
			blob: journal.Blob{Hash: photo.Hash, Data: []byte("other bytes")}, kind: fieldkit.BadInput},
	} {
		t.Run(name, func(t *testing.T) {
			store := journal.NewMemory()
			s := open(t, store)
			store.Fault = func(op string) error {
				if op == c.fault {
					return noSpace
				}
				return nil
			}
			if c.blob.Hash == "" {
				c.blob = photo
			}
			_, err := s.Do(ctx, "action", now, counter("a"), c.edit, c.blob)
			require.Error(t, err)
			if c.is != nil {
				require.ErrorIs(t, err, c.is)
			} else {
				var e *fieldkit.Error
				require.True(t, errors.As(err, &e), "%v", err)
				require.Equal(t, c.kind, e.Kind)
				require.Contains(t, err.Error(), c.saying)
			}
			sameKit(t, begin(), s.Kit())
			require.Equal(t, uint64(1), s.Seq())
			store.Fault = nil
			hashes, err := s.Blobs(ctx)
			require.NoError(t, err)
			require.Empty(t, hashes)
			_, err = s.Do(ctx, "action", now, counter("a"), logFailure("f", "snapped"))
			require.NoError(t, err, "and it goes on")
		})
	}
}

func TestTwoTabs(t *testing.T) {
	store := journal.NewMemory()
	here, there := open(t, store), open(t, store.Handle())
	_, err := here.Do(ctx, "log failure: left", now, counter("here"), logFailure("f1", "left snapped"))
	require.NoError(t, err)

	runs := 0
	_, err = there.Do(ctx, "log failure: right", now, counter("there"), func(ed *journal.Edit) error {
		runs++
		return logFailure("f2", "right snapped")(ed)
	})
	require.NoError(t, err)
	require.Equal(t, 2, runs, "the edit ran again on the newer kit")
	require.Equal(t, 0, there.Kit().Stock("joint"), "two spares were used, one in each tab")
	require.Len(t, there.Kit().Failures.Slice(), 2)

	changed, err := here.Refresh(ctx)
	require.NoError(t, err)
	require.True(t, changed)
	sameKit(t, there.Kit(), here.Kit())
	changed, err = here.Refresh(ctx)
	require.NoError(t, err)
	require.False(t, changed)
	_, err = here.Do(ctx, "log failure: once more", now, counter("here2"), logFailure("f3", "none left"))
	require.ErrorContains(t, err, "no spare is left")
}

// A connection may break after the transaction is complete. The session looks
// whether its entry is there before it reports a failure; if it cannot even look,
// the next try under the same ID finds it.
func TestLostAcknowledgement(t *testing.T) {
	lost := errors.New("connection lost")
	for name, c := range map[string]struct {
		broken  []string
		seen    bool
		refresh bool
	}{
		"and found by looking":            {[]string{"acknowledge"}, true, false},
		"and not even readable":           {[]string{"acknowledge", "since"}, false, false},
		"and read in before the next try": {[]string{"acknowledge", "since"}, false, true},
	} {
		t.Run(name, func(t *testing.T) {
			store := journal.NewMemory()
			s := open(t, store)
			store.Fault = func(op string) error {
				if slices.Contains(c.broken, op) {
					return lost
				}
				return nil
			}
			e, err := s.Do(ctx, "log failure", now, counter("a"), logFailure("f1", "snapped"))
			if !c.seen {
				require.ErrorIs(t, err, lost)
				require.Empty(t, s.Kit().Failures.Slice(), "not shown as kept")
				store.Fault = nil
				if c.refresh {
					changed, err := s.Refresh(ctx)
					require.NoError(t, err)
					require.True(t, changed)
				}
				e, err = s.Do(ctx, "log failure", now, counter("a"), logFailure("f1", "snapped"))
			}
			require.NoError(t, err)
			require.Equal(t, "a-1", e.ID)
			require.Equal(t, uint64(2), s.Seq())
			require.Len(t, s.Kit().Failures.Slice(), 1)
			require.Equal(t, 1, s.Kit().Stock("joint"), "counted down once")
		})
	}
}

func TestDeletedUnderASession(t *testing.T) {
	for name, again := range map[string]bool{"and left empty": false, "and begun anew": true} {
		t.Run(name, func(t *testing.T) {
			store := journal.NewMemory()
			s := open(t, store)
			_, err := s.Do(ctx, "log failure", now, counter("a"), logFailure("f1", "snapped"))
			require.NoError(t, err)
			require.NoError(t, store.Handle().Delete(ctx))
			if again {
				other := open(t, store.Handle())
				for i := range 4 {
					_, err := other.Do(ctx, "rename", now, counter("b"), func(ed *journal.Edit) error {
						ed.SetName("kit " + string(rune('A'+i)))
						return nil
					})
					require.NoError(t, err)
				}
			}
			var e *fieldkit.Error
			_, err = s.Do(ctx, "log failure", now, counter("c"), logFailure("f2", "again"))
			require.ErrorAs(t, err, &e)
			require.Equal(t, fieldkit.Conflict, e.Kind)
			_, err = s.Refresh(ctx)
			require.ErrorAs(t, err, &e)
			require.Equal(t, fieldkit.Conflict, e.Kind)
			require.Len(t, s.Kit().Failures.Slice(), 1, "still there for a backup")
		})
	}
}
