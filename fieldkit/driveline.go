package fieldkit

// Driveline is what the torque through a rig's driveline follows from. What is not
// known is left out, and what would follow from it stays open.
type Driveline struct {
	Engine   Value `json:"engine,omitempty"`      // greatest torque of the engine, with its accessories
	First    Value `json:"firstGear,omitempty"`   // ratio of the lowest gear
	Stall    Value `json:"stall,omitempty"`       // torque ratio of a converter at stall; none for a clutch
	Low      Value `json:"transferLow,omitempty"` // ratio of the transfer case in low range
	Friction Value `json:"friction,omitempty"`    // of tyre on ground: about 1 on dry rock
	Tyre     Value `json:"tyre,omitempty"`        // diameter, where the sidewall's size does not say it
	Yield    Value `json:"yield,omitempty"`       // yield strength of the shafts' steel where a part does not say
	Front    Axle  `json:"frontAxle,omitzero"`
	Rear     Axle  `json:"rearAxle,omitzero"`
	Extra    Extra `json:"-"`
}

// Axle is a driven axle in a driveline.
type Axle struct {
	Ratio  Value `json:"ratio,omitempty"`  // of ring and pinion
	Load   Mass  `json:"load,omitempty"`   // on this axle, ready for the trip
	Locked bool  `json:"locked,omitempty"` // its differential can be locked: one wheel may take all
	Extra  Extra `json:"-"`
}
