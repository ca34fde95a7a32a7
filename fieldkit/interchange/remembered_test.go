package interchange

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/fieldkit"
)

// The graph of other lists is another one, also where only a link was put in the place
// of one.
func TestOfAnswersForTheListsItIsAsked(t *testing.T) {
	k := fieldkit.Kit{
		Parts: fieldkit.ListOf([]fieldkit.Part{{ID: "a", Kind: "seal"}, {ID: "b", Kind: "seal"}}),
		Links: fieldkit.ListOf([]fieldkit.Link{{ID: "l", For: "a", With: "b", Grade: fieldkit.DropIn, Evidence: fieldkit.Measured}}),
	}
	first := Of(k.Parts, k.Links)
	assert.Same(t, first, Of(k.Parts, k.Links))
	assert.Len(t, first.StandIns("a"), 1)

	links, _ := fieldkit.CollectionNamed("links")
	changed := k
	links.Put(&changed, fieldkit.Link{ID: "l", For: "a", With: "b", Grade: fieldkit.DoesNotFit, Evidence: fieldkit.Measured})
	assert.Empty(t, Of(changed.Parts, changed.Links).StandIns("a"))
	assert.Len(t, Of(k.Parts, k.Links).StandIns("a"), 1)
	assert.Empty(t, Of(fieldkit.List[fieldkit.Part]{}, fieldkit.List[fieldkit.Link]{}).StandIns("a"))
}
