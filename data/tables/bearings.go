package tables

var bearings = []Table{
	{
		Name: "ball_bearings", Title: "Ball bearings: bore, outside diameter, width",
		Standard: "ISO 15", Key: []string{"designation"},
		Columns: []Column{
			{"designation", "", "basic number without suffixes", word, 0, 0},
			{"bore_mm", "mm", "bore of the inner ring", must, 1, 1000},
			{"od_mm", "mm", "outside diameter of the outer ring", must, 2, 1500},
			{"width_mm", "mm", "width over the rings", must, 1, 400},
			{"series", "", "dimension series, the number without the bore code", must, 52, 630},
			{"alt_designation", "", "another number for the same outside dimensions", words, 0, 0},
			{"type", "", "kind of ball bearing", word, 0, 0},
		},
	},
	{
		Name: "tapered_metric", Title: "Tapered roller bearings, metric: cone and cup together",
		Standard: "ISO 355", Key: []string{"designation"},
		Columns: []Column{
			{"designation", "", "basic number without suffixes", word, 0, 0},
			{"bore_mm", "mm", "bore of the cone", must, 5, 1000},
			{"od_mm", "mm", "outside diameter of the cup", must, 10, 1500},
			{"width_T_mm", "mm", "width T of cone and cup together", must, 5, 400},
			{"cone_width_B_mm", "mm", "width B of the cone", figure, 5, 400},
			{"cup_width_C_mm", "mm", "width C of the cup", figure, 5, 400},
			{"series", "", "dimension series, the first three digits", must, 302, 332},
			{"alt_designation", "", "another number for the same bearing", words, 0, 0},
		},
	},
	{
		Name: "tapered_inch", Title: "Tapered roller bearings, inch: cone and cup by their own numbers",
		Standard: "ABMA 19.2, ABMA 19.1 for J numbers", Key: []string{"cone", "cup"},
		Columns: []Column{
			{"cone", "", "number of the cone, the inner ring with its rollers", word, 0, 0},
			{"cup", "", "number of the cup, the outer ring", word, 0, 0},
			{"bore_mm", "mm", "bore of the cone", must, 5, 500},
			{"od_mm", "mm", "outside diameter of the cup", must, 10, 800},
			{"width_T_mm", "mm", "width T of cone and cup together", must, 5, 200},
			{"cone_width_B_mm", "mm", "width B of the cone", must, 5, 200},
			{"cup_width_C_mm", "mm", "width C of the cup", must, 4, 200},
			{"bore_in", "in", "bore of the cone", must, 0.2, 20},
			{"od_in", "in", "outside diameter of the cup", must, 0.4, 32},
			{"width_T_in", "in", "width T of cone and cup together", must, 0.2, 8},
			{"set_note", "", "a hint on how the pair is sold together, never to order by", words, 0, 0},
		},
	},
	{
		Name: "cylindrical_rollers", Title: "Cylindrical roller bearings: N, NU, NJ and NUP of one size",
		Standard: "DIN 5412-1, ISO 15", Key: []string{"size_code"},
		Columns: []Column{
			{"designations", "", "the numbers of the four kinds", word, 0, 0},
			{"size_code", "", "dimension series and bore code", must, 200, 399},
			{"bore_mm", "mm", "bore of the inner ring", must, 10, 500},
			{"od_mm", "mm", "outside diameter of the outer ring", must, 20, 900},
			{"width_mm", "mm", "width over the rings", must, 5, 200},
		},
	},
	{
		Name: "needle_cages", Title: "Needle roller and cage assemblies (K)",
		Standard: "ISO 3030, DIN 5405-1", Key: []string{"designation"},
		Columns: []Column{
			{"designation", "", "K, inside, outside, width", word, 0, 0},
			{"inside_Fw_mm", "mm", "diameter under the needles, the shaft", must, 2, 300},
			{"outside_Ew_mm", "mm", "diameter over the needles, the bore", must, 3, 320},
			{"width_Bc_mm", "mm", "width of the cage", must, 3, 100},
		},
	},
	{
		Name: "bearing_suffixes", Title: "What letters before and after a bearing's number say",
		Standard: "ISO 492, ISO 5753, DIN 623-1, ABMA 19", Key: []string{"code", "position", "applies_to"},
		Columns: []Column{
			{"code", "", "the letters and digits", word, 0, 0},
			{"position", "", "prefix or suffix", word, 0, 0},
			{"applies_to", "", "the kind of bearing it is used on", word, 0, 0},
			{"meaning", "", "what it says", word, 0, 0},
		},
	},
	{
		Name: "bearings_sources", Title: "Short names of sources, and where they are",
		Standard: "none: a list of sources", Key: []string{"short_name"},
		Columns: []Column{
			{"short_name", "", "as used in the source columns", word, 0, 0},
			{"where", "", "repository and path, or address", word, 0, 0},
			{"what", "", "what it holds, and what is wrong with it", word, 0, 0},
		},
	},
}
