package triage

import (
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// MostQuestions is how many questions are asked at most: more than that nobody
// answers at dusk.
const MostQuestions = 6

// Book is what triage knows: checked data, read with Load.
type Book struct {
	Stops     []Stop     `json:"stops"`
	Symptoms  []Symptom  `json:"symptoms"`
	Questions []Question `json:"questions"`
	Causes    []Cause    `json:"causes"`
}

// Stop is a sign at which everything else waits.
type Stop struct {
	ID      string   `json:"id"`
	Sign    string   `json:"sign"`
	Now     []string `json:"now"`     // what to do at once, in order
	Repairs []string `json:"repairs"` // repairs that may follow once it is safe
}

// Symptom is what a person begins with.
type Symptom struct {
	ID    string `json:"id"`
	Sense string `json:"sense"` // one of Senses
	Says  string `json:"says"`
}

// Senses lists what symptoms are grouped by, in the order they are shown.
var Senses = []string{"hear", "see", "smell", "feel", "does not work"}

// Question is one thing to look at. It can always be answered with "I don't know",
// which is not among its options.
type Question struct {
	ID      string           `json:"id"`
	Ask     string           `json:"ask"`
	How     string           `json:"how"`               // how to look
	Caution string           `json:"caution,omitempty"` // stands before how to look
	Hard    bool             `json:"hard,omitempty"`    // needs a jack or an open filler plug: many cannot
	Only    repair.Condition `json:"only,omitempty"`    // rigs it can be asked on
	Options []Option         `json:"options"`

	trait string // the trait of the catalog that it asks for, if it is made from one
}

// Option is one answer to a question.
type Option struct {
	ID     string `json:"id"`
	Answer string `json:"answer"`
	Usual  int    `json:"usual"` // times in a hundred where the cause has nothing to do with it
}

// Cause is one thing that may be wrong, with the repair that mends it.
type Cause struct {
	ID     string `json:"id"`
	Repair string `json:"repair"`
	Name   string `json:"name"`
	// Kinds are the part kinds that fail so, and Share how many of a hundred failures
	// of theirs are this one. Besides is how often it comes without any part of theirs
	// failing, in a million km of rough track: mud in the fins.
	Kinds   []string `json:"kinds,omitempty"`
	Share   int      `json:"share,omitempty"`
	Besides int      `json:"besides,omitempty"`
	// Suits says which rigs can have it, beyond what its repair says.
	Suits repair.Condition `json:"suits,omitempty"`
	// Never says, if it is there, which rigs cannot have it: drums front and rear have
	// no caliper.
	Never repair.Condition `json:"never,omitempty"`
	// Signs says with which symptom people begin, in a hundred times of this cause.
	Signs map[string]int `json:"signs"`
	// Answers says, by question and option, how often people answer so in a hundred
	// times of this cause. What is left is spread over the other options as usual;
	// a question that is not named is answered as usual.
	Answers map[string]map[string]int `json:"answers"`
}

// can reports whether a rig can have the cause; what is not known of it can be.
func (c Cause) can(rig fieldkit.Rig) bool {
	return c.Suits.On(rig) != repair.Fails && (len(c.Never) == 0 || c.Never.On(rig) != repair.Holds)
}

// Symptom returns the symptom of that ID.
func (b Book) Symptom(id string) (Symptom, bool) {
	return named(b.Symptoms, func(s Symptom) bool { return s.ID == id })
}

// Stop returns the stop sign of that ID.
func (b Book) Stop(id string) (Stop, bool) {
	return named(b.Stops, func(s Stop) bool { return s.ID == id })
}

// Option returns the option of that ID.
func (q Question) Option(id string) (Option, bool) {
	return named(q.Options, func(o Option) bool { return o.ID == id })
}

func named[T any](list []T, is func(T) bool) (one T, ok bool) {
	if i := slices.IndexFunc(list, is); i >= 0 {
		return list[i], true
	}
	return one, false
}
