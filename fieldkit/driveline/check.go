package driveline

import (
	"math"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
)

// Link is one shaft or joint in a driveline.
type Link struct {
	Position string // ID
	Title    string
	Part     string // name, none if not known
	Kind     string
	Front    bool // of the front axle
	Torque   fieldkit.Torque
	Limit    Limit // what bounds the torque
	Strength fieldkit.Torque
	How      string  // what the strength rests on
	Margin   float64 // strength over torque, 0 if one of them is not known
	// Factor is by how much its life is shorter than with a margin of reference: the
	// third power of the ratio, as life falls with load. 0 where that is not known: with
	// the margin, and where nobody knows how much the tyres hold, since what engine and
	// gears could do to them is far above it.
	Factor  float64
	Missing []string // what would have to be known for a margin; of a link that has one, for more than "at least"
}

// AtLeast reports that the margin may be larger: of engine and grip one is not known.
func (l Link) AtLeast() bool { return l.Margin > 0 && len(l.Missing) > 0 }

// Report is a rig's driveline, link by link.
type Report struct {
	Links   []Link // with a margin, the weakest first
	Open    []Link // without one, with what is missing, in the rig's order
	Weakest *Link  // none if no margin is known
	Next    *Link  // the weakest once all of the weakest's kind on its axle are stronger
	Tyre    fieldkit.Length
}

const (
	// reference is the margin that the starting guesses of failure rates are taken to
	// be for. Starting guess.
	reference = 1.2
	// lifePower is the power at which life falls with load, see package likelihood.
	lifePower = 3
	// Bounds of Factor: beyond them the sum says more of its figures than of the part.
	leastFactor, mostFactor = 0.3, 10
)

// Check reckons margins for the driveline of a rig. A rig that says nothing of its
// driveline has all its links open.
func Check(kit fieldkit.Kit, rig fieldkit.Rig) Report {
	d := fieldkit.Driveline{}
	if rig.Driveline != nil {
		d = *rig.Driveline
	}
	r := Report{Tyre: tyreDiameter(rig, d)}
	front, rear := torquesAt(d, d.Front, r.Tyre), torquesAt(d, d.Rear, r.Tyre)
	for _, p := range kit.PositionsOf(rig.ID) {
		place, ok := placeOf(kit, p)
		if !ok {
			continue
		}
		at := rear
		if place.front {
			at = front
		}
		on := at.shaft
		if place.driveShaft {
			on = at.driveShaft
		}
		r.add(linkOf(kit, p, place, on, d.Yield))
	}
	slices.SortStableFunc(r.Links, func(a, b Link) int {
		switch {
		case a.Margin < b.Margin:
			return -1
		case a.Margin > b.Margin:
			return 1
		}
		return strings.Compare(a.Position, b.Position)
	})
	if len(r.Links) > 0 {
		r.Weakest = &r.Links[0]
	}
	for i := range r.Links {
		if l := &r.Links[i]; l.Kind != r.Weakest.Kind || l.Front != r.Weakest.Front {
			r.Next = l
			break
		}
	}
	return r
}

func (r *Report) add(l Link) {
	if l.Margin > 0 {
		r.Links = append(r.Links, l)
		return
	}
	r.Open = append(r.Open, l)
}

// place is where in a driveline a position sits.
type place struct {
	front      bool
	driveShaft bool // on the drive shaft, not beyond the differential
	shaft      bool // a shaft whose strength follows from its measure; else a rating is needed
}

// kinds are the part kinds of the catalog that carry the drive's torque and are shafts
// or joints.
var kinds = map[string]place{
	"front-axle-shaft":    {front: true, shaft: true},
	"stub-shaft":          {front: true, shaft: true},
	"axle-u-joint":        {front: true},
	"locking-hub":         {front: true},
	"rear-axle-shaft":     {shaft: true},
	"drive-shaft":         {driveShaft: true},
	"drive-shaft-u-joint": {driveShaft: true},
	"yoke":                {driveShaft: true},
}

// placeOf says where a position sits; front and rear drive shafts are told apart by
// the position's name, a system's name else.
func placeOf(kit fieldkit.Kit, p fieldkit.Position) (place, bool) {
	at, ok := kinds[p.Kind]
	if !ok || !at.driveShaft {
		return at, ok
	}
	system, _ := kit.System(p.System)
	parent, _ := kit.Position(p.Parent)
	for _, name := range []string{p.Name, parent.Name, system.Name} {
		name = strings.ToLower(name)
		// "U-joint, rear drive shaft, front end" is on the rear one.
		if strings.Contains(name, "rear") {
			return at, true
		}
		if strings.Contains(name, "front") {
			at.front = true
			return at, true
		}
	}
	return at, true
}

func linkOf(kit fieldkit.Kit, p fieldkit.Position, at place, on load, usual fieldkit.Value) Link {
	part, known := kit.Part(p.Part)
	l := Link{Position: p.ID, Title: p.Title(), Part: part.Name, Kind: p.Kind, Front: at.front, Limit: on.limit, Missing: on.missing}
	l.Torque = fieldkit.Torque(math.Round(on.nm * float64(fieldkit.NewtonMetre)))
	if !known {
		l.Missing = append(slices.Clone(l.Missing), "what is fitted there")
		return l
	}
	s := strengthOf(part, at.shaft, usual)
	l.Strength, l.How = s.torque, s.how
	if s.missing != "" {
		l.Missing = append(slices.Clone(l.Missing), s.missing)
	}
	if l.Torque > 0 && l.Strength > 0 {
		l.Margin = float64(l.Strength) / float64(l.Torque)
	}
	if l.Margin > 0 && (l.Limit == ByGrip || !l.AtLeast()) {
		l.Factor = math.Min(math.Max(math.Pow(reference/l.Margin, lifePower), leastFactor), mostFactor)
	}
	return l
}

// At returns a position's link with its margin; ok is false if it has none.
func (r Report) At(position string) (l Link, ok bool) {
	for _, l := range r.Links {
		if l.Position == position {
			return l, true
		}
	}
	return Link{}, false
}
