package merge

import (
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// pair is two phones with true clocks, the second a minute behind the first.
func pair(kit fieldkit.Kit) (a, b *phone) {
	at := start
	tick := func() time.Time { at = at.Add(time.Minute); return at }
	a = &phone{Replica: Replica{kit, &History{}}, name: "a", clock: tick}
	b = &phone{Replica: Replica{kit, &History{}}, name: "b", clock: tick}
	return a, b
}

func setNote(position, note string) func(*fieldkit.Kit) {
	return func(k *fieldkit.Kit) {
		p, _ := k.Position(position)
		p.Note = note
		c, _ := fieldkit.CollectionNamed("positions")
		c.Put(k, p)
	}
}

func remove(collection, id string) func(*fieldkit.Kit) {
	return func(k *fieldkit.Kit) {
		c, _ := fieldkit.CollectionNamed(collection)
		if r, ok := c.Get(*k, id); ok {
			deleteWhole(k, r)
		}
	}
}

func noteOf(r Replica, position string) string {
	p, _ := r.Kit.Position(position)
	return p.Note
}

func TestLatestEditWinsAndTheOtherIsKept(t *testing.T) {
	a, b := pair(begin())
	a.write(setNote("hose", "a's"))
	b.write(setNote("hose", "b's, later"))
	both, report, err := Join(a.copy(), b.copy())
	require.NoError(t, err)
	assert.Equal(t, "b's, later", noteOf(both, "hose"))
	require.Len(t, report.Clashes, 1)
	c := report.Clashes[0]
	assert.False(t, c.Mine)
	assert.Equal(t, "note", c.Field)
	assert.Equal(t, "a's", c.Lost[0].Text())
	_, report, err = Join(b.copy(), a.copy())
	require.NoError(t, err)
	assert.True(t, report.Clashes[0].Mine)

	r, err := Take(both.Kit, c, c.Lost[0])
	require.NoError(t, err)
	assert.Equal(t, "a's", r.(fieldkit.Position).Note)
}

// An edit made with knowledge of the other's is no clash, whatever the clocks say.
func TestKnownEditIsNoClash(t *testing.T) {
	a, b := pair(begin())
	a.clock = func() time.Time { return start.AddDate(4000, 0, 0) }
	a.write(setNote("hose", "from the year 6026"))
	b.take(t, a.copy())
	b.clock = func() time.Time { return start.AddDate(-30, 0, 0) }
	b.write(setNote("hose", "corrected in 1996"))
	both, report, err := Join(a.copy(), b.copy())
	require.NoError(t, err)
	assert.Equal(t, "corrected in 1996", noteOf(both, "hose"))
	assert.Empty(t, report.Clashes)
	assert.Equal(t, []string{"note"}, report.Changed[0].Fields)
}

// Hybrid logical clocks (Kulkarni, Demirbas, Madappa, Avva, Leone: Logical Physical
// Clocks, 2014): the stamp follows the physical clock while that is ahead; else it
// counts on from the latest stamp known.
func TestNextStamp(t *testing.T) {
	h := &History{}
	at := func(sec int64) fieldkit.Moment { return fieldkit.Moment{Time: time.Unix(sec, 0)} }
	for _, c := range []struct {
		now  int64
		want Stamp
	}{{10, Stamp{10, 0, "me"}}, {10, Stamp{10, 1, "me"}}, {11, Stamp{11, 0, "me"}}, {5, Stamp{11, 1, "me"}}, {11, Stamp{11, 2, "me"}}, {1 << 60, Stamp{maxAt, 0, "me"}}, {12, Stamp{maxAt, 1, "me"}}} {
		s := h.Next(at(c.now), "me")
		assert.Equal(t, c.want, s)
		h.Record(s, nil)
	}
}

func TestDifferentFieldsOfOneRecordAreBothKept(t *testing.T) {
	a, b := pair(begin())
	a.write(setNote("hose", "weeps"))
	b.write(func(k *fieldkit.Kit) {
		p, _ := k.Position("hose")
		p.Part, p.Fitted = "joint-b", fieldkit.Date{Year: 2026, Month: 5, Day: 14}
		c, _ := fieldkit.CollectionNamed("positions")
		c.Put(k, p)
	})
	both, report, err := Join(a.copy(), b.copy())
	require.NoError(t, err)
	p, _ := both.Kit.Position("hose")
	assert.Equal(t, "weeps", p.Note)
	assert.Equal(t, "joint-b", p.Part)
	assert.Empty(t, report.Clashes)
}

// Two people tick different lines of one packing list: both ticks stay.
func TestTicksOfOnePackingList(t *testing.T) {
	a, b := pair(begin())
	packed := func(i int) func(*fieldkit.Kit) {
		return func(k *fieldkit.Kit) {
			p := k.Packs[0]
			p.Lines = append([]fieldkit.PackLine(nil), p.Lines...)
			p.Lines[i].Packed = true
			c, _ := fieldkit.CollectionNamed("packs")
			c.Put(k, p)
		}
	}
	a.write(packed(0))
	b.write(packed(1))
	both, report, err := Join(a.copy(), b.copy())
	require.NoError(t, err)
	assert.True(t, both.Kit.Packs[0].Lines[0].Packed)
	assert.True(t, both.Kit.Packs[0].Lines[1].Packed)
	assert.Empty(t, report.Clashes)
}

func TestBothTookOneFromStock(t *testing.T) {
	a, b := pair(begin())
	take := func(k *fieldkit.Kit) {
		s := k.Spares.At(0)
		s.Count--
		c, _ := fieldkit.CollectionNamed("spares")
		c.Put(k, s)
	}
	a.write(take)
	b.write(take)
	_, report, err := Join(a.copy(), b.copy())
	require.NoError(t, err)
	require.Len(t, report.Clashes, 1, "3 on each phone, and 2 in the box")
	assert.Equal(t, "count", report.Clashes[0].Field)
}

// A deleted part stays deleted though the other phone edits it and fits it, later and
// without knowing; both are named, and both come back if the deletion is taken back.
func TestDeletedStaysDeletedAndComesBackWhole(t *testing.T) {
	a, b := pair(begin())
	a.write(remove("parts", "joint-b"))
	b.write(func(k *fieldkit.Kit) {
		p, _ := k.Part("joint-b")
		p.Note = "sold at Harrow Wells"
		parts, _ := fieldkit.CollectionNamed("parts")
		parts.Put(k, p)
		at, _ := k.Position("hose")
		at.Part = "joint-b"
		positions, _ := fieldkit.CollectionNamed("positions")
		positions.Put(k, at)
		spares, _ := fieldkit.CollectionNamed("spares")
		spares.Put(k, fieldkit.Spare{ID: "spare-b", Part: "joint-b", Count: 1})
	})
	for round := range 2 {
		both, report, err := Join(b.copy(), a.copy())
		require.NoError(t, err)
		_, there := both.Kit.Part("joint-b")
		require.False(t, there)
		at, _ := both.Kit.Position("hose")
		require.Empty(t, at.Part)
		_, there = both.Kit.Spares.Find("spare-b")
		require.False(t, there)
		if round == 0 {
			require.Contains(t, keys(report.Edited), "parts joint-b")
			require.Contains(t, keys(report.Held), "spares spare-b")
		}
		missing := MissingFrom(both)
		require.Equal(t, []string{"spares spare-b"}, keys(missing.Held))
		require.Contains(t, keys(missing.Deleted), "parts joint-b")
		b.take(t, a.copy())
		b.write(setNote("joint-left", "anything"))
	}
	put, err := Back(b.copy(), Key{"parts", "joint-b"})
	require.NoError(t, err)
	b.write(func(k *fieldkit.Kit) {
		for _, r := range put {
			c, _ := fieldkit.CollectionNamed(r.Collection())
			c.Put(k, r)
		}
	})
	a.take(t, b.copy())
	p, there := a.Kit.Part("joint-b")
	require.True(t, there)
	assert.Equal(t, "sold at Harrow Wells", p.Note)
	at, _ := a.Kit.Position("hose")
	assert.Equal(t, "joint-b", at.Part)
	_, there = a.Kit.Spares.Find("spare-b")
	assert.True(t, there)
	assert.Equal(t, whole(t, joined2(t, a.copy(), b.copy())), whole(t, joined2(t, b.copy(), a.copy())))
}

func keys(list []fieldkit.Record) (all []string) {
	for _, r := range list {
		all = append(all, r.Collection()+" "+r.Key())
	}
	return all
}

// A log entry written on a rig that the other phone deleted is held back with it, not
// lost.
func TestLogEntryOnADeletedRig(t *testing.T) {
	a, b := pair(begin())
	a.write(remove("rigs", "second"))
	b.write(func(k *fieldkit.Kit) {
		c, _ := fieldkit.CollectionNamed("failures")
		c.Put(k, fieldkit.Failure{ID: "f", Rig: "second", On: day, What: "hose burst", Position: "hose"})
	})
	both := joined2(t, a.copy(), b.copy())
	require.Equal(t, []string{"failures f"}, keys(MissingFrom(both).Held))
	put, err := Back(both, Key{"rigs", "second"})
	require.NoError(t, err)
	require.Contains(t, keys(put), "failures f")
}

// What one action deleted comes back together: a rig taken back is no empty one. So does
// what a record taken back cannot stand without, when that was deleted by itself.
func TestBackBringsWhatWentWithIt(t *testing.T) {
	apart := []func(*fieldkit.Kit){remove("positions", "hose"), remove("systems", "brakes"), remove("rigs", "second")}
	together := func(k *fieldkit.Kit) {
		for _, del := range apart {
			del(k)
		}
	}
	for name, deletions := range map[string][]func(*fieldkit.Kit){"one action": {together}, "three actions": apart} {
		for _, taken := range []Key{{"rigs", "second"}, {"positions", "hose"}} {
			t.Run(name+", "+taken.Collection, func(t *testing.T) {
				a, b := pair(begin())
				for _, del := range deletions {
					a.write(del)
				}
				b.write(setNote("hose", "weeps"))
				both := joined2(t, a.copy(), b.copy())
				put, err := Back(both, taken)
				require.NoError(t, err)
				if name == "one action" || taken.Collection == "positions" {
					assert.Subset(t, keys(put), []string{"rigs second", "systems brakes", "positions hose"})
				} else {
					assert.NotContains(t, keys(put), "positions hose", "it was deleted by itself")
				}
				for _, r := range put {
					if p, is := r.(fieldkit.Position); is && p.ID == "hose" {
						assert.Equal(t, "weeps", p.Note, "with what the other phone wrote")
					}
				}
			})
		}
	}
}

// Copies without history: records are added, nothing is deleted, a stamped edit wins,
// and a field that differs takes the same value on both phones.
func TestCopiesWithoutHistory(t *testing.T) {
	a, _ := pair(begin())
	a.write(setNote("hose", "stamped"))
	old := begin()
	setNote("hose", "from an old backup")(&old)
	setNote("joint-left", "only the old backup says this")(&old)
	old.Rigs = old.Rigs[:2:2]
	old.Donors = append(old.Donors[:1:1], fieldkit.Donor{ID: "donor-2", Make: "Vessany", Model: "Torrack"})
	both, report, err := Join(a.copy(), Replica{Kit: old})
	require.NoError(t, err)
	assert.Equal(t, "stamped", noteOf(both, "hose"))
	assert.Equal(t, []string{"donors donor-2"}, keys(report.New))
	assert.Empty(t, report.Gone)
	other, _, err := Join(Replica{Kit: old}, a.copy())
	require.NoError(t, err)
	assert.Equal(t, whole(t, both), whole(t, other))
	assert.Equal(t, "only the old backup says this", noteOf(both, "joint-left"), "the greater of two values, so that both phones take the same")
	require.Len(t, Clashes(both), 1)
	assert.Equal(t, none, Clashes(both)[0].Lost[0].Value)
}

func TestAnotherKitIsNotJoined(t *testing.T) {
	other := begin()
	other.ID = "other"
	_, _, err := Join(Replica{Kit: begin()}, Replica{Kit: other})
	require.ErrorContains(t, err, "is another kit")
}

// Whatever is deleted from a kit that uses every field there is, the joined kit has no
// reference that leads nowhere: a reference added to the types must be added here too.
func TestEveryReferenceIsLoosened(t *testing.T) {
	file, err := os.ReadFile("../kitfile/testdata/kit.json")
	require.NoError(t, err)
	kit, err := kitfile.Load("kit.json", file)
	require.NoError(t, err)
	for _, c := range fieldkit.Collections {
		for _, r := range c.All(kit) {
			gone := kit
			c.Remove(&gone, r.Key())
			h := &History{}
			h.Record(h.Next(fieldkit.Moment{Time: start}, "a"), []Change{{Collection: c.Name, ID: r.Key(), Before: kitfile.EncodeRecord(r)}})
			both, _, err := Join(Replica{Kit: kit}, Replica{gone, h})
			require.NoError(t, err, "without %s %s", c.Name, r.Key())
			_, there := c.Get(both.Kit, r.Key())
			require.False(t, there)
		}
	}
}

// Records of the sample come apart and together again byte for byte.
func TestSplitAndAssemble(t *testing.T) {
	file, err := os.ReadFile("../kitfile/testdata/kit.json")
	require.NoError(t, err)
	kit, err := kitfile.Load("kit.json", file)
	require.NoError(t, err)
	for _, c := range fieldkit.Collections {
		for _, r := range c.All(kit) {
			raw := kitfile.EncodeRecord(r)
			f := split(c.Name, raw)
			again, err := assemble(c.Name, r.Key(), f)
			require.NoError(t, err)
			assert.Equal(t, string(raw), string(again))
			assert.Empty(t, differing(f, split(c.Name, again)))
		}
	}
}

func TestDecodeRefuses(t *testing.T) {
	head := `{"format":"trail-field-kit-history","version":"1.0",`
	for name, c := range map[string]struct{ raw, says string }{
		"no JSON":           {`{`, "cannot be read"},
		"another format":    {`{"format":"x","version":"1.0"}`, `"x"`},
		"a newer version":   {`{"format":"trail-field-kit-history","version":"2.0"}`, "newer app"},
		"no version":        {`{"format":"trail-field-kit-history"}`, "not a version"},
		"a stamp of words":  {head + `"clock":"soon"}`, "stamp"},
		"a stamp of 10000":  {head + `"clock":"999999999999.0.a"}`, "stamp"},
		"a stamp before":    {head + `"clock":"-4.0.a"}`, "stamp"},
		"a line of spaces":  {head + `"by":"a b"}`, "line of edits"},
		"versions unsorted": {head + `"records":{"rigs":{"r":{"fields":{"note":[{"at":"1.0.a"},{"at":"2.0.a"}]}}}}}`, "not in order"},
		"no versions":       {head + `"records":{"rigs":{"r":{"fields":{"note":[]}}}}}`, "out of range"},
		"held is another":   {head + `"records":{"rigs":{"r":{"held":{"id":"s","name":"x"}}}}}`, "cannot be read"},
		"the kit is held":   {head + `"records":{"kit":{"kit":{"held":{"id":"kit"}}}}}`, "cannot be deleted"},
		"seat below zero":   {head + `"records":{"rigs":{"r":{"seat":-1}}}}`, "out of range"},
		"id too long":       {head + `"records":{"rigs":{"` + strings.Repeat("r", 99) + `":{}}}}`, "out of range"},
	} {
		t.Run(name, func(t *testing.T) {
			h, err := Decode([]byte(c.raw))
			require.ErrorContains(t, err, c.says)
			require.Nil(t, h)
		})
	}
}

// FuzzDecode reads anything: no panic; what is taken is written the same when written
// again, and joins either way with the same result, or is refused with words.
func FuzzDecode(f *testing.F) {
	a, b := pair(begin())
	a.write(setNote("hose", "a's"))
	b.write(setNote("hose", "b's"))
	b.write(remove("parts", "joint-b"))
	b.take(f, a.copy())
	f.Add(a.History.Encode())
	f.Add(b.History.Encode())
	f.Add([]byte(`{"format":"trail-field-kit-history","version":"1.1","records":{"clouds":{"x":{}},"parts":{"joint":{"gone":true}}}}`))
	f.Fuzz(func(t *testing.T, raw []byte) {
		h, err := Decode(raw)
		if err != nil {
			return
		}
		again, err := Decode(h.Encode())
		require.NoError(t, err)
		require.Equal(t, string(h.Encode()), string(again.Encode()))
		mine := Replica{Kit: begin(), History: a.History}
		one, _, err := Join(mine, Replica{begin(), h})
		if err != nil {
			return
		}
		other, _, err := Join(Replica{begin(), h}, mine)
		require.NoError(t, err)
		require.Equal(t, string(kitfile.Save(one.Kit)), string(kitfile.Save(other.Kit)))
		Clashes(one)
		MissingFrom(one)
	})
}
