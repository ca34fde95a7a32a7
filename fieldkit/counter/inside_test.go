package counter

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/interchange"
)

// Two hubs whose bearings bear one designation and class interchange at the bearing,
// and it says so; of another class, or only linked, they do not.
func TestSharedInside(t *testing.T) {
	bearing := func(id, designation string) fieldkit.Part {
		return fieldkit.Part{ID: id, Kind: "bearing", Name: id, Numbers: []fieldkit.Number{{Value: designation, Issuer: fieldkit.StandardNumber, From: "ISO 15"}}}
	}
	kit := fieldkit.Kit{
		Rigs:    []fieldkit.Rig{{ID: "r", Name: "Tinker"}},
		Systems: []fieldkit.Assembly{{ID: "front", Rig: "r", Name: "front axle"}, {ID: "rear", Rig: "r", Name: "rear axle"}},
		Parts:   fieldkit.ListOf([]fieldkit.Part{bearing("a", "6207-2RS C3"), bearing("b", "6207 2RS/C3"), bearing("c", "6207-2RS"), {ID: "d", Kind: "bearing", Name: "d"}}),
		Links:   fieldkit.ListOf([]fieldkit.Link{{ID: "l", For: "a", With: "d", Grade: fieldkit.DropIn, Evidence: fieldkit.TestFitted}}),
		Positions: fieldkit.ListOf([]fieldkit.Position{
			{ID: "hub-1", System: "front", Name: "hub"}, {ID: "in-1", System: "front", Parent: "hub-1", Name: "outer bearing", Part: "a"},
			{ID: "hub-2", System: "rear", Name: "hub"}, {ID: "in-2", System: "rear", Parent: "hub-2", Name: "outer bearing", Part: "b"},
			{ID: "hub-3", System: "rear", Name: "other class"}, {ID: "in-3", System: "rear", Parent: "hub-3", Name: "outer bearing", Part: "c"},
			{ID: "hub-4", System: "rear", Name: "only linked"}, {ID: "in-4", System: "rear", Parent: "hub-4", Name: "outer bearing", Part: "d"},
			{ID: "hub-5", System: "rear", Name: "same part"}, {ID: "in-5", System: "rear", Parent: "hub-5", Name: "outer bearing", Part: "a"},
		}),
	}
	graph := interchange.New(kit.Parts.Slice(), kit.Links.Slice())
	got := SharedInside(kit, fieldkit.Catalog{}, graph, "hub-1")
	require.Len(t, got, 2)
	assert.Equal(t, "hub-2", got[0].Other)
	assert.Equal(t, "Tinker, rear axle: hub", got[0].OtherAt)
	assert.Contains(t, got[0].Standard, "ISO 15 6207")
	assert.Equal(t, "outer bearing", got[0].At)
	assert.Equal(t, "hub-5", got[1].Other)
	assert.Empty(t, got[1].Standard)
	assert.Empty(t, SharedInside(kit, fieldkit.Catalog{}, graph, "in-1"))
	assert.Empty(t, SharedInside(kit, fieldkit.Catalog{}, graph, ""))
}

// A part that is refused although a chain says it fits shows both on the card.
func TestRefusalWithContradiction(t *testing.T) {
	kit := fieldkit.Kit{
		Parts: fieldkit.ListOf([]fieldkit.Part{{ID: "a", Kind: "k", Name: "A"}, {ID: "b", Kind: "k", Name: "B"}, {ID: "c", Kind: "k", Name: "C"}}),
		Links: fieldkit.ListOf([]fieldkit.Link{
			{ID: "1", For: "a", With: "b", Grade: fieldkit.DropIn, Evidence: fieldkit.Measured},
			{ID: "2", For: "b", With: "c", Grade: fieldkit.DropIn, Evidence: fieldkit.Hearsay},
			{ID: "3", For: "a", With: "c", Grade: fieldkit.DoesNotFit, Evidence: fieldkit.TestFitted},
		}),
	}
	card, err := CardFor(kit, fieldkit.Catalog{}, interchange.New(kit.Parts.Slice(), kit.Links.Slice()), "a", "")
	require.NoError(t, err)
	require.Len(t, card.DoesNotFit, 1)
	assert.Contains(t, card.DoesNotFit[0].Yet, "contradiction: yet drop-in by B (drop-in; measured)")
	assert.Contains(t, card.DoesNotFit[0].Yet, "the weakest of it is hearsay")
	kit.Links = fieldkit.ListOf(kit.Links.Slice()[2:])
	card, err = CardFor(kit, fieldkit.Catalog{}, interchange.New(kit.Parts.Slice(), kit.Links.Slice()), "a", "")
	require.NoError(t, err)
	assert.Empty(t, card.DoesNotFit[0].Yet)
}
