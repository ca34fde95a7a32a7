package tables

var drive = []Table{
	{
		Name: "ujoints", Title: "Universal joint series",
		Standard: "trade series", Key: []string{"series"},
		Columns: []Column{
			{"series", "", "series", word, 0, 0},
			{"cap_diameter_in", "in", "diameter of a bearing cap", must, 0.5, 3},
			{"span_in", "in", "over the caps with outside rings, between the grooves with inside clips", must, 1, 10},
			{"cap_diameter_mm", "mm", "diameter of a bearing cap", must, 10, 80},
			{"span_mm", "mm", "over the caps with outside rings, between the grooves with inside clips", must, 20, 250},
			{"lock_up", "", "what holds the caps", word, 0, 0},
			{"torque_rating_lbf_ft", "lb-ft", "not given: makers differ", figure, 100, 20000},
		},
	},
	{
		Name: "splines", Title: "Axle splines of 24/48 pitch",
		Standard: "ANSI B92.1", Key: []string{"splines", "pitch"},
		Columns: []Column{
			{"splines", "", "number of splines", must, 6, 100},
			{"pitch", "", "diametral pitch; some axles use another one", word, 0, 0},
			{"pitch_diameter_in", "in", "pitch diameter", must, 0.2, 4},
			{"major_diameter_in", "in", "diameter over the splines", must, 0.2, 4},
			{"major_diameter_mm", "mm", "diameter over the splines", must, 5, 100},
			{"trade_diameter_in", "in", "diameter the trade gives", figures, 0.2, 4},
			{"torsion_section_modulus_in3", "in³", "of a solid round shaft of the major diameter", must, 0.01, 10},
			{"torque_lbf_ft_per_ksi_shear", "lb-ft per ksi", "torque for each 1000 psi of shear stress in that shaft", must, 1, 1000},
			{"strength_ratio_to_30_spline", "", "torque beside that of 30 splines", must, 0.1, 10},
		},
	},
	{
		Name: "belts_ribbed", Title: "Ribbed belts: pitches, codes and worked figures",
		Standard: "ISO 9981, ISO 9982, SAE J1459", Key: []string{"kind", "item", "unit"},
		Columns: []Column{
			{"kind", "", "rule, or check: a figure worked out elsewhere", word, 0, 0},
			{"item", "", "what the figure is of", word, 0, 0},
			{"value", "", "the figure, in the unit beside it", figure, 0.05, 5000},
			{"unit", "", "unit of the figure", word, 0, 0},
		},
	},
}
