package diary

import (
	"context"
	"fmt"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// Diary is one open handle.
type Diary struct {
	Store   journal.Store
	Session *journal.Session
	Report  journal.Report
}

// Open opens the journal in a store, and begins it if it is empty.
func Open(ctx context.Context, store journal.Store) (*Diary, error) {
	s, report, err := journal.Open(ctx, store, Kit)
	if err != nil {
		return nil, err
	}
	return &Diary{Store: store, Session: s, Report: report}, nil
}

// Do carries out action n.
func (d *Diary) Do(ctx context.Context, n int) error { return Do(ctx, d.Session, n, at(n)) }

// Undo takes action n back.
func (d *Diary) Undo(ctx context.Context, n int) error {
	_, err := d.Session.Undo(ctx, EntryID(n), at(n), func() string { return undoID(n) })
	return err
}

func undoID(n int) string { return fmt.Sprintf("undo-%d", n) }

// Snapshot keeps a snapshot of the present state, as the session does by itself
// now and then.
func (d *Diary) Snapshot(ctx context.Context, encode func(fieldkit.Kit) []byte) error {
	tail, err := d.Store.Since(ctx, d.Session.Seq())
	if err != nil || len(tail.Records) > 0 {
		return err // another one wrote meanwhile: the state is not that of the head
	}
	now := d.Session.Replica()
	return d.Store.PutSnapshot(ctx, journal.NewSnapshot(tail.Head, encode(now.Kit)).With(now.History.Encode()))
}

// Found is what a look found.
type Found struct {
	Here  []int    `json:"here"`  // actions in the journal, undone ones too, rising
	Wrong []string `json:"wrong"` // what must never be: halves, changed bytes, damage
	Seq   uint64   `json:"seq"`
}

// Look compares what is kept with what the numbers of the actions in the journal
// say: every action in it must be there to the last byte of its photo, and nothing
// may be there of an action that is not in it.
func (d *Diary) Look(ctx context.Context) Found {
	f := Found{Seq: d.Session.Seq()}
	wrong := func(format string, a ...any) { f.Wrong = append(f.Wrong, fmt.Sprintf(format, a...)) }
	if !d.Report.Whole() {
		wrong("damaged: %s", d.Report)
	}
	if d.Report.LostSnapshots > 0 {
		wrong("%d snapshots are not whole", d.Report.LostSnapshots)
	}
	entries, err := d.Session.History(ctx, int(d.Session.Seq())+1)
	if err != nil {
		wrong("the history cannot be read: %v", err)
	}
	if len(entries) != int(f.Seq) {
		wrong("%d entries up to number %d", len(entries), f.Seq)
	}
	undone := map[string]bool{}
	var photos []string
	kit := d.Session.Kit()
	for _, e := range entries { // the newest first
		var n int
		switch {
		case e.Undoes != "":
			undone[e.Undoes] = true
			continue
		case e.Kit != nil:
			continue
		}
		if _, err := fmt.Sscanf(e.ID, "act-%d", &n); err != nil || e.ID != EntryID(n) {
			wrong("entry %d is %q, which nobody wrote", e.Seq, e.ID)
			continue
		}
		if slices.Contains(f.Here, n) {
			wrong("action %d is there twice", n)
		}
		f.Here = append(f.Here, n)
		if b, ok := Photo(n); ok {
			photos = append(photos, b.Hash)
			kept, err := d.Session.Blob(ctx, b.Hash)
			if err != nil || !slices.Equal(kept.Data, b.Data) {
				wrong("the photo of action %d is not what was kept: %v", n, err)
			}
		}
		if !undone[e.ID] {
			f.Wrong = append(f.Wrong, compare(kit, n)...)
		}
	}
	slices.Sort(f.Here)
	standing := len(f.Here)
	for _, n := range f.Here {
		if undone[EntryID(n)] {
			standing--
		}
	}
	if spare, _ := kit.Spares.Find("stock"); spare.Count != stock-standing {
		wrong("%d actions stand and %d spares are gone", standing, stock-spare.Count)
	}
	if kit.Failures.Len() != standing || kit.Inspections.Len() != standing {
		wrong("%d actions stand with %d notes and %d readings", standing, kit.Failures.Len(), kit.Inspections.Len())
	}
	hashes, err := d.Session.Blobs(ctx)
	if slices.Sort(photos); err != nil || !slices.Equal(hashes, photos) {
		wrong("%d photos are kept, %d belong to the actions: %v", len(hashes), len(photos), err)
	}
	return f
}

// compare checks what the kit says of one action.
func compare(kit fieldkit.Kit, n int) (wrong []string) {
	note, ok := kit.Failures.Find(noteID(n))
	var photos []string
	if b, has := Photo(n); has {
		photos = []string{b.Hash}
	}
	if !ok || note.What != words(n) || !slices.Equal(note.Photos, photos) {
		wrong = append(wrong, fmt.Sprintf("the note of action %d is not what was kept", n))
	}
	if r, ok := kit.Inspections.Find(readingID(n)); !ok || r.Value.Base != int64(n) {
		wrong = append(wrong, fmt.Sprintf("the reading of action %d is not what was kept", n))
	}
	return wrong
}
