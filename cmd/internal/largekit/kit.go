// Package largekit makes kits of any size, to measure with: the same size and seed
// give the same kit. Nothing in them is real, and nothing in them is meant to be read;
// the demo kit is for that.
//
//	kit := largekit.Kit(100)            // 20 rigs, 10,000 parts, 100,000 links, 5,000 log entries
//	first := largekit.Photo(0)         // its first photo of 1,000
//
// Size 1 is about what the demo kit has, except for links, of which there are ten a
// part. It will not make damaged kits: each passes kitfile.Check.
package largekit

import (
	"fmt"
	"math"
	"math/rand/v2"
	"time"

	"trailfieldkit/fieldkit"
)

// How many of each there are in a kit of size 1; rigs grow with the square root.
const (
	parts       = 100
	positions   = 50
	links       = 1000
	failures    = 25
	inspections = 25
	photos      = 10
	group       = 40 // parts that links tie to each other
)

var (
	kinds    = []string{"wheel-bearing", "axle-u-joint", "brake-pads", "wheel-seal", "yoke", "steering-pump", "ball-joint", "tie-rod-end"}
	systems  = []string{"Front axle", "Rear axle", "Brakes", "Steering", "Engine", "Cooling", "Electrics", "Transmission"}
	grades   = []fieldkit.Grade{fieldkit.DropIn, fieldkit.WithChanges, fieldkit.OneWay, fieldkit.DropIn}
	evidence = []fieldkit.Evidence{fieldkit.StoreBook, fieldkit.Measured, fieldkit.Seen, fieldkit.TestFitted}
	terrains = []fieldkit.Terrain{fieldkit.GradedRoad, fieldkit.RoughTrack, fieldkit.Rock}
)

// maker draws what varies.
type maker struct {
	kit fieldkit.Kit
	rnd *rand.Rand
	day fieldkit.Date
}

// Rigs is how many rigs a kit of that size has: 2, 6 and 20 at sizes 1, 10 and 100.
func Rigs(size int) int { return 2 * max(1, int(math.Sqrt(float64(size)))) }

// Photos is how many photos a kit of that size has.
func Photos(size int) int { return photos * size }

// Kit makes a kit. Its photos are those of Photo, from 0 to Photos(size)-1.
func Kit(size int) fieldkit.Kit {
	m := &maker{rnd: rand.New(rand.NewPCG(uint64(size), 1)), day: fieldkit.DateOf(time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC))}
	m.kit = fieldkit.Kit{Format: fieldkit.Format, Version: fmt.Sprintf("%d.%d", fieldkit.MajorVersion, fieldkit.MinorVersion),
		ID: fmt.Sprint("large-", size), Name: fmt.Sprint("Kit of size ", size), Currency: "USD"}
	m.rigs(Rigs(size))
	m.parts(parts * size)
	m.positions(positions * size)
	m.links(links * size)
	m.stock(size)
	m.log(failures*size, inspections*size, photos*size)
	return m.kit
}

func one[T any](m *maker, list []T) T { return list[m.rnd.IntN(len(list))] }

func (m *maker) date() fieldkit.Date { return m.day.AddDays(m.rnd.IntN(2000)) }

func (m *maker) rigs(n int) {
	for i := range n {
		rig := fieldkit.Rig{ID: fmt.Sprint("rig-", i), Name: fmt.Sprint("Rig ", i), Registration: "Torrack 30 of 1988",
			Odometer: fieldkit.Distance(m.rnd.IntN(300_000)) * fieldkit.Kilometre, OdometerOn: m.date()}
		m.kit.Rigs = append(m.kit.Rigs, rig)
		for j, name := range systems {
			m.kit.Systems = append(m.kit.Systems, fieldkit.Assembly{ID: fmt.Sprint("system-", i, "-", j), Rig: rig.ID, Name: name, Order: j + 1})
		}
		m.kit.Bins = append(m.kit.Bins, fieldkit.Bin{ID: fmt.Sprint("bin-", i), Rig: rig.ID, Name: "Drawer", MassLimit: 40 * fieldkit.Kilogram})
		m.kit.Donors = append(m.kit.Donors, fieldkit.Donor{ID: fmt.Sprint("donor-", i), Make: "Kestrel", Model: fmt.Sprint("Torrack ", 30+i), YearFrom: 1988, YearTo: 1991})
	}
}

func (m *maker) parts(n int) {
	for i := range n {
		kind := one(m, kinds)
		size := fieldkit.Millimetre * fieldkit.Length(10+m.rnd.IntN(90))
		m.kit.Parts = m.kit.Parts.With(fieldkit.Part{ID: fmt.Sprint("part-", i), Kind: kind, Name: fmt.Sprint(kind, " of pattern ", i), Donor: one(m, m.kit.Donors).ID,
			Numbers: []fieldkit.Number{
				{Value: fmt.Sprintf("K-%05d", m.rnd.IntN(100_000)), Issuer: fieldkit.MakerNumber, From: "Kestrel"},
				{Value: fmt.Sprintf("%d-%c", i, 'A'+rune(m.rnd.IntN(26))), Issuer: fieldkit.ReplacementNumber, From: "Halden", Proof: &fieldkit.Proof{How: fieldkit.NumberRead, On: m.date()}}},
			Measurements: []fieldkit.Measurement{{Name: "bore", Value: fieldkit.Value{Dim: fieldkit.DimLength, Base: int64(size)}, How: "caliper", On: m.date()}},
			Mass:         fieldkit.Mass(100+m.rnd.IntN(4000)) * fieldkit.Gram, Volume: fieldkit.Volume(50+m.rnd.IntN(3000)) * fieldkit.Millilitre,
			Price: &fieldkit.Money{Cents: int64(500 + m.rnd.IntN(20_000)), Currency: "USD"}})
	}
}

func (m *maker) positions(n int) {
	for i := range n {
		m.kit.Positions = m.kit.Positions.With(fieldkit.Position{ID: fmt.Sprint("position-", i), System: one(m, m.kit.Systems).ID,
			Name: fmt.Sprint("place ", i), Kind: m.kit.Parts.At(2 * i).Kind, Quantity: 1, Part: m.kit.Parts.At(2 * i).ID, Order: i + 1,
			Side: []fieldkit.Side{fieldkit.Left, fieldkit.Right}[i%2], Fitted: m.date(),
			Proof: &fieldkit.Proof{How: fieldkit.Seen, On: m.date(), By: "Marla"}})
	}
}

func (m *maker) links(n int) {
	for i := range n {
		first := m.rnd.IntN(m.kit.Parts.Len()) / group * group
		among := min(group, m.kit.Parts.Len()-first)
		a := m.rnd.IntN(among)
		b := (a + 1 + m.rnd.IntN(among-1)) % among
		l := fieldkit.Link{ID: fmt.Sprint("link-", i), For: m.kit.Parts.At(first + a).ID, With: m.kit.Parts.At(first + b).ID,
			Grade: one(m, grades), Evidence: one(m, evidence), On: m.date(), By: "Marla"}
		if l.Grade == fieldkit.WithChanges {
			l.Changes = []string{"drill the flange to 10 mm"}
		}
		m.kit.Links = m.kit.Links.With(l)
	}
}

func (m *maker) stock(size int) {
	for i := range 39 * size {
		m.kit.Spares = m.kit.Spares.With(fieldkit.Spare{ID: fmt.Sprint("spare-", i), Part: m.kit.Parts.At(2 * i).ID, Count: 1 + i%3, Bin: one(m, m.kit.Bins).ID})
	}
	trip := fieldkit.Trip{ID: "trip", Name: "Across the flat", Rigs: []string{m.kit.Rigs[0].ID, m.kit.Rigs[1].ID}, Start: m.day.AddDays(2100), Days: 5,
		Distance: 600 * fieldkit.Kilometre, Terrain: one(m, terrains)}
	pack := fieldkit.Pack{ID: "pack", Trip: trip.ID}
	for i := range min(60, m.kit.Spares.Len()) {
		s := m.kit.Spares.At(i)
		pack.Lines = append(pack.Lines, fieldkit.PackLine{Type: fieldkit.SpareItem, Item: s.Part, Count: 1, Bin: s.Bin})
	}
	m.kit.Trips, m.kit.Packs = []fieldkit.Trip{trip}, []fieldkit.Pack{pack}
}

func (m *maker) log(broke, read, pictures int) {
	for i := range broke {
		at := m.kit.Positions.At(m.rnd.IntN(m.kit.Positions.Len()))
		rig, _ := m.kit.RigOf(at)
		m.kit.Failures = m.kit.Failures.With(fieldkit.Failure{ID: fmt.Sprint("failure-", i), Rig: rig.ID, On: m.date(), Position: at.ID, Part: at.Part,
			Odometer: fieldkit.Distance(m.rnd.IntN(300_000)) * fieldkit.Kilometre, What: fmt.Sprint("gave way for the ", i+1, ". time"),
			Fix: "a new one, and grease", Lost: 90})
	}
	for i := range read {
		at := m.kit.Positions.At(m.rnd.IntN(m.kit.Positions.Len()))
		m.kit.Inspections = m.kit.Inspections.With(fieldkit.Inspection{ID: fmt.Sprint("reading-", i), Position: at.ID, On: m.date(), Name: "lining thickness",
			Odometer: fieldkit.Distance(m.rnd.IntN(300_000)) * fieldkit.Kilometre,
			Value:    fieldkit.Value{Dim: fieldkit.DimLength, Base: int64(fieldkit.Millimetre) * int64(1+m.rnd.IntN(12))}, How: "caliper"})
	}
	for i := range pictures {
		f := m.kit.Failures.Ref(i % m.kit.Failures.Len())
		f.Photos = append(f.Photos, Photo(i).Hash)
	}
}
