package fieldkit

// Judgement is how a comparison ended.
type Judgement string

const (
	Proven      Judgement = "proven"       // it is the part wanted
	ChangesOnly Judgement = "with changes" // it fits once something is changed
	Refuted     Judgement = "refuted"      // it does not fit
	Undecided   Judgement = "undecided"    // the checks could not tell
)

// Judgements lists them.
var Judgements = []Judgement{Proven, ChangesOnly, Refuted, Undecided}

// Comparison is a part that was held against the one wanted at a position: on the rig,
// in a yard, at a counter. It is evidence, and stays as it was made.
type Comparison struct {
	On     Date      `json:"on"`
	By     string    `json:"by,omitempty"`
	Wanted string    `json:"wanted"`          // what the part wanted was called
	Where  string    `json:"where,omitempty"` // on what: "fitted here", "the blue van in the yard at Corran"
	Result Judgement `json:"result"`
	How    Evidence  `json:"how"` // the least of the proofs it rests on
	Found  []Finding `json:"found,omitempty"`
	// Against are the look-alikes that it is not; Left those it may still be.
	Against []string `json:"against,omitempty"`
	Left    []string `json:"left,omitempty"`
	Note    string   `json:"note,omitempty"`
	Extra   Extra    `json:"-"`
}

// Finding is one thing found in a comparison.
type Finding struct {
	What   string `json:"what"`
	By     string `json:"by,omitempty"`
	Value  Value  `json:"value"`
	Result string `json:"result,omitempty"` // "agrees", "differs"
	Extra  Extra  `json:"-"`
}
