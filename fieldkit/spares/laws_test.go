package spares

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// randomKit has two rigs, parts that fit each other this way and that, a stock, and
// tools some of which are owned.
func randomKit(t testing.TB, src *rand.Rand) (fieldkit.Kit, fieldkit.Trip) {
	kit := testKit(t)
	kinds := []string{"joint", "hose", "pump"}
	kit.Parts, kit.Positions = fieldkit.List[fieldkit.Part]{}, fieldkit.List[fieldkit.Position]{}
	for i := range 9 {
		kit.Parts = kit.Parts.With(fieldkit.Part{
			ID: fmt.Sprintf("part-%d", i), Kind: kinds[i%3], Name: fmt.Sprintf("part %d", i),
			Mass: fieldkit.Mass(100+src.IntN(3000)) * fieldkit.Gram, Volume: fieldkit.Volume(100+src.IntN(3000)) * fieldkit.Millilitre,
			Price: usd(int64(500 + src.IntN(9000))),
		})
		if src.IntN(2) == 0 {
			kit.Spares = kit.Spares.With(fieldkit.Spare{ID: fmt.Sprintf("s-%d", i), Part: kit.Parts.At(i).ID, Count: src.IntN(3), Bin: []string{"", "drawer", "box"}[src.IntN(3)]})
		}
	}
	for i := range 14 {
		kind := src.IntN(3)
		kit.Positions = kit.Positions.With(fieldkit.Position{
			ID: fmt.Sprintf("pos-%d", i), System: []string{"all", "all-mule"}[src.IntN(2)], Name: fmt.Sprintf("place %d", i),
			Kind: kinds[kind], Quantity: 1, Part: fmt.Sprintf("part-%d", kind+3*src.IntN(3)),
		})
	}
	grades := []fieldkit.Grade{fieldkit.DropIn, fieldkit.WithChanges, fieldkit.OneWay, fieldkit.DoesNotFit}
	for i := range 6 {
		kind := src.IntN(3)
		kit.Links = kit.Links.With(fieldkit.Link{
			ID: fmt.Sprintf("link-%d", i), For: fmt.Sprintf("part-%d", kind+3*src.IntN(3)), With: fmt.Sprintf("part-%d", kind+3*src.IntN(3)),
			Grade: grades[src.IntN(4)], Evidence: fieldkit.EvidenceOrder[src.IntN(7)], Changes: []string{"file it"}[:src.IntN(2)],
		})
	}
	for i := range kit.Tools {
		kit.Tools[i].Owned, kit.Tools[i].Price = src.IntN(2) == 0, usd(int64(src.IntN(8000)))
		kit.Tools[i].Mass = fieldkit.Mass(src.IntN(4000)) * fieldkit.Gram
	}
	trip := testTrip()
	trip.Rigs = []string{"badger", "mule"}
	trip.Distance *= fieldkit.Distance(1 + src.IntN(4))
	trip.Limits = fieldkit.Limits{Mass: fieldkit.Mass(src.IntN(20)) * fieldkit.Kilogram, Volume: fieldkit.Volume(src.IntN(20)) * fieldkit.Litre}
	if src.IntN(2) == 0 {
		trip.Limits.Money = usd(int64(src.IntN(40000)))
	}
	kit.Trips = []fieldkit.Trip{trip}
	return kit, trip
}

func TestPlanLaws(t *testing.T) {
	src := rand.New(rand.NewPCG(11, 12))
	cat, guides := testCatalog(), testGuides(t)
	for round := range 60 {
		kit, trip := randomKit(t, src)
		p := Plan(kit, cat, guides, trip, nil)
		where := fmt.Sprintf("round %d", round)
		for _, o := range p.Sheet.Totals.Over {
			assert.Fail(t, "over a limit", "%s: %s", where, o.Text(fieldkit.Metric))
		}
		assert.LessOrEqual(t, float64(p.Value), float64(p.Bare)+1e-9, where)
		assert.InDelta(t, float64(p.Bare-p.Value), float64(p.Left), 1e-9, where)

		// What the list is said to be good for is what it is good for as it stands.
		assertSaidAlike(t, p, Explain(kit, cat, guides, trip, p.Pack), where)

		// Planning again from the list changes nothing.
		assert.Equal(t, counts(p.Pack), counts(Plan(kit, cat, guides, trip, &p.Pack).Pack), where)

		// The order of the kit's records never matters.
		shuffled := shuffle(kit, src)
		mixed := slices.Clone(guides)
		slices.Reverse(mixed)
		assert.Equal(t, p.Pack, Plan(shuffled, cat, mixed, trip, nil).Pack, where)

		if len(p.Pack.Lines) == 0 {
			continue
		}
		// What is banned stays out, what is pinned stays in.
		ref := RefOf(p.Pack.Lines[src.IntN(len(p.Pack.Lines))])
		around := func(keep fieldkit.Pack) map[Ref]int {
			again := Plan(kit, cat, guides, trip, &keep)
			assertSaidAlike(t, again, Explain(kit, cat, guides, trip, again.Pack), where)
			return counts(again.Pack)
		}
		assert.NotContains(t, around(Ban(p.Pack, ref)), ref, where)
		assert.Equal(t, 2, around(SetCount(p.Pack, ref, 2))[ref], where)
		assert.NotContains(t, around(SetCount(p.Pack, ref, 0)), ref, where)
		if ref != tool("press") {
			assert.Equal(t, counts(p.Pack)[ref], around(Tick(Ban(p.Pack, tool("press")), ref, true))[ref], where)
		}
	}
}

// assertSaidAlike compares what planning says of its list with what is said of that list
// when it is opened: all the same but for the proof, which only planning has.
func assertSaidAlike(t *testing.T, planned, opened Proposal, where string) {
	t.Helper()
	opened.Bound, opened.Proved = planned.Bound, planned.Proved
	assert.Equal(t, planned, opened, where)
}

func shuffle(kit fieldkit.Kit, src *rand.Rand) fieldkit.Kit {
	kit.Parts = fieldkit.ListOf(mixed(src, kit.Parts.Slice()))
	kit.Positions = fieldkit.ListOf(mixed(src, kit.Positions.Slice()))
	kit.Links = fieldkit.ListOf(mixed(src, kit.Links.Slice()))
	kit.Spares = fieldkit.ListOf(mixed(src, kit.Spares.Slice()))
	kit.Tools = mixed(src, kit.Tools)
	kit.Consumables = mixed(src, kit.Consumables)
	kit.Bins = mixed(src, kit.Bins)
	kit.Rigs = mixed(src, kit.Rigs)
	kit.Systems = mixed(src, kit.Systems)
	return kit
}

func mixed[T any](src *rand.Rand, list []T) []T {
	list = slices.Clone(list)
	src.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
	return list
}

// largeKit is several times any real crew's: 500 parts, 400 places, 60 tools, three
// limits.
func largeKit(t testing.TB) (fieldkit.Kit, fieldkit.Catalog, []repair.Guide, fieldkit.Trip) {
	src := rand.New(rand.NewPCG(21, 22))
	kit, cat := fieldkit.Kit{Currency: "USD", Rigs: []fieldkit.Rig{{ID: "r"}}, Systems: []fieldkit.Assembly{{ID: "s", Rig: "r"}}}, fieldkit.Catalog{}
	var guides []repair.Guide
	for k := range 80 {
		id := fmt.Sprintf("kind-%02d", k)
		cat.PartKinds = append(cat.PartKinds, fieldkit.PartKind{ID: id, Name: id, Per10000: 0.02 + src.Float64()*0.3, IfLeft: fieldkit.Minutes(200 + src.IntN(900)), IfCarried: 60})
		if k%3 == 0 {
			g := repair.Guide{ID: "fix-" + id, Title: "fix " + id, PartKinds: []string{id}}
			for range 4 {
				g.Tools = append(g.Tools, repair.ToolNeed{Kind: fmt.Sprintf("tool-%02d", src.IntN(60))})
			}
			guides = append(guides, g)
		}
	}
	for i := range 60 {
		kit.Tools = append(kit.Tools, fieldkit.Tool{ID: fmt.Sprintf("t-%02d", i), Kind: fmt.Sprintf("tool-%02d", i), Owned: i%4 != 0, Price: usd(2000), Mass: fieldkit.Mass(100+src.IntN(3000)) * fieldkit.Gram})
	}
	for i := range 500 {
		kit.Parts = kit.Parts.With(fieldkit.Part{ID: fmt.Sprintf("p-%03d", i), Kind: fmt.Sprintf("kind-%02d", i%80), Mass: fieldkit.Mass(50+src.IntN(8000)) * fieldkit.Gram,
			Volume: fieldkit.Volume(50+src.IntN(8000)) * fieldkit.Millilitre, Price: usd(int64(500 + src.IntN(20000)))})
		if i%2 == 0 {
			kit.Spares = kit.Spares.With(fieldkit.Spare{ID: fmt.Sprintf("s-%03d", i), Part: kit.Parts.At(i).ID, Count: 1 + i%3})
		}
		if i >= 80 && i%5 == 0 {
			kit.Links = kit.Links.With(fieldkit.Link{ID: fmt.Sprintf("l-%03d", i), For: kit.Parts.At(i % 80).ID, With: kit.Parts.At(i).ID, Grade: fieldkit.DropIn})
		}
	}
	for i := range 400 {
		kit.Positions = kit.Positions.With(fieldkit.Position{ID: fmt.Sprintf("x-%03d", i), System: "s", Kind: fmt.Sprintf("kind-%02d", i%80), Quantity: 1, Part: kit.Parts.At(i).ID})
	}
	trip := fieldkit.Trip{ID: "t", Rigs: []string{"r"}, Distance: 1500 * fieldkit.Kilometre, Terrain: fieldkit.Rock,
		Limits: fieldkit.Limits{Mass: 150 * fieldkit.Kilogram, Volume: 200 * fieldkit.Litre, Money: usd(80000)}}
	kit.Trips = []fieldkit.Trip{trip}
	return kit, cat, guides, trip
}

func BenchmarkPlanLarge(b *testing.B) {
	kit, cat, guides, trip := largeKit(b)
	for b.Loop() {
		require.NotEmpty(b, Plan(kit, cat, guides, trip, nil).Lines)
	}
}
