package tables

var wheels = []Table{
	{
		Name: "wheel_patterns", Title: "Wheel bolt circles",
		Standard: "common practice", Key: []string{"lugs", "bolt_circle_mm"},
		Columns: []Column{
			{"lugs", "", "number of studs", must, 3, 12},
			{"bolt_circle_mm", "mm", "diameter of the circle through the studs", must, 80, 400},
			{"bolt_circle_in", "in", "diameter of the circle through the studs", must, 3, 16},
			{"defined_in", "", "the unit it is a round figure in", word, 0, 0},
			{"usual_stud_threads", "", "usual threads of the studs; measure", word, 0, 0},
		},
	},
	{
		Name: "lug_threads", Title: "Wheel stud threads",
		Standard: "ASME B1.1, ISO 261", Key: []string{"thread"},
		Columns: []Column{
			{"thread", "", "thread", word, 0, 0},
			{"system", "", "inch or metric", word, 0, 0},
			{"dia_in", "in", "diameter over the thread", must, 0.2, 1.5},
			{"dia_mm", "mm", "diameter over the thread", must, 5, 40},
			{"tpi", "per in", "threads per inch", must, 4, 40},
			{"pitch_mm", "mm", "distance from thread to thread", must, 0.5, 4},
		},
	},
	{
		Name: "load_index", Title: "Tyre load index: load of one tyre",
		Standard: "ISO 4000-1, ETRTO", Key: []string{"load_index"},
		Columns: []Column{
			{"load_index", "", "number on the sidewall", must, 0, 279},
			{"load_kg", "kg", "greatest load", must, 40, 150000},
			{"load_lb", "lb", "greatest load", must, 90, 330000},
		},
	},
	{
		Name: "speed_symbols", Title: "Tyre speed symbols",
		Standard: "ISO 4000-1, ETRTO", Key: []string{"symbol"},
		Columns: []Column{
			{"symbol", "", "letter on the sidewall", word, 0, 0},
			{"max_speed_km_h", "km/h", "greatest speed", must, 5, 350},
			{"max_speed_mph", "mph", "greatest speed", must, 2, 220},
		},
	},
	{
		Name: "load_range", Title: "Light truck tyres: load range letter and ply rating",
		Standard: "Tire and Rim Association", Key: []string{"letter"},
		Columns: []Column{
			{"letter", "", "load range on the sidewall", word, 0, 0},
			{"ply_rating", "", "ply rating; the tyre itself has fewer plies", must, 2, 40},
		},
	},
	{
		Name: "friction_edge_code", Title: "Letters on the edge of a brake lining: friction",
		Standard: "SAE J866", Key: []string{"letter"},
		Columns: []Column{
			{"letter", "", "first letter for normal, second for hot", word, 0, 0},
			{"friction_over", "", "friction over this", figure, 0, 1},
			{"friction_up_to", "", "friction up to this", figure, 0, 1},
			{"note", "", "in words", words, 0, 0},
		},
	},
	{
		Name: "friction_env_code", Title: "Letters on the edge of a brake lining: what is in it",
		Standard: "SAE J866, SAE J2975", Key: []string{"mark"},
		Columns: []Column{
			{"mark", "", "letter", word, 0, 0},
			{"copper_over_percent", "%", "copper over this share", figure, 0, 100},
			{"copper_up_to_percent", "%", "copper up to this share", figure, 0, 100},
			{"note", "", "other limits", word, 0, 0},
		},
	},
}
