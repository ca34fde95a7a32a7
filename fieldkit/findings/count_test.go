package findings_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/findings"
)

func TestCount(t *testing.T) {
	kit := twoPlaces()
	assert.Equal(t, []findings.Tally{{Name: "steering", Failures: 3, Lost: 90, Unlost: 1}, {Name: findings.NotSaid, Failures: 1, Lost: 200}},
		findings.Count(kit, fieldkit.Catalog{}, findings.BySystem, "r"))
	kinds := findings.Count(kit, fieldkit.Catalog{}, findings.ByPartKind, "")
	assert.Equal(t, findings.Tally{Name: "tre", ID: "tre", Failures: 2, Lost: 90}, kinds[0])
	assert.Equal(t, []string{findings.NotSaid, "tre"}, names(findings.Costliest(kinds)), "what cost no time is left out")
	modes := findings.Count(kit, fieldkit.Catalog{}, findings.ByMode, "")
	assert.Equal(t, []string{findings.NotSaid, "worn out", "leaking"}, names(modes))
	assert.Empty(t, findings.Count(kit, fieldkit.Catalog{}, findings.BySystem, "other"))
}

func names(list []findings.Tally) (all []string) {
	for _, t := range list {
		all = append(all, t.Name)
	}
	return all
}

// Nothing is counted twice or lost, whatever it is counted under.
func TestCountOfTheDemo(t *testing.T) {
	kit, cat := data.DemoKit(), data.Catalog()
	var lost fieldkit.Minutes
	for _, f := range kit.Failures.All() {
		lost += f.Lost
	}
	for _, by := range []findings.Heading{findings.BySystem, findings.ByPartKind, findings.ByTrip, findings.ByMode} {
		n, sum := 0, fieldkit.Minutes(0)
		for _, one := range findings.Count(kit, cat, by, "") {
			n, sum = n+one.Failures, sum+one.Lost
		}
		assert.Equal(t, kit.Failures.Len(), n)
		assert.Equal(t, lost, sum)
	}
	trips := findings.TripHours(kit, "")
	require.Len(t, trips, 15)
	sum := fieldkit.Minutes(0)
	for _, one := range trips {
		sum += one.Lost
	}
	assert.Equal(t, lost, sum, "every failure of the demo is of a trip")
}

func TestSpares(t *testing.T) {
	kit := fieldkit.Kit{
		Parts: fieldkit.ListOf([]fieldkit.Part{{ID: "joint", Name: "joint", Mass: 2 * fieldkit.Kilogram}, {ID: "pump", Name: "pump", Kind: "pump"}, {ID: "belt", Name: "belt"}}),
		Trips: []fieldkit.Trip{
			{ID: "a", Done: true, Start: day("2026-01-01"), Days: 2, Rigs: []string{"r"}},
			{ID: "b", Done: true, Start: day("2026-02-01"), Days: 2, Rigs: []string{"r"}},
			{ID: "c", Done: true, Rigs: []string{"other"}},
			{ID: "ahead", Rigs: []string{"r"}},
		},
		Packs: []fieldkit.Pack{
			{ID: "pa", Trip: "a", Lines: []fieldkit.PackLine{{Type: fieldkit.SpareItem, Item: "joint", Count: 2}, {Type: fieldkit.SpareItem, Item: "pump", Count: 1}, {Type: fieldkit.ToolItem, Item: "press", Count: 1}}},
			{ID: "pahead", Trip: "ahead", Lines: []fieldkit.PackLine{{Type: fieldkit.SpareItem, Item: "belt", Count: 1}}},
		},
		Failures: fieldkit.ListOf([]fieldkit.Failure{
			{ID: "1", Rig: "r", On: day("2026-01-02"), Used: []fieldkit.Item{{Type: fieldkit.SpareItem, Item: "joint", Count: 1}}},
			{ID: "2", Rig: "r", Trip: "b", Used: []fieldkit.Item{{Type: fieldkit.SpareItem, Item: "belt", Count: 1}}},
		}),
	}
	cat := fieldkit.Catalog{PartKinds: []fieldkit.PartKind{{ID: "pump", Mass: 5 * fieldkit.Kilogram}}}
	all, lists, trips := findings.Spares(kit, cat, "r")
	assert.Equal(t, 1, lists)
	assert.Equal(t, 2, trips)
	assert.Equal(t, []findings.Carried{
		{Part: "joint", Name: "joint", Trips: 1, Most: 2, Used: 1, UsedOn: 1, Mass: 4 * fieldkit.Kilogram},
		{Part: "belt", Name: "belt", Used: 1, UsedOn: 1},
		{Part: "pump", Name: "pump", Trips: 1, Most: 1, Mass: 5 * fieldkit.Kilogram},
	}, all)
}
