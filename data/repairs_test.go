package data

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Every repair a part kind or the demo kit names is there to be followed.
func TestRepairsNamedExist(t *testing.T) {
	there := map[string]bool{}
	for _, g := range Guides() {
		there[g.ID] = true
	}
	for _, k := range Catalog().PartKinds {
		for _, id := range k.Repairs {
			assert.True(t, there[id], "%s is replaced by %q, which is no repair", k.ID, id)
		}
	}
	for _, r := range DemoKit().Runs {
		assert.True(t, there[r.Guide], "%s follows %q, which is no repair", r.ID, r.Guide)
	}
}
