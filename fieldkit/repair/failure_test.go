package repair_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

func value(t testing.TB, text string) fieldkit.Value {
	t.Helper()
	v, err := fieldkit.ParseValue(text)
	require.NoError(t, err)
	return v
}

// farm is a kit with the gate's rig, its fitted hinge and what is in stock.
func farm(t testing.TB) fieldkit.Kit {
	kit := stockKit()
	kit.Rigs = []fieldkit.Rig{{ID: "rig", Name: "Rig", Odometer: 1200 * fieldkit.Kilometre, Traits: map[string]string{"post": "steel"}}}
	kit.Systems = []fieldkit.Assembly{{ID: "gates", Rig: "rig", Name: "gates"}}
	kit.Positions = fieldkit.ListOf([]fieldkit.Position{
		{ID: "leaf", System: "gates", Name: "leaf", Kind: "leaf", Quantity: 1},
		{ID: "upper", System: "gates", Parent: "leaf", Name: "hinge, upper", Side: fieldkit.Left, Kind: "hinge", Quantity: 1, Part: "hinge-a"},
		{ID: "latch", System: "gates", Parent: "leaf", Name: "latch", Kind: "latch", Quantity: 1},
	})
	kit.Parts = fieldkit.ListOf([]fieldkit.Part{{ID: "hinge-a", Kind: "hinge", Name: "hinge A"}, {ID: "hinge-b", Kind: "hinge", Name: "hinge B"}, {ID: "hinge-c", Kind: "hinge", Name: "hinge C"}})
	kit.Links = fieldkit.ListOf([]fieldkit.Link{{ID: "ab", For: "hinge-a", With: "hinge-b", Grade: fieldkit.WithChanges, Changes: []string{"drill the post"}, Evidence: fieldkit.TestFitted}})
	kit.Consumables = []fieldkit.Consumable{
		{ID: "oil-can", Kind: "oil", Name: "oil", Size: value(t, "500 mL"), Count: 2},
		{ID: "rope-coil", Kind: "rope", Name: "rope", Size: value(t, "10"), Count: 1},
	}
	kit.Trips = []fieldkit.Trip{
		{ID: "past", Rigs: []string{"rig"}, Start: fieldkit.Date{Year: 2026, Month: time.May, Day: 13}, Days: 4, Done: true},
		{ID: "now", Rigs: []string{"rig"}, Start: fieldkit.Date{Year: 2026, Month: time.May, Day: 13}, Days: 2},
		{ID: "later", Rigs: []string{"rig"}, Start: fieldkit.Date{Year: 2026, Month: time.May, Day: 20}, Days: 2},
	}
	return kit
}

var (
	properWay = [][2]string{{"prop"}, {"spare", "Yes"}, {"oil"}, {"screw"}, {"paint"}, {"swing"}}
	fieldWay  = [][2]string{{"prop"}, {"spare", "No"}, {"tie"}, {"swing"}}
)

func TestFailureFrom(t *testing.T) {
	g, kit := gate(t), farm(t)
	run := follow(t, g, steel, properWay...)
	run.Position = "upper"
	f := repair.FailureFrom(g, run, kit, moment(9, 35), "f1")
	assert.Equal(t, fieldkit.Failure{
		ID: "f1", Rig: "rig", Run: "run", Trip: "now",
		On: fieldkit.Date{Year: 2026, Month: time.May, Day: 14}, At: fieldkit.Moment{Time: time.Date(2026, time.May, 14, 9, 35, 7, 0, time.UTC)},
		Odometer: 1200 * fieldkit.Kilometre, Position: "upper", Part: "hinge-a",
		What: "gate hinge failed: hinge, upper, left", Fix: "hinge replaced", Lost: 95,
		Used: []fieldkit.Item{spare("hinge-a", 1), consumable("oil-can", 1)},
	}, f)
}

func TestFailureUses(t *testing.T) {
	g := gate(t)
	for name, c := range map[string]struct {
		way  [][2]string
		at   string
		edit func(k *fieldkit.Kit)
		used []fieldkit.Item
		fix  string
	}{
		"the field fix fits no spare":            {fieldWay, "upper", nil, nil, "Field fix: hinge tied with rope"},
		"a little of a pack stays in stock":      {fieldWay, "upper", func(k *fieldkit.Kit) { k.Consumables[1].Size = value(t, "5") }, nil, "Field fix: hinge tied with rope"},
		"half a pack counts as one":              {fieldWay, "upper", func(k *fieldkit.Kit) { k.Consumables[1].Size = value(t, "4") }, []fieldkit.Item{consumable("rope-coil", 1)}, "Field fix: hinge tied with rope"},
		"several packs, as many as there are":    {fieldWay, "upper", func(k *fieldkit.Kit) { k.Consumables[1].Size = value(t, "0.5") }, []fieldkit.Item{consumable("rope-coil", 1)}, "Field fix: hinge tied with rope"},
		"a pack that cannot be compared":         {fieldWay, "upper", func(k *fieldkit.Kit) { k.Consumables[1].Size = value(t, "3 m") }, nil, "Field fix: hinge tied with rope"},
		"no spare of it: the stand-in":           {properWay, "upper", func(k *fieldkit.Kit) { k.Spares.Ref(0).Count, k.Spares.Ref(2).Count = 0, 0 }, []fieldkit.Item{spare("hinge-b", 1), consumable("oil-can", 1)}, "hinge replaced"},
		"neither in stock":                       {properWay, "upper", func(k *fieldkit.Kit) { k.Spares = fieldkit.List[fieldkit.Spare]{} }, []fieldkit.Item{consumable("oil-can", 1)}, "hinge replaced"},
		"a position above finds the one below":   {properWay, "leaf", nil, []fieldkit.Item{spare("hinge-a", 1), consumable("oil-can", 1)}, "hinge replaced"},
		"a position beside finds its neighbour":  {properWay, "latch", nil, []fieldkit.Item{spare("hinge-a", 1), consumable("oil-can", 1)}, "hinge replaced"},
		"as many as are fitted there":            {properWay, "upper", func(k *fieldkit.Kit) { k.Positions.Ref(1).Quantity = 2; k.Spares.Ref(0).Count = 5 }, []fieldkit.Item{spare("hinge-a", 2), consumable("oil-can", 1)}, "hinge replaced"},
		"no position, no spare":                  {properWay, "", nil, []fieldkit.Item{consumable("oil-can", 1)}, "hinge replaced"},
		"nothing done yet":                       {nil, "upper", nil, nil, ""},
		"left half-way: only what was used then": {properWay[:3], "upper", nil, []fieldkit.Item{consumable("oil-can", 1)}, ""},
	} {
		t.Run(name, func(t *testing.T) {
			kit := farm(t)
			if c.edit != nil {
				c.edit(&kit)
			}
			run := follow(t, g, steel, c.way...)
			run.Position = c.at
			f := repair.FailureFrom(g, run, kit, moment(9, 0), "f")
			assert.Equal(t, c.used, f.Used)
			assert.Equal(t, c.fix, f.Fix)
		})
	}

	run := follow(t, g, steel, properWay...)
	run.Used = []fieldkit.Item{spare("hinge-c", 1)}
	assert.Equal(t, run.Used, repair.FailureFrom(g, run, farm(t), moment(9, 0), "f").Used, "what was noted on the way stands")
	assert.Zero(t, repair.FailureFrom(g, run, farm(t), moment(7, 0), "f").Lost, "a clock set back loses nothing")
	run.Started = fieldkit.Moment{}
	assert.Zero(t, repair.FailureFrom(g, run, farm(t), moment(7, 0), "f").Lost)
}

// The draft claims no failure that the way did not find, and what it does not claim
// counts for no position.
func TestFailureClaimsOnlyWhatWasFound(t *testing.T) {
	const failed, sound, looked = "gate hinge failed: hinge, upper, left", "checked, no failure found: Gate hinge: hinge, upper, left", "looked at: Gate hinge: hinge, upper, left"
	spareAnswer := func(g *repair.Guide) { g.Steps[3].Options[1].Sound = true }
	tieStep := func(g *repair.Guide) { g.Steps[4].Sound = true }
	for name, c := range map[string]struct {
		mark func(g *repair.Guide)
		way  [][2]string
		what string
	}{
		"to the end of the proper fix":       {nil, properWay, failed},
		"to the end of the field fix":        {nil, fieldWay, failed},
		"left in the middle of a fix":        {nil, properWay[:3], failed},
		"left where a fix begins":            {nil, fieldWay[:2], failed},
		"left before anything was found":     {nil, properWay[:1], looked},
		"not begun":                          {nil, nil, looked},
		"an answer that finds it sound":      {spareAnswer, fieldWay, sound},
		"another answer to the same":         {spareAnswer, properWay, failed},
		"left right after that answer":       {spareAnswer, fieldWay[:2], sound},
		"through a step for what is sound":   {tieStep, fieldWay, sound},
		"standing at the step that is sound": {tieStep, fieldWay[:2], sound},
		"past the step that is sound":        {tieStep, properWay, failed},
		"standing at a stop":                 {func(g *repair.Guide) { g.Steps[4].Stage = repair.Stop }, fieldWay[:2], failed},
		"a stop for what is sound":           {func(g *repair.Guide) { g.Steps[4].Stage, g.Steps[4].Sound = repair.Stop, true }, fieldWay[:2], sound},
	} {
		t.Run(name, func(t *testing.T) {
			g := gate(t)
			if c.mark != nil {
				c.mark(&g)
			}
			run := follow(t, g, steel, c.way...)
			run.Position = "upper"
			f := repair.FailureFrom(g, run, farm(t), moment(9, 0), "f")
			assert.Equal(t, c.what, f.What)
			assert.Equal(t, c.what == sound, g.Sound(run))
			if c.what == failed {
				assert.Equal(t, []string{"upper", "hinge-a"}, []string{f.Position, f.Part})
			} else {
				assert.Empty(t, f.Position+f.Part)
			}
		})
	}
}

// The day is the one where the person is, not the one at Greenwich.
func TestFailureDayIsLocal(t *testing.T) {
	west := time.FixedZone("", -8*3600)
	now := fieldkit.Moment{Time: time.Date(2026, time.May, 14, 20, 0, 0, 0, west)}
	f := repair.FailureFrom(gate(t), fieldkit.Run{Rig: "rig"}, farm(t), now, "f")
	assert.Equal(t, "2026-05-14", f.On.String())
	assert.Equal(t, "2026-05-15T04:00:00Z", string(must(f.At.MarshalText())))
}

// Two different parts of one kind sit in one wheel end: both are drawn from stock,
// and each is asked for by itself.
func TestTwoPartsOfOneKind(t *testing.T) {
	g, kit := gate(t), farm(t)
	g.Parts = []repair.PartNeed{{Kind: "hinge", Count: 2}}
	kit.Positions = kit.Positions.With(fieldkit.Position{ID: "lower", System: "gates", Parent: "leaf", Name: "hinge, lower", Kind: "hinge", Quantity: 1, Part: "hinge-c"},
		fieldkit.Position{ID: "third", System: "gates", Parent: "leaf", Name: "hinge, third", Kind: "hinge", Quantity: 1, Part: "hinge-b"})
	kit.Spares = kit.Spares.With(fieldkit.Spare{ID: "s4", Part: "hinge-c", Count: 1})
	run := follow(t, g, steel, properWay...)
	run.Position = "lower"
	f := repair.FailureFrom(g, run, kit, moment(9, 0), "f")
	assert.Equal(t, []fieldkit.Item{spare("hinge-c", 1), spare("hinge-a", 1), consumable("oil-can", 1)}, f.Used, "its own first, then beside it, no more than are needed")

	n := repair.CheckNeeds(g, kit, fieldkit.Catalog{}, "lower")
	require.Len(t, n.Parts, 2)
	assert.Equal(t, []string{"hinge, lower", "hinge, upper, left"}, []string{n.Parts[0].Where, n.Parts[1].Where})
	assert.Equal(t, []string{"hinge-c", "hinge-a"}, []string{n.Parts[0].Wanted, n.Parts[1].Wanted})
	assert.Equal(t, 1, n.Parts[0].Count)

	kit.Positions.Ref(3).Part = "hinge-a" // both alike now: one line, two pieces
	n = repair.CheckNeeds(g, kit, fieldkit.Catalog{}, "lower")
	require.Len(t, n.Parts, 1)
	assert.Equal(t, 2, n.Parts[0].Count)
	assert.Equal(t, []fieldkit.Item{spare("hinge-a", 2), consumable("oil-can", 1)}, repair.FailureFrom(g, run, kit, moment(9, 0), "f").Used)

	g.Parts[0].Optional = true
	run.Position = "latch"
	assert.Equal(t, []fieldkit.Item{consumable("oil-can", 1)}, repair.FailureFrom(g, run, kit, moment(9, 0), "f").Used, "what is fitted only if it is bad is not guessed from beside")
}

func TestCheckNeeds(t *testing.T) {
	g := gate(t)
	cat := fieldkit.Catalog{
		PartKinds:   []fieldkit.PartKind{{ID: "hinge", Name: "strap hinge"}},
		ToolKinds:   []fieldkit.ToolKind{{ID: "driver", Name: "screwdriver", Alternatives: []string{"knife", "coin"}}, {ID: "knife", Name: "pocket knife"}, {ID: "saw", Name: "hand saw"}},
		Consumables: []fieldkit.ConsumableKind{{ID: "oil", Name: "light oil", Grade: "ISO VG 32"}},
	}
	kit := farm(t)
	n := repair.CheckNeeds(g, kit, cat, "upper")
	require.Len(t, n.Tools, 1, "a steel post needs no saw")
	assert.Equal(t, "screwdriver", n.Tools[0].Name)
	assert.Len(t, n.Tools[0].Have, 1)
	assert.True(t, n.Tools[0].Ready())
	require.Len(t, n.Consumables, 2)
	assert.Equal(t, "light oil", n.Consumables[0].Name)
	assert.True(t, n.Consumables[0].Enough)
	assert.Equal(t, "rope", n.Consumables[1].Name, "without a catalog entry the ID is the name")
	require.Len(t, n.Parts, 1)
	assert.Equal(t, "hinge-a", n.Parts[0].Wanted)
	require.Len(t, n.Parts[0].Have, 2)
	assert.Equal(t, repair.Stocked{Part: kit.Parts.At(0), Count: 3, Grade: fieldkit.DropIn}, n.Parts[0].Have[0])
	assert.Equal(t, repair.Stocked{Part: kit.Parts.At(1), Count: 4, Grade: fieldkit.WithChanges, Changes: []string{"drill the post"}}, n.Parts[0].Have[1])
	assert.True(t, n.Parts[0].Ready())

	t.Run("a tool that does the job instead", func(t *testing.T) {
		kit := farm(t)
		kit.Tools = []fieldkit.Tool{{ID: "k", Kind: "knife", Owned: true}, {ID: "d", Kind: "driver", Owned: false}}
		n := repair.CheckNeeds(g, kit, cat, "upper")
		assert.Empty(t, n.Tools[0].Have)
		assert.Len(t, n.Tools[0].Instead, 1)
		assert.Equal(t, []string{"coin"}, n.Tools[0].Others)
		assert.True(t, n.Tools[0].Ready())
		kit.Tools = nil
		assert.False(t, repair.CheckNeeds(g, kit, cat, "upper").Tools[0].Ready())
	})
	t.Run("packs add up", func(t *testing.T) {
		kit := farm(t)
		kit.Consumables = []fieldkit.Consumable{{ID: "a", Kind: "oil", Size: value(t, "100 mL"), Count: 2}, {ID: "b", Kind: "oil", Size: value(t, "50 mL"), Count: 1}}
		assert.False(t, repair.CheckNeeds(g, kit, cat, "upper").Consumables[0].Ready())
		kit.Consumables[1].Count = 1 << 40
		assert.True(t, repair.CheckNeeds(g, kit, cat, "upper").Consumables[0].Ready())
		kit.Consumables[0] = fieldkit.Consumable{ID: "a", Kind: "oil", Size: value(t, "a tin"), Count: 1}
		assert.True(t, repair.CheckNeeds(g, kit, cat, "upper").Consumables[0].Ready(), "a pack that cannot be compared will do")
	})
	t.Run("no position", func(t *testing.T) {
		n := repair.CheckNeeds(g, farm(t), cat, "")
		assert.Len(t, n.Tools, 2, "the rig is not known, so the saw may be needed")
		require.Len(t, n.Parts[0].Have, 2)
		assert.Empty(t, n.Parts[0].Have[0].Grade)
		assert.False(t, n.Parts[0].Ready(), "whether it fits is not known")
	})
	t.Run("no spare", func(t *testing.T) {
		kit := farm(t)
		kit.Spares = fieldkit.List[fieldkit.Spare]{}
		assert.False(t, repair.CheckNeeds(g, kit, cat, "upper").Parts[0].Ready())
	})
}
