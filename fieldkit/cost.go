package fieldkit

// Move is what a rig can still do with something broken.
type Move string

const (
	Limp Move = "limps" // drives on, slowly
	Tow  Move = "towed" // rolls behind another rig
	Walk Move = "stays" // neither: the crew walks, the rig waits for help
)

// Moves lists them from the mildest to the worst.
var Moves = []Move{Limp, Tow, Walk}

// Yardstick is what a packing list is measured by.
type Yardstick string

const (
	ByHours Yardstick = "hours" // expected time lost; the usual one
	ByMoney Yardstick = "money" // what it costs: hours at their worth, recoveries
	ByHome  Yardstick = "home"  // whether the rigs get home without help
)

// Yardsticks lists them.
var Yardsticks = []Yardstick{ByHours, ByMoney, ByHome}

// Cost is what one position's failure costs on one trip, where a person knows better
// than the catalog. What is left out is reckoned.
type Cost struct {
	Position  string  `json:"position"`
	Move      Move    `json:"move,omitempty"`
	Carried   Minutes `json:"carried,omitempty"`   // lost when fixed with a spare on board
	Town      Minutes `json:"town,omitempty"`      // lost when the part is bought on the way
	Recovered Minutes `json:"recovered,omitempty"` // lost when it is neither
	Shelf     int     `json:"shelf,omitempty"`     // how likely a town that sells such parts has it, in per cent
	Extra     Extra   `json:"-"`
}

// MaxShelf is what is on the shelf for sure, in per cent.
const MaxShelf = 100

// CostAt returns what a trip's own figures say of a position; zero if nothing.
func (t Trip) CostAt(position string) Cost {
	for _, c := range t.Costs {
		if c.Position == position {
			return c
		}
	}
	return Cost{Position: position}
}

// Weekday is a day of the week by its English name.
type Weekday string

const (
	Monday    Weekday = "Monday"
	Tuesday   Weekday = "Tuesday"
	Wednesday Weekday = "Wednesday"
	Thursday  Weekday = "Thursday"
	Friday    Weekday = "Friday"
	Saturday  Weekday = "Saturday"
	Sunday    Weekday = "Sunday"
)

// Weekdays lists them from Monday.
var Weekdays = []Weekday{Monday, Tuesday, Wednesday, Thursday, Friday, Saturday, Sunday}

// Weekday returns the day of the week a date falls on.
func (d Date) Weekday() Weekday { return Weekday(d.time().Weekday().String()) }

// Dust is how much dust a trip has.
type Dust string

const (
	NoDust    Dust = ""
	SomeDust  Dust = "some"
	HeavyDust Dust = "heavy"
)
