package counter_test

import (
	"time"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/interchange"
)

func value(text string) fieldkit.Value {
	v, err := fieldkit.ParseValue(text)
	if err != nil {
		panic(err)
	}
	return v
}

func on(y int, m time.Month, d int) fieldkit.Date { return fieldkit.Date{Year: y, Month: m, Day: d} }

func measured(name, v, how string, on fieldkit.Date) fieldkit.Measurement {
	return fieldkit.Measurement{Name: name, Value: value(v), How: how, On: on}
}

var catalog = fieldkit.Catalog{
	PartKinds: []fieldkit.PartKind{
		{
			ID: "axle-u-joint", Name: "axle U-joint", Synonyms: []string{"universal joint", "cross kit", "spider"},
			Deciding: []fieldkit.Attribute{
				{Name: "cap diameter", Dim: fieldkit.DimLength, How: "caliper over a cap", Must: true, Why: "the cap falls out or does not go in"},
				{Name: "span", Dim: fieldkit.DimLength, How: "caliper over opposite caps", Must: true, Why: "the clips do not seat"},
				{Name: "holding", Dim: fieldkit.DimText, How: "clips inside or outside", Must: true},
				{Name: "fitting", Dim: fieldkit.DimText, How: "look for a grease fitting"},
			},
			BuyWith: []string{"clips", "grease"}, Stores: []string{"parts-chain", "driveline-shop"},
			Per10000: 0.2, IfLeft: 8 * 60,
		},
		{
			ID: "brake-pads", Name: "brake pads", Caution: "A wrong pad can leave the rig without brakes. Fit pads in pairs and have the work checked by a licensed mechanic.",
			Deciding: []fieldkit.Attribute{{Name: "pad length", Dim: fieldkit.DimLength, Must: true}, {Name: "holes", Dim: fieldkit.DimCount, Must: true}},
			Per10000: 0.05, IfLeft: 6 * 60,
		},
		{ID: "bracket", Name: "bracket"},
	},
	Stores: []fieldkit.StoreKind{
		{ID: "driveline-shop", Name: "driveline shop", Say: "Give the series or the cap diameter and span."},
		{ID: "parts-chain", Name: "parts chain store", Say: "Give the donor's year, make, model and drive. Ask them to bring every variant to the counter."},
	},
}

// kit is a rig whose front axle is from another make than its papers say.
func kit() fieldkit.Kit {
	return fieldkit.Kit{
		Rigs:    []fieldkit.Rig{{ID: "hobnail", Name: "Hobnail", Registration: "1984 Umberlow Hobnail 4x4 pickup"}, {ID: "wicket", Name: "Wicket", Registration: "1993 Tarrowick Wicket wagon"}},
		Systems: []fieldkit.Assembly{{ID: "front", Rig: "hobnail", Name: "front axle"}, {ID: "brakes", Rig: "hobnail", Name: "brakes"}, {ID: "wicket-front", Rig: "wicket", Name: "front axle"}},
		Donors: []fieldkit.Donor{
			{ID: "haulyard", Make: "Dolvarne", Model: "Haulyard 350", YearFrom: 1988, YearTo: 1991, Drive: "4x4", RearWheels: "single", Axle: "solid front axle, 8 studs", Note: "The 1992 on has unit bearings: nothing of its wheel ends fits."},
			{ID: "wicket-donor", Make: "Tarrowick", Model: "Wicket", YearFrom: 1991, YearTo: 1995},
		},
		Parts: fieldkit.ListOf([]fieldkit.Part{
			{ID: "joint", Kind: "axle-u-joint", Name: "axle U-joint, sealed", Donor: "haulyard",
				Numbers: []fieldkit.Number{
					{Value: "CM 14", Issuer: fieldkit.CastingMark},
					{Value: "U-1350", Issuer: fieldkit.StandardNumber, From: "series"},
					{Value: "QM 7-760 X", Issuer: fieldkit.ReplacementNumber, From: "Quernmark", Proof: &fieldkit.Proof{How: fieldkit.NumberRead, On: on(2023, 5, 6), By: "Desh"}},
					{Value: "DV 88-3341", Issuer: fieldkit.MakerNumber, From: "Dolvarne", Proof: &fieldkit.Proof{How: fieldkit.StoreBook}},
				},
				Measurements: []fieldkit.Measurement{
					measured("cap diameter", "1-3/16 in", "caliper", on(2023, 5, 6)),
					{Name: "Span", Value: value("3.62 in"), How: "caliper", On: on(2023, 5, 6), Worn: true},
					measured("holding", "clips outside", "by eye", on(2023, 5, 6)),
					measured("cross body", "31 mm", "caliper", fieldkit.Date{}),
				},
				LookAlikes: []fieldkit.LookAlike{{Name: "the joint of the 1992 on", Tell: "caps are 1/8 in smaller and the clips sit inside"}},
				BuyWith:    []string{"Grease", "two new snap rings"},
			},
			{ID: "joint-greasable", Kind: "axle-u-joint", Name: "axle U-joint, greasable", Donor: "haulyard", Numbers: []fieldkit.Number{{Value: "QM 7-760 G", Issuer: fieldkit.ReplacementNumber, From: "Quernmark"}}},
			{ID: "joint-small", Kind: "axle-u-joint", Name: "axle U-joint, small"},
			{ID: "joint-wagon", Kind: "axle-u-joint", Name: "wagon joint", Donor: "wicket-donor"},
			{ID: "pads", Kind: "brake-pads", Name: "front pads", Measurements: []fieldkit.Measurement{measured("pad length", "145 mm", "rule", on(2024, 2, 1))}},
			{ID: "plate", Kind: "bracket", Name: "plate"},
		}),
		Links: fieldkit.ListOf([]fieldkit.Link{
			{ID: "greasable", For: "joint", With: "joint-greasable", Grade: fieldkit.DropIn, Evidence: fieldkit.TestFitted, On: on(2024, 2, 10), By: "Desh"},
			{ID: "wagon", For: "joint-greasable", With: "joint-wagon", Grade: fieldkit.WithChanges, Changes: []string{"turn the caps down by 0.2 mm in a lathe"}, Evidence: fieldkit.Hearsay},
			{ID: "small", For: "joint-small", With: "joint", Grade: fieldkit.DoesNotFit, Evidence: fieldkit.Measured, On: on(2024, 2, 10), By: "Desh", Note: "Caps are 1/8 in smaller."},
		}),
		Positions: fieldkit.ListOf([]fieldkit.Position{
			{ID: "joint-left", System: "front", Name: "axle joint", Side: fieldkit.Left, Kind: "axle-u-joint", Part: "joint", Proof: &fieldkit.Proof{How: fieldkit.TestFitted, On: on(2023, 5, 6)}},
			{ID: "joint-right", System: "front", Name: "axle joint", Side: fieldkit.Right, Kind: "axle-u-joint", Part: "joint"},
			{ID: "pads-left", System: "brakes", Name: "front pads", Side: fieldkit.Left, Kind: "brake-pads", Part: "pads"},
			{ID: "pads-right", System: "brakes", Name: "front pads", Side: fieldkit.Right, Kind: "brake-pads", Part: "pads"},
			{ID: "pads-rear", System: "brakes", Name: "rear pads", Kind: "brake-pads"},
			{ID: "plate-at", System: "brakes", Name: "hose bracket", Kind: "bracket", Part: "plate"},
			{ID: "wagon-joint", System: "wicket-front", Name: "axle joint", Side: fieldkit.Left, Kind: "axle-u-joint", Part: "joint-wagon"},
		}),
		Spares: fieldkit.ListOf([]fieldkit.Spare{{ID: "s", Part: "joint-greasable", Count: 1}}),
	}
}

func graphOf(k fieldkit.Kit) *interchange.Graph {
	return interchange.New(k.Parts.Slice(), k.Links.Slice())
}
