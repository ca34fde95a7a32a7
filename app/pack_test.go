package app

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

const demoTrip = "2026-12-widows-rib" // the one trip of the demo kit still to come

// storeOf is the store of a page with a kit in hand.
func storeOf(t *testing.T, k fieldkit.Kit) *store {
	t.Helper()
	return &store{phase: open, session: openTest(t, k), prefs: prefs{Units: fieldkit.Inch}, patience: time.Hour}
}

// packed is the demo kit with its trip planned.
func packed(t *testing.T) fieldkit.Kit {
	t.Helper()
	k := data.DemoKit()
	trip, ok := k.Trip(demoTrip)
	require.True(t, ok)
	pack := spares.Plan(k, data.Catalog(), data.Guides(), trip, nil).Pack
	pack.ID = "list"
	k.Packs = append(k.Packs, pack)
	return k
}

// toCome is the packing list of the trip still to come.
func toCome(k fieldkit.Kit) *fieldkit.Pack {
	return &k.Packs[slices.IndexFunc(k.Packs, func(p fieldkit.Pack) bool { return p.Trip == demoTrip })]
}

func TestViewPack(t *testing.T) {
	k := data.DemoKit()
	v := viewPack(k, data.Catalog(), fieldkit.Inch)
	require.Len(t, v.toCome, 1)
	assert.Equal(t, tripRow{demoTrip, "Widow's Rib and out by the Long Bench", "5 Dec 2026 · 5 days · 460 mi · rock", ""}, v.toCome[0])
	assert.Len(t, v.done, len(k.Trips)-1)
	assert.Equal(t, "2026-09-high-tarn", v.done[0].id, "the latest first")
	assert.Equal(t, "2023-04-chalkboard", v.done[len(v.done)-1].id)

	// 460 mi × 1.609344 km/mi = 740.3 km.
	assert.Contains(t, viewPack(k, data.Catalog(), fieldkit.Metric).toCome[0].sub, "740 km")

	k = packed(t)
	lines := len(toCome(k).Lines)
	toCome(k).Lines[0].Packed = true
	assert.Equal(t, "1 of "+itoa(lines), viewPack(k, data.Catalog(), fieldkit.Inch).toCome[0].aside)

	for name, empty := range map[string]fieldkit.Kit{"blank": data.BlankKit("x"), "empty": {}} {
		v := viewPack(empty, data.Catalog(), fieldkit.Inch)
		assert.Empty(t, v.toCome, name)
		assert.Empty(t, v.done, name)
	}
}

func TestTripsWithoutADayComeFirst(t *testing.T) {
	k := fieldkit.Kit{Trips: []fieldkit.Trip{
		{ID: "late", Start: fieldkit.Date{Year: 2027, Month: 1, Day: 2}, Days: 1, Terrain: fieldkit.Sand},
		{ID: "some day", Days: 2, Terrain: fieldkit.Sand},
		{ID: "soon", Start: fieldkit.Date{Year: 2026, Month: 12, Day: 30}, Days: 1, Terrain: fieldkit.Sand},
	}}
	var ids []string
	for _, r := range viewPack(k, fieldkit.Catalog{}, fieldkit.Metric).toCome {
		ids = append(ids, r.id)
	}
	assert.Equal(t, []string{"some day", "soon", "late"}, ids)
	assert.True(t, strings.HasPrefix(tripWords(k.Trips[0], fieldkit.Metric), "2 Jan 2027 · 1 day · "))
	assert.True(t, strings.HasPrefix(tripWords(k.Trips[1], fieldkit.Metric), "2 days · "))
}

func TestViewPackTrip(t *testing.T) {
	t.Run("no such trip", func(t *testing.T) {
		assert.False(t, viewPackTrip(storeOf(t, data.DemoKit()), "x").found)
	})
	t.Run("not planned", func(t *testing.T) {
		v := viewPackTrip(storeOf(t, data.DemoKit()), demoTrip)
		assert.True(t, v.found)
		assert.False(t, v.planned)
		assert.Equal(t, "Hobnail, Wicket", v.rigs)
		assert.Equal(t, []string{
			"Saltledger, 1 h 10 min away. Fuel and a mechanic two days a week.",
			"Copperhat, 2 h 40 min away. Makes up steering hoses while you wait. Closed from Saturday noon.",
			"Tinpenny, 4 h 15 min away. The yard has two Haulyards and a Stonecrop.",
		}, strings.Split(townWords(v.trip), "\n"))
	})
	t.Run("planned", func(t *testing.T) {
		k := packed(t)
		v := viewPackTrip(storeOf(t, k), demoTrip)
		require.True(t, v.planned)
		totals, limits := v.sheet.Totals, v.trip.Limits
		assert.Equal(t, len(toCome(k).Lines), totals.Lines)
		assert.Empty(t, totals.Over)
		assert.LessOrEqual(t, totals.Mass, limits.Mass)
		assert.LessOrEqual(t, totals.Volume, limits.Volume)
		assert.LessOrEqual(t, totals.Spend.Cents, limits.Money.Cents)
		assert.Less(t, v.proposal.Left, v.proposal.Bare, "the list is worth something")

		// Bin by bin it is the same list, and no bin is over what it carries.
		var mass fieldkit.Mass
		lines := 0
		for _, b := range v.sheet.Bins {
			var sum fieldkit.Mass
			for _, r := range b.Rows {
				sum += r.Mass
			}
			assert.Equal(t, sum, b.Mass, binName(b))
			if b.Bin.MassLimit > 0 {
				assert.LessOrEqual(t, b.Mass, b.Bin.MassLimit, binName(b))
			}
			mass += sum
			lines += len(b.Rows)
		}
		assert.Equal(t, totals.Mass, mass)
		assert.Equal(t, totals.Lines, lines)

		// What is short of stock is what is to buy, and nothing else.
		short := map[spares.Ref]int{}
		for _, l := range toCome(k).Lines {
			if n := l.Count - itemStock(k, spares.RefOf(l)); n > 0 {
				short[spares.RefOf(l)] = n
			}
		}
		require.NotEmpty(t, short)
		assert.Len(t, v.shopping, len(short))
		for _, n := range v.shopping {
			assert.Equal(t, short[n.Ref], n.Count, n.Name)
			_, _, lines := needWords(n)
			assert.NotEmpty(t, lines, "some kind of store has it")
		}
		assert.Equal(t, "Left drawer", firstUnpacked(v.sheet.Bins))
	})
	t.Run("blank kit", func(t *testing.T) {
		k := data.BlankKit("x")
		k.Trips = []fieldkit.Trip{{ID: "t", Name: "Out", Rigs: []string{k.Rigs[0].ID}, Days: 1, Distance: 100 * fieldkit.Kilometre, Terrain: fieldkit.Sand}}
		k.Packs = []fieldkit.Pack{{ID: "p", Trip: "t"}}
		v := viewPackTrip(storeOf(t, k), "t")
		assert.True(t, v.planned)
		assert.Zero(t, v.sheet.Totals.Lines)
		assert.Empty(t, v.shopping)
	})
}

func TestFirstUnpacked(t *testing.T) {
	bin := func(name string, ticked, rows int) spares.BinSheet {
		return spares.BinSheet{Bin: fieldkit.Bin{ID: name, Name: name}, Ticked: ticked, Rows: make([]spares.Row, rows)}
	}
	assert.Empty(t, firstUnpacked(nil))
	assert.Empty(t, firstUnpacked([]spares.BinSheet{bin("a", 2, 2), bin("b", 0, 0)}))
	assert.Equal(t, "b", firstUnpacked([]spares.BinSheet{bin("a", 2, 2), bin("b", 1, 3), bin("c", 0, 1)}))
	assert.Equal(t, "On no rig yet", firstUnpacked([]spares.BinSheet{{Rows: make([]spares.Row, 1)}}))
}

func TestViewPackLine(t *testing.T) {
	k := packed(t)
	s := storeOf(t, k)
	joint := spares.Ref{Type: fieldkit.SpareItem, Item: "ujoint-1310"}
	v := viewPackLine(s, demoTrip, joint)
	require.True(t, v.found)
	require.True(t, v.onList)
	assert.Equal(t, itemName(k, joint.Type, joint.Item), v.name)
	assert.Equal(t, k.Stock(joint.Item), v.stock)
	assert.NotEmpty(t, v.reason.Covers)
	assert.Contains(t, savesWords(v), " on average beside the rest of the list; ")
	assert.Len(t, v.bins, len(k.Bins)+2, "both rigs go, so all bins do, and what each carries in none")

	tool := viewPackLine(s, demoTrip, spares.Ref{Type: fieldkit.ToolItem, Item: k.Tools[0].ID})
	assert.NotContains(t, savesWords(tool), ";", "a tool rests on no likelihood of its own")

	leftOut := viewPackTrip(s, demoTrip).proposal.LeftOut
	require.NotEmpty(t, leftOut)
	v = viewPackLine(s, demoTrip, leftOut[0].Ref)
	assert.True(t, v.found)
	assert.False(t, v.onList)
	assert.NotEmpty(t, v.left.Text(fieldkit.Inch))
	assert.Contains(t, savesWords(v), "would be ")

	toCome(k).Never = []fieldkit.Item{{Type: v.ref.Type, Item: v.ref.Item, Count: 1}}
	assert.True(t, viewPackLine(storeOf(t, k), demoTrip, v.ref).never)
	assert.False(t, viewPackLine(storeOf(t, data.DemoKit()), demoTrip, joint).found, "without a list there is no line")
	assert.False(t, viewPackLine(storeOf(t, fieldkit.Kit{}), demoTrip, joint).found)
}

func TestItemStock(t *testing.T) {
	k := data.DemoKit()
	assert.Equal(t, 2, itemStock(k, spares.Ref{Type: fieldkit.ConsumableItem, Item: "brake-fluid"}))
	assert.Zero(t, itemStock(k, spares.Ref{Type: fieldkit.SpareItem, Item: "pads-front"}))
	for _, tool := range k.Tools {
		want := 0
		if tool.Owned {
			want = 1
		}
		assert.Equal(t, want, itemStock(k, spares.Ref{Type: fieldkit.ToolItem, Item: tool.ID}), tool.Name)
	}
}

func TestPackables(t *testing.T) {
	k := packed(t)
	all := packables(k, fieldkit.Pack{})
	assert.Len(t, all, k.Parts.Len()+len(k.Consumables)+len(k.Tools))
	rest := packables(k, *toCome(k))
	assert.Len(t, rest, len(all)-len(toCome(k).Lines))
	owned := slices.IndexFunc(all, func(p packable) bool { return p.stock == 0 })
	require.Positive(t, owned)
	for i, p := range all {
		assert.Equal(t, i < owned, p.stock > 0, "what is owned comes first: %s", p.name)
		if i > 0 && i != owned {
			assert.LessOrEqual(t, strings.ToLower(all[i-1].name), strings.ToLower(p.name))
		}
	}
	assert.Empty(t, packables(fieldkit.Kit{}, fieldkit.Pack{}))
}

func TestNarrowed(t *testing.T) {
	items := []packable{{name: "Front brake hose"}, {name: "front brake pads, wagon"}, {name: "rear brake pads"}}
	names := func(asked string) (list []string) {
		for _, it := range narrowed(items, asked) {
			list = append(list, it.name)
		}
		return list
	}
	assert.Len(t, names(""), 3)
	assert.Equal(t, []string{"front brake pads, wagon"}, names("pads FRONT"))
	assert.Empty(t, names("alternator"))
	assert.Len(t, items, 3, "the list itself is not touched")
}

func TestAddPieces(t *testing.T) {
	k, ref := data.DemoKit(), spares.Ref{Type: fieldkit.SpareItem, Item: "o-ring-014"}
	list := fieldkit.Pack{ID: "p", Trip: demoTrip}
	one := addPieces(k, list, ref, 1)
	require.Len(t, one.Lines, 1)
	assert.Equal(t, "h-cab-box", one.Lines[0].Bin, "it goes where its spare rides")
	assert.True(t, one.Lines[0].Pinned)
	three := addPieces(k, addPieces(k, one, ref, 1), ref, 1)
	assert.Equal(t, 3, countOn(three, ref))
	moved := spares.Move(three, ref, "w-drawer", "")
	assert.Equal(t, "w-drawer", addPieces(k, moved, ref, 1).Lines[0].Bin, "and stays where it was put")
	assert.Empty(t, addPieces(k, one, ref, -1).Lines)
	assert.Empty(t, addPieces(k, list, ref, -1).Lines)
	assert.Empty(t, list.Lines, "the list given is not touched")
}
