package app

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/lookup"
)

// The search index is kept over an edit of anything that is not searched, and of
// nothing else: every list is changed in turn, and where the index of the kit then
// differs, the kit must not pass for searched alike.
func TestWhichEditsTheSearchIndexOutlives(t *testing.T) {
	k := data.DemoKit()
	kept := 0
	for _, c := range fieldkit.Collections {
		if c.Len(k) == 0 {
			continue
		}
		changed := k
		c.Remove(&changed, c.At(k, 0).Key())
		alike := searchedAlike(changed, k)
		if alike {
			kept++
			was, is := lookup.New(k, data.Catalog(), nil), lookup.New(changed, data.Catalog(), nil)
			for _, query := range []string{"wheel", "pump", "front axle", "grease", "jack"} {
				assert.True(t, reflect.DeepEqual(was.Find(query, 50), is.Find(query, 50)), "%s, %q", c.Name, query)
			}
		}
		assert.Equal(t, c.Name == "links" || c.Name == "trips" || c.Name == "packs" || c.Name == "runs" || c.Name == "failures" ||
			c.Name == "inspections" || c.Name == "priors" || c.Name == "visits" || c.Name == "ownRepairs" || c.Name == "stepNotes", alike, c.Name)
	}
	assert.Greater(t, kept, 3)
}
