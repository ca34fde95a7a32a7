package faults

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"

	"trailfieldkit/cmd/internal/faults/diary"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
)

// damages is class c: what is stored is damaged at random, several places at a time.
// Whatever of it is sound must be in the kit that opens, whatever is not must be named,
// and a kit of which too much is lost must not look like one that was never begun.
func damages(ctx context.Context, _ *site, n amounts) (*Class, error) {
	c := &Class{Name: "c  stored bytes damaged"}
	rnd := rand.New(rand.NewPCG(uint64(n.damages), 5))
	kinds := map[string]int{}
	recovered, named, refused := 0, 0, 0
	var whole *raw
	for round := 0; c.Cases < n.damages; round++ {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if round%50 == 0 {
			var err error
			if whole, err = writeRaw(ctx, rnd, 25+rnd.IntN(20)); err != nil {
				return nil, err
			}
		}
		s := whole.clone()
		hurt := map[uint64]bool{}
		for range 1 + rnd.IntN(6) {
			if kind := s.damage(rnd, hurt); kind != "" {
				kinds[kind]++
				c.Cases++
			}
		}
		c.Acknowledged += len(whole.records) - 1
		session, report, err := journal.Open(ctx, s, diary.Kit)
		if err != nil {
			// Nothing at all is left to read: said so, and nothing is begun over it.
			var e *fieldkit.Error
			if len(s.records) > 0 || !errors.As(err, &e) || e.Do == "" {
				c.Closed++
				c.bad("round %d does not open: %v", round, err)
			}
			refused++
			c.tell(err.Error())
			continue
		}
		if report.New {
			c.bad("round %d: a damaged journal is taken for an empty one", round)
			continue
		}
		says := map[uint64]bool{}
		for _, d := range report.Damaged {
			for seq := d.Seq; seq <= d.Last && seq <= d.Seq+1000; seq++ {
				says[seq] = says[seq] || !d.Used
			}
			if !d.Used {
				c.tell(plain(d.Why))
			}
		}
		lost := 0
		for _, r := range whole.records {
			act, isAct := whole.acts[r.Seq]
			if !isAct {
				continue
			}
			id := fmt.Sprintf("note-%d", act)
			note, here := session.Kit().Failures.Find(id)
			kept, _ := whole.kit.Failures.Find(id)
			switch {
			case here && note.What != kept.What:
				c.bad("round %d: entry %d reads %q, written was %q", round, r.Seq, clip(note.What, 60), clip(kept.What, 60))
			case here:
				recovered++
			case !hurt[r.Seq]:
				c.Lost++
				c.bad("round %d: entry %d is sound and not in the kit; %s", round, r.Seq, report)
			case !says[r.Seq]:
				c.bad("round %d: entry %d is lost and not named; %s", round, r.Seq, report)
			default:
				named, lost = named+1, lost+1
			}
		}
		if lost > 0 && report.Whole() {
			c.bad("round %d: %d entries are lost and the report calls the kit whole", round, lost)
		}
	}
	var list []string
	for _, k := range []string{"bit flipped", "cut short", "checksum", "predecessor", "missing", "swapped", "newer schema", "snapshot", "snapshot's history", "snapshot missing", "snapshot of a newer schema", "head", "emptied"} {
		list = append(list, fmt.Sprintf("%s %d", k, kinds[k]))
	}
	c.Note = fmt.Sprintf("%d entries recovered, %d lost and named, %d times nothing left and said so; %s", recovered, named, refused, strings.Join(list, ", "))
	return c, nil
}

// plain leaves the numbers out of a reason, so that equal ones are counted together.
func plain(why string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return -1
		}
		return r
	}, clip(why, 60))
}

func clip(text string, n int) string {
	if len(text) > n {
		return strings.ToValidUTF8(text[:n], "") + " …"
	}
	return text
}

// raw is a store of which everything kept is in hand. It embeds one that is never
// asked, for the methods that no reading needs.
type raw struct {
	journal.Store
	head      journal.Head
	records   []journal.Record
	snapshots []journal.Snapshot
	acts      map[uint64]int // the actions by their entry
	kit       fieldkit.Kit   // as all of it comes to
}

func (s *raw) clone() *raw {
	c := *s
	c.records, c.snapshots = slices.Clone(s.records), slices.Clone(s.snapshots)
	return &c
}

// Load implements journal.Store.
func (s *raw) Load(ctx context.Context, upTo uint64) (journal.Saved, error) {
	var saved journal.Saved
	from := uint64(0)
	for _, snapshot := range s.snapshots {
		if snapshot.Head.Seq <= upTo {
			saved.Snapshot, from = &snapshot, snapshot.Head.Seq
		}
	}
	saved.Tail, _ = s.Since(ctx, from) // it does not fail
	return saved, nil
}

// Since implements journal.Store.
func (s *raw) Since(_ context.Context, seq uint64) (journal.Tail, error) {
	var t journal.Tail
	var last journal.Record
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

// Append implements journal.Store: a journal of which nothing is left begins anew.
func (s *raw) Append(_ context.Context, r journal.Record, _ []journal.Blob) error {
	s.records, s.head = append(s.records, r), r.Head()
	return nil
}

// writeRaw keeps a journal of some actions, with a restore in one of three, and three
// snapshots on the way.
func writeRaw(ctx context.Context, rnd *rand.Rand, entries int) (*raw, error) {
	memory := journal.NewMemory()
	d, err := diary.Open(ctx, memory)
	if err != nil {
		return nil, err
	}
	s := &raw{Store: memory, acts: map[uint64]int{}}
	restore := 0
	if rnd.IntN(3) == 0 {
		restore = 5 + rnd.IntN(entries-8)
	}
	for n := 1; len(s.acts) < entries; n++ {
		if n == restore {
			if _, err := d.Session.Replace(ctx, "restore", fieldkit.Moment{}, func() string { return "restore" }, d.Session.Kit()); err != nil {
				return nil, err
			}
		}
		if err := d.Do(ctx, 4*n); err != nil { // those without a photo: nothing here looks at them
			return nil, err
		}
		s.acts[d.Session.Seq()] = 4 * n
		if n%(entries/4) == 0 && len(s.snapshots) < 3 {
			tail, err := memory.Since(ctx, d.Session.Seq())
			if err != nil {
				return nil, err
			}
			now := d.Session.Replica()
			s.snapshots = append(s.snapshots, journal.NewSnapshot(tail.Head, kitfile.Save(now.Kit)).With(now.History.Encode()))
		}
	}
	tail, err := memory.Since(ctx, 0)
	s.head, s.records, s.kit = tail.Head, tail.Records, d.Session.Kit()
	return s, err
}

// damage spoils one thing and says what; nothing if there was nothing left to spoil in
// that way. hurt collects the entries that may be lost by it.
func (s *raw) damage(rnd *rand.Rand, hurt map[uint64]bool) string {
	var r *journal.Record
	i := 0
	if len(s.records) > 0 {
		i = rnd.IntN(len(s.records))
		r = &s.records[i]
	}
	kind := rnd.IntN(20)
	if r == nil && kind < 14 {
		return ""
	}
	switch {
	case kind < 3:
		if len(r.Body) == 0 {
			return ""
		}
		r.Body = flipped(rnd, r.Body)
		hurt[r.Seq] = true
		return "bit flipped"
	case kind < 5:
		r.Body = r.Body[:rnd.IntN(len(r.Body)+1)/2]
		hurt[r.Seq] = true
		return "cut short"
	case kind < 6:
		if r.Hash == "" {
			return ""
		}
		r.Hash = r.Hash[1:]
		hurt[r.Seq] = true
		return "checksum"
	case kind < 7:
		r.Prev = s.records[rnd.IntN(len(s.records))].Hash
		hurt[r.Seq] = true
		return "predecessor"
	case kind < 9:
		if i == len(s.records)-1 && !s.headTells(r.Seq) {
			return ""
		}
		hurt[r.Seq] = true
		s.records = slices.Delete(s.records, i, i+1)
		return "missing"
	case kind < 11:
		j := rnd.IntN(len(s.records))
		if i == j {
			return ""
		}
		a, b := s.records[i], s.records[j]
		hurt[a.Seq], hurt[b.Seq] = true, true
		a.Seq, b.Seq = b.Seq, a.Seq // the key stays, what is under it does not
		s.records[i], s.records[j] = b, a
		return "swapped"
	case kind < 14:
		if _, err := r.Entry(); err != nil {
			return "" // no program gives its seal to what is damaged already
		}
		s.records[i] = newer(rnd, *r)
		hurt[r.Seq] = true
		return "newer schema"
	case kind < 17:
		if len(s.snapshots) == 0 {
			return ""
		}
		shot := &s.snapshots[rnd.IntN(len(s.snapshots))]
		switch rnd.IntN(5) {
		case 0:
			shot.Kit = shot.Kit[:len(shot.Kit)/2]
		case 1:
			shot.Sum = ""
		case 2:
			*shot = journal.NewSnapshot(shot.Head, bytes.Replace(shot.Kit, []byte(`"version": "1.`), []byte(`"version": "9.`), 1)).With(shot.History)
			return "snapshot of a newer schema"
		case 3:
			if len(shot.History) > 0 {
				shot.History = flipped(rnd, shot.History)
			}
			return "snapshot's history"
		default:
			if len(shot.Kit) > 0 {
				shot.Kit = flipped(rnd, shot.Kit)
			}
		}
		return "snapshot"
	case kind < 18:
		if len(s.snapshots) == 0 {
			return ""
		}
		j := rnd.IntN(len(s.snapshots))
		s.snapshots = slices.Delete(s.snapshots, j, j+1)
		return "snapshot missing"
	case kind < 19:
		if len(s.records) == 0 || s.records[len(s.records)-1].Seq < s.head.Seq && s.head.Seq < 1<<48 {
			return "" // it alone knows how far the journal went
		}
		s.head = journal.Head{Seq: []uint64{0, rnd.Uint64N(20), 1 << 60}[rnd.IntN(3)], Hash: "damaged"}
		if last := s.records[len(s.records)-1].Seq; s.head.Seq > last && s.head.Seq < 1<<48 {
			s.head = journal.Head{}
		}
		return "head"
	default:
		if len(s.records) == 0 || rnd.IntN(10) > 0 || !s.headTells(s.records[len(s.records)-1].Seq) {
			return ""
		}
		for _, r := range s.records {
			hurt[r.Seq] = true
		}
		s.records = nil
		return "emptied"
	}
}

// headTells reports whether the head still says that there was an entry of this number.
// When the last records and the head are lost together, nothing is left that could.
func (s *raw) headTells(seq uint64) bool { return s.head.Seq >= seq && s.head.Seq < 1<<48 }

func flipped(rnd *rand.Rand, b []byte) []byte {
	b = bytes.Clone(b)
	b[rnd.IntN(len(b))] ^= 1 << rnd.IntN(8)
	return b
}

// newer is an entry as a later version of the program may write it.
func newer(rnd *rand.Rand, r journal.Record) journal.Record {
	body := string(r.Body)
	switch rnd.IntN(3) {
	case 0:
		body = strings.Replace(body, `"collection":"failures"`, `"collection":"breakdowns"`, 1)
	case 1:
		body = strings.TrimSuffix(body, "}") + `,"format":9}`
	default:
		body = strings.Replace(body, `"what":"action`, `"what":["action`, 1)
	}
	return journal.Reseal(r, []byte(body))
}
