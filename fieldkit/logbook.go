package fieldkit

import "time"

// Moment is an instant kept in UTC to the second.
type Moment struct{ time.Time }

// MarshalText writes RFC 3339 in UTC, nothing for the zero moment.
func (m Moment) MarshalText() ([]byte, error) {
	if m.IsZero() {
		return nil, nil
	}
	return []byte(m.UTC().Format(time.RFC3339)), nil
}

// UnmarshalText reads RFC 3339; an empty text is the zero moment.
func (m *Moment) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*m = Moment{}
		return nil
	}
	t, err := time.Parse(time.RFC3339, string(text))
	if err != nil || !DateOf(t.UTC()).exists() {
		return badInput("\""+string(text)+"\" is not a moment", "write 2026-05-14T18:05:00Z")
	}
	*m = Moment{t.UTC().Truncate(time.Second)}
	return nil
}

// Place is where something happened: words, and the device's position if it had
// one. Coordinates are WGS 84 in millionths of a degree, so that they are exact.
type Place struct {
	Text     string   `json:"text,omitempty"`
	Lat      int64    `json:"lat,omitempty"` // millionths of a degree, north positive
	Lon      int64    `json:"lon,omitempty"` // millionths of a degree, east positive
	Accuracy Distance `json:"accuracy,omitempty"`
	FixedAt  Moment   `json:"fixedAt,omitempty"` // when the device took it
	Extra    Extra    `json:"-"`
}

// HasFix reports whether the device gave a position.
func (p Place) HasFix() bool { return !p.FixedAt.IsZero() }

// Failure is something that broke, and what was done about it.
type Failure struct {
	ID       string   `json:"id"`
	Rig      string   `json:"rig"`
	On       Date     `json:"on"`
	At       Moment   `json:"at,omitempty"` // when it was written down
	Odometer Distance `json:"odometer,omitempty"`
	Trip     string   `json:"trip,omitempty"`
	Position string   `json:"position,omitempty"` // ID
	Part     string   `json:"part,omitempty"`     // ID of the part that broke, if it was known
	Place    Place    `json:"place,omitempty"`
	What     string   `json:"what"`
	Mode     Mode     `json:"mode,omitempty"`
	Why      string   `json:"why,omitempty"`
	// Conditions say what the rig was doing: gear, ground, load, heat, water.
	Conditions string   `json:"conditions,omitempty"`
	Before     Value    `json:"before,omitempty"` // last reading of the part before it failed
	Fix        string   `json:"fix,omitempty"`
	Used       []Item   `json:"used,omitempty"` // taken from stock
	Lost       Minutes  `json:"lost,omitempty"` // time lost
	Photos     []string `json:"photos,omitempty"`
	Run        string   `json:"run,omitempty"` // ID of the repair that was followed
	Extra      Extra    `json:"-"`
}

// Mode is how something failed, as one sees it without taking it apart.
type Mode string

const (
	WornOut     Mode = "worn out"
	Broken      Mode = "broken"
	Cracked     Mode = "cracked"
	Bent        Mode = "bent"
	CutOrTorn   Mode = "cut or torn"
	Leaking     Mode = "leaking"
	Loose       Mode = "loose"
	Seized      Mode = "seized"
	BurntOut    Mode = "burnt out"
	WaterInside Mode = "water inside"
	NoContact   Mode = "no contact"
)

// Modes lists the modes in the order they are offered.
var Modes = []Mode{WornOut, Broken, Cracked, Bent, CutOrTorn, Leaking, Loose, Seized, BurntOut, WaterInside, NoContact}

// Inspection is one wear reading at a position.
type Inspection struct {
	ID       string   `json:"id"`
	Position string   `json:"position"`
	On       Date     `json:"on"`
	Odometer Distance `json:"odometer,omitempty"`
	// EngineHours is what the hour meter showed, where there is one.
	EngineHours int      `json:"engineHours,omitempty"`
	Name        string   `json:"name"` // attribute measured: "lining thickness"
	Value       Value    `json:"value"`
	How         string   `json:"how,omitempty"`
	Note        string   `json:"note,omitempty"`
	Photos      []string `json:"photos,omitempty"`
	Extra       Extra    `json:"-"`
}

// Run is a repair being followed, kept so that it goes on after the phone died.
type Run struct {
	ID       string            `json:"id"`
	Guide    string            `json:"guide"` // repair of the catalog
	Rig      string            `json:"rig"`
	Position string            `json:"position,omitempty"`
	Started  Moment            `json:"started"`
	Step     string            `json:"step,omitempty"`    // where the person is
	Path     []string          `json:"path,omitempty"`    // steps done, in order
	Answers  map[string]string `json:"answers,omitempty"` // by step: the branch taken
	Used     []Item            `json:"used,omitempty"`
	Finished Moment            `json:"finished,omitempty"`
	Left     bool              `json:"left,omitempty"` // given up
	Failure  string            `json:"failure,omitempty"`
	Extra    Extra             `json:"-"`
}
