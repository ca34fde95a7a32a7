package tables

var fasteners = []Table{
	{
		Name: "threads_inch", Title: "Unified inch threads",
		Standard: "ASME B1.1", Key: []string{"designation"},
		Columns: []Column{
			{"designation", "", "nominal size, threads per inch, series", word, 0, 0},
			{"nominal_in", "in", "diameter over the external thread", must, 0.05, 6},
			{"tpi", "per in", "threads per inch", must, 4, 100},
			{"series", "", "UNC coarse, UNF fine, UNEF extra fine, UN constant pitch, UNS special", word, 0, 0},
			{"stress_area_in2", "in²", "area that carries the load", must, 0.001, 30},
			{"nominal_mm", "mm", "diameter over the external thread", must, 1, 160},
			{"tap_drill", "", "usual drill before tapping", words, 0, 0},
			{"tap_drill_in", "in", "diameter of that drill", figure, 0.02, 6},
		},
	},
	{
		Name: "threads_metric", Title: "Metric threads",
		Standard: "ISO 261, ISO 898-1", Key: []string{"designation"},
		Columns: []Column{
			{"designation", "", "M, nominal diameter, pitch", word, 0, 0},
			{"nominal_mm", "mm", "diameter over the external thread", must, 1, 150},
			{"pitch_mm", "mm", "distance from thread to thread", must, 0.2, 8},
			{"series", "", "coarse or fine", word, 0, 0},
			{"stress_area_mm2", "mm²", "area that carries the load", must, 0.5, 20000},
			{"nominal_in", "in", "diameter over the external thread", must, 0.03, 6},
			{"tap_drill_mm", "mm", "usual drill before tapping", must, 0.5, 150},
		},
	},
	{
		Name: "bolt_grades", Title: "Grades of bolts: strength and marks on the head",
		Standard: "SAE J429, ISO 898-1", Key: []string{"grade", "size_from"},
		Columns: []Column{
			{"grade", "", "grade or property class", word, 0, 0},
			{"standard", "", "the standard", word, 0, 0},
			{"size_from", "", "smallest size the figures are for", word, 0, 0},
			{"size_to", "", "largest size the figures are for", word, 0, 0},
			{"size_unit", "", "in or mm", word, 0, 0},
			{"dia_over_mm", "mm", "for diameters over this", must, 0, 100},
			{"dia_up_to_mm", "mm", "for diameters up to this", must, 1, 100},
			{"proof_strength_psi", "psi", "stress without lasting stretch", must, 10000, 250000},
			{"proof_strength_MPa", "MPa", "stress without lasting stretch", must, 100, 2000},
			{"tensile_strength_psi", "psi", "least stress at breaking", must, 10000, 300000},
			{"tensile_strength_MPa", "MPa", "least stress at breaking", must, 100, 2000},
			{"yield_strength_psi", "psi", "least stress at yielding", must, 10000, 300000},
			{"yield_strength_MPa", "MPa", "least stress at yielding", must, 100, 2000},
			{"head_marking", "", "what is raised or stamped on the head", word, 0, 0},
		},
	},
}
