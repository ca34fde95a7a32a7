package app

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

func TestMoved(t *testing.T) {
	is := func(want string) func(string) bool { return func(s string) bool { return s == want } }
	list := []string{"a", "b", "c"}
	assert.Equal(t, []string{"b", "a", "c"}, moved(list, is("a"), 1))
	assert.Equal(t, []string{"a", "c", "b"}, moved(list, is("c"), -1))
	assert.Equal(t, list, moved(list, is("a"), -1), "at the top already")
	assert.Equal(t, list, moved(list, is("c"), 1), "at the end already")
	assert.Equal(t, list, moved(list, is("z"), 1))
	assert.Equal(t, []string{"a", "b", "c"}, list, "not changed in place")
}

func ids(list []fieldkit.Position) []string {
	var out []string
	for _, p := range list {
		out = append(out, p.ID)
	}
	return out
}

func TestMovingAPositionStaysAmongItsSiblings(t *testing.T) {
	k := data.DemoKit()
	for _, p := range k.PositionsOf("hobnail") {
		list := siblings(k, p)
		i := slices.IndexFunc(list, func(q fieldkit.Position) bool { return q.ID == p.ID })
		require.GreaterOrEqual(t, i, 0)
	}
	pump, _ := k.Position("hobnail-steering-pump")
	list := siblings(k, pump)
	require.Greater(t, len(list), 2)
	after, err := edited(t, k, func(e *journal.Edit) error {
		movePosition(e, pump.ID, 1)
		return nil
	})
	require.NoError(t, err)
	want := ids(list)
	want[0], want[1] = want[1], want[0]
	assert.Equal(t, want, ids(siblings(after, pump)))
	assert.Len(t, treeOrder(after, pump.System), len(treeOrder(k, pump.System)))
	ring, _ := after.Position("hobnail-steering-pump-port-ring")
	assert.Equal(t, []string{ring.ID}, ids(siblings(after, ring)), "what is under it went along")
}

func TestMovingToAnotherSystemTakesAlongWhatIsUnder(t *testing.T) {
	k := data.DemoKit()
	pump, _ := k.Position("hobnail-steering-pump")
	below := under(k, pump.ID)
	require.NotEmpty(t, below)
	var other fieldkit.Assembly
	for _, sys := range systemsOf(k, "hobnail") {
		if sys.ID != pump.System {
			other = sys
		}
	}
	pump.System = other.ID
	after, err := edited(t, k, func(e *journal.Edit) error {
		putPosition(e, pump)
		return nil
	})
	require.NoError(t, err)
	for _, p := range append(below, pump) {
		now, _ := after.Position(p.ID)
		assert.Equal(t, other.ID, now.System, p.ID)
	}
}

func TestParentOptionsNeverMakeARing(t *testing.T) {
	k := data.DemoKit()
	for _, p := range k.Positions.All() {
		list := parentOptions(k, p.System, p.ID)
		assert.False(t, offers(list, p.ID))
		for _, q := range under(k, p.ID) {
			assert.False(t, offers(list, q.ID), "%s under %s", q.ID, p.ID)
		}
		if p.Parent != "" {
			assert.True(t, offers(list, p.Parent), "%s keeps its parent", p.ID)
		}
	}
	ring := fieldkit.Kit{Positions: fieldkit.ListOf([]fieldkit.Position{{ID: "a", Parent: "b"}, {ID: "b", Parent: "a"}})}
	assert.Len(t, under(ring, "a"), 1, "a ring in a damaged kit ends")
}

func TestSystems(t *testing.T) {
	k := data.DemoKit()
	rig, rows := viewSystems(k, "hobnail")
	assert.Equal(t, "Hobnail", rig.Name)
	require.Greater(t, len(rows), 2)
	count := len(rows)
	total := 0
	for _, r := range rows {
		total += r.positions
	}
	assert.Equal(t, len(k.PositionsOf("hobnail")), total)

	after, err := edited(t, k, func(e *journal.Edit) error {
		addSystem(e, fieldkit.Assembly{ID: "air", Rig: "hobnail", Name: "on-board air"})
		renameSystems(e, map[string]string{rows[0].system.ID: "renamed", "gone": "x"})
		return nil
	})
	require.NoError(t, err)
	_, now := viewSystems(after, "hobnail")
	require.Len(t, now, count+1)
	assert.Equal(t, "on-board air", now[count].system.Name, "a new one comes last")
	assert.Equal(t, "renamed", now[0].system.Name)
	none, rows := viewSystems(k, "no-such-rig")
	assert.Empty(t, none.ID)
	assert.Empty(t, rows)
}

func TestTakeUpKeepsWhatIsBeingTyped(t *testing.T) {
	f := newForm("systems", map[string]string{"name/a": "steering", "name/b": "brakes"})
	f.set("name/a", "steering and ram")
	f.set("new", "air")
	takeUp(f, map[string]string{"name/a": "steering", "name/b": "brake", "name/c": "fuel"})
	assert.Equal(t, "steering and ram", f.get("name/a"))
	assert.Equal(t, "brake", f.get("name/b"))
	assert.Equal(t, "fuel", f.get("name/c"))
	f.forget("new")
	assert.Empty(t, f.get("new"))
	assert.Equal(t, "steering and ram", f.get("name/a"))
}
