package fieldkit

import "strconv"

// Extra holds the fields of a newer minor version, by name, as raw JSON. They
// are written back untouched.
type Extra map[string]string

// Rig is one vehicle as it really is.
type Rig struct {
	ID           string   `json:"id"`
	Name         string   `json:"name"`
	Owner        string   `json:"owner,omitempty"`        // whose it is, where it is not of this crew: a friend's
	Registration string   `json:"registration,omitempty"` // make, model and year on the papers: the wrong thing to ask for
	Odometer     Distance `json:"odometer,omitempty"`
	OdometerOn   Date     `json:"odometerOn,omitempty"`
	// EngineHours is what an hour meter shows, where there is one, in whole hours.
	EngineHours   int    `json:"engineHours,omitempty"`
	EngineHoursOn Date   `json:"engineHoursOn,omitempty"`
	Tyre          string `json:"tyre,omitempty"`     // size on the sidewall
	Oversize      int    `json:"oversize,omitempty"` // tyre diameter over what the axles were built for, per cent
	// Traits say how the rig is built where repairs differ, by trait ID of the
	// catalog: "rear-axle": "full-float".
	Traits map[string]string `json:"traits,omitempty"`
	// Figures are to be read in a hurry: weights, tyre pressures, fluids.
	Figures   []RigFigure `json:"figures,omitempty"`
	Contacts  []Contact   `json:"contacts,omitempty"`  // whom to call for this rig and its crew, in order
	Services  []Service   `json:"services,omitempty"`  // work that comes round
	Driveline *Driveline  `json:"driveline,omitempty"` // what its strength is reckoned from
	Note      string      `json:"note,omitempty"`
	Extra     Extra       `json:"-"`
}

// RigFigure is one figure of a rig under the name its crew gives it.
type RigFigure struct {
	Name  string `json:"name"` // "tyres on the road, front"
	Value Value  `json:"value"`
	Extra Extra  `json:"-"`
}

// Contact is somebody to call.
type Contact struct {
	Name  string `json:"name"`
	Line  string `json:"line"` // a telephone number, a radio channel
	Extra Extra  `json:"-"`
}

// Assembly is a system of a rig: steering, front axle, brakes.
type Assembly struct {
	ID    string `json:"id"`
	Rig   string `json:"rig"` // ID of the rig
	Name  string `json:"name"`
	Order int    `json:"order,omitempty"`
	Extra Extra  `json:"-"`
}

// Side is where on the rig a position sits, seen from the driver's seat.
type Side string

const (
	NoSide Side = ""
	Left   Side = "left"
	Right  Side = "right"
	Centre Side = "centre"
)

// Opposite returns the mirrored side; a position without one has none.
func (s Side) Opposite() Side {
	switch s {
	case Left:
		return Right
	case Right:
		return Left
	}
	return NoSide
}

// Position is a place on the rig where a part sits.
type Position struct {
	ID       string   `json:"id"`
	System   string   `json:"system"`           // ID of the assembly
	Parent   string   `json:"parent,omitempty"` // ID of the position it belongs under, such as the wheel end
	Name     string   `json:"name"`             // without the side: "wheel bearing, outer"
	Side     Side     `json:"side,omitempty"`
	Order    int      `json:"order,omitempty"`
	Kind     string   `json:"kind"`           // part kind of the catalog
	Quantity int      `json:"quantity"`       // pieces fitted here, 1 or more
	Part     string   `json:"part,omitempty"` // ID of the part fitted; none when not yet known
	Fitted   Date     `json:"fitted,omitempty"`
	FittedAt Distance `json:"fittedAt,omitempty"` // odometer when fitted
	Proof    *Proof   `json:"proof,omitempty"`    // that this part sits here
	Note     string   `json:"note,omitempty"`
	// Compared are parts held against the one wanted here, the latest last.
	Compared []Comparison `json:"compared,omitempty"`
	Extra    Extra        `json:"-"`
}

// Donor is the vehicle a part came from: what to say at the counter instead of
// the rig's own registration.
type Donor struct {
	ID         string `json:"id"`
	Make       string `json:"make"`
	Model      string `json:"model"`
	YearFrom   int    `json:"yearFrom,omitempty"`
	YearTo     int    `json:"yearTo,omitempty"`
	Drive      string `json:"drive,omitempty"`      // "4x4", "4x2"
	RearWheels string `json:"rearWheels,omitempty"` // "single" or "dual"
	Engine     string `json:"engine,omitempty"`
	Axle       string `json:"axle,omitempty"` // what decides between its variants
	VIN        string `json:"vin,omitempty"`
	Note       string `json:"note,omitempty"`
	Extra      Extra  `json:"-"`
}

// Years prints the donor's year range: "1988-1991", "1988", or nothing.
func (d Donor) Years() string {
	switch {
	case d.YearFrom == 0 && d.YearTo == 0:
		return ""
	case d.YearTo == 0 || d.YearFrom == d.YearTo:
		return strconv.Itoa(d.YearFrom)
	case d.YearFrom == 0:
		return "up to " + strconv.Itoa(d.YearTo)
	}
	return strconv.Itoa(d.YearFrom) + "-" + strconv.Itoa(d.YearTo)
}
