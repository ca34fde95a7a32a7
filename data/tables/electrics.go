package tables

var electrics = []Table{
	{
		Name: "batteries_bci", Title: "Battery groups: greatest outside dimensions",
		Standard: "BCI, EN 50342-2", Key: []string{"group"},
		Columns: []Column{
			{"group", "", "group number", word, 0, 0},
			{"volts", "V", "nominal voltage", must, 6, 48},
			{"max_length_in", "in", "length", must, 3, 24},
			{"max_width_in", "in", "width", must, 2, 12},
			{"max_height_in", "in", "height over the posts", must, 3, 14},
			{"max_length_mm", "mm", "length", must, 80, 600},
			{"max_width_mm", "mm", "width", must, 50, 300},
			{"max_height_mm", "mm", "height over the posts", must, 80, 350},
			{"terminals", "", "kind of terminals", word, 0, 0},
			{"same_case_opposite_polarity", "", "group of the same case with the posts the other way round", words, 0, 0},
		},
	},
	{
		Name: "fuses", Title: "Blade and cartridge fuses: rating, colour, size",
		Standard: "ISO 8820-3, ISO 8820-4", Key: []string{"body", "rating_A"},
		Columns: []Column{
			{"body", "", "kind of body", word, 0, 0},
			{"rating_A", "A", "rated current", must, 0.5, 500},
			{"colour", "", "colour of the body", word, 0, 0},
			{"width_mm", "mm", "width", figure, 5, 50},
			{"depth_mm", "mm", "depth", figure, 2, 20},
			{"height_mm", "mm", "height with the blades", figure, 5, 60},
			{"volts_max", "V", "greatest voltage", must, 12, 80},
		},
	},
	{
		Name: "bulbs", Title: "Lamp bulbs: base, voltage, power",
		Standard: "UN R37, SAE J1383, ANSI miniature lamps", Key: []string{"trade_number"},
		Columns: []Column{
			{"trade_number", "", "number on the bulb", word, 0, 0},
			{"also_known_as", "", "another name, or the nearest of the other system", words, 0, 0},
			{"base", "", "base", word, 0, 0},
			{"volts", "V", "design voltage; of both filaments", figures, 6, 28},
			{"watts", "W", "power; of both filaments", figures, 0.5, 120},
			{"function", "", "where it is used; current where the list gives it", word, 0, 0},
		},
	},
	{
		Name: "wire_awg", Title: "Wire: American gauge and metric cross-section",
		Standard: "ASTM B258, ISO 6722, SAE J1128", Key: []string{"awg"},
		Columns: []Column{
			{"awg", "", "American wire gauge", word, 0, 0},
			{"diameter_mm", "mm", "diameter of a solid wire", must, 0.1, 20},
			{"area_mm2", "mm²", "cross-section", must, 0.01, 200},
			{"ohm_per_km", "Ω/km", "resistance at 20 °C", must, 0.05, 1000},
			{"iso6722_nearest_mm2", "mm²", "nearest metric size, by ratio; may be thinner", must, 0.05, 200},
			{"iso6722_at_or_above_mm2", "mm²", "metric size that is never thinner: replace with this", must, 0.05, 200},
			{"trade_equivalent_mm2", "mm²", "size the trade calls the same, mostly thinner: do not replace with it", figures, 0.05, 200},
			{"sae_metric_mm2", "mm²", "name of the gauge in wiring to SAE metric sizes", figure, 0.05, 200},
		},
	},
}
