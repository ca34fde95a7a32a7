package passon_test

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/passon"
)

func counter() func() string {
	n := 0
	return func() string { n++; return fmt.Sprintf("new-%d", n) }
}

// bundles gives every small part of the demo kit.
func bundles(t testing.TB) map[string]passon.Bundle {
	k := data.DemoKit()
	all := map[string]passon.Bundle{}
	for _, p := range k.Positions.All() {
		b, err := passon.Position(k, p.ID)
		require.NoError(t, err)
		all["position "+p.ID] = b
	}
	for _, p := range k.Parts.All() {
		b, err := passon.Card(k, p.ID)
		require.NoError(t, err)
		all["card "+p.ID] = b
	}
	for _, l := range k.Links.All() {
		b, err := passon.Link(k, l.ID)
		require.NoError(t, err)
		all["link "+l.ID] = b
	}
	return all
}

// Everything small in the demo kit can be passed on: the code gives back what was put
// in, and into an empty kit as into its own it brings no contradiction.
func TestEveryPartOfTheDemoPasses(t *testing.T) {
	own := data.DemoKit()
	other := data.BlankKit("other")
	other.Rigs = append(other.Rigs, fieldkit.Rig{ID: "mine", Name: "Mine"})
	longest, sum := 0, 0
	all := bundles(t)
	for i, name := range slices.Sorted(maps.Keys(all)) {
		if testing.Short() && i%8 > 0 {
			continue
		}
		b := all[name]
		code, err := passon.Encode(b)
		require.NoError(t, err, name)
		longest, sum = max(longest, len(code)), sum+len(code)
		got, err := passon.Decode(code)
		require.NoError(t, err, name)
		again, err := passon.Encode(got)
		require.NoError(t, err)
		require.Equal(t, code, again, name)
		require.Equal(t, b.Title(), got.Title())
		require.Equal(t, b.Kind(), got.Kind())

		added, err := passon.Into(other, got, "mine", counter())
		require.NoError(t, err)
		k := put(other, added)
		require.Empty(t, kitfile.Check(k), name)
		require.Equal(t, b.Title(), titleOf(added.Main, k), name)
		twice, err := passon.Into(k, got, "mine", counter())
		require.NoError(t, err)
		for _, r := range twice.Put {
			require.Equal(t, "positions", r.Collection(), "%s: %v is there already", name, r)
		}

		back, err := passon.Into(own, got, own.Rigs[0].ID, counter())
		require.NoError(t, err)
		for _, r := range back.Put {
			assert.NotContains(t, []string{"donors", "parts", "links", "systems"}, r.Collection(), "%s: the demo has it", name)
		}
		require.Empty(t, kitfile.Check(put(own, back)), name)
	}
	t.Logf("%d codes, %d characters on average, %d at most", len(all), sum/len(all), longest)
}

func titleOf(r fieldkit.Record, k fieldkit.Kit) string {
	switch r := r.(type) {
	case fieldkit.Position:
		return r.Title()
	case fieldkit.Part:
		return r.Name
	case fieldkit.Link:
		with, _ := k.Part(r.With)
		wanted, _ := k.Part(r.For)
		return with.Name + " in place of " + wanted.Name
	}
	return ""
}

func put(k fieldkit.Kit, added passon.Added) fieldkit.Kit {
	for _, r := range added.Put {
		c, _ := fieldkit.CollectionNamed(r.Collection())
		c.Put(&k, r)
	}
	return k
}

// A position goes under the system of the same name, or a new one.
func TestPositionFindsItsSystem(t *testing.T) {
	k := data.DemoKit()
	b, err := passon.Position(k, k.Positions.At(0).ID)
	require.NoError(t, err)
	_, err = passon.Into(k, b, "no such rig", counter())
	require.Error(t, err)
	for _, rig := range k.Rigs {
		added, err := passon.Into(k, b, rig.ID, counter())
		require.NoError(t, err)
		p := added.Main.(fieldkit.Position)
		after := put(k, added)
		on, ok := after.RigOf(p)
		require.True(t, ok)
		require.Equal(t, rig.ID, on.ID)
		system, _ := after.System(p.System)
		require.Equal(t, b.Kit.Systems[0].Name, system.Name)
		same := 0
		for _, s := range after.Systems {
			if s.Rig == rig.ID && s.Name == system.Name {
				same++
			}
		}
		require.Equal(t, 1, same)
	}
}

// A position that is there and empty is filled in; what its owner wrote stays.
func TestEmptyPositionIsFilledIn(t *testing.T) {
	k := data.DemoKit()
	b, err := passon.Position(k, "hobnail-front-brake-pads")
	require.NoError(t, err)
	p, _ := k.Position("hobnail-front-brake-pads")
	part := p.Part
	p.Part, p.Proof, p.Note = "", nil, "mine"
	c, _ := fieldkit.CollectionNamed("positions")
	c.Put(&k, p)
	added, err := passon.Into(k, b, "hobnail", counter())
	require.NoError(t, err)
	require.Len(t, added.Put, 1)
	got := added.Main.(fieldkit.Position)
	require.Equal(t, p.ID, got.ID)
	require.Equal(t, p.Parent, got.Parent)
	require.Equal(t, part, got.Part)
	require.Equal(t, "mine", got.Note)
}

// A friend's rig stands beside one's own with all that belongs to it; nothing of
// one's own changes; adding it again adds nothing, or what was changed since.
func TestFriendsRig(t *testing.T) {
	mine, theirs := data.DemoKit(), data.DemoKit()
	theirs.ID, theirs.Name = "theirs", "Dry Fork crew"
	rig := theirs.Rigs[0].ID
	added := passon.RigsInto(mine, theirs, "Dry Fork crew", rig)
	after := put(mine, added)
	require.Empty(t, kitfile.Check(after))
	for _, c := range fieldkit.Collections {
		for _, r := range c.All(mine) {
			now, ok := c.Get(after, r.Key())
			require.True(t, ok)
			require.Equal(t, kitfile.EncodeRecord(r), kitfile.EncodeRecord(now))
		}
	}
	friends, ok := after.Rig(passon.FriendsRig("theirs", rig))
	require.True(t, ok)
	require.Equal(t, "Dry Fork crew", friends.Owner)
	positions := after.PositionsOf(friends.ID)
	require.Len(t, positions, len(theirs.PositionsOf(rig)))
	for i, p := range theirs.PositionsOf(rig) {
		require.Equal(t, p.Title(), positions[i].Title())
		part, fitted := theirs.Part(p.Part)
		got, there := after.Part(positions[i].Part)
		require.Equal(t, fitted, there)
		require.Equal(t, part.Name, got.Name)
		donor, _ := theirs.Donor(part.Donor)
		gotDonor, _ := after.Donor(got.Donor)
		require.Equal(t, donor.Title(), gotDonor.Title())
	}
	require.Greater(t, after.Links.Len(), mine.Links.Len())
	require.Greater(t, after.Spares.Len(), mine.Spares.Len())
	require.Len(t, after.Failures.Slice(), mine.Failures.Len(), "the log stays with the rig's owner")

	require.Empty(t, passon.RigsInto(after, theirs, "Dry Fork crew", rig).Put, "nothing twice")
	theirs.Rigs = append([]fieldkit.Rig(nil), theirs.Rigs...)
	theirs.Rigs[0].Note = "new tyres"
	again := passon.RigsInto(after, theirs, "Dry Fork crew", rig)
	require.Len(t, again.Put, 1)
}

func TestRefusedCodes(t *testing.T) {
	b, err := passon.Link(data.DemoKit(), data.DemoKit().Links.At(0).ID)
	require.NoError(t, err)
	code, err := passon.Encode(b)
	require.NoError(t, err)
	for name, c := range map[string]struct {
		code string
		kind fieldkit.ErrorKind
	}{
		"empty":         {"", fieldkit.BadInput},
		"a word":        {"HELLO", fieldkit.BadInput},
		"cut":           {code[:len(code)-8], fieldkit.BadInput},
		"newer":         {"AI" + code[2:], fieldkit.TooNew},
		"too long":      {strings.Repeat("A", passon.MaxCode+1), fieldkit.TooBig},
		"one character": {code[:40] + string('A'+(code[40]-'A'+1)%26) + code[41:], fieldkit.BadInput},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := passon.Decode(c.code)
			var e *fieldkit.Error
			require.ErrorAs(t, err, &e)
			require.Equal(t, c.kind, e.Kind)
			require.NotEmpty(t, e.What)
		})
	}
	for _, text := range []string{code, " " + strings.ToLower(code) + "\n", "https://kit.example/take#" + code, "Here: https://kit.example/take#" + code + " see you\n"} {
		got, err := passon.Decode(passon.Code(text))
		require.NoError(t, err, text)
		require.Equal(t, b.Title(), got.Title())
	}
}

// What the other phone would not take is not packed in the first place, and the giver is
// told what to do instead.
func TestTooMuchIsNotPacked(t *testing.T) {
	whole := data.DemoKit()
	for name, grow := range map[string]func(k *fieldkit.Kit, part *fieldkit.Part){
		"records": func(k *fieldkit.Kit, part *fieldkit.Part) {
			for i := range 150 {
				other := fieldkit.Part{ID: fmt.Sprint("other-", i), Kind: part.Kind, Name: fmt.Sprint("other ", i)}
				k.Parts = k.Parts.With(other)
				k.Links = k.Links.With(fieldkit.Link{ID: fmt.Sprint("link-", i), For: part.ID, With: other.ID, Grade: fieldkit.DropIn, Evidence: fieldkit.StoreBook})
			}
		},
		"text": func(k *fieldkit.Kit, part *fieldkit.Part) {
			rnd := rand.New(rand.NewPCG(1, 2))
			for range 15_000 { // what does not repeat cannot be packed
				part.Note += string(rune('!' + rnd.IntN(90)))
			}
		},
	} {
		t.Run(name, func(t *testing.T) {
			k := whole
			part, _ := k.Part("pads-front")
			grow(&k, &part)
			parts, _ := fieldkit.CollectionNamed("parts")
			parts.Put(&k, part)
			require.Empty(t, kitfile.Check(k))
			b, err := passon.Card(k, part.ID)
			require.NoError(t, err)
			code, err := passon.Encode(b)
			var e *fieldkit.Error
			require.ErrorAs(t, err, &e, "%d characters", len(code))
			require.Equal(t, fieldkit.TooBig, e.Kind)
			require.Contains(t, e.Do, "backup")
		})
	}
}

// FuzzDecode takes any text: no panic, and what is taken can be added and passed on.
func FuzzDecode(f *testing.F) {
	n := 0
	for _, b := range bundles(f) {
		if code, err := passon.Encode(b); err == nil && n < 20 {
			f.Add(code)
			n++
		}
	}
	f.Add("")
	f.Add("AEAAAAAAAA")
	blank := data.BlankKit("other")
	blank.Rigs = append(blank.Rigs, fieldkit.Rig{ID: "mine", Name: "Mine"})
	f.Fuzz(func(t *testing.T, text string) {
		b, err := passon.Decode(passon.Code(text))
		if err != nil {
			require.Empty(t, b.Kit.Parts.Slice())
			return
		}
		added, err := passon.Into(blank, b, "mine", counter())
		require.NoError(t, err)
		require.Empty(t, kitfile.Check(put(blank, added)))
		if _, err = passon.Encode(b); err != nil { // packed better by another hand
			var e *fieldkit.Error
			require.ErrorAs(t, err, &e)
			require.Equal(t, fieldkit.TooBig, e.Kind)
		}
	})
}
