package fieldkit

import "slices"

// Terrain is how hard a trip is on the rig, from graded road to rock.
type Terrain string

const (
	GradedRoad Terrain = "graded road"
	RoughTrack Terrain = "rough track"
	Sand       Terrain = "sand"
	Mud        Terrain = "mud and water"
	Rock       Terrain = "rock"
)

// Terrains lists the terrains from the kindest to the hardest.
var Terrains = []Terrain{GradedRoad, RoughTrack, Sand, Mud, Rock}

// Trip is a drive to pack for.
type Trip struct {
	ID            string    `json:"id"`
	Name          string    `json:"name"`
	Rigs          []string  `json:"rigs"` // IDs of the rigs that go
	Start         Date      `json:"start,omitempty"`
	Days          int       `json:"days"`
	Distance      Distance  `json:"distance"`
	EngineHours   int       `json:"engineHours,omitempty"` // that the engine will run; by the rig's own hours and distance if left out
	Terrain       Terrain   `json:"terrain"`               // the hardest that matters
	Overload      int       `json:"overload,omitempty"`    // load on the axles over what they were built for, per cent
	Crossings     int       `json:"crossings,omitempty"`   // deep water crossings
	Dust          Dust      `json:"dust,omitempty"`
	Towns         []Town    `json:"towns,omitempty"`
	Limits        Limits    `json:"limits"`
	Carries       []Carries `json:"carries,omitempty"`       // what each rig carries at most, beside the limits of the trip
	Friends       []Lent    `json:"friends,omitempty"`       // rides in a friend's rig: at hand, and no weight on ours
	Costs         []Cost    `json:"costs,omitempty"`         // what failures cost, where a person knows better
	Yardstick     Yardstick `json:"yardstick,omitempty"`     // hours if left out
	HourWorth     *Money    `json:"hourWorth,omitempty"`     // of one hour lost, where money is the yardstick
	RecoveryPrice *Money    `json:"recoveryPrice,omitempty"` // of being fetched once, likewise
	Done          bool      `json:"done,omitempty"`
	Note          string    `json:"note,omitempty"`
	Extra         Extra     `json:"-"`
}

// Holds reports whether a failure belongs to the trip: by its trip, else by its rig and
// its date.
func (t Trip) Holds(f Failure) bool {
	if f.Trip != "" {
		return f.Trip == t.ID
	}
	return slices.Contains(t.Rigs, f.Rig) && !t.Start.IsZero() && !f.On.IsZero() &&
		!f.On.Before(t.Start) && f.On.Before(t.End().AddDays(1))
}

// TripOn is the trip a rig is on that day, any rig's where none is named: of two, the one
// that is not done. ok is false if there is none; a trip without a day is on none.
func (k Kit) TripOn(rig string, day Date) (on Trip, ok bool) {
	for _, t := range k.Trips {
		if t.Start.IsZero() || day.Before(t.Start) || t.End().Before(day) || rig != "" && !slices.Contains(t.Rigs, rig) {
			continue
		}
		if !ok || on.Done && !t.Done {
			on, ok = t, true
		}
	}
	return on, ok
}

// End is the last day of the trip, unknown where its first is.
func (t Trip) End() Date {
	if t.Start.IsZero() {
		return t.Start
	}
	return t.Start.AddDays(max(t.Days, 1) - 1)
}

// Town is where something can be bought on the way.
type Town struct {
	Name   string    `json:"name"`
	Away   Minutes   `json:"away"`             // driving time from the far end of the trail, one way
	Stores []string  `json:"stores,omitempty"` // store kinds of the catalog
	Closed []Weekday `json:"closed,omitempty"` // days on which nothing is sold
	Order  Minutes   `json:"order,omitempty"`  // until a part that is not on the shelf is there; a day and a half if left out
	Note   string    `json:"note,omitempty"`
	Extra  Extra     `json:"-"`
}

// Limits bound what may be packed; a zero limit is no limit.
type Limits struct {
	Mass   Mass   `json:"mass,omitempty"`
	Volume Volume `json:"volume,omitempty"`
	Money  *Money `json:"money,omitempty"` // to spend on what is not owned yet
	Extra  Extra  `json:"-"`
}

// Carries bounds what one rig of a trip carries; a limit left out is none.
type Carries struct {
	Rig    string `json:"rig"`
	Mass   Mass   `json:"mass,omitempty"`
	Volume Volume `json:"volume,omitempty"`
	Extra  Extra  `json:"-"`
}

// Lent is something that rides in a friend's rig on a trip: whoever needs it has it,
// and none of our rigs carries it.
type Lent struct {
	Type  ItemType `json:"type"`
	Item  string   `json:"item"` // ID as in Item
	Count int      `json:"count"`
	Who   string   `json:"who,omitempty"` // whose rig
	Extra Extra    `json:"-"`
}

// ItemType says which collection a packed item is from.
type ItemType string

const (
	SpareItem      ItemType = "spare" // Item is the ID of a part
	ConsumableItem ItemType = "consumable"
	ToolItem       ItemType = "tool"
)

// Item names something that can be packed or used: a part, a consumable or a
// tool by its ID, and how many.
type Item struct {
	Type  ItemType `json:"type"`
	Item  string   `json:"item"`
	Count int      `json:"count"`
	Extra Extra    `json:"-"`
}

// CarriesOf is what a rig carries at most on the trip.
func (t Trip) CarriesOf(rig string) Carries {
	for _, c := range t.Carries {
		if c.Rig == rig {
			return c
		}
	}
	return Carries{Rig: rig}
}

// WithFriends is how many pieces of something ride in friends' rigs.
func (t Trip) WithFriends(kind ItemType, id string) (n int) {
	for _, l := range t.Friends {
		if l.Type == kind && l.Item == id {
			n += max(l.Count, 0)
		}
	}
	return n
}

// Pack is the packing list of one trip.
type Pack struct {
	ID     string     `json:"id"`
	Trip   string     `json:"trip"`
	Lines  []PackLine `json:"lines,omitempty"`
	Never  []Item     `json:"never,omitempty"` // left at home on purpose
	Made   Date       `json:"made,omitempty"`
	ByHand bool       `json:"byHand,omitempty"` // changed since it was planned
	Extra  Extra      `json:"-"`
}

// PackLine is one line of a packing list.
type PackLine struct {
	Type   ItemType `json:"type"`
	Item   string   `json:"item"` // ID as in Item
	Count  int      `json:"count"`
	Bin    string   `json:"bin,omitempty"`
	Rig    string   `json:"rig,omitempty"` // that carries it, where it is in no bin
	Packed bool     `json:"packed,omitempty"`
	Pinned bool     `json:"pinned,omitempty"` // stays when the trip is planned again
	Why    string   `json:"why,omitempty"`
	Extra  Extra    `json:"-"`
}
