package fieldkit

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// OwnRepair is a repair that the crew wrote down itself. It belongs to the kit, so no
// update of the program touches it.
type OwnRepair struct {
	ID          string    `json:"id"`
	Title       string    `json:"title"`
	System      string    `json:"system,omitempty"`      // usual system, as in the catalog's part kinds
	Summary     string    `json:"summary,omitempty"`     // what it looks like
	PartKinds   []string  `json:"partKinds,omitempty"`   // part kinds of the catalog it mends
	StopSigns   []string  `json:"stopSigns,omitempty"`   // what ends the work at once
	Tools       []string  `json:"tools,omitempty"`       // tool kinds of the catalog
	Consumables []string  `json:"consumables,omitempty"` // consumable kinds of the catalog
	Hands       int       `json:"hands,omitempty"`       // people needed
	Time        Minutes   `json:"time,omitempty"`
	Steps       []OwnStep `json:"steps"`
	Afterwards  []string  `json:"afterwards,omitempty"` // what to look at again
	By          string    `json:"by,omitempty"`
	On          Date      `json:"on,omitempty"`
	Extra       Extra     `json:"-"`
}

// OwnStep is one step of it.
type OwnStep struct {
	Text    string `json:"text"`
	Caution string `json:"caution,omitempty"` // what can hurt there, read before the step
	Extra   Extra  `json:"-"`
}

// MaxOwnStep is the longest text of a step or its caution, in characters: what is read
// at one glance.
const MaxOwnStep = 240

// StepNote is what the crew noted at a step of a repair. It goes by the repair and the
// step, so that two phones write on the same note; it stays when the repair changes.
type StepNote struct {
	ID    string `json:"id"`    // NoteID of the two
	Guide string `json:"guide"` // repair of the program or of the crew
	Step  string `json:"step"`
	Text  string `json:"text"`
	On    Date   `json:"on,omitempty"`
	Extra Extra  `json:"-"`
}

// NoteID is the ID of the note at a step.
func NoteID(guide, step string) string { return guide + "." + step }

// cautionMark begins a line that is the caution of the step behind it.
const cautionMark = "!"

// ParseOwnSteps reads steps as they are typed, one a line; a line that begins with "!"
// is the caution of the step behind it. Empty lines count for nothing. The error, of
// kind BadInput, names the line.
func ParseOwnSteps(text string) ([]OwnStep, error) {
	var steps []OwnStep
	caution, cautionAt := "", 0
	for i, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		warns := strings.HasPrefix(line, cautionMark)
		line = strings.TrimSpace(strings.TrimLeft(line, cautionMark))
		switch {
		case utf8.RuneCountInString(line) > MaxOwnStep:
			return nil, badInput(fmt.Sprintf("line %d is longer than %d characters", i+1, MaxOwnStep), "make two steps of it")
		case line == "":
		case warns && caution != "":
			return nil, badInput(fmt.Sprintf("line %d is a second caution before the same step", i+1), "write both in one line, or put the step between")
		case warns:
			caution, cautionAt = line, i+1
		default:
			steps = append(steps, OwnStep{Text: line, Caution: caution})
			caution = ""
		}
	}
	if caution != "" {
		return nil, badInput(fmt.Sprintf("line %d is a caution with no step behind it", cautionAt), "write the step it is for on the next line")
	}
	return steps, nil
}

// ShowOwnSteps writes steps as ParseOwnSteps reads them.
func ShowOwnSteps(steps []OwnStep) string {
	var lines []string
	for _, s := range steps {
		if s.Caution != "" {
			lines = append(lines, cautionMark+" "+s.Caution)
		}
		lines = append(lines, s.Text)
	}
	return strings.Join(lines, "\n")
}
