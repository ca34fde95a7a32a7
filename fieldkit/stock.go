package fieldkit

// Bin is a box, drawer or bag on a rig that things are packed in.
type Bin struct {
	ID          string `json:"id"`
	Rig         string `json:"rig"`
	Name        string `json:"name"`
	Place       string `json:"place,omitempty"` // "behind the driver's seat"
	MassLimit   Mass   `json:"massLimit,omitempty"`
	VolumeLimit Volume `json:"volumeLimit,omitempty"`
	Order       int    `json:"order,omitempty"`
	Low         bool   `json:"low,omitempty"`     // on the floor or near it
	Forward     bool   `json:"forward,omitempty"` // forward of the rear axle
	Quick       bool   `json:"quick,omitempty"`   // reached without unpacking anything
	Extra       Extra  `json:"-"`
}

// Spare is a stock of one part.
type Spare struct {
	ID    string `json:"id"`
	Part  string `json:"part"`
	Count int    `json:"count"`         // pieces owned, 0 or more
	Bin   string `json:"bin,omitempty"` // where it usually rides
	Note  string `json:"note,omitempty"`
	Extra Extra  `json:"-"`
}

// Consumable is something a repair uses up: fluid, grease, wire, sealant.
type Consumable struct {
	ID     string `json:"id"`
	Kind   string `json:"kind"` // consumable kind of the catalog: "brake-fluid"
	Name   string `json:"name"`
	Size   Value  `json:"size"`  // of one pack: "500 mL"
	Count  int    `json:"count"` // packs owned
	Bin    string `json:"bin,omitempty"`
	Mass   Mass   `json:"mass,omitempty"`   // of one pack
	Volume Volume `json:"volume,omitempty"` // of one pack as it takes up space
	Price  *Money `json:"price,omitempty"`
	Note   string `json:"note,omitempty"`
	Extra  Extra  `json:"-"`
}

// Tool is one tool or set of tools.
type Tool struct {
	ID     string `json:"id"`
	Kind   string `json:"kind"` // tool kind of the catalog: "bearing-nut-socket"
	Name   string `json:"name"`
	Owned  bool   `json:"owned"`
	Bin    string `json:"bin,omitempty"`
	Mass   Mass   `json:"mass,omitempty"`
	Volume Volume `json:"volume,omitempty"`
	Price  *Money `json:"price,omitempty"`
	Note   string `json:"note,omitempty"`
	Extra  Extra  `json:"-"`
}
