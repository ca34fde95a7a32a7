package fieldkit

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Through any run of edits a grouped list gives what going through it gives, and all
// lists of before still give theirs.
func TestGrouped(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 1))
	parts := func() string { return []string{"", "a", "b", "c"}[rnd.IntN(4)] }
	grouped := GroupedBy(func(l *Link, under func(string)) {
		under(l.For)
		under(l.With)
	})
	var k Kit
	var records []Link
	for i := range 3 * blockSize {
		records = append(records, Link{ID: fmt.Sprint(i), For: parts(), With: parts()})
	}
	k.Links = ListOf(records)
	lists := []List[Link]{{}, k.Links}
	links, _ := CollectionNamed("links")
	for i := range 40 {
		switch rnd.IntN(4) {
		case 0:
			links.Put(&k, Link{ID: fmt.Sprint("new-", i), For: parts(), With: parts()})
		case 1:
			links.Remove(&k, k.Links.At(rnd.IntN(k.Links.Len())).ID)
		case 2:
			links.PutAt(&k, Link{ID: fmt.Sprint("amid-", i), For: parts(), With: parts()}, rnd.IntN(k.Links.Len()))
		default:
			links.Put(&k, Link{ID: k.Links.At(rnd.IntN(k.Links.Len())).ID, For: parts(), With: parts()})
		}
		lists = append(lists, k.Links)
		for _, l := range []List[Link]{k.Links, lists[rnd.IntN(len(lists))]} {
			for _, part := range []string{"a", "b", "c", "none", ""} {
				var want, got []int
				for at, r := range l.Refs() {
					if part != "" && (r.For == part || r.With == part) {
						want = append(want, at)
					}
				}
				for at, r := range grouped.All(l, part) {
					require.Same(t, l.Ref(at), r)
					got = append(got, at)
				}
				require.Equal(t, want, got, "%q after %d edits", part, i)
			}
		}
	}
	for at := range grouped.All(k.Links, "a") {
		assert.GreaterOrEqual(t, at, 0)
		break
	}
}

// What nobody holds any more is forgotten.
func TestGroupedForgets(t *testing.T) {
	grouped := GroupedBy(func(s *Spare, under func(string)) { under(s.Part) })
	for range 5 {
		for i := range 100 {
			for range grouped.All(ListOf([]Spare{{ID: fmt.Sprint(i), Part: "a"}}), "a") {
			}
		}
		runtime.GC()
	}
	assert.LessOrEqual(t, len(grouped.blocks), 250)
}

func TestWhatTheKitHoldsOfARig(t *testing.T) {
	k := Kit{
		Systems: []Assembly{{ID: "axle", Rig: "one"}, {ID: "brakes", Rig: "two"}, {ID: "engine", Rig: "one"}},
		Positions: ListOf([]Position{{ID: "p1", System: "engine", Part: "belt"}, {ID: "p2", System: "brakes", Part: "belt"},
			{ID: "p3", System: "axle"}, {ID: "p4", System: "engine", Part: "pump", Parent: "p1"}}),
		Spares:      ListOf([]Spare{{ID: "s1", Part: "belt", Count: 2}, {ID: "s2", Part: "pump", Count: 1}, {ID: "s3", Part: "belt", Count: 3}}),
		Failures:    ListOf([]Failure{{ID: "f1", Rig: "one", Position: "p1"}, {ID: "f2", Rig: "two"}, {ID: "f3", Rig: "one"}}),
		Inspections: ListOf([]Inspection{{ID: "i1", Position: "p2"}, {ID: "i2", Position: "p1"}}),
	}
	ids := func(list []Position) (ids []string) {
		for _, p := range list {
			ids = append(ids, p.ID)
		}
		return ids
	}
	assert.Equal(t, []string{"p1", "p3", "p4"}, ids(k.PositionsOf("one")), "in file order, whatever the order of the systems")
	assert.Empty(t, k.PositionsOf("three"))
	assert.Equal(t, []string{"p1", "p2"}, ids(k.FittedAt("belt")))
	assert.Empty(t, k.FittedAt(""), "a position without a part has none in common with another")
	assert.Equal(t, 5, k.Stock("belt"))
	assert.Zero(t, k.Stock("joint"))
	seen := ""
	for i, f := range k.FailuresOn("one") {
		seen += fmt.Sprint(i, f.ID, " ")
	}
	for i, f := range k.FailuresAt("p1") {
		seen += fmt.Sprint(i, f.ID, " ")
	}
	for i, r := range k.ReadingsAt("p1") {
		seen += fmt.Sprint(i, r.ID, " ")
	}
	for i, p := range k.PositionsIn("engine") {
		seen += fmt.Sprint(i, p.ID, " ")
	}
	for i, p := range k.PositionsUnder("p1") {
		seen += fmt.Sprint(i, p.ID, " ")
	}
	assert.Equal(t, "0f1 2f3 0f1 1i2 0p1 3p4 3p4 ", seen)
}
