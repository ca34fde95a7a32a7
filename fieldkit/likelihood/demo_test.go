package likelihood_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit/likelihood"
)

// Every position of the demo kit on the trip ahead has a likelihood that holds
// together and says what it rests on, and the demo shows every kind of evidence.
func TestDemo(t *testing.T) {
	kit, cat := data.DemoKit(), data.Catalog()
	trip := kit.Trips[len(kit.Trips)-1]
	found := map[likelihood.Source]int{}
	for _, rig := range kit.Rigs {
		look := likelihood.Look(kit, cat, trip, rig)
		for _, p := range kit.PositionsOf(rig.ID) {
			l := look.Of(p)
			found[l.Source]++
			assert.Greater(t, l.Probability, 0.0, p.ID)
			assert.Less(t, l.Probability, 1.0, p.ID)
			assert.LessOrEqual(t, l.Interval[0], l.Probability, p.ID)
			assert.GreaterOrEqual(t, l.Interval[1], l.Probability, p.ID)
			assert.Less(t, l.Again, l.Probability, p.ID)
			assert.NotEmpty(t, l.Evidence, p.ID)
			assert.NotEmpty(t, l.Detail, p.ID)
			if testing.Verbose() {
				fmt.Printf("%-40s %6.3f [%.3f %.3f] %s | %v\n", p.ID, l.Probability, l.Interval[0], l.Interval[1], l.Evidence, l.Detail)
			}
		}
	}
	assert.NotZero(t, found[likelihood.ByWear])
	assert.NotZero(t, found[likelihood.ByAge])
}
