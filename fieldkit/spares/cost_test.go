package spares

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

func TestCostOf(t *testing.T) {
	parts := []string{"parts"}
	cases := []struct {
		name     string
		position string
		edit     func(*fieldkit.Trip)
		town     fieldkit.Minutes
		without  fieldkit.Minutes
		way      Way
	}{
		{"no town", "joint-l", nil, 0, 8 * hour, LimpedOut},
		{"a town near", "joint-l", func(t *fieldkit.Trip) { t.Towns = []fieldkit.Town{{Name: "A", Away: hour, Stores: parts}} },
			5*hour + 30, 5*hour + 30, ByTown},
		// Ordered in an hour: 2 + 0.75·2 + 0.25·3 = 4.25 h.
		{"what is not there comes soon", "joint-l", func(t *fieldkit.Trip) {
			t.Towns = []fieldkit.Town{{Name: "A", Away: hour, Stores: parts, Order: hour}}
		}, 4*hour + 15, 4*hour + 15, ByTown},
		// On the shelf one time in four: 2 + 0.25·2 + 0.75·3 = 4.75 h.
		{"the shelf set by hand", "joint-l", func(t *fieldkit.Trip) {
			t.Towns = []fieldkit.Town{{Name: "A", Away: hour, Stores: parts, Order: hour}}
			t.Costs = []fieldkit.Cost{{Position: "joint-l", Shelf: 25}}
		}, 4*hour + 45, 4*hour + 45, ByTown},
		{"a shelf in no town that sells it", "joint-l", func(t *fieldkit.Trip) {
			t.Towns = []fieldkit.Town{{Name: "Hut", Away: hour}}
			t.Costs = []fieldkit.Cost{{Position: "joint-l", Shelf: 100}}
		}, 0, 8 * hour, LimpedOut},
		// The second store of the hose's list has it 6 times in 10: with both 0.9.
		{"two stores that may have it", "hose", func(t *fieldkit.Trip) {
			t.Towns = []fieldkit.Town{{Name: "A", Away: 30, Stores: []string{"parts", "farm"}}}
		}, hour + 54 + 30, hour + 54 + 30, ByTown},
		// From Thursday to Monday, closed on Sunday: one day of five waits 24 h.
		{"closed on Sunday", "joint-l", func(t *fieldkit.Trip) {
			t.Towns = []fieldkit.Town{{Name: "A", Away: hour, Stores: parts, Closed: []fieldkit.Weekday{fieldkit.Sunday}}}
		}, 5*hour + 30 + 24*hour/5, 8 * hour, LimpedOut},
		{"a town too far", "joint-l", func(t *fieldkit.Trip) { t.Towns = []fieldkit.Town{{Name: "A", Away: 9 * hour, Stores: parts}} },
			18*hour + 3*hour + 30, 8 * hour, LimpedOut},
		{"the nearer of two", "joint-l", func(t *fieldkit.Trip) {
			t.Towns = []fieldkit.Town{{Name: "A", Away: 9 * hour, Stores: parts}, {Name: "B", Away: 10, Stores: parts}}
		}, 3*hour + 50, 3*hour + 50, ByTown},
		{"town set by hand", "joint-l", func(t *fieldkit.Trip) {
			t.Costs = []fieldkit.Cost{{Position: "joint-l", Town: 3 * hour}}
		}, 3 * hour, 3 * hour, ByTown},
		{"recovery set by hand", "joint-l", func(t *fieldkit.Trip) {
			t.Costs = []fieldkit.Cost{{Position: "joint-l", Recovered: 30 * hour, Move: fieldkit.Walk}}
		}, 0, 30 * hour, FetchedOut},
		// It has to be fetched from the nearest town, half an hour away.
		{"stays where it is", "joint-l", func(t *fieldkit.Trip) {
			t.Costs = []fieldkit.Cost{{Position: "joint-l", Move: fieldkit.Walk}}
			t.Towns = []fieldkit.Town{{Name: "Hut", Away: 30}}
		}, 0, 9 * hour, FetchedOut},
		{"towed by the other rig", "joint-l", func(t *fieldkit.Trip) {
			t.Costs = []fieldkit.Cost{{Position: "joint-l", Move: fieldkit.Tow}}
			t.Rigs = []string{"badger", "mule"}
			t.Towns = []fieldkit.Town{{Name: "Hut", Away: 30}}
		}, 0, 8 * hour, TowedOut},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			kit, trip := testKit(t), testTrip()
			if c.edit != nil {
				c.edit(&trip)
			}
			p, _ := kit.Position(c.position)
			cost := CostOf(testCatalog(), testGuides(t), trip, kit.Rigs[0], p)
			assert.Equal(t, c.town, cost.Town, "by town")
			assert.Equal(t, c.without, cost.Without, "without")
			assert.Equal(t, c.way, cost.Way)
			assert.NotEmpty(t, cost.Words())
		})
	}
}

// The parts shown come to the average: 2 h of way, one day of five 24 h of waiting, then
// 2 h three times in four, 3 h else.
func TestTownRunSaysItsParts(t *testing.T) {
	trip := testTrip()
	trip.Towns = []fieldkit.Town{{Name: "A", Away: hour, Stores: []string{"parts", "farm"}, Order: hour, Closed: []fieldkit.Weekday{fieldkit.Sunday}}}
	kit := testKit(t)
	p, _ := kit.Position("joint-l")
	c := CostOf(testCatalog(), testGuides(t), trip, kit.Rigs[0], p)
	assert.Equal(t, "2 h there and back, 4 h 48 min on average until it is open, then 2 h if the part is there, else 3 h: ordered in, or given up", c.Run.Words())
	assert.Equal(t, []string{"parts"}, c.Run.Stores, "of the kinds of store there, those that sell such a part")
	assert.Equal(t, 2*hour+4*hour+48+2*hour+15, c.Town)
	assert.Equal(t, "2 h there and back, then 1 h if the part is there, else 8 h: ordered in, or given up", TownRun{Drive: 2 * hour, Found: hour, Else: 8 * hour}.Words())
}

func TestYardsticks(t *testing.T) {
	trip := testTrip()
	c := Cost{Move: fieldkit.Walk, Carried: 2 * hour, Recovered: 10 * hour, Without: 10 * hour, Way: FetchedOut}
	counts := func() [2]Hours {
		without, with := c.Counts(trip)
		return [2]Hours{without, with}
	}
	assert.Equal(t, [2]Hours{10, 2}, counts())
	trip.Yardstick = fieldkit.ByHome
	assert.Equal(t, [2]Hours{24, 0}, counts())
	trip.Yardstick, trip.HourWorth, trip.RecoveryPrice = fieldkit.ByMoney, usd(5000), usd(40_000)
	assert.Equal(t, [2]Hours{18, 2}, counts(), "400 at 50 an hour are eight hours more")
	c.Move = fieldkit.Limp
	assert.Equal(t, [2]Hours{10, 2}, counts(), "nobody is paid for fetching it")
	trip.Yardstick = fieldkit.ByHome
	assert.Equal(t, [2]Hours{0, 0}, counts())
}

// What the repairs rule of the demo's rigs: a full-float axle drives on without its
// shaft by the other one, a tie rod end that popped out is towed at most. Where no
// repair rules, the catalog's guess stands.
func TestMoveFollowsTheRepairs(t *testing.T) {
	kit, cat, guides := data.DemoKit(), data.Catalog(), data.Guides()
	for position, want := range map[string][]fieldkit.Move{
		"hobnail-rear-shaft-left":   {fieldkit.Limp},
		"hobnail-headlamp-bulb":     {fieldkit.Limp},
		"hobnail-steering-box":      {fieldkit.Tow},
		"hobnail-spindle-left":      {fieldkit.Walk},
		"hobnail-crank-sensor":      {fieldkit.Tow},
		"wicket-tie-rod-end-left":   {fieldkit.Tow},
		"hobnail-steering-pump":     {fieldkit.Limp},
		"wicket-unit-bearing-right": {fieldkit.Tow},
	} {
		p, ok := kit.Position(position)
		assert.True(t, ok, position)
		rig, _ := kit.RigOf(p)
		kind, _ := cat.PartKind(p.Kind)
		assert.Equal(t, want, []fieldkit.Move{moveOf(kind, guides, rig)}, position)
	}
	rig := fieldkit.Rig{ID: "r"}
	assert.Equal(t, fieldkit.Limp, moveOf(fieldkit.PartKind{}, nil, rig), "nothing known")
	g := repair.Guide{ID: "g", Roll: []repair.Ruling{{Verdict: repair.May}}, Drive: []repair.Ruling{{Verdict: repair.MayNot}}}
	assert.Equal(t, fieldkit.Tow, moveOf(fieldkit.PartKind{Repairs: []string{"g"}}, []repair.Guide{g}, rig))
	g.Roll[0].Verdict = repair.MayNot
	assert.Equal(t, fieldkit.Walk, moveOf(fieldkit.PartKind{Repairs: []string{"g"}}, []repair.Guide{g}, rig))
}
