//go:build browser

package browsertest

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The part in hand is compared with the one wanted line by line, the verdict with it;
// what was found is kept with the position, and can be taken back.
func TestFitCheck(t *testing.T) {
	v := withDemo(t, "/rig/position?id=hobnail-front-brake-pads")
	v.See("Is it the right part?")
	v.Tap("link:Is it the right part?")
	v.At("/counter/fit?part=pads-front&position=hobnail-front-brake-pads")
	v.See("A wrong brake part can bind", "Measure these first", "Pad length, on the part in hand", "Wanted: 6.42 in (163.07 mm), within ±0.024 in")

	// A wrong ear is enough to know that it does not fit.
	v.Choose("css:[name='is/ear shape']", "hook")
	v.See("It does not fit", "Ear shape: pads that do not slide drag and burn")
	v.Choose("css:[name='is/ear shape']", "as wanted: square ears, both ends")
	v.See("Measure these first")
	v.Fill("css:[name='is/pad length']", "163")
	v.Fill("css:[name='is/pad height']", "2.36 in")
	v.SeeNot("Pad height, on the part in hand")
	// A tape is too coarse for what is left.
	v.Tap("button:tape")
	v.See("A finer tool must tell")
	v.Tap("button:caliper")
	v.SeeNot("A finer tool must tell")
	v.Fill("css:[name='is/thickness with backing plate']", "18.6")
	v.See("It fits", "Rests on nothing weaker than: seen")
	// Said by somebody it proves nothing of a brake.
	v.Tap("button:somebody told me")
	v.See("Not proven", "of the part in hand it is only known by hearsay")
	v.Tap("button:I did")
	v.See("It fits")

	v.Fill("Where", "Corrie Feed and Iron")
	v.Tap("button:Keep with the position")
	v.At("/rig/position?id=hobnail-front-brake-pads")
	v.See("Compared", "It is the right one", "Corrie Feed and Iron · seen", "Pad length 6.417 in")
	v.Reload()
	v.See("Corrie Feed and Iron · seen")
}

// The questions in the yard: one at a time, until the part is proven; kept as
// evidence, and taken back.
func TestYardQuestions(t *testing.T) {
	v := withDemo(t, "/counter/yard?position=hobnail-steering-box")
	v.See("It may still be 2 look-alikes", "The fewest checks that tell it from 2 look-alikes")
	v.Tap("button:Forward on a left turn")
	v.See("Ruled out: box of the 4x2", "It may still be 1 look-alike")
	// The page is loaded anew: what was answered is there.
	v.Reload()
	v.See("Ruled out: box of the 4x2")
	v.Tap("button:3")
	v.See("It is not the right one", "Stonecrop 1996-1998 box")
	v.Tap("button:Ask again: mounting bolts")
	v.See("What does the part in hand show?")
	v.Tap("button:4")
	v.See("It is the right one: none of the look-alikes shows this")
	v.Fill("Where", "the blue one in the yard")
	v.Tap("button:Keep with the position")
	v.At("/rig/position?id=hobnail-steering-box")
	v.See("Compared", "It is the right one", "The blue one in the yard · seen", "It is not: Stonecrop 1996-1998 box; box of the 4x2")
	v.Tap("button:Undo")
	v.See("Taken back.")
	v.SeeNot("The blue one in the yard")
	assert.NotContains(t, v.Text(), "Compared")
}

// At a store the counter is asked the other way round, and a visit corrects the
// guess.
func TestAtAStore(t *testing.T) {
	v := withDemo(t, "/counter")
	v.Tap("link:I am at a store: what could I buy?")
	v.See("What kind of store is it?")
	v.Tap("link:Bearing and belt supply")
	v.See("Read the number on the ring", "you could buy here", "starting guess", "Ask by number: ABMA 19.2")
	v.Tap("link:Write down a visit")
	v.At("/counter/visit?store=bearing-belt")
	v.Choose("What you asked for", "wheel bearing")
	v.Tap("button:Save visit")
	v.See("It is not said whether they had it")
	v.Tap("button:they had none")
	v.Fill("Name of the store", "Ring and Race, Corrie")
	v.Tap("button:Save visit")
	v.At("/counter/store?kind=bearing-belt")
	v.See("Wheel bearing, tapered: had none", "Ring and Race, Corrie")
	v.Go("/counter/card?part=front-bearing-outer")
	v.See("from your visit on")
	v.Go("/counter/store?kind=bearing-belt")
	v.Tap("link:Wheel bearing, tapered: had none")
	v.See("Delete visit")
	v.Tap("button:Delete visit")
	v.At("/counter/store?kind=bearing-belt")
	v.SeeNot("Ring and Race, Corrie")
}
