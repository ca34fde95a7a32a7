package triage_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit/triage"
)

func TestAnswersInAnAddress(t *testing.T) {
	list := []triage.Answer{{Question: "where", Option: "front-wheel"}, {Question: "when"}}
	assert.Equal(t, "where.front-wheel~when.", triage.WriteAnswers(list))
	assert.Equal(t, list, triage.ReadAnswers("where.front-wheel~when."))
	assert.Equal(t, list, triage.ReadAnswers("~where.front-wheel~where.rear-wheel~no pair~a.b.c~.x~when."), "what is no answer is left out")
	assert.Empty(t, triage.ReadAnswers(""))
}

// A question or option of another version is passed over, and the rest stands.
func TestAnswersOfAnotherVersion(t *testing.T) {
	kit := data.DemoKit()
	talk := triage.Talk{Rig: "hobnail", Sign: "howl", Answers: []triage.Answer{{Question: "no-such"}, {Question: "where", Option: "moon"}, {Question: "when", Option: "speed"}, {Question: "e-fan", Option: "no"}}}
	v := view(kit, talk)
	assert.Len(t, v.Said, 1, "the electric fan is not on this rig")
	assert.Equal(t, 2, v.Number)
}

// What was read once is written and read the same; six answers at most, whatever an
// address holds, and any of them can be weighed.
func FuzzAnswers(f *testing.F) {
	for _, seed := range []string{"", "where.front-wheel~when.", "~~..", "a.~a.b~b.c~c.~d.~e.~f.~g.", "rig-front-hub.unit-bearing"} {
		f.Add(seed)
	}
	kit := data.DemoKit()
	f.Fuzz(func(t *testing.T, text string) {
		list := triage.ReadAnswers(text)
		if len(list) > triage.MostQuestions {
			t.Fatalf("%d answers", len(list))
		}
		if again := triage.ReadAnswers(triage.WriteAnswers(list)); !assert.ObjectsAreEqual(list, again) {
			t.Fatalf("%q reads as %v and then as %v", text, list, again)
		}
		if v := view(kit, triage.Talk{Rig: text, Sign: text, Answers: list}); len(v.Ranked) == 0 {
			t.Fatalf("%q leaves no cause", text)
		}
	})
}
