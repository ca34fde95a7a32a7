package repair

// MaxStepText is the longest text of a step: what is read at one glance with
// dirty hands.
const MaxStepText = 240 // characters

// End is where the last step of every branch leads; no step has this ID.
const End = "end"

// Step is one thing to do or one question to answer. Steps lead only forward in
// the guide's list, so every way through ends.
type Step struct {
	ID    string `json:"id"`
	Stage Stage  `json:"stage"`
	Text  string `json:"text"` // at most MaxStepText characters
	// Hazards marks what can hurt; each has a caution of its kind.
	Hazards  []Hazard  `json:"hazards,omitempty"`
	Cautions []Caution `json:"cautions,omitempty"` // shown before the text
	Torques  []Torque  `json:"torques,omitempty"`
	Figures  []Figure  `json:"figures,omitempty"`

	Tools       []string `json:"tools,omitempty"`       // kinds, listed by the guide
	Consumables []string `json:"consumables,omitempty"` // kinds, listed by the guide
	Parts       []string `json:"parts,omitempty"`       // kinds, listed by the guide

	See []string `json:"see,omitempty"` // IDs of other repairs it points to

	// Sound marks a step that is only come to where what the repair is for has not
	// failed: see Guide.Sound.
	Sound bool `json:"sound,omitempty"`

	Only    Condition `json:"only,omitempty"` // the step is for these rigs; others pass it by
	Options []Option  `json:"options,omitempty"`
	Next    string    `json:"next,omitempty"` // step that follows; none is the next in the list
}

// Asks reports whether the step is answered rather than done.
func (s Step) Asks() bool { return len(s.Options) > 0 }

// Option is one answer to a step's question.
type Option struct {
	Answer string    `json:"answer"`
	When   Condition `json:"when,omitempty"` // traits that give this answer without asking
	Unsure bool      `json:"unsure,omitempty"`
	Sound  bool      `json:"sound,omitempty"` // it finds that what the repair is for has not failed
	Next   string    `json:"next,omitempty"`  // none is the next in the list
}

// Stage says what a step is for; a checklist is grouped by it.
type Stage string

const (
	MakeSafe  Stage = "make safe"
	FindOut   Stage = "find out"
	TakeApart Stage = "take apart"
	Field     Stage = "field fix"
	Proper    Stage = "proper fix"
	PutBack   Stage = "put back"
	CheckIt   Stage = "check"
	Stop      Stage = "stop here" // the repair ends without a fix: do not drive, or follow another
)

// Stages lists every stage in its usual order.
var Stages = []Stage{MakeSafe, FindOut, TakeApart, Field, Proper, PutBack, CheckIt, Stop}

// Hazard is a kind of danger that needs its caution in front of the step.
type Hazard string

const (
	Lifting      Hazard = "lifting"
	Brakes       Hazard = "brakes"
	Steering     Hazard = "steering"
	StoredEnergy Hazard = "stored energy"
	Hot          Hazard = "hot"
	Fuel         Hazard = "fuel"
	Battery      Hazard = "battery"
	Road         Hazard = "road"
	MovingParts  Hazard = "moving parts"
	Harmful      Hazard = "harmful substance"
)

// AllHazards lists every kind of hazard.
var AllHazards = []Hazard{Lifting, Brakes, Steering, StoredEnergy, Hot, Fuel, Battery, Road, MovingParts, Harmful}

// Caution stands before a step that can hurt.
type Caution struct {
	Kind   Hazard `json:"kind"`
	Hazard string `json:"hazard"` // what is dangerous
	Harm   string `json:"harm"`   // what it does
	Avoid  string `json:"avoid"`  // how to keep clear of it
}
