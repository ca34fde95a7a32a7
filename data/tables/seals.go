package tables

var seals = []Table{
	{
		Name: "orings_as568", Title: "O-rings, inch: inside diameter and cross-section by dash number",
		Standard: "SAE AS568", Key: []string{"dash"},
		Columns: []Column{
			{"dash", "", "dash number of three digits", word, 0, 0},
			{"id_in", "in", "inside diameter", must, 0.01, 30},
			{"cs_in", "in", "cross-section", must, 0.03, 0.3},
			{"id_mm", "mm", "inside diameter", must, 0.2, 800},
			{"cs_mm", "mm", "cross-section", must, 0.7, 8},
			{"cs_tol_in", "in", "the cross-section may be this much more or less", figure, 0.001, 0.01},
		},
	},
	{
		Name: "radial_shaft_seals", Title: "Radial shaft seals, metric: shaft, bore, width",
		Standard: "ISO 6194-1, DIN 3760", Key: []string{"shaft_mm", "bore_mm", "width_mm"},
		Columns: []Column{
			{"shaft_mm", "mm", "diameter of the shaft the lip runs on", must, 3, 500},
			{"bore_mm", "mm", "diameter of the bore the seal is pressed into", must, 10, 550},
			{"width_mm", "mm", "width of the seal", must, 3, 30},
			{"standard", "", "the standard that lists the size", word, 0, 0},
		},
	},
	{
		Name: "circlips", Title: "Retaining rings with lugs, on shafts and in bores",
		Standard: "DIN 471, DIN 472", Key: []string{"kind", "nominal_mm"},
		Columns: []Column{
			{"kind", "", "on a shaft or in a bore", word, 0, 0},
			{"standard", "", "DIN 471 on shafts, DIN 472 in bores", word, 0, 0},
			{"nominal_mm", "mm", "diameter of the shaft or bore", must, 1, 400},
			{"groove_diameter_mm", "mm", "diameter at the bottom of the groove", must, 1, 400},
			{"thickness_mm", "mm", "thickness of the ring", must, 0.2, 8},
			{"ring_free_diameter_mm", "mm", "diameter of the free ring, inside on a shaft, outside in a bore", must, 1, 400},
		},
	},
	{
		Name: "e_rings", Title: "Retaining rings pushed on from the side (E-rings)",
		Standard: "DIN 6799", Key: []string{"groove_diameter_mm"},
		Columns: []Column{
			{"standard", "", "the standard", word, 0, 0},
			{"groove_diameter_mm", "mm", "diameter at the bottom of the groove, names the ring", must, 0.5, 40},
			{"shaft_min_mm", "mm", "smallest shaft", must, 0.8, 50},
			{"shaft_max_mm", "mm", "largest shaft", must, 0.8, 60},
			{"outside_fitted_mm", "mm", "largest diameter over the fitted ring", must, 1, 80},
			{"thickness_mm", "mm", "thickness of the ring", must, 0.1, 4},
			{"opening_mm", "mm", "width of the opening", must, 0.3, 40},
		},
	},
}
