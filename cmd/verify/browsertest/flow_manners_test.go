//go:build browser

package browsertest

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Over a day with the program nothing is asked of any other host, and every write
// goes through to the disk before it counts. The other tests of a phone without
// signal end with the same check; this one makes sure that there was something to
// see.
func TestNoForeignRequestsAndStrictWrites(t *testing.T) {
	v := away(t)
	v.Open("/rig")
	v.Tap("button:Begin with my rig")
	v.See("Counter-ready")

	v.Go("/rig/donor")
	v.Fill("Make", "Ostbrek")
	v.Fill("Model", "Ballast 30")
	v.Tap("button:Save donor")
	v.At("/rig/donors")

	v.Go("/pack/trip/edit")
	v.Fill("Name", "Chalkboard Wash")
	v.Fill("Distance in all", "140 mi")
	v.Tap("button:Save trip")
	v.At("/pack/trip?id=")
	v.Tap("button:Plan the kit")
	v.See("Planned the kit for Chalkboard Wash")

	v.Go("/repair?position=axle-u-joint-left")
	v.Tap(`css:main a[href*="guide?id=u-joint-axle"]`)
	v.Tap("button:Start the repair")
	v.next("Done, next")
	v.Tap("button:It works: finish now")
	v.At("/log/failure?id=")

	v.Go("/log/reading?position=front-brake-pads")
	v.Fill("Reading", "1/4")
	v.Tap("button:Save")
	v.At("/log")
	v.Saved("button:Failures as CSV")
	v.Go("/kit")
	v.See("Ready for no signal")
	v.Saved("button:Make a backup")
	v.Tap("button:night")
	v.Rest()

	requests := 0
	for _, tab := range v.tabs {
		requests += len(tab.Requests())
	}
	assert.Greater(t, requests, 5)
	writes := v.Writes()
	assert.Greater(t, writes["strict"], 10)
	assert.Len(t, writes, 1, "%v", writes)
	v.checkManners()
}
