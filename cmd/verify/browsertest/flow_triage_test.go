//go:build browser

package browsertest

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A front wheel clicks in tight turns, far from signal. The stop signs stand first;
// answers lead to the joint of the axle shaft and to its repair. A phone that dies
// between two questions forgets none of it.
func TestFindTheCause(t *testing.T) {
	v := withDemo(t, "/repair")
	v.Tap("link:Find the cause")
	v.At("/repair/triage")
	v.See("is one of these so?", "Somebody is hurt", "Smell of fuel", "No brakes", "The steering is loose", "the engine has boiled", "may fall, roll or slide")
	v.Tap("link:No brakes, or the pedal goes to the floor")
	v.See("chock all four wheels", "Once it is safe", "Brake line (rigid)")
	v.Tap("link:It is safe now: find the cause")
	v.See("What struck you first?", "You smell")
	v.Tap("link:A click or ratchet while driving")
	v.See("Question 1 of at most 6", "I don't know")

	// The rig says that it has locking hubs and no electric fan: neither is asked.
	answers := map[string]string{
		"Torch into both front knuckles": "Loose, rusty dust, or a cap or ear is broken",
		"When does it come":              "In bends or at full lock",
		"Where does it come from?":       "A front wheel",
	}
	asked := 0
	for !strings.Contains(v.Text(), "Most likely first") {
		asked++
		question := v.TextOf("css:.instruction")
		assert.NotContains(t, question, "radiator fan start")
		answer := "I don't know"
		for begin, said := range answers {
			if strings.HasPrefix(question, begin) {
				answer = said
			}
		}
		v.Tap("button:" + answer)
		v.WaitFor("what follows "+question, `(document.querySelector('.instruction')?.innerText ?? '') !== `+strconv.Quote(question))
		v.Settle()
		if asked == 1 {
			at := v.Path()
			second := v.TextOf("css:.instruction")
			v.Rest()
			v.DieAndWake("/repair")
			v.See("Finding the cause", "A click or ratchet while driving", "1 answer")
			v.Tap("link:Finding the cause")
			v.At(at)
			v.See("Question 2 of at most 6", second)
		}
	}
	assert.LessOrEqual(t, asked, 6)
	v.See("The joint of a front axle shaft is worn or broken", "You began with: A click or ratchet while driving")
	first := v.TextOf("css:main ol.list li")
	assert.Contains(t, first, "U-joint of a front axle shaft")
	assert.Contains(t, first, "in 10")
	v.Reload()
	v.See("Most likely first")
	v.Tap("css:main ol.list li a")
	v.At("/repair/guide?id=u-joint-axle")
	v.See("Stop at once if")
}

// From a position: its page leads to the questions, and one may know no more than
// where it is.
func TestFindTheCauseFromAPosition(t *testing.T) {
	v := withDemo(t, "/rig/position?id=wicket-axle-u-joint-left")
	v.Tap("link:Find the cause")
	v.See("is one of these so?")
	v.Tap("link:None of these")
	v.Tap("link:I only know where: axle U-joint, left")
	v.See("Question 1 of at most 6")
	v.Tap("link:Show the causes now")
	v.See("Most likely first", "Look first at: axle U-joint, left", "It sits where you look")
	v.Go("/log")
	v.Tap("link:I don't know what: find the cause")
	v.See("is one of these so?")
}

// A repair that finds something else broken logs no failure of its own, does not call
// the rig sound, and leads on to the repair that it takes.
func TestRepairThatStopsLeadsOn(t *testing.T) {
	v := withDemo(t, "/repair/guide?id=brake-fade&rig=hobnail")
	v.Tap("button:Start the repair")
	v.At("/repair/run?id=")
	v.next("Done, next")
	v.next("Done, next")
	v.next("Hard, but little happened")
	v.next("Done, next")
	v.next("One is much hotter")
	assert.Contains(t, v.step().Text, "One brake has dragged")
	v.Tap("button:Done, next")
	v.See("It is something else", "Brake caliper stuck", "Finish")
	v.SeeNot("Nothing had failed")
	v.SeeNot("Log the failure")
	v.Tap("link:Brake caliper stuck")
	v.At("/repair/guide?id=brake-caliper")
}
