//go:build browser

package browsertest

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The rear drive shaft lies in the ditch: what still drives, and within which limits.
// A phone that dies forgets none of it.
func TestLimpHome(t *testing.T) {
	v := withDemo(t, "/repair")
	v.Tap("link:What still drives?")
	v.At("/repair/limp")
	v.See("It may be driven")
	v.Tap("checkbox:Rear drive shaft out")
	v.See("It may be moved within limits", "front only", "31 mph (50 km/h)", "plug the hole")
	v.Tap("checkbox:A spare of another size is fitted")
	v.unfold()
	v.Fill("Spare", "33x12.50R15")
	// A 37 in tyre beside one of 33 in: 37/33 = 1.121 (nominal diameters of the sizes).
	v.See("12.1 % faster", "2 in (50.8 mm) lower")
	limping := v.Path()
	v.Rest()

	v.DieAndWake(limping)
	v.See("12.1 % faster")
	v.Tap("checkbox:Rear axle shaft broken")
	v.Tap("checkbox:Front drive shaft out")
	v.See("Do not move it", "no axle is left")

	// A call for help: the published conversion of this point is 18S UJ 23394 07395.
	v.StandAt(38.8977, -77.0365, 8)
	v.Tap("link:Ask for help: position and a text to send")
	v.At("/repair/help")
	v.Tap("button:Take this phone's position")
	v.See("18S UJ 23394 07395", "38° 53.862′ N 77° 02.190′ W", "Read out the grid: one eight Sierra Uniform Juliett")
	v.Fill("Who you are, and how many", "Oona, two people")
	v.See("Who: Oona, two people")
	text := v.TextOf("css:.letter")
	for _, part := range []string{"NEED HELP.", "rear drive shaft out", "1984 Umberlow Hobnail"} {
		assert.Contains(t, text, part)
	}
}

// How tight a half-inch bolt of grade 8 is: 106 lb-ft dry at 75 % of its proof load
// (published torque guides print 106, testdata of fieldkit/fastener).
func TestTorquePage(t *testing.T) {
	v := withDemo(t, "/repair")
	v.Tap("link:How tight?")
	v.At("/repair/torque")
	v.See("The maker's figure goes first")
	v.Fill("Thread", "1/2-13")
	v.Tap("button:8: six lines")
	v.See("106 lb-ft (144 N·m)", "1/2-13 UNC grade 8, computed")
	v.Tap("button:oil, grease or anti-seize on the thread and under the head")
	v.See("stretches the bolt beyond its proof load")
	v.Fill("Your hand to the middle of the bolt", "12 in")
	v.See("Pull with")
	v.Fill("Thread", "1/2-14")
	v.See("no thread of 1/2 has 14 to the inch")
	v.Fill("Thread", "M12x1.75")
	v.Tap("button:10.9")
	v.See("M12x1.75 10.9, computed")
	v.Reload()
	v.See("M12x1.75 10.9, computed")
}
