package spares

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

// atLeast2 is P(N ≥ 2) = 1 − e^−m·(1 + m).
func atLeast2(m float64) float64 { return 1 - math.Exp(-m)*(1+m) }

// Worked by hand, no limits. A joint saves 8 − 2 = 6 h, a hose 5 − 1 = 4 h, a pump
// 10 − 2 = 8 h. Both joints together fail 0.2 times, the hose 0.2, the pump 0.05.
//
//	1st joint 6·(1 − e^−0.2)          = 1.0876 h
//	2nd joint 6·(1 − e^−0.2·1.2)      = 0.1051 h
//	3rd joint 6·P(N ≥ 3) = 6·0.00115  = 0.0069 h, under a minute: left
//	hoses     4·0.18127, 4·0.01752    = 0.7251 h, 0.0701 h; a third is left
//	1st pump  8·(1 − e^−0.05)         = 0.3902 h; a second saves 0.0097 h: left
func TestPlanWithoutLimits(t *testing.T) {
	p := Plan(testKit(t), testCatalog(), testGuides(t), testTrip(), nil)
	assert.Equal(t, map[Ref]int{
		spare("joint-a"): 2, spare("hose-a"): 2, spare("pump-a"): 1,
		consumable("grease"): 1, consumable("coolant"): 2, // a hose repair takes 2 L, a bottle holds 1 L
		tool("press"): 1, tool("spanners"): 1,
	}, counts(p.Pack))

	joints := 6 * (1 - math.Exp(-0.2) + atLeast2(0.2))
	hoses := 4 * (1 - math.Exp(-0.2) + atLeast2(0.2))
	pump := 8 * (1 - math.Exp(-0.05))
	assert.InDelta(t, 1.0876+0.1051, joints, 1e-4)
	assert.InDelta(t, joints+hoses+pump, float64(p.Value), 1e-12)
	// Without anything: 0.2·8 + 0.2·5 + 0.05·10 = 3.1 h.
	assert.InDelta(t, 3.1, float64(p.Bare), 1e-12)
	assert.InDelta(t, 3.1-joints-hoses-pump, float64(p.Left), 1e-12)

	joint := lineOf(t, p, spare("joint-a"))
	assert.InDelta(t, joints, float64(joint.Saves), 1e-12)
	assert.InDelta(t, joints/6, joint.Uses, 1e-12)
	require.Len(t, joint.Covers, 2)
	assert.Equal(t, "joint, left", joint.Covers[0].Title)
	assert.Equal(t, "starting guess", joint.Evidence)
	assert.Equal(t, fieldkit.Minutes(8*60), joint.Covers[0].Without)
	assert.Equal(t, "fits 2 places; used 0.20 times on average; saves ≈ 1.2 h (guess); starting guess", joint.Line.Why)

	// The spanners serve both repairs, the press only the joints.
	assert.InDelta(t, joints+hoses, float64(lineOf(t, p, tool("spanners")).Saves), 1e-12)
	assert.InDelta(t, joints, float64(lineOf(t, p, tool("press")).Saves), 1e-12)
	assert.Equal(t, []string{"Swap a hose", "Swap a joint"}, lineOf(t, p, tool("spanners")).Repairs)
}

// A kit counts in the hands of the crew, not on paper: without the press a joint is
// dead weight.
func TestPlanNeedsToolsAndConsumables(t *testing.T) {
	cases := []struct {
		name   string
		change func(*fieldkit.Kit)
		gone   []Ref
		stays  []Ref
		why    string
	}{
		{
			"no press in the kit", func(k *fieldkit.Kit) { k.Tools = k.Tools[1:] },
			[]Ref{spare("joint-a"), consumable("grease")}, []Ref{spare("hose-a"), tool("spanners")},
			"its repair needs joint press, and the kit lists none",
		},
		{
			"no grease in the kit", func(k *fieldkit.Kit) { k.Consumables = k.Consumables[1:] },
			[]Ref{spare("joint-a"), tool("press")}, []Ref{spare("hose-a")},
			"its repair needs grease, and the kit lists none",
		},
		{
			"sockets do a spanner's work", func(k *fieldkit.Kit) { k.Tools[1] = fieldkit.Tool{ID: "sockets", Kind: "sockets", Owned: true} },
			nil, []Ref{spare("joint-a"), spare("hose-a"), tool("sockets")}, "",
		},
		{
			"no tools listed at all: taken as at hand", func(k *fieldkit.Kit) { k.Tools = nil },
			nil, []Ref{spare("joint-a"), spare("hose-a")}, "",
		},
		{
			"no consumables listed at all: taken as at hand", func(k *fieldkit.Kit) { k.Consumables = nil },
			nil, []Ref{spare("joint-a"), tool("press")}, "",
		},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			kit := testKit(t)
			c.change(&kit)
			p := Plan(kit, testCatalog(), testGuides(t), testTrip(), nil)
			has := counts(p.Pack)
			for _, r := range c.gone {
				assert.Zero(t, has[r], "%v", r)
			}
			for _, r := range c.stays {
				assert.NotZero(t, has[r], "%v", r)
			}
			if c.why != "" {
				require.NotEmpty(t, p.LeftOut)
				assert.Equal(t, c.why, p.LeftOut[0].Text(fieldkit.Metric))
				// What one joint would save if it could be fitted: 6·(1 − e^−0.2).
				assert.InDelta(t, 6*(1-math.Exp(-0.2)), float64(p.LeftOut[0].Adds), 1e-12)
			}
		})
	}
}

// What a town sells within reach is worth less to carry. A joint: 8 h without, or 2·1 h
// to the town and back, where it is on the shelf 3 times in 4 and takes 2 h, and else
// the 8 h follow: 2 + 0.75·2 + 0.25·8 = 5.5 h, so a spare saves 3.5 h.
func TestPlanCountsTowns(t *testing.T) {
	trip := testTrip()
	trip.Towns = []fieldkit.Town{
		{Name: "Dunmarrow", Away: hour, Stores: []string{"parts"}},
		{Name: "Near Hut", Away: 10, Stores: []string{"museum"}}, // sells nothing for rigs
		{Name: "Fargate", Away: 5 * hour, Stores: []string{"parts", "dealer"}},
	}
	p := Plan(testKit(t), testCatalog(), testGuides(t), trip, nil)
	joint := lineOf(t, p, spare("joint-a"))
	assert.Equal(t, "Dunmarrow", joint.Covers[0].Town)
	assert.Equal(t, 5*hour+30, joint.Covers[0].Without)
	assert.InDelta(t, 3.5*(1-math.Exp(-0.2)+atLeast2(0.2)), float64(joint.Saves), 1e-12)
	// The pump's dealer is 5 h away: 2·5 + 2 = 12 h is no better than 10 h.
	assert.Empty(t, lineOf(t, p, spare("pump-a")).Covers[0].Town)
	assert.Contains(t, p.Notes, "one rig goes alone: where a part would be bought in town, the hours take it that somebody gives you a lift")
}

func TestPlanInterchange(t *testing.T) {
	link := func(id, wanted, with string, g fieldkit.Grade, changes ...string) fieldkit.Link {
		return fieldkit.Link{ID: id, For: wanted, With: with, Grade: g, Changes: changes, Evidence: fieldkit.TestFitted}
	}
	// The pump's own part is not to be had here (banned); pump B is looked at.
	pump := 8 * (1 - math.Exp(-0.05))
	cases := []struct {
		name  string
		links []fieldkit.Link
		saves float64
		grade fieldkit.Grade
	}{
		{"no link, no use", nil, 0, ""},
		{"drop-in counts in full", []fieldkit.Link{link("1", "pump-a", "pump-b", fieldkit.DropIn)}, pump, fieldkit.DropIn},
		{"drop-in holds both ways", []fieldkit.Link{link("1", "pump-b", "pump-a", fieldkit.DropIn)}, pump, fieldkit.DropIn},
		{"with changes counts for half", []fieldkit.Link{link("1", "pump-a", "pump-b", fieldkit.WithChanges, "swap the pulley")}, pump / 2, fieldkit.WithChanges},
		{"by hearsay counts for half", []fieldkit.Link{{ID: "1", For: "pump-a", With: "pump-b", Grade: fieldkit.DropIn, Evidence: fieldkit.Hearsay}}, pump / 2, fieldkit.DropIn},
		{"by hearsay and with changes for a quarter", []fieldkit.Link{{ID: "1", For: "pump-a", With: "pump-b", Grade: fieldkit.WithChanges}}, pump / 4, fieldkit.WithChanges},
		{"out of the store's book in full", []fieldkit.Link{{ID: "1", For: "pump-a", With: "pump-b", Grade: fieldkit.DropIn, Evidence: fieldkit.StoreBook}}, pump, fieldkit.DropIn},
		{"a contested chain counts not at all", []fieldkit.Link{
			link("1", "pump-a", "joint-a", fieldkit.DropIn), link("2", "joint-a", "hose-a", fieldkit.DropIn),
			link("3", "hose-a", "pump-b", fieldkit.DropIn), link("4", "joint-a", "pump-b", fieldkit.DoesNotFit),
		}, 0, ""},
		{"one-way in its direction", []fieldkit.Link{link("1", "pump-a", "pump-b", fieldkit.OneWay)}, pump, fieldkit.OneWay},
		{"one-way against its direction", []fieldkit.Link{link("1", "pump-b", "pump-a", fieldkit.OneWay)}, 0, ""},
		{"does not fit", []fieldkit.Link{link("1", "pump-a", "pump-b", fieldkit.DoesNotFit)}, 0, ""},
		{"does not fit beats a chain", []fieldkit.Link{
			link("1", "pump-a", "hose-a", fieldkit.DropIn), link("2", "hose-a", "pump-b", fieldkit.DropIn), link("3", "pump-a", "pump-b", fieldkit.DoesNotFit),
		}, 0, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			kit := testKit(t)
			kit.Positions = fieldkit.ListOf(kit.Positions.Slice()[3:])
			kit.Parts = kit.Parts.With(fieldkit.Part{ID: "pump-b", Kind: "pump", Name: "pump B"})
			kit.Links = fieldkit.ListOf(c.links)
			keep := Ban(Ban(Ban(fieldkit.Pack{}, spare("pump-a")), spare("hose-a")), spare("joint-a"))
			p := Plan(kit, testCatalog(), testGuides(t), testTrip(), &keep)
			if c.saves == 0 {
				assert.Empty(t, p.Lines)
				return
			}
			require.Len(t, p.Lines, 1)
			assert.Equal(t, spare("pump-b"), RefOf(p.Lines[0].Line))
			assert.InDelta(t, c.saves, float64(p.Lines[0].Saves), 1e-12)
			assert.Equal(t, c.grade, p.Lines[0].Covers[0].Grade)
			assert.Equal(t, "pump-a", p.Lines[0].Covers[0].Fitted)
		})
	}
}

// Two parts that fit the same place do not both claim its failures: with pump A on
// board pump B only saves the second failure, 8·P(N ≥ 2) = 0.0097 h, and stays home.
func TestPlanCountsNoFailureTwice(t *testing.T) {
	kit := testKit(t)
	kit.Positions = fieldkit.ListOf(kit.Positions.Slice()[3:])
	kit.Parts = kit.Parts.With(fieldkit.Part{ID: "pump-b", Kind: "pump", Name: "pump B"})
	kit.Links = fieldkit.ListOf([]fieldkit.Link{{ID: "1", For: "pump-a", With: "pump-b", Grade: fieldkit.DropIn, Evidence: fieldkit.TestFitted}})
	p := Plan(kit, testCatalog(), testGuides(t), testTrip(), nil)
	require.Len(t, p.Lines, 1)

	both := SetCount(SetCount(fieldkit.Pack{Trip: "loop"}, spare("pump-a"), 1), spare("pump-b"), 1)
	p = Explain(kit, testCatalog(), testGuides(t), testTrip(), both)
	assert.InDelta(t, 8*expectedUses(0.05, 2), float64(p.Value), 1e-12)
	for _, l := range p.Lines {
		assert.InDelta(t, 8*atLeast2(0.05), float64(l.Saves), 1e-12, "dropping either leaves the other")
	}
}

// Rigs of a crew share spares: with the same joint at one place of the second rig
// three places draw on the same pieces, mean 0.3.
func TestPlanPoolsTheCrew(t *testing.T) {
	kit := testKit(t)
	kit.Positions = kit.Positions.With(fieldkit.Position{ID: "m-joint", System: "all-mule", Name: "joint", Kind: "joint", Quantity: 1, Part: "joint-a"})
	trip := testTrip()
	trip.Rigs = []string{"badger", "mule", "badger"}
	p := Plan(kit, testCatalog(), testGuides(t), trip, nil)
	joint := lineOf(t, p, spare("joint-a"))
	assert.Len(t, joint.Covers, 3)
	assert.InDelta(t, 6*expectedUses(0.3, joint.Line.Count), float64(joint.Saves), 1e-12)
	assert.Equal(t, 3, joint.Line.Count, "a third is worth 6·P(N ≥ 3) = 6·0.0036 h = 1.3 min, over the minute that counts")
}

func TestPlanKeeps(t *testing.T) {
	kit, cat, guides := testKit(t), testCatalog(), testGuides(t)
	t.Run("pinned stays as it is", func(t *testing.T) {
		keep := SetCount(fieldkit.Pack{ID: "p"}, spare("pump-a"), 3)
		p := Plan(kit, cat, guides, testTrip(), &keep)
		assert.Equal(t, 3, counts(p.Pack)[spare("pump-a")])
		assert.Equal(t, "p", p.Pack.ID)
		assert.False(t, p.Pack.ByHand)
		assert.True(t, lineOf(t, p, spare("pump-a")).Line.Pinned)
	})
	t.Run("pinned at fewer than the plan would take", func(t *testing.T) {
		keep := SetCount(fieldkit.Pack{}, spare("joint-a"), 1)
		assert.Equal(t, 1, counts(Plan(kit, cat, guides, testTrip(), &keep).Pack)[spare("joint-a")])
	})
	t.Run("a consumable pinned at too few", func(t *testing.T) {
		keep := SetCount(fieldkit.Pack{}, consumable("coolant"), 1)
		p := Plan(kit, cat, guides, testTrip(), &keep)
		assert.NotContains(t, counts(p.Pack), spare("hose-a"))
		assert.Equal(t, "its repair needs coolant: what the kit has of it is banned, pinned at too few or without a price", p.LeftOut[0].Why)
	})
	t.Run("banned stays out, and its repair's tools with it", func(t *testing.T) {
		keep := Ban(fieldkit.Pack{}, spare("joint-a"))
		p := Plan(kit, cat, guides, testTrip(), &keep)
		assert.NotContains(t, counts(p.Pack), spare("joint-a"))
		assert.NotContains(t, counts(p.Pack), tool("press"))
		require.Len(t, p.LeftOut, 1)
		assert.Equal(t, "kept at home on purpose", p.LeftOut[0].Why)
		assert.Equal(t, keep.Never, p.Pack.Never)
	})
	t.Run("a banned tool keeps its spares out", func(t *testing.T) {
		keep := Ban(fieldkit.Pack{}, tool("press"))
		p := Plan(kit, cat, guides, testTrip(), &keep)
		assert.NotContains(t, counts(p.Pack), spare("joint-a"))
		require.Len(t, p.LeftOut, 1)
		assert.Equal(t, "its repair needs joint press: what the kit has of it is banned, pinned at too few or without a price", p.LeftOut[0].Why)
	})
	t.Run("a ban beats a pin", func(t *testing.T) {
		keep := SetCount(fieldkit.Pack{}, spare("pump-a"), 1)
		keep.Never = []fieldkit.Item{{Type: fieldkit.SpareItem, Item: "pump-a"}}
		assert.NotContains(t, counts(Plan(kit, cat, guides, testTrip(), &keep).Pack), spare("pump-a"))
	})
	t.Run("pinned over a limit stays and says so", func(t *testing.T) {
		trip := testTrip()
		trip.Limits.Mass = fieldkit.Kilogram
		tight := kit
		tight.Trips = []fieldkit.Trip{trip}
		keep := SetCount(fieldkit.Pack{}, spare("pump-a"), 1)
		p := Plan(tight, cat, guides, trip, &keep)
		assert.Equal(t, map[Ref]int{spare("pump-a"): 1}, counts(p.Pack))
		assert.Contains(t, p.Notes, "what stays on the list because it is pinned or ticked is by itself over a limit of the trip: take some of it off, or raise the limit")
		require.Len(t, p.Sheet.Totals.Over, 1)
		assert.Equal(t, "≈ 3 kg (6.6 lb) (guess) over the weight limit of the trip", p.Sheet.Totals.Over[0].Text(fieldkit.Metric))
	})
	t.Run("what is ticked stays as it is", func(t *testing.T) {
		first := Plan(kit, cat, guides, testTrip(), nil).Pack
		first = Tick(Tick(first, spare("joint-a"), true), spare("pump-a"), true)
		for i := range first.Lines {
			if first.Lines[i].Item == "joint-a" {
				first.Lines[i].Count = 1 // one was packed; the plan would take two
			}
		}
		trip := testTrip()
		trip.Limits.Mass = fieldkit.Kilogram
		p := Plan(kit, cat, guides, trip, &first)
		for ref, n := range map[Ref]int{spare("pump-a"): 1, spare("joint-a"): 1} {
			l := lineOf(t, p, ref).Line
			assert.True(t, l.Packed)
			assert.False(t, l.Pinned, "free again once the tick is taken off")
			assert.Equal(t, n, l.Count)
		}
		assert.Contains(t, p.Notes, "what stays on the list because it is pinned or ticked is by itself over a limit of the trip: take some of it off, or raise the limit")
	})
	t.Run("a pinned line that leads nowhere stays and is named", func(t *testing.T) {
		keep := SetCount(fieldkit.Pack{}, spare("gone"), 1)
		p := Plan(kit, cat, guides, testTrip(), &keep)
		assert.Contains(t, counts(p.Pack), spare("gone"))
		assert.Contains(t, p.Notes, `the list names "gone", which the kit does not hold`)
	})
}

func TestPlanNotes(t *testing.T) {
	kit, trip := testKit(t), testTrip()
	kit.Positions = kit.Positions.With(fieldkit.Position{ID: "hose-2", System: "all", Name: "lower hose", Kind: "hose", Quantity: 1})
	trip.Rigs = append(trip.Rigs, "ghost")
	p := Plan(kit, testCatalog(), testGuides(t), trip, nil)
	assert.Contains(t, p.Notes, `the trip names the rig "ghost", which the kit does not hold`)
	assert.Contains(t, p.Notes, "1 position may fail and has no part recorded: no spare can be matched there")
	assert.Contains(t, p.Notes, "4 of 4 likelihoods rest on a starting guess rather than on readings or your log")
	assert.Contains(t, p.Notes, "no repair is described for pump: see to their tools yourself")
	assert.InDelta(t, 3.1+0.2*5, float64(p.Bare), 1e-12, "a position with no part recorded fails all the same")
}

// Kinds that nobody can save time on are left alone: a bulb takes longer to change
// than to do without, and a frame has no rate.
func TestPlanLeavesWhatSavesNothing(t *testing.T) {
	kit := testKit(t)
	kit.Positions = fieldkit.ListOf([]fieldkit.Position{
		{ID: "lamp", System: "all", Name: "lamp", Kind: "bulb", Quantity: 1, Part: "bulb-a"},
		{ID: "frame", System: "all", Name: "frame", Kind: "frame", Quantity: 1, Part: "frame-a"},
		{ID: "odd", System: "all", Name: "odd", Kind: "no such kind", Quantity: 1, Part: "bulb-a"},
	})
	kit.Parts = fieldkit.ListOf([]fieldkit.Part{{ID: "bulb-a", Kind: "bulb"}, {ID: "frame-a", Kind: "frame"}})
	p := Plan(kit, testCatalog(), testGuides(t), testTrip(), nil)
	assert.Empty(t, p.Lines)
	assert.Empty(t, p.LeftOut)
}

func TestPlanOfAnEmptyKit(t *testing.T) {
	p := Plan(fieldkit.Kit{}, fieldkit.Catalog{}, nil, fieldkit.Trip{}, nil)
	assert.Empty(t, p.Lines)
	assert.Zero(t, p.Value)
}
