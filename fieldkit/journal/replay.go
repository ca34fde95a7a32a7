package journal

import (
	"context"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/merge"
)

// replay follows a journal from a known state.
type replay struct {
	kit     fieldkit.Kit
	history *merge.History // changed in place
	based   bool           // the state it started from is known
	head    Head
	broken  bool // the record at head could not be trusted
	wounded bool // something since the last whole kit is missing
	damaged []Damage
	entries []Entry
	pace    pace
}

// take follows the records of a tail. Entries that are damaged or missing are
// named and left out; all others are applied.
func (r *replay) take(t Tail) {
	for _, rec := range t.Records {
		r.missing(rec.Seq)
		r.record(rec)
	}
	r.missing(t.Head.Seq + 1)
	if t.Head.Seq == r.head.Seq {
		r.head = t.Head
	}
}

// missing names the entries between the head and seq.
func (r *replay) missing(seq uint64) {
	if r.head.Seq+1 >= seq {
		return
	}
	d := Damage{Seq: r.head.Seq + 1, Last: seq - 1, Why: "missing"}
	r.head = Head{Seq: d.Last}
	r.lose(d)
}

func (r *replay) record(rec Record) {
	follows := rec.Prev == r.head.Hash || r.broken
	r.head, r.broken = rec.Head(), false
	e, err := rec.Entry()
	if err != nil {
		readable, _ := decodeEntry(rec.Body)
		r.lose(Damage{Seq: rec.Seq, Last: rec.Seq, What: readable.What, Why: err.Error(), Left: rec.Body})
		return
	}
	kit, err := apply(r.kit, e)
	history := r.history
	if err == nil {
		history, err = follow(history, e)
	}
	if err != nil {
		r.lose(Damage{Seq: rec.Seq, Last: rec.Seq, What: e.What, Why: "it cannot be used: " + err.Error(), Left: rec.Body})
		r.broken = false // the record itself is sound
		return
	}
	if !follows {
		r.damaged = append(r.damaged, Damage{Seq: rec.Seq, Last: rec.Seq, What: e.What, Used: true,
			Why: "the entry before it is not the one it was written after"})
	}
	r.kit, r.history = kit, history
	if len(e.Kit) > 0 {
		r.based, r.wounded = true, false
	}
	r.entries = append(r.entries, e)
	r.pace.took(e, len(rec.Body))
}

func (r *replay) lose(d Damage) {
	r.damaged = append(r.damaged, d)
	r.broken, r.wounded = true, true
}

// rebuild finds the kit as of entry upTo: from the newest snapshot that is whole,
// or from the first entry. base is what to start from when even that is lost.
// It also counts the snapshots that were not whole.
func rebuild(ctx context.Context, store Store, upTo uint64, base func() fieldkit.Kit) (*replay, int, error) {
	lost := 0
	for at := upTo; at > 0; {
		saved, err := store.Load(ctx, at)
		if err != nil {
			return nil, lost, err
		}
		if saved.Snapshot == nil {
			return fromStart(until(saved.Tail, upTo), base), lost, nil
		}
		kit, err := kitfile.DecodeKit(saved.Snapshot.Kit)
		history, unread := merge.Decode(saved.Snapshot.History)
		if err == nil && unread == nil && saved.Snapshot.Whole() {
			r := &replay{kit: kit, history: history, based: true, head: saved.Snapshot.Head, pace: pace{whole: len(saved.Snapshot.Kit)}}
			r.take(until(saved.Tail, upTo))
			return r, lost, nil
		}
		lost++
		if at = min(at, saved.Snapshot.Head.Seq); at > 0 {
			at--
		}
	}
	tail, err := store.Since(ctx, 0)
	if err != nil {
		return nil, lost, err
	}
	return fromStart(until(tail, upTo), base), lost, nil
}

func fromStart(t Tail, base func() fieldkit.Kit) *replay {
	r := &replay{history: &merge.History{}}
	if t.Head.Seq > 0 {
		r.kit = base()
	}
	r.take(t)
	return r
}

// until cuts a tail after entry seq.
func until(t Tail, seq uint64) Tail {
	if t.Head.Seq <= seq {
		return t
	}
	cut := Tail{Head: Head{Seq: seq}}
	for _, rec := range t.Records {
		if rec.Seq <= seq {
			cut.Records = append(cut.Records, rec)
			cut.Head = Latest(cut.Head, rec, Snapshot{})
		}
	}
	return cut
}
