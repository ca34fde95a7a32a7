package export_test

import (
	"time"

	"trailfieldkit/fieldkit"
)

func moment(hour int) fieldkit.Moment {
	return fieldkit.Moment{Time: time.Date(2026, 5, 14, hour, 5, 0, 0, time.UTC)}
}

func value(text string) fieldkit.Value {
	v, err := fieldkit.ParseValue(text)
	if err != nil {
		panic(err)
	}
	return v
}

// logKit has failures out of order, with and without a fix, with text that needs
// care, and readings of several dimensions.
func logKit() fieldkit.Kit {
	day := fieldkit.Date{Year: 2026, Month: 5, Day: 14}
	return fieldkit.Kit{
		Format: fieldkit.Format, Version: "1.0", ID: "k", Name: "Dry Fork <crew> & co", Currency: "USD",
		Rigs:    []fieldkit.Rig{{ID: "rig", Name: "Bramble"}},
		Systems: []fieldkit.Assembly{{ID: "axle", Rig: "rig", Name: "front axle"}},
		Positions: fieldkit.ListOf([]fieldkit.Position{
			{ID: "joint", System: "axle", Name: "axle U-joint", Side: fieldkit.Left, Kind: "u-joint", Quantity: 1, Part: "cross"},
		}),
		Parts:       fieldkit.ListOf([]fieldkit.Part{{ID: "cross", Kind: "u-joint", Name: "cross, 1-3/8 in"}}),
		Consumables: []fieldkit.Consumable{{ID: "fluid", Kind: "brake-fluid", Name: "brake fluid; DOT 4", Size: value("500 mL"), Count: 1}},
		Tools:       []fieldkit.Tool{{ID: "press", Kind: "press", Name: "ball joint press", Owned: true}},
		Failures: fieldkit.ListOf([]fieldkit.Failure{
			{ID: "second", Rig: "rig", On: day, At: moment(18), Odometer: 40_110 * fieldkit.Mile, Position: "joint", Part: "cross",
				Place: fieldkit.Place{Text: "Sevenfold Grade, the ledge", Lat: 41_655_100, Lon: -118_433_801, FixedAt: moment(17)},
				What:  "cross snapped \"clean\"\nunder load", Mode: fieldkit.Broken, Conditions: "+ full lock", Before: value("350 µm"), Why: "=dry since the build", Fix: "new joint <on the tailgate> & grease",
				Used: []fieldkit.Item{{Type: fieldkit.SpareItem, Item: "cross", Count: 1}, {Type: fieldkit.ConsumableItem, Item: "fluid", Count: 2},
					{Type: fieldkit.ToolItem, Item: "press", Count: 1}, {Type: fieldkit.SpareItem, Item: "gone", Count: 1}},
				Lost: 130},
			{ID: "first", Rig: "rig", On: day, At: moment(9), What: "@home: flat tyre", Place: fieldkit.Place{Text: "-12 km marker"}},
			{ID: "third", Rig: "no such rig", On: fieldkit.Date{Year: 2026, Month: 6, Day: 1}, Position: "no such place", Part: "no such part",
				What: "dateline", Place: fieldkit.Place{Lat: -5, Lon: 180_000_000, FixedAt: moment(3)}},
		}),
		Inspections: fieldkit.ListOf([]fieldkit.Inspection{
			{ID: "b", Position: "joint", On: day, Odometer: 40_110 * fieldkit.Mile, Name: "axial play", Value: value("350 µm"), How: "dial indicator"},
			{ID: "a", Position: "joint", On: day, Name: "cap diameter", Value: value("1-3/8 in"), How: "caliper", Note: "+ worn"},
			{ID: "c", Position: "joint", On: fieldkit.Date{Year: 2025, Month: 1, Day: 2}, Name: "oil pressure", Value: value("45 psi")},
			{ID: "d", Position: "no such place", On: day, Name: "colour", Value: value("=brown")},
			{ID: "e", Position: "joint", On: day, Name: "needles", Value: value("28")},
		}),
	}
}
