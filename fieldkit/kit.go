package fieldkit

// Format names the kit file's format; every kit file says it.
const Format = "trail-field-kit"

// Version is the version of the kit file this program writes: a newer minor
// version may add fields, which are kept; a newer major version is refused.
const (
	MajorVersion = 1
	MinorVersion = 1
)

// Kit is everything one crew keeps: one document, one file. Records refer to
// each other by ID; Check says which references lead nowhere.
type Kit struct {
	Format   string `json:"format"`   // always Format
	Version  string `json:"version"`  // "1.1"
	ID       string `json:"id"`       // tells two kits apart
	Name     string `json:"name"`     // "Juniper Flat crew"
	Currency string `json:"currency"` // ISO 4217, of all prices

	// What grows with the years is a List, so that an edit costs the same in any of them.
	Rigs        []Rig            `json:"rigs,omitempty"`
	Systems     []Assembly       `json:"systems,omitempty"`
	Positions   List[Position]   `json:"positions,omitempty"`
	Donors      []Donor          `json:"donors,omitempty"`
	Parts       List[Part]       `json:"parts,omitempty"`
	Links       List[Link]       `json:"links,omitempty"`
	Bins        []Bin            `json:"bins,omitempty"`
	Spares      List[Spare]      `json:"spares,omitempty"`
	Consumables []Consumable     `json:"consumables,omitempty"`
	Tools       []Tool           `json:"tools,omitempty"`
	Trips       []Trip           `json:"trips,omitempty"`
	Packs       []Pack           `json:"packs,omitempty"`
	Runs        []Run            `json:"runs,omitempty"`
	Failures    List[Failure]    `json:"failures,omitempty"`
	Inspections List[Inspection] `json:"inspections,omitempty"`
	Priors      []Prior          `json:"priors,omitempty"`
	Visits      []Visit          `json:"visits,omitempty"`
	OwnRepairs  []OwnRepair      `json:"ownRepairs,omitempty"`
	StepNotes   []StepNote       `json:"stepNotes,omitempty"`

	Extra Extra `json:"-"`
}
