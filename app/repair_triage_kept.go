package app

import (
	"strings"

	"trailfieldkit/fieldkit"
)

// The last talk is remembered on this device: the phone may die between two
// questions, and starts at the first screen.

func triageKey(which string) string { return textPrefix + "triage." + which }

// triageDays is how long a talk is offered: a cause is found on the day, or not.
const triageDays = 2

func rememberTriage(address, words string) {
	remember(triageKey(kept.which), today().String()+"\n"+address+"\n"+words)
}

// forgetTriage ends the talk: its cause was found.
func forgetTriage() { remember(triageKey(kept.which), "") }

// triageUnderWay is the row that goes on with a talk; ok is false if there is none.
func triageUnderWay(text string, day fieldkit.Date) (address, words string, ok bool) {
	lines := strings.SplitN(text, "\n", 3)
	if len(lines) < 3 || !strings.HasPrefix(lines[1], link("/repair/triage")+"?") {
		return "", "", false
	}
	on, err := fieldkit.ParseDate(lines[0])
	if n := on.DaysUntil(day); err != nil || n < 0 || n >= triageDays {
		return "", "", false
	}
	return lines[1], lines[2], true
}
