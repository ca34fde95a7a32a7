package kitfile

import (
	"fmt"
	"math/rand"
	"time"

	"trailfieldkit/fieldkit"
)

// dice makes random kits that hold together: every reference leads somewhere,
// every figure is in range. The same seed gives the same kit.
type dice struct {
	*rand.Rand
	extra bool // put fields of a newer minor version at every level
}

func roll(seed int64) dice { return dice{Rand: rand.New(rand.NewSource(seed))} }

// letters hold what an encoder gets wrong: quotes, HTML, characters of one to four
// bytes.
var letters = []rune("abcdefghij KLM 0123456789 -/.,\"\\'<>&\u007fé½⅜″·°\u2028中🛻")

// note is a text that may have several lines, or none at all.
func (d dice) note() string {
	if s := d.maybe(); s != "" {
		return s + []string{"", "\n", "\n\tand more", "\t."}[d.Intn(4)]
	}
	return ""
}

func (d dice) text() string {
	n := 1 + d.Intn(12)
	s := []rune{rune('a' + d.Intn(26))}
	for range n {
		s = append(s, letters[d.Intn(len(letters))])
	}
	return string(s)
}

func (d dice) maybe() string {
	if d.Intn(3) == 0 {
		return d.text()
	}
	return ""
}

func (d dice) texts() (list []string) {
	for range d.Intn(3) {
		list = append(list, d.text())
	}
	return list
}

func (d dice) id(prefix string, i int) string { return fmt.Sprintf("%s-%d", prefix, i) }

func (d dice) whole(most int64) int64 {
	switch d.Intn(4) {
	case 0:
		return 0
	case 1:
		return d.Int63n(1000) * (most / 1000)
	}
	return d.Int63n(most)
}

func (d dice) mass() fieldkit.Mass     { return fieldkit.Mass(d.whole(int64(50 * fieldkit.Kilogram))) }
func (d dice) volume() fieldkit.Volume { return fieldkit.Volume(d.whole(int64(80 * fieldkit.Litre))) }
func (d dice) distance() fieldkit.Distance {
	return fieldkit.Distance(d.whole(int64(400_000 * fieldkit.Kilometre)))
}

func (d dice) date() fieldkit.Date {
	return fieldkit.DateOf(time.Date(1990+d.Intn(50), time.January, 1+d.Intn(365), 0, 0, 0, 0, time.UTC))
}

func (d dice) maybeDate() (none fieldkit.Date) {
	if d.Intn(2) == 0 {
		return d.date()
	}
	return none
}

func (d dice) moment() fieldkit.Moment {
	return fieldkit.Moment{Time: time.Unix(d.Int63n(4_000_000_000), 0).UTC()}
}

func (d dice) services() (list []fieldkit.Service) {
	for i := range d.Intn(3) {
		s := fieldkit.Service{ID: d.id("service", i), Name: d.text(), Every: d.distance(), Hours: d.Intn(500), Months: d.Intn(48), Crossings: d.Intn(3), Note: d.note(), Extra: d.more()}
		for range d.Intn(3) {
			s.Done = append(s.Done, fieldkit.ServiceDone{On: d.date(), Odometer: d.distance(), Hours: d.Intn(9000), Note: d.note(), Extra: d.more()})
		}
		list = append(list, s)
	}
	return list
}

func (d dice) price() *fieldkit.Money {
	if d.Intn(2) == 0 {
		return nil
	}
	return &fieldkit.Money{Cents: d.whole(100_000), Currency: "USD"}
}

func (d dice) value() fieldkit.Value {
	switch d.Intn(7) {
	case 0:
		return fieldkit.Value{Dim: fieldkit.DimText, Text: "M14×1.5 " + d.id("x", d.Intn(9))}
	case 1:
		return fieldkit.Value{Dim: fieldkit.DimCount, Base: 1_000_000 * d.Int63n(60)}
	case 2:
		return fieldkit.Value{Dim: fieldkit.DimLength, Base: int64(fieldkit.Inches) / 64 * d.Int63n(2000)}
	case 3:
		return fieldkit.Value{Dim: fieldkit.DimPressure, Base: d.Int63n(1_000_000_000_000)}
	case 4:
		return fieldkit.Value{Dim: fieldkit.DimTemperature, Base: d.Int63n(900_000)}
	case 5:
		return fieldkit.Value{Dim: fieldkit.DimTorque, Base: d.Int63n(1_000_000_000)}
	}
	return fieldkit.Value{Dim: fieldkit.DimLength, Base: d.Int63n(2_000_000_000)}
}

func (d dice) proof() *fieldkit.Proof {
	if d.Intn(2) == 0 {
		return nil
	}
	return &fieldkit.Proof{How: fieldkit.EvidenceOrder[d.Intn(7)], On: d.maybeDate(), By: d.maybe(), Extra: d.more()}
}

func (d dice) photos() (list []string) {
	for range d.Intn(2) {
		list = append(list, fmt.Sprintf("%064x", d.Int63()))
	}
	return list
}

// more gives fields of a newer minor version.
func (d dice) more() fieldkit.Extra {
	if !d.extra || d.Intn(2) == 0 {
		return nil
	}
	kept := []string{`{"b":[1,2.50,{"x":null}],"a":"<\u00e9é>"}`, `1e5`, `-0.10`, `""`, `[]`, `true`, `null`, `{}`}
	return fieldkit.Extra{"zeta": kept[d.Intn(len(kept))], "new field": kept[d.Intn(len(kept))], "a/b~c": `"x"`}
}

// kit makes a kit with about n parts.
func (d dice) kit(n int) fieldkit.Kit {
	k := fieldkit.Kit{Format: fieldkit.Format, Version: current.String(), ID: "crew-1", Name: d.text(), Currency: "USD"}
	if d.extra {
		k.Version = "1.7"
		k.Extra = fieldkit.Extra{"weather": `[{"id":"w-1"}]`}
	}
	d.rigs(&k)
	d.parts(&k, n)
	d.stock(&k, n)
	d.logbook(&k, n)
	return k
}

func (d dice) rigs(k *fieldkit.Kit) {
	for i := range 1 + d.Intn(2) {
		k.Rigs = append(k.Rigs, fieldkit.Rig{
			ID: d.id("rig", i), Name: d.text(), Registration: d.maybe(), Odometer: d.distance(), OdometerOn: d.maybeDate(),
			Oversize: d.Intn(30), Traits: map[string]string{"rear-axle": "full-float", d.id("trait", i): d.text()}, Driveline: d.driveline(), Extra: d.more(),
			EngineHours: d.Intn(9000), EngineHoursOn: d.maybeDate(), Services: d.services(),
		})
		for j := range 3 {
			k.Systems = append(k.Systems, fieldkit.Assembly{ID: fmt.Sprintf("sys-%d-%d", i, j), Rig: d.id("rig", i), Name: d.text(), Order: j, Extra: d.more()})
		}
		k.Bins = append(k.Bins, fieldkit.Bin{ID: d.id("bin", i), Rig: d.id("rig", i), Name: d.text(), MassLimit: d.mass(), VolumeLimit: d.volume(), Order: i, Extra: d.more()})
	}
	for i := range 3 {
		k.Donors = append(k.Donors, fieldkit.Donor{ID: d.id("donor", i), Make: d.text(), Model: d.text(), YearFrom: 1970 + i, YearTo: 1980 + i, RearWheels: []string{"", "single", "dual"}[i], Extra: d.more()})
	}
}

func (d dice) parts(k *fieldkit.Kit, n int) {
	for i := range n {
		p := fieldkit.Part{ID: d.id("part", i), Kind: "steering-pump", Name: d.text(), Donor: d.id("donor", d.Intn(3)), BuyWith: d.texts(),
			Mass: d.mass(), Volume: d.volume(), Price: d.price(), Note: d.note(), Extra: d.more()}
		for range d.Intn(3) {
			p.Numbers = append(p.Numbers, fieldkit.Number{Value: d.text(), Issuer: fieldkit.ReplacementNumber, From: d.maybe(), Proof: d.proof(), Extra: d.more()})
		}
		for range d.Intn(4) {
			p.Measurements = append(p.Measurements, fieldkit.Measurement{Name: d.text(), Value: d.value(), How: d.maybe(), On: d.maybeDate(), Worn: d.Intn(2) == 0, Extra: d.more()})
		}
		if d.Intn(4) == 0 {
			p.LookAlikes = []fieldkit.LookAlike{{Name: d.text(), Tell: d.text(), Part: d.id("part", d.Intn(n)), Extra: d.more()}}
		}
		k.Parts = k.Parts.With(p)
		pos := fieldkit.Position{ID: d.id("pos", i), System: k.Systems[d.Intn(len(k.Systems))].ID, Name: d.text(), Side: []fieldkit.Side{"", fieldkit.Left, fieldkit.Right, fieldkit.Centre}[d.Intn(4)],
			Kind: "steering-pump", Quantity: 1 + d.Intn(8), Part: p.ID, Fitted: d.maybeDate(), FittedAt: d.distance(), Proof: d.proof(), Note: d.note(), Extra: d.more()}
		if i > 0 && d.Intn(2) == 0 {
			pos.Parent = d.id("pos", d.Intn(i))
		}
		k.Positions = k.Positions.With(pos)
		if i > 0 {
			k.Links = k.Links.With(fieldkit.Link{ID: d.id("link", i), For: p.ID, With: d.id("part", d.Intn(i)), Grade: fieldkit.WithChanges, Changes: d.texts(), Evidence: fieldkit.Seen, On: d.maybeDate(), Extra: d.more()})
		}
	}
}

func (d dice) stock(k *fieldkit.Kit, n int) {
	for i := range n/4 + 1 {
		k.Spares = k.Spares.With(fieldkit.Spare{ID: d.id("spare", i), Part: d.id("part", d.Intn(n)), Count: d.Intn(4), Bin: "bin-0", Extra: d.more()})
		k.Consumables = append(k.Consumables, fieldkit.Consumable{ID: d.id("fluid", i), Kind: "brake-fluid", Name: d.text(), Size: d.value(), Count: d.Intn(4), Mass: d.mass(), Volume: d.volume(), Price: d.price(), Extra: d.more()})
		k.Tools = append(k.Tools, fieldkit.Tool{ID: d.id("tool", i), Kind: "socket", Name: d.text(), Owned: d.Intn(2) == 0, Bin: "bin-0", Mass: d.mass(), Extra: d.more()})
	}
	k.Trips = []fieldkit.Trip{{ID: "trip-0", Name: d.text(), Rigs: []string{"rig-0"}, Start: d.maybeDate(), Days: 1 + d.Intn(9), Distance: d.distance(), Terrain: fieldkit.Terrains[d.Intn(5)],
		Towns:    []fieldkit.Town{{Name: d.text(), Away: fieldkit.Minutes(d.Intn(600)), Stores: []string{"parts-chain"}, Closed: []fieldkit.Weekday{fieldkit.Sunday}, Order: fieldkit.Minutes(d.Intn(4000)), Extra: d.more()}},
		Overload: d.Intn(30), EngineHours: d.Intn(90), Crossings: d.Intn(9), Dust: []fieldkit.Dust{"", fieldkit.SomeDust, fieldkit.HeavyDust}[d.Intn(3)], Yardstick: fieldkit.Yardsticks[d.Intn(3)], HourWorth: d.price(), RecoveryPrice: d.price(),
		Costs:  []fieldkit.Cost{{Position: "pos-0", Move: fieldkit.Moves[d.Intn(3)], Carried: fieldkit.Minutes(d.Intn(600)), Town: fieldkit.Minutes(d.Intn(600)), Recovered: fieldkit.Minutes(d.Intn(600)), Shelf: d.Intn(101), Extra: d.more()}},
		Limits: fieldkit.Limits{Mass: d.mass(), Money: d.price(), Extra: d.more()}, Extra: d.more()}}
	k.Packs = []fieldkit.Pack{{ID: "pack-0", Trip: "trip-0", Made: d.maybeDate(),
		Lines: []fieldkit.PackLine{{Type: fieldkit.SpareItem, Item: "part-0", Count: 1, Bin: "bin-0", Packed: true, Why: d.note(), Extra: d.more()}, {Type: fieldkit.ToolItem, Item: "tool-0", Count: 1}},
		Never: []fieldkit.Item{{Type: fieldkit.ConsumableItem, Item: "fluid-0", Count: 0, Extra: d.more()}}, Extra: d.more()}}
}

func (d dice) driveline() *fieldkit.Driveline {
	if d.Intn(2) == 0 {
		return nil
	}
	return &fieldkit.Driveline{Engine: d.value(), First: d.value(), Stall: d.value(), Low: d.value(), Friction: d.value(), Tyre: d.value(), Yield: d.value(),
		Front: fieldkit.Axle{Ratio: d.value(), Load: d.mass(), Locked: d.Intn(2) == 0, Extra: d.more()}, Rear: fieldkit.Axle{Ratio: d.value()}, Extra: d.more()}
}

func (d dice) logbook(k *fieldkit.Kit, n int) {
	for i := range n/4 + 1 {
		f := fieldkit.Failure{ID: d.id("fail", i), Rig: "rig-0", On: d.date(), At: d.moment(), Odometer: d.distance(), Position: d.id("pos", d.Intn(n)), What: d.text(), Why: d.note(), Lost: fieldkit.Minutes(d.Intn(900)), Photos: d.photos(), Extra: d.more()}
		if d.Intn(2) == 0 {
			f.Place = fieldkit.Place{Text: d.maybe(), Lat: d.Int63n(2*maxLat) - maxLat, Lon: d.Int63n(2*maxLon) - maxLon, Accuracy: 12 * fieldkit.Metre, FixedAt: d.moment(), Extra: d.more()}
			f.Used = []fieldkit.Item{{Type: fieldkit.SpareItem, Item: "part-0", Count: 1}}
			f.Run = "run-0"
			f.Mode, f.Conditions, f.Before = fieldkit.Modes[d.Intn(len(fieldkit.Modes))], d.maybe(), d.value()
		}
		k.Failures = k.Failures.With(f)
		k.Inspections = k.Inspections.With(fieldkit.Inspection{ID: d.id("insp", i), Position: d.id("pos", d.Intn(n)), On: d.date(), Odometer: d.distance(), EngineHours: d.Intn(9000), Name: "lining thickness", Value: d.value(), Photos: d.photos(), Extra: d.more()})
	}
	k.Priors = []fieldkit.Prior{{ID: "steering-pump", Rate: 1 + d.Intn(900), Shape: d.Intn(400), Life: d.distance(), Wear: d.value(), Sudden: d.Intn(100),
		Terrain: d.Intn(200), Tyre: d.Intn(400), Load: d.Intn(400), Water: d.distance(), Dust: d.Intn(300), Note: d.note(), Extra: d.more()}}
	k.Runs = []fieldkit.Run{{ID: "run-0", Guide: "wheel-bearing", Rig: "rig-0", Position: "pos-0", Started: d.moment(), Step: "lift", Path: []string{"look", "chock"}, Answers: map[string]string{"look": d.text()}, Failure: "fail-0", Extra: d.more()}}
}
