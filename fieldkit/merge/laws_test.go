package merge

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// phone is one replica that edits with a clock of its own.
type phone struct {
	Replica
	name  string
	clock func() time.Time
	lines int
}

// write makes one edit as the journal does.
func (p *phone) write(edit func(k *fieldkit.Kit)) {
	before, after := p.Kit, p.Kit
	edit(&after)
	if len(kitfile.Check(after)) > 0 {
		return // the journal refuses it
	}
	var changes []Change
	add := func(k Key, was, is json.RawMessage) {
		if string(was) != string(is) {
			changes = append(changes, Change{Collection: k.Collection, ID: k.ID, Before: was, After: is})
		}
	}
	add(Key{kitCollection, kitCollection}, kitRaw(before), kitRaw(after))
	for _, c := range fieldkit.Collections {
		for _, r := range c.All(before) {
			var is json.RawMessage
			if now, ok := c.Get(after, r.Key()); ok {
				is = kitfile.EncodeRecord(now)
			}
			add(keyOf(r), kitfile.EncodeRecord(r), is)
		}
		for _, r := range c.All(after) {
			if _, ok := c.Get(before, r.Key()); !ok {
				add(keyOf(r), nil, kitfile.EncodeRecord(r))
			}
		}
	}
	if len(changes) == 0 {
		return
	}
	p.lines++
	s := p.History.Next(fieldkit.Moment{Time: p.clock()}, fmt.Sprintf("%s-%d", p.name, p.lines))
	p.History.Record(s, changes)
	p.Kit = after
}

// take joins another phone's copy into this one.
func (p *phone) take(t testing.TB, other Replica) {
	t.Helper()
	both, _, err := Join(p.Replica, other)
	require.NoError(t, err)
	p.Replica = both
}

func (p *phone) copy() Replica { return Replica{p.Kit, p.History.Clone()} }

// clocks are the ways a phone's clock goes wrong.
var clocks = map[string]func(rnd *rand.Rand) func() time.Time{
	"true": func(*rand.Rand) func() time.Time {
		at := start
		return func() time.Time { at = at.Add(time.Minute); return at }
	},
	"standing still": func(*rand.Rand) func() time.Time { return func() time.Time { return start } },
	"going back": func(*rand.Rand) func() time.Time {
		at := start
		return func() time.Time { at = at.Add(-time.Hour); return at }
	},
	"wildly ahead": func(*rand.Rand) func() time.Time { return func() time.Time { return start.AddDate(4000, 0, 0) } },
	"before 1970":  func(*rand.Rand) func() time.Time { return func() time.Time { return time.Unix(-5, 0) } },
	"jumping": func(rnd *rand.Rand) func() time.Time {
		return func() time.Time { return start.Add(time.Duration(rnd.IntN(2000)-1000) * time.Hour) }
	},
}

var start = time.Date(2026, 5, 14, 18, 5, 0, 0, time.UTC)

// crew gives phones with the same kit, each with a clock that goes wrong.
func crew(rnd *rand.Rand, n int) []*phone {
	names := []string{"true", "standing still", "going back", "wildly ahead", "before 1970", "jumping"}
	var phones []*phone
	for i := range n {
		phones = append(phones, &phone{Replica: Replica{begin(), &History{}}, name: fmt.Sprintf("phone%d", i),
			clock: clocks[names[rnd.IntN(len(names))]](rnd)})
	}
	return phones
}

// live lets the phones edit at random and sometimes take in each other's copy.
func live(t *testing.T, rnd *rand.Rand, phones []*phone, steps int) {
	t.Helper()
	for step := range steps {
		p := phones[rnd.IntN(len(phones))]
		if rnd.IntN(12) == 0 {
			if q := phones[rnd.IntN(len(phones))]; q != p {
				p.take(t, q.copy())
			}
			continue
		}
		p.write(randomEdit(rnd, fmt.Sprintf("%s-%d", p.name, step)))
	}
}

// whole is what a replica holds, for comparing: the kit as it shows and all that is
// kept beside it. The line of edits is the phone's own.
func whole(t *testing.T, r Replica) string {
	t.Helper()
	h := r.History.Clone()
	h.By = ""
	var text bytes.Buffer
	require.NoError(t, json.Indent(&text, h.Encode(), "", " "))
	return string(kitfile.Save(r.Kit)) + text.String()
}

func joined2(t *testing.T, a, b Replica) Replica {
	t.Helper()
	both, _, err := Join(a, b)
	require.NoError(t, err)
	require.Empty(t, kitfile.Check(both.Kit))
	return both
}

// Joining is commutative, associative and idempotent, whatever was edited on three
// phones, in whatever order they exchanged copies, and whatever their clocks did;
// and what is written down gives the same copy when it is read again.
func TestJoinLaws(t *testing.T) {
	seeds := uint64(80)
	if testing.Short() {
		seeds = 30
	}
	for seed := range seeds {
		t.Run(fmt.Sprint("seed ", seed), func(t *testing.T) {
			rnd := rand.New(rand.NewPCG(seed, 3))
			phones := crew(rnd, 3)
			live(t, rnd, phones, 60)
			a, b, c := phones[0].copy(), phones[1].copy(), phones[2].copy()
			before := whole(t, a) + whole(t, b) + whole(t, c)
			ab, ba := joined2(t, a, b), joined2(t, b, a)
			require.Equal(t, whole(t, ab), whole(t, ba), "commutative")
			require.Equal(t, whole(t, joined2(t, ab, c)), whole(t, joined2(t, a, joined2(t, b, c))), "associative")
			require.Equal(t, whole(t, ab), whole(t, joined2(t, ab, ab)), "idempotent")
			require.Equal(t, whole(t, ab), whole(t, joined2(t, ab, b)), "absorbs what it knows")
			require.Equal(t, whole(t, ab), whole(t, joined2(t, a, ab)), "absorbs what it knows")
			require.Equal(t, before, whole(t, a)+whole(t, b)+whole(t, c), "joining changed a copy")
			_, report, err := Join(ab, b)
			require.NoError(t, err)
			require.True(t, report.Nothing, "%+v", report)

			require.Equal(t, inOne(ab.History), string(ab.History.Encode()))
			again, err := Decode(ab.History.Encode())
			require.NoError(t, err)
			require.Equal(t, string(ab.History.Encode()), string(again.Encode()))
			kit, err := kitfile.DecodeKit(kitfile.Save(ab.Kit))
			require.NoError(t, err)
			require.Equal(t, whole(t, joined2(t, ab, c)), whole(t, joined2(t, Replica{kit, again}, c)))
		})
	}
}

// After everybody has taken in everybody's copy, all phones hold the same kit.
func TestCrewAgrees(t *testing.T) {
	for seed := range uint64(15) {
		rnd := rand.New(rand.NewPCG(seed, 4))
		phones := crew(rnd, 4)
		live(t, rnd, phones, 100)
		for range 2 {
			for _, i := range rnd.Perm(4) {
				for _, j := range rnd.Perm(4) {
					if i != j {
						phones[i].take(t, phones[j].copy())
					}
				}
			}
		}
		for _, p := range phones[1:] {
			require.Equal(t, whole(t, phones[0].copy()), whole(t, p.copy()), "seed %d", seed)
		}
	}
}

// What a person deleted stays deleted, and every log entry that nobody deleted is
// there or named as held back, whatever else was edited.
func TestNothingIsResurrectedAndNoLogEntryLost(t *testing.T) {
	for seed := range uint64(40) {
		rnd := rand.New(rand.NewPCG(seed, 5))
		phones := crew(rnd, 3)
		live(t, rnd, phones, 60)
		all := joined2(t, joined2(t, phones[0].copy(), phones[1].copy()), phones[2].copy())
		held := map[Key]bool{}
		for _, r := range MissingFrom(all).Held {
			held[keyOf(r)] = true
		}
		logged := map[Key]bool{}
		deleted := map[Key]Stamp{}
		for _, p := range phones {
			for _, f := range p.Kit.Failures.All() {
				logged[keyOf(f)] = true
			}
			for k, trace := range p.History.Of {
				if trace.Gone && trace.Made.Compare(deleted[k]) > 0 {
					deleted[k] = trace.Made
				}
			}
		}
		for k, at := range deleted {
			back := false // by somebody who knew that it was deleted
			for _, p := range phones {
				if trace := p.History.Of[k]; trace != nil && !trace.Gone && trace.Made.Compare(at) > 0 {
					back = true
				}
			}
			c, _ := fieldkit.CollectionNamed(k.Collection)
			_, here := c.Get(all.Kit, k.ID)
			require.True(t, !here || back, "seed %d: %v was resurrected", seed, k)
			if !back {
				delete(logged, k)
			}
		}
		for k := range logged {
			_, here := all.Kit.Failures.Find(k.ID)
			require.True(t, here || held[k], "seed %d: %v is lost", seed, k)
		}
	}
}
