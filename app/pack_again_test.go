package app

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/spares"
)

// What a trip used is to be bought again, whether or not it was packed by a list.
func TestRestockWithoutAList(t *testing.T) {
	v := viewPackTrip(storeOf(t, data.DemoKit()), "2026-09-high-tarn")
	require.True(t, v.found)
	require.False(t, v.planned)
	used := 0
	for _, f := range data.DemoKit().Failures.All() {
		if f.Trip == v.trip.ID {
			used += len(f.Used)
		}
	}
	require.Positive(t, used, "the demo trip used something")
	assert.NotEmpty(t, v.restock)
}

func TestNeedWords(t *testing.T) {
	n := spares.Need{Name: "ball joint", Count: 2, For: "1988 Dolvarne", Stores: []string{"parts chain store", "wrecking yard"}}
	title, cost, lines := needWords(n)
	assert.Equal(t, "2 × ball joint", title)
	assert.Equal(t, "price not known", cost)
	assert.Equal(t, []string{"For 1988 Dolvarne", "Parts chain store, wrecking yard"}, lines)
}

// What was used and is still there is not sold for nothing: it says that it is enough.
func TestRestockWords(t *testing.T) {
	n := spares.Need{Name: "ball joint", Used: 1, Stock: 1, Cost: &fieldkit.Money{Currency: "USD"}, Stores: []string{"wrecking yard"}}
	title, cost, lines := restockWords(n)
	assert.Equal(t, "ball joint", title)
	assert.Equal(t, "nothing to buy", cost)
	assert.Equal(t, []string{"1 used, 1 left: enough for this list"}, lines)

	n.Stock, n.Count = 0, 1
	title, _, lines = restockWords(n)
	assert.Equal(t, "1 × ball joint", title)
	assert.Equal(t, []string{"1 used, 0 left", "Wrecking yard"}, lines)
}

// The list of the trip before is the one made last that has a line, of a trip that is
// still known.
func TestListBefore(t *testing.T) {
	day := func(d int) fieldkit.Date { return fieldkit.Date{Year: 2026, Month: 5, Day: d} }
	line := []fieldkit.PackLine{{Type: fieldkit.ToolItem, Item: "jack", Count: 1}}
	k := fieldkit.Kit{
		Trips: []fieldkit.Trip{{ID: "a"}, {ID: "b"}, {ID: "empty"}, {ID: "new"}},
		Packs: []fieldkit.Pack{
			{ID: "2", Trip: "b", Made: day(2), Lines: line}, {ID: "1", Trip: "a", Made: day(1), Lines: line},
			{ID: "3", Trip: "empty", Made: day(3)}, {ID: "4", Trip: "deleted", Made: day(4), Lines: line}, {ID: "5", Trip: "new", Made: day(5), Lines: line},
		},
	}
	last, from, ok := listBefore(k, "new")
	require.True(t, ok)
	assert.Equal(t, "2", last.ID)
	assert.Equal(t, "b", from.ID)
	_, _, ok = listBefore(fieldkit.Kit{Packs: k.Packs[:1]}, "new")
	assert.False(t, ok)
}

// A list is taken again from the kit as it is when that is pressed, not as it was drawn.
func TestTakeAgainFromTheKitOfByNow(t *testing.T) {
	next := fieldkit.Trip{ID: "next", Name: "Widow's Rib again", Days: 3, Distance: 300 * fieldkit.Kilometre, Terrain: fieldkit.Rock, Rigs: []string{"hobnail"}}
	day := fieldkit.Date{Year: 2026, Month: 12, Day: 20}
	drawn := packed(t) // the kit when the button was drawn
	drawn.Trips = append(drawn.Trips, next)
	last := *toCome(drawn)
	at := slices.IndexFunc(last.Lines, func(l fieldkit.PackLine) bool { return l.Type == fieldkit.SpareItem && l.Count > 0 })
	require.GreaterOrEqual(t, at, 0)
	left := last.Lines[at]
	has := func(p fieldkit.Pack) bool {
		return slices.ContainsFunc(p.Lines, func(l fieldkit.PackLine) bool { return l.Type == left.Type && l.Item == left.Item })
	}
	press := func(meanwhile func(*journal.Edit)) (fieldkit.Kit, error) {
		return edited(t, drawn, func(e *journal.Edit) error {
			if meanwhile != nil {
				meanwhile(e)
			}
			return takeAgain(e, demoTrip, "next", "new-list", day)
		})
	}

	k, err := press(nil)
	require.NoError(t, err)
	taken, _ := packOf(k, "next")
	assert.Equal(t, "new-list", taken.ID)
	assert.Equal(t, day, taken.Made)
	assert.True(t, has(taken))

	k, err = press(func(e *journal.Edit) { // a line was taken off the other list
		p, _ := packOf(e.Kit(), demoTrip)
		p.Lines = slices.Delete(slices.Clone(p.Lines), at, at+1)
		e.Put(p)
	})
	require.NoError(t, err)
	taken, _ = packOf(k, "next")
	assert.NotEmpty(t, taken.Lines)
	assert.False(t, has(taken), "it is not taken from what was drawn")

	for name, meanwhile := range map[string]func(*journal.Edit){
		"the other list was deleted":  func(e *journal.Edit) { e.Delete("packs", last.ID) },
		"the other list was emptied":  func(e *journal.Edit) { e.Put(fieldkit.Pack{ID: last.ID, Trip: demoTrip}) },
		"the trip was deleted":        func(e *journal.Edit) { e.Delete("trips", "next") },
		"the trip got a list by then": func(e *journal.Edit) { e.Put(fieldkit.Pack{ID: "own", Trip: "next", Lines: last.Lines[:1]}) },
	} {
		_, err := press(meanwhile)
		assert.ErrorContains(t, err, "meanwhile", name)
	}

	k, err = press(func(e *journal.Edit) { // a list with no line on it is no reason to refuse: it is filled
		e.Put(fieldkit.Pack{ID: "own", Trip: "next"})
	})
	require.NoError(t, err)
	taken, _ = packOf(k, "next")
	assert.Equal(t, "own", taken.ID)
	assert.True(t, has(taken))
}
