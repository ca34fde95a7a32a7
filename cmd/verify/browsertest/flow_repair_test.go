//go:build browser

package browsertest

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// stepOf is the step a repair shows: its number and what it says to do.
type stepOf struct{ Number, Text string }

func (v *traveller) step() stepOf {
	v.t.Helper()
	v.See("Step ")
	return stepOf{
		Number: regexp.MustCompile(`Step \d+`).FindString(v.Text()),
		Text:   v.TextOf("css:.instruction"),
	}
}

// next does what the step asks and waits for the next one, or for the end.
func (v *traveller) next(answer string) {
	v.t.Helper()
	before := v.step()
	v.Tap("button:" + answer)
	v.WaitFor("the step after "+before.Text, fmt.Sprintf(`(document.querySelector('.instruction')?.innerText ?? '') !== %q`, before.Text))
	v.Settle()
}

// On the trail: half-way through a repair the phone dies. It goes on at the same
// step, and the log it is in after the second death says what was used.
func TestRepairSurvivesKill(t *testing.T) {
	v := withDemo(t, "/repair?position=hobnail-axle-u-joint-right")
	const joint = "axle U-joint 1350, sealed"
	require.Equal(t, 2, v.stockOf(joint))

	v.Go("/repair?position=hobnail-axle-u-joint-right")
	v.Tap(`css:main a[href*="guide?id=u-joint-axle"]`)
	v.See("Can it move?")
	v.unfold()
	v.See(joint)
	v.Tap("button:Start the repair")
	v.At("/repair/run?id=")
	run := v.Path()

	// The first step is a hazard, and its caution stands before what to do.
	assert.Equal(t, "Step 1", v.step().Number)
	assert.True(t, ask[bool](v.phone, `Boolean(document.querySelector('.caution').compareDocumentPosition(document.querySelector('.instruction')) & Node.DOCUMENT_POSITION_FOLLOWING)`))

	v.next("Done, next")
	v.next("Done, next")
	assert.Equal(t, "What do you find in the knuckle?", v.step().Text)
	v.next("A cap has walked out, or an ear or cross is broken")
	for !strings.Contains(v.Text(), "Which way?") {
		v.next("Done, next") // the kind of hub is known and not asked
	}
	assert.NotContains(t, v.Text(), "What is in the middle of the front wheel?")
	v.next("Ears whole and round, new joint at hand") // the branch
	v.next("Done, next")
	left := v.step()
	require.Contains(t, left.Text, "Press one cap in")

	v.DieAndWake("/repair")
	v.See("Under way", "Hobnail: axle U-joint, right")
	v.Tap("link:Hobnail: axle U-joint, right")
	v.At(run)
	assert.Equal(t, left, v.step())
	v.Tap("button:One step back") // how one came here is known too
	v.See("Take all four snap rings out")
	v.next("Done, next")

	for strings.Contains(v.Text(), "Step ") {
		v.next("Done, next")
	}
	v.See("All steps done", "Write it down", "1 × "+joint)
	failures := v.failures()
	v.Tap("button:Log the failure")
	v.At("/log/failure?id=")
	v.DieAndWake("/log?show=failures")

	assert.Equal(t, failures+1, v.failures())
	newest := v.TextOf("css:main .list li")
	for _, word := range []string{"Axle U-joint failed", "Hobnail", "U-joint replaced, ears of both shafts checked"} {
		assert.Contains(t, newest, word)
	}
	v.Tap("css:main .list li a")
	v.See(joint)
	assert.Equal(t, 1, v.stockOf(joint))
	v.Go(run)
	v.See("Finished", "The entry in the log")
	v.Go("/repair")
	v.SeeNot("Hobnail: axle U-joint, right")
}

// stockOf is how many of a spare the crew owns, as the list of spares says.
func (v *traveller) stockOf(name string) int {
	v.t.Helper()
	v.Go("/pack/stock?what=spares")
	return ask[int](v.phone, fmt.Sprintf(`Number(document.querySelector('[role=group][aria-label=%q] output').innerText)`, name))
}

// failures counts the entries in the log.
func (v *traveller) failures() int {
	v.t.Helper()
	at := v.Path()
	v.Go("/log?show=failures")
	n := ask[int](v.phone, `document.querySelectorAll('main .list li').length`)
	v.Go(at)
	return n
}

// The crew writes a repair of its own and a note at a step of one of the program's:
// both are led through like the others, with the caution in front, and are there after
// the browser was killed.
func TestOwnRepairAndNote(t *testing.T) {
	v := withDemo(t, "/repair")
	v.Tap("link:Write a repair of our own")
	v.At("/repair/own/edit")
	v.Tap("button:Save repair")
	v.See("it has no name", "there is no step yet")
	v.Fill("What it is called", "Track bar bush wedged with belt")
	v.Fill("Steps", "Block both wheels\n! The bar springs when the bolt comes out.\nTake the bolt out\nWind the belt round the bush")
	v.Choose("Tools", "bottle jack, rated above the axle load")
	v.Tap("button:Save repair")
	v.See("Written by your crew", "What still drives?")
	v.Tap("button:Start the repair")
	v.See("Block both wheels", "Step 1 of about 3")
	v.next("Done, next")
	v.See("The bar springs when the bolt comes out.", "Take the bolt out")
	v.Tap("link:Note at this step")
	v.See("What you noted")
	v.Fill("What you noted", "the 21 mm ring, not the 22")
	v.Tap("button:Save note")
	v.See("Your note: the 21 mm ring, not the 22")
	at := v.Path()
	v.DieAndWake(at)
	v.See("Take the bolt out", "Your note: the 21 mm ring, not the 22")

	v.Go("/repair?q=track+bar+bush+wedged")
	v.Tap("link:Track bar bush wedged with belt")
	v.See("Your notes", "the 21 mm ring, not the 22", "Change it")
	v.Tap("link:Change it")
	v.See("What it is called")
	v.Fill("Steps", "!only a caution")
	v.Tap("button:Save repair")
	v.See("line 1 is a caution with no step behind it")
}
