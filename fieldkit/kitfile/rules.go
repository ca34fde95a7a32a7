package kitfile

import (
	"fmt"
	"unicode/utf8"

	"trailfieldkit/fieldkit"
)

// Bounds on whole numbers. They are far above any real rig or trip; what lies
// beyond is a slip of the finger.
const (
	maxPieces     = 1_000_000 // of one thing in stock or in a pack
	maxFitted     = 1_000     // pieces fitted at one position
	maxDays       = 3_660     // of one trip
	maxOrder      = 1_000_000
	maxOversize   = 200     // per cent
	minOversize   = -50     // per cent
	maxOverload   = 200     // per cent
	maxCrossings  = 1_000   // of one trip
	maxPerMillion = 100_000 // failures in a million km: one every 10 km
	maxShape      = 1_000   // hundredths
	maxPower      = 1_000   // hundredths
	maxPercent    = 1_000
	maxLat        = 90_000_000 // millionths of a degree
	maxLon        = 180_000_000
	maxHands      = 20
	photoHash     = 64 // hexadecimal digits of SHA-256
)

// rules checks what the types of a record's fields do not say.
func (c *checker) rules(r fieldkit.Record, at *trail) {
	switch r := r.(type) {
	case *fieldkit.Rig:
		c.within(r.Oversize, minOversize, maxOversize, at.field("oversize"))
		c.within(r.EngineHours, 0, fieldkit.MaxEngineHours, at.field("engineHours"))
		c.services(r.Services, at.field("services"))
	case *fieldkit.Assembly:
		c.order(r.Order, at)
	case *fieldkit.Position:
		c.order(r.Order, at)
		c.within(r.Quantity, 1, maxFitted, at.field("quantity"))
		c.kind(r.Kind, at.field("kind"))
	case *fieldkit.Donor:
		c.years(*r, at)
		if r.RearWheels != "" && r.RearWheels != "single" && r.RearWheels != "dual" {
			c.note(at.field("rearWheels"), fmt.Sprintf("%s is not a rear wheel layout", quoted(r.RearWheels)), "write single or dual")
		}
	case *fieldkit.Part:
		c.kind(r.Kind, at.field("kind"))
	case *fieldkit.Link:
		if r.For == r.With && r.For != "" {
			c.note(at.field("with"), fmt.Sprintf("part %s is tied to itself", quoted(r.With)), "name the part that takes its place")
		}
	case *fieldkit.Bin:
		c.order(r.Order, at)
	case *fieldkit.Spare:
		c.within(r.Count, 0, maxPieces, at.field("count"))
	case *fieldkit.Consumable:
		c.kind(r.Kind, at.field("kind"))
		c.within(r.Count, 0, maxPieces, at.field("count"))
	case *fieldkit.Tool:
		c.kind(r.Kind, at.field("kind"))
	case *fieldkit.Trip:
		c.trip(*r, at)
	case *fieldkit.Pack:
		for i, line := range r.Lines {
			c.within(line.Count, 1, maxPieces, at.field("lines").entry(i).field("count"))
		}
		c.items(r.Never, 0, at.field("never"))
	case *fieldkit.Run:
		c.kind(r.Guide, at.field("guide"))
		c.items(r.Used, 1, at.field("used"))
	case *fieldkit.Failure:
		c.place(r.Place, at.field("place"))
		c.items(r.Used, 1, at.field("used"))
		c.photos(r.Photos, at.field("photos"))
	case *fieldkit.Inspection:
		c.within(r.EngineHours, 0, fieldkit.MaxEngineHours, at.field("engineHours"))
		c.photos(r.Photos, at.field("photos"))
	case *fieldkit.Prior:
		c.prior(*r, at)
	case *fieldkit.OwnRepair:
		c.within(r.Hands, 0, maxHands, at.field("hands"))
		for i, s := range r.Steps {
			for name, text := range map[string]string{"text": s.Text, "caution": s.Caution} {
				if utf8.RuneCountInString(text) > fieldkit.MaxOwnStep {
					c.note(at.field("steps").entry(i).field(name), fmt.Sprintf("it is longer than %d characters", fieldkit.MaxOwnStep), "make two steps of it")
				}
			}
		}
	case *fieldkit.StepNote:
		c.kind(r.Guide, at.field("guide"))
		c.kind(r.Step, at.field("step"))
	case *fieldkit.Visit:
		c.kind(r.Store, at.field("store"))
		c.kind(r.Kind, at.field("kind"))
	}
}

// services checks the intervals, and that each goes by a name of its own.
func (c *checker) services(list []fieldkit.Service, at *trail) {
	seen := map[string]bool{}
	for i, s := range list {
		entry := at.entry(i)
		c.id(s.ID, entry.field("id"))
		if seen[s.ID] {
			c.note(entry.field("id"), fmt.Sprintf("service %s is listed twice", quoted(s.ID)), "give one of the two another id")
		}
		seen[s.ID] = true
		c.within(s.Hours, 0, fieldkit.MaxEngineHours, entry.field("everyHours"))
		c.within(s.Months, 0, fieldkit.MaxMonths, entry.field("everyMonths"))
		c.within(s.Crossings, 0, maxCrossings, entry.field("everyCrossings"))
		for j, d := range s.Done {
			c.within(d.Hours, 0, fieldkit.MaxEngineHours, entry.field("done").entry(j).field("hours"))
		}
	}
}

func (c *checker) within(n, least, most int, at *trail) {
	if n < least || n > most {
		c.note(at, fmt.Sprintf("%d is out of range", n), fmt.Sprintf("write a whole number from %d to %d", least, most))
	}
}

func (c *checker) order(n int, at *trail) {
	c.within(n, -maxOrder, maxOrder, at.field("order"))
}

// kind checks the form of an ID of the catalog.
func (c *checker) kind(id string, at *trail) {
	if id != "" {
		c.id(id, at)
	}
}

func (c *checker) years(d fieldkit.Donor, at *trail) {
	c.year(d.YearFrom, at.field("yearFrom"))
	c.year(d.YearTo, at.field("yearTo"))
	if d.YearFrom != 0 && d.YearTo != 0 && d.YearTo < d.YearFrom {
		c.note(at.field("yearTo"), fmt.Sprintf("%d is before %d, the first year", d.YearTo, d.YearFrom), "swap the two years")
	}
}

func (c *checker) year(y int, at *trail) {
	if y != 0 && (y < firstYear || y > lastYear) {
		c.note(at, fmt.Sprintf("%d is not a year of a vehicle", y), fmt.Sprintf("write a year from %d to %d, or leave the field out", firstYear, lastYear))
	}
}

func (c *checker) trip(t fieldkit.Trip, at *trail) {
	c.within(t.Days, 1, maxDays, at.field("days"))
	c.within(t.Overload, minOversize, maxOverload, at.field("overload"))
	c.within(t.Crossings, 0, maxCrossings, at.field("crossings"))
	c.within(t.EngineHours, 0, fieldkit.MaxTripHours, at.field("engineHours"))
	costed := map[string]bool{}
	for i, cost := range t.Costs {
		if costed[cost.Position] {
			c.note(at.field("costs").entry(i).field("position"), fmt.Sprintf("position %s is listed twice", quoted(cost.Position)), "keep one of the two")
		}
		costed[cost.Position] = true
		c.within(cost.Shelf, 0, fieldkit.MaxShelf, at.field("costs").entry(i).field("shelf"))
	}
	going := map[string]bool{}
	for i, rig := range t.Rigs {
		if going[rig] {
			c.note(at.field("rigs").entry(i), fmt.Sprintf("rig %s is listed twice", quoted(rig)), "keep one of the two")
		}
		going[rig] = true
	}
	bounded := map[string]bool{}
	for i, carries := range t.Carries {
		if bounded[carries.Rig] {
			c.note(at.field("carries").entry(i).field("rig"), fmt.Sprintf("rig %s is listed twice", quoted(carries.Rig)), "keep one of the two")
		}
		bounded[carries.Rig] = true
	}
	for i, lent := range t.Friends {
		c.within(lent.Count, 1, maxPieces, at.field("friends").entry(i).field("count"))
	}
	for i, town := range t.Towns {
		for j, store := range town.Stores {
			c.kind(store, at.field("towns").entry(i).field("stores").entry(j))
		}
	}
}

func (c *checker) prior(p fieldkit.Prior, at *trail) {
	c.within(p.Rate, 1, maxPerMillion, at.field("failuresPerMillionKm"))
	c.within(p.Shape, 0, maxShape, at.field("shape"))
	c.within(p.Sudden, 0, 100, at.field("sudden"))
	c.within(p.Terrain, 0, maxPower, at.field("terrain"))
	c.within(p.Tyre, 0, maxPower, at.field("tyre"))
	c.within(p.Load, 0, maxPower, at.field("load"))
	c.within(p.Dust, 0, maxPercent, at.field("dust"))
	c.kind(p.ID, at.field("id"))
}

func (c *checker) items(list []fieldkit.Item, least int, at *trail) {
	for i, one := range list {
		c.within(one.Count, least, maxPieces, at.entry(i).field("count"))
	}
}

func (c *checker) place(p fieldkit.Place, at *trail) {
	for _, one := range []struct {
		name    string
		degrees int64
		most    int64
	}{{"lat", p.Lat, maxLat}, {"lon", p.Lon, maxLon}} {
		if one.degrees < -one.most || one.degrees > one.most {
			c.note(at.field(one.name), fmt.Sprintf("%d is beyond %d degrees", one.degrees, one.most/1_000_000),
				fmt.Sprintf("write millionths of a degree, from -%d to %d", one.most, one.most))
		}
	}
}

func (c *checker) photos(hashes []string, at *trail) {
	for i, h := range hashes {
		if !isPhotoHash(h) {
			c.note(at.entry(i), fmt.Sprintf("%s is not a photo's name", quoted(h)), "write the SHA-256 of the photo in 64 lower-case hexadecimal digits")
		}
	}
}

func isPhotoHash(h string) bool {
	for _, r := range h {
		if (r < '0' || r > '9') && (r < 'a' || r > 'f') {
			return false
		}
	}
	return len(h) == photoHash
}
