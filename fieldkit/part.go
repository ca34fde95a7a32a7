package fieldkit

// Evidence is how something was proven, strongest first in EvidenceOrder.
type Evidence string

const (
	TestFitted        Evidence = "test-fitted"        // it was bolted on and worked
	PublishedStandard Evidence = "published standard" // a standard gives the figure
	Measured          Evidence = "measured"           // with a tool, by hand
	NumberRead        Evidence = "number read"        // off the part itself
	StoreBook         Evidence = "store book"         // a store's or a maker's listing
	Seen              Evidence = "seen"               // by eye, nothing measured
	Hearsay           Evidence = "hearsay"            // somebody said so
)

// EvidenceOrder lists evidence from the strongest to the weakest.
var EvidenceOrder = []Evidence{TestFitted, PublishedStandard, Measured, NumberRead, StoreBook, Seen, Hearsay}

// Strength ranks evidence, 0 for none or unknown, higher is stronger.
func (e Evidence) Strength() int {
	for i, known := range EvidenceOrder {
		if e == known {
			return len(EvidenceOrder) - i
		}
	}
	return 0
}

// Proof says how, when and by whom something was proven.
type Proof struct {
	How   Evidence `json:"how"`
	On    Date     `json:"on,omitempty"`
	By    string   `json:"by,omitempty"`
	Note  string   `json:"note,omitempty"`
	Extra Extra    `json:"-"`
}

// Issuer is who gave a part its number.
type Issuer string

const (
	MakerNumber       Issuer = "maker"       // the vehicle maker's original number
	ReplacementNumber Issuer = "replacement" // a replacement brand's number
	StandardNumber    Issuer = "standard"    // a designation of a published standard
	CastingMark       Issuer = "casting"     // cast or stamped into the part
)

// Number is a part number or designation with its issuer.
type Number struct {
	Value  string `json:"value"` // as printed: "K-4410 B", "LM501349"
	Issuer Issuer `json:"issuer"`
	From   string `json:"from,omitempty"` // brand or standard: "Kestrel", "ABMA 19"
	Proof  *Proof `json:"proof,omitempty"`
	Extra  Extra  `json:"-"`
}

// Measurement is one reading taken on a part.
type Measurement struct {
	Name  string `json:"name"` // attribute of the part kind: "bore", "rotor diameter"
	Value Value  `json:"value"`
	How   string `json:"how,omitempty"` // the tool: "caliper", "tape", "counted", "read"
	On    Date   `json:"on,omitempty"`
	Worn  bool   `json:"worn,omitempty"` // taken on a worn part: the new one may differ
	Extra Extra  `json:"-"`
}

// LookAlike is a part that passes for this one at a glance and does not fit.
type LookAlike struct {
	Name  string `json:"name"`
	Tell  string `json:"tell"` // how to tell them apart, in one line
	Part  string `json:"part,omitempty"`
	Tells []Tell `json:"tells,omitempty"` // the same as checks, one each
	Extra Extra  `json:"-"`
}

// Tell is one check that tells a look-alike from the part wanted.
type Tell struct {
	What   string `json:"what"`             // what is looked at: "splines", "ring gear"
	By     string `json:"by,omitempty"`     // with what: "eye", "count", "magnet", "caliper"
	Wanted Value  `json:"wanted,omitempty"` // what the part wanted shows, unless it was measured
	Other  Value  `json:"other"`            // what the look-alike shows
	Extra  Extra  `json:"-"`
}

// Part is a part as it is bought: fitted at positions, kept as spares, tied to
// others by links.
type Part struct {
	ID           string        `json:"id"`
	Kind         string        `json:"kind"` // part kind of the catalog
	Name         string        `json:"name"`
	Donor        string        `json:"donor,omitempty"` // ID
	Numbers      []Number      `json:"numbers,omitempty"`
	Measurements []Measurement `json:"measurements,omitempty"`
	LookAlikes   []LookAlike   `json:"lookAlikes,omitempty"`
	BuyWith      []string      `json:"buyWith,omitempty"` // beyond what the kind lists
	Mass         Mass          `json:"mass,omitempty"`    // of one piece as carried
	Volume       Volume        `json:"volume,omitempty"`  // of one piece as packed
	Price        *Money        `json:"price,omitempty"`
	Note         string        `json:"note,omitempty"`
	Extra        Extra         `json:"-"`
}

// Grade is how well one part stands in for another.
type Grade string

const (
	DropIn      Grade = "drop-in"
	WithChanges Grade = "fits with changes"
	OneWay      Grade = "one-way"
	DoesNotFit  Grade = "does not fit"
)

// Link says that part With can stand in for part For. Drop-in and fits with
// changes hold both ways; one-way holds only in this direction; does not fit
// holds both ways and beats every chain.
type Link struct {
	ID       string   `json:"id"`
	For      string   `json:"for"`  // ID of the part that is wanted
	With     string   `json:"with"` // ID of the part that takes its place
	Grade    Grade    `json:"grade"`
	Changes  []string `json:"changes,omitempty"` // what must be changed, one each
	Evidence Evidence `json:"evidence"`
	On       Date     `json:"on,omitempty"`
	By       string   `json:"by,omitempty"`
	Note     string   `json:"note,omitempty"`
	Extra    Extra    `json:"-"`
}
