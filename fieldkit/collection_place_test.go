package fieldkit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func toolIDs(k Kit) (ids []string) {
	for _, t := range k.Tools {
		ids = append(ids, t.ID)
	}
	return ids
}

// Records keep their places, and a kit handed out before does not change.
func TestCollectionPlaces(t *testing.T) {
	tools, ok := CollectionNamed("tools")
	require.True(t, ok)
	tool := func(id string) Record { return Tool{ID: id, Name: "tool " + id} }
	var k Kit
	k.Tools = []Tool{{ID: "a", Name: "tool a"}, {ID: "b", Name: "tool b"}, {ID: "c", Name: "tool c"}}
	before := k

	tools.PutAt(&k, tool("first"), 0)
	tools.PutAt(&k, tool("middle"), 2)
	tools.PutAt(&k, tool("beyond"), 99)
	tools.PutAt(&k, tool("below"), -1)
	tools.Put(&k, tool("last"))
	assert.Equal(t, []string{"below", "first", "a", "middle", "b", "c", "beyond", "last"}, toolIDs(k))
	assert.Equal(t, 3, tools.Index(k, "middle"))
	assert.Equal(t, -1, tools.Index(k, "none"))

	changed := Tool{ID: "a", Name: "renamed"}
	tools.PutAt(&k, changed, 7)
	tools.Remove(&k, "first")
	tools.Remove(&k, "none")
	assert.Equal(t, []string{"below", "a", "middle", "b", "c", "beyond", "last"}, toolIDs(k), "a record that is there keeps its place")
	got, ok := tools.Get(k, "a")
	require.True(t, ok)
	assert.Equal(t, changed, got)
	assert.Equal(t, []string{"a", "b", "c"}, toolIDs(before))
	assert.Equal(t, "tool a", before.Tools[0].Name)
}
