package tables

var fluids = []Table{
	{
		Name: "fittings_fluid", Title: "Fluid fittings: tube, thread and how it seals",
		Standard: "SAE J512, J514, J1453, J1926; ISO 228-1, 4038, 6149, 7-1, 8434-1; ASME B1.20.1",
		Key:      []string{"kind", "dash", "tube_od_mm", "male_thread"},
		Columns: []Column{
			{"kind", "", "kind of fitting", word, 0, 0},
			{"standard", "", "the standard, or trade practice", word, 0, 0},
			{"dash", "", "size in sixteenths of an inch", figure, 1, 64},
			{"tube_od_in", "in", "outside diameter of the tube", figure, 0.05, 4},
			{"tube_od_mm", "mm", "outside diameter of the tube", figure, 1, 100},
			{"male_thread", "", "male thread", word, 0, 0},
			{"thread_od_in", "in", "diameter over the male thread", must, 0.2, 4},
			{"thread_od_mm", "mm", "diameter over the male thread", must, 5, 100},
			{"tpi", "per in", "threads per inch", figure, 4, 40},
			{"pitch_mm", "mm", "distance from thread to thread", must, 0.5, 4},
			{"seal_method", "", "what seals", word, 0, 0},
		},
	},
	{
		Name: "hose_dash", Title: "Hoses: dash size and bore",
		Standard: "SAE J517, J1401, J188, J189, J30, J20", Key: []string{"kind", "dash", "nominal_bore_in"},
		Columns: []Column{
			{"kind", "", "kind of hose, and what its dash size counts", word, 0, 0},
			{"standard", "", "the standard, or trade practice", word, 0, 0},
			{"dash", "", "dash size", figure, 1, 64},
			{"nominal_bore_in", "in", "bore of the hose", must, 0.1, 4},
			{"nominal_bore_mm", "mm", "bore of the hose", must, 2, 100},
		},
	},
	{
		Name: "hose_clamps", Title: "Worm drive hose clamps by size number",
		Standard: "SAE J1508", Key: []string{"sae_size"},
		Columns: []Column{
			{"sae_size", "", "size number", must, 2, 200},
			{"min_dia_in_frac", "", "smallest diameter as a fraction of an inch", word, 0, 0},
			{"max_dia_in_frac", "", "largest diameter as a fraction of an inch", word, 0, 0},
			{"min_dia_in", "in", "smallest diameter it closes to", must, 0.1, 12},
			{"max_dia_in", "in", "largest diameter it opens to", must, 0.1, 12},
			{"min_dia_mm", "mm", "smallest diameter it closes to", must, 2, 300},
			{"max_dia_mm", "mm", "largest diameter it opens to", must, 2, 300},
		},
	},
	{
		Name: "brake_fluid", Title: "Brake fluids: boiling points, base and colour",
		Standard: "FMVSS 116", Key: []string{"grade"},
		Columns: []Column{
			{"grade", "", "grade on the can", word, 0, 0},
			{"dry_boiling_min_C", "°C", "least boiling point of fresh fluid", must, 100, 400},
			{"wet_boiling_min_C", "°C", "least boiling point of fluid that has taken up water", must, 100, 400},
			{"dry_boiling_min_F", "°F", "least boiling point of fresh fluid", must, 200, 800},
			{"wet_boiling_min_F", "°F", "least boiling point of fluid that has taken up water", must, 200, 800},
			{"base", "", "what it is made of; silicone never mixes with the others", word, 0, 0},
			{"colour", "", "colour when fresh", word, 0, 0},
		},
	},
	{
		Name: "gear_oil", Title: "Gear oils: viscosity grades",
		Standard: "SAE J306", Key: []string{"grade", "edition"},
		Columns: []Column{
			{"grade", "", "viscosity grade, W for winter", word, 0, 0},
			{"edition", "", "year of the standard", must, 1990, 2100},
			{"max_temp_C_for_150000_cP", "°C", "highest temperature at which it is as thick as 150 000 cP", figure, -80, 0},
			{"kv100C_min_cSt", "cSt", "least viscosity at 100 °C", must, 1, 100},
			{"kv100C_max_cSt", "cSt", "viscosity at 100 °C stays below this", figure, 1, 100},
		},
	},
	{
		Name: "grease_nlgi", Title: "Greases: consistency numbers",
		Standard: "NLGI, ASTM D217", Key: []string{"nlgi"},
		Columns: []Column{
			{"nlgi", "", "consistency number", word, 0, 0},
			{"worked_penetration_min_tenth_mm", "0.1 mm", "least depth the cone sinks in", must, 50, 500},
			{"worked_penetration_max_tenth_mm", "0.1 mm", "greatest depth the cone sinks in", must, 50, 500},
		},
	},
}
