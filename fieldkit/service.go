package fieldkit

import "time"

// Service is work that comes round on a rig: by distance, engine hours, months or deep
// water, whichever is first. An interval of nothing does not count.
type Service struct {
	ID        string        `json:"id"`   // unique on its rig
	Name      string        `json:"name"` // "engine oil and filter"
	Every     Distance      `json:"every,omitempty"`
	Hours     int           `json:"everyHours,omitempty"` // of the engine
	Months    int           `json:"everyMonths,omitempty"`
	Crossings int           `json:"everyCrossings,omitempty"` // of deep water; 1 means after each
	Done      []ServiceDone `json:"done,omitempty"`           // the latest last
	Note      string        `json:"note,omitempty"`           // how, with what, how much
	Extra     Extra         `json:"-"`
}

// ServiceDone is one time a service was done.
type ServiceDone struct {
	On       Date     `json:"on"`
	Odometer Distance `json:"odometer,omitempty"`
	Hours    int      `json:"hours,omitempty"` // of the engine
	Note     string   `json:"note,omitempty"`
	Extra    Extra    `json:"-"`
}

// Bounds on the intervals of a service; what lies beyond is a slip of the finger.
const (
	MaxEngineHours = 1_000_000
	MaxTripHours   = 10_000 // of the engine, on one trip
	MaxMonths      = 1_200
)

// Last is when the service was last done; ok is false if it never was.
func (s Service) Last() (d ServiceDone, ok bool) {
	for _, one := range s.Done {
		if !ok || !one.On.Before(d.On) {
			d, ok = one, true
		}
	}
	return d, ok
}

// AddMonths returns the same day n months later, the last of the month where it has
// no such day. An unknown date stays unknown.
func (d Date) AddMonths(n int) Date {
	if d.IsZero() {
		return d
	}
	first := DateOf(time.Date(d.Year, d.Month+time.Month(n), 1, 0, 0, 0, 0, time.UTC))
	last := DateOf(time.Date(first.Year, first.Month+1, 0, 0, 0, 0, 0, time.UTC)).Day
	first.Day = min(d.Day, last)
	return first
}
