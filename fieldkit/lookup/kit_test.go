package lookup_test

import (
	"trailfieldkit/fieldkit"
)

func value(text string) fieldkit.Value {
	v, err := fieldkit.ParseValue(text)
	if err != nil {
		panic(err)
	}
	return v
}

func number(text string, issuer fieldkit.Issuer, from string) fieldkit.Number {
	return fieldkit.Number{Value: text, Issuer: issuer, From: from}
}

var catalog = fieldkit.Catalog{
	PartKinds: []fieldkit.PartKind{
		{ID: "steering-pump", Name: "steering pump", Synonyms: []string{"power steering pump", "PS pump"}, System: "steering"},
		{ID: "tapered-bearing", Name: "wheel bearing", Synonyms: []string{"taper roller", "cone and cup"}, System: "front axle"},
		{ID: "u-joint", Name: "U-joint", Synonyms: []string{"universal joint", "cross kit"}, System: "driveline"},
		{ID: "tie-rod-end", Name: "tie rod end", Synonyms: []string{"track rod end"}, System: "steering"},
		{ID: "axle-shaft", Name: "axle shaft", Synonyms: []string{"half shaft"}, System: "rear axle"},
		{ID: "brake-pads", Name: "brake pads", Synonyms: []string{"disc pads"}, System: "brakes"},
		{ID: "tyre", Name: "tyre", System: "wheels"},
	},
	ToolKinds:   []fieldkit.ToolKind{{ID: "bearing-nut-socket", Name: "bearing nut socket"}},
	Consumables: []fieldkit.ConsumableKind{{ID: "brake-fluid", Name: "brake fluid", Grade: "DOT 4"}},
}

// kit is one rig from two donors, small enough to be gone through by eye.
var kit = fieldkit.Kit{
	Rigs:    []fieldkit.Rig{{ID: "heron", Name: "Heron"}},
	Systems: []fieldkit.Assembly{{ID: "steering", Rig: "heron", Name: "steering"}, {ID: "front", Rig: "heron", Name: "front axle"}, {ID: "rear", Rig: "heron", Name: "rear axle"}, {ID: "brakes", Rig: "heron", Name: "brakes"}},
	Donors: []fieldkit.Donor{
		{ID: "packsaddle", Make: "Halden", Model: "Packsaddle", YearFrom: 1988, YearTo: 1991, Drive: "4x4", RearWheels: "dual", Axle: "high-pinion front axle"},
		{ID: "cairn", Make: "Orrin", Model: "Cairn", YearFrom: 1979, VIN: "1M8GDM9AXKP042788"},
	},
	Parts: fieldkit.ListOf([]fieldkit.Part{
		{ID: "pump", Kind: "steering-pump", Name: "steering pump, remote tank", Donor: "cairn",
			Numbers: []fieldkit.Number{number("K-4410 B", fieldkit.ReplacementNumber, "Kestrel"), number("26 017 305", fieldkit.MakerNumber, "Orrin")}},
		{ID: "outer-bearing", Kind: "tapered-bearing", Name: "outer wheel bearing", Donor: "packsaddle",
			Numbers:      []fieldkit.Number{number("LM501349/LM501310", fieldkit.StandardNumber, "ABMA 19")},
			Measurements: []fieldkit.Measurement{{Name: "bore", Value: value("1.625 in")}, {Name: "outside diameter", Value: value("73.431 mm")}}},
		{ID: "inner-bearing", Kind: "tapered-bearing", Name: "inner wheel bearing", Donor: "packsaddle",
			Numbers: []fieldkit.Number{number("387A/382A", fieldkit.StandardNumber, "ABMA 19")}},
		{ID: "joint", Kind: "u-joint", Name: "front shaft joint", Donor: "packsaddle",
			Numbers:      []fieldkit.Number{number("HD5O-1310X", fieldkit.ReplacementNumber, "Halden Driveline")},
			Measurements: []fieldkit.Measurement{{Name: "cap diameter", Value: value("1-1/16 in")}}},
		{ID: "shaft", Kind: "axle-shaft", Name: "long side shaft", Donor: "cairn",
			Measurements: []fieldkit.Measurement{{Name: "splines", Value: value("30")}, {Name: "length", Value: value("805 mm")}}},
		{ID: "pads", Kind: "brake-pads", Name: "front brake pads", Donor: "packsaddle",
			Numbers: []fieldkit.Number{number("D 52-S8", fieldkit.ReplacementNumber, "Kestrel")}},
	}),
	Positions: fieldkit.ListOf([]fieldkit.Position{
		{ID: "pump-at", System: "steering", Name: "pump", Kind: "steering-pump", Part: "pump"},
		{ID: "hub-left", System: "front", Name: "wheel end", Side: fieldkit.Left, Kind: "unit"},
		{ID: "outer-left", System: "front", Parent: "hub-left", Name: "outer bearing", Side: fieldkit.Left, Kind: "tapered-bearing", Part: "outer-bearing"},
		{ID: "outer-right", System: "front", Name: "outer bearing", Side: fieldkit.Right, Kind: "tapered-bearing", Part: "outer-bearing"},
		{ID: "inner-left", System: "front", Name: "inner bearing", Side: fieldkit.Left, Kind: "tapered-bearing", Part: "inner-bearing"},
		{ID: "tie-end", System: "steering", Name: "drag link end", Side: fieldkit.Left, Kind: "tie-rod-end"},
		{ID: "pads-left", System: "brakes", Name: "front pads", Side: fieldkit.Left, Kind: "brake-pads", Part: "pads"},
		{ID: "shaft-right", System: "rear", Name: "shaft", Side: fieldkit.Right, Kind: "axle-shaft", Part: "shaft"},
	}),
	Bins:        []fieldkit.Bin{{ID: "drawer", Name: "drawer two"}},
	Spares:      fieldkit.ListOf([]fieldkit.Spare{{ID: "s1", Part: "joint", Count: 2, Bin: "drawer"}}),
	Tools:       []fieldkit.Tool{{ID: "nut-socket", Kind: "bearing-nut-socket", Name: "four lug socket", Owned: true, Bin: "drawer"}},
	Consumables: []fieldkit.Consumable{{ID: "fluid", Kind: "brake-fluid", Name: "brake fluid", Size: value("500 mL"), Count: 2}},
}
