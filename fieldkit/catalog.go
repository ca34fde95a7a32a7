package fieldkit

// Catalog is what the program brings along: the kinds of part, tool, consumable
// and store, the traits rigs differ in. It is data, loaded and checked by package
// data; kits refer to it by ID.
type Catalog struct {
	PartKinds   []PartKind
	ToolKinds   []ToolKind
	Consumables []ConsumableKind
	Stores      []StoreKind
	Traits      []Trait
}

// PartKind describes what all parts of a kind have in common.
type PartKind struct {
	ID        string      `json:"id"`
	Name      string      `json:"name"`
	Synonyms  []string    `json:"synonyms,omitempty"` // trade names people use
	System    string      `json:"system"`             // usual system, for grouping
	Deciding  []Attribute `json:"deciding,omitempty"` // measured against the part in hand
	Wear      *Wear       `json:"wear,omitempty"`
	BuyWith   []string    `json:"buyWith,omitempty"` // what to buy at the same time
	Stores    []string    `json:"stores,omitempty"`  // store kinds, the likeliest first
	Caution   string      `json:"caution,omitempty"` // where a wrong part is dangerous
	Mass      Mass        `json:"mass,omitempty"`    // typical, where the part does not say
	Volume    Volume      `json:"volume,omitempty"`
	Per10000  float64     `json:"-"`                 // failures in 10 000 km of rough track, as Prior says; data fills both in
	Prior     Prior       `json:"-"`                 // its row of the table of starting guesses
	IfBroken  Move        `json:"-"`                 // what a rig can still do then; the same table
	IfLeft    Minutes     `json:"hoursIfNotCarried"` // time lost when no spare is on board, town aside
	IfCarried Minutes     `json:"hoursIfCarried"`    // time lost when it is fixed on the trail
	Repairs   []string    `json:"repairs,omitempty"` // IDs of the repairs that replace it
}

// Attribute is a property that decides whether a part is the right one.
type Attribute struct {
	Name string    `json:"name"`
	Dim  Dimension `json:"dimension"`
	How  string    `json:"how"`           // how to measure it
	Must bool      `json:"must"`          // without it a stranger cannot pick the part
	Why  string    `json:"why,omitempty"` // what goes wrong if it differs
}

// Wear is the reading that shows how much of a part is left.
type Wear struct {
	Name    string `json:"name"`
	Limit   Value  `json:"limit"` // starting guess; the maker's figure stands
	Falling bool   `json:"falling"`
	How     string `json:"how"`
	// ByHours is of what turns with the engine: where its readings have the hour meter,
	// they are followed by that instead of the odometer.
	ByHours bool `json:"byHours,omitempty"`
}

// ToolKind is a kind of tool that repairs ask for.
type ToolKind struct {
	ID           string   `json:"id"`
	Name         string   `json:"name"`
	Alternatives []string `json:"alternatives,omitempty"` // what else does the job
	Mass         Mass     `json:"mass,omitempty"`
	Volume       Volume   `json:"volume,omitempty"`
}

// ConsumableKind is a kind of consumable that repairs ask for.
type ConsumableKind struct {
	ID     string   `json:"id"`
	Name   string   `json:"name"`
	Grade  string   `json:"grade,omitempty"`
	Stores []string `json:"stores,omitempty"`
	Mass   Mass     `json:"mass,omitempty"`
	Volume Volume   `json:"volume,omitempty"`
}

// StoreBy lists what stores look a part up by: the vehicle it is from, its number, the
// designation of a published standard, its sizes, the old part itself.
var StoreBy = []string{"donor", "number", "designation", "size", "old part"}

// StoreKind is a kind of store and what to expect there.
type StoreKind struct {
	ID   string   `json:"id"`
	Name string   `json:"name"`
	By   []string `json:"by"`  // what they look a part up by, the best first: StoreBy
	Has  string   `json:"has"` // what it usually has
	Say  string   `json:"say"` // what to say there
}

// Trait is something rigs differ in that changes a repair.
type Trait struct {
	ID      string   `json:"id"`
	Name    string   `json:"name"`
	Ask     string   `json:"ask"` // how to find out
	Options []string `json:"options"`
}
