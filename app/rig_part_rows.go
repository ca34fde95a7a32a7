package app

import (
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
)

// numbers draws the part's numbers: those it has folded to a plate until they are
// changed, added ones open.
func (s *partEditScreen) numbers() app.UI {
	f := s.form
	body := []app.UI{app.If(len(f.rows(numberRows)) == 0, func() app.UI {
		return emptyLine("No number yet. Look for a tag, a stamp or a casting mark and add it as it stands.")
	})}
	for _, key := range f.rows(numberRows) {
		body = append(body, s.number(key))
	}
	body = append(body, button("quiet wide", "Add a number", "add number", func(ctx app.Context) {
		key := s.form.addRow(numberRows)
		s.form.set(cell(numberRows, key, "how"), string(fieldkit.NumberRead))
		s.caretIn(ctx, numberRows, key, "value")
	}))
	return section("Numbers", body...)
}

func (s *partEditScreen) number(key string) app.UI {
	f := s.form
	at := func(column string) string { return cell(numberRows, key, column) }
	if !s.unfolded(numberRows, key) {
		return app.Div().Class("plate").Body(
			app.P().Class("stamp").Text(f.get(at("value"))),
			app.P().Class("said").Text(s.numbered(key)),
			s.changeButton(numberRows, key, "number "+f.get(at("value")), "value"),
		)
	}
	return app.Div().Class("block rowform").Body(
		f.text(at("value"), "Number as printed", "with its dashes and spaces, ? for one character you cannot read"),
		f.pick(at("issuer"), "Whose number is it", issuerOptions),
		wrongLine(f, at("issuer")),
		f.text(at("from"), fromLabel(fieldkit.Issuer(f.get(at("issuer")))), ""),
		f.choose(at("how"), "How do you know", "", "not proven yet", evidenceOptions()),
		f.text(at("by"), "Who read it", ""),
		s.removeButton(numberRows, key, "number "+f.get(at("value"))),
	)
}

// numbered says whose a number is and how it was proven: as kept, or as typed over.
func (s *partEditScreen) numbered(key string) string {
	f := s.form
	was, known := wasRow(s.view.part.Numbers, key)
	if known && !f.changedRow(numberRows, key) {
		return numberWords(was)
	}
	at := func(column string) string { return f.get(cell(numberRows, key, column)) }
	return numberWords(fieldkit.Number{
		Issuer: fieldkit.Issuer(at("issuer")), From: at("from"), Proof: &fieldkit.Proof{How: fieldkit.Evidence(at("how")), By: at("by")},
	}) + ", not saved yet"
}

var issuerOptions = []option{
	{string(fieldkit.MakerNumber), "vehicle maker"},
	{string(fieldkit.ReplacementNumber), "replacement brand"},
	{string(fieldkit.StandardNumber), "standard"},
	{string(fieldkit.CastingMark), "casting mark"},
}

// fromLabel asks for the name behind a number in the words of its issuer.
func fromLabel(i fieldkit.Issuer) string {
	switch i {
	case fieldkit.MakerNumber:
		return "Vehicle maker"
	case fieldkit.ReplacementNumber:
		return "Brand"
	case fieldkit.StandardNumber:
		return "Standard, such as ISO 15 or ABMA 19"
	case fieldkit.CastingMark:
		return "Foundry or place of the mark"
	}
	return "Brand, maker or standard"
}

// deciding draws one line for each measure that decides for this kind of part.
func (s *partEditScreen) deciding(kind fieldkit.PartKind) app.UI {
	rows, _ := partMeasureRows(s.form, kind)
	if len(rows) == 0 {
		return app.Div().Hidden(true)
	}
	body := []app.UI{app.P().Class("soft").Text("What a stranger at a counter compares. Leave empty what you have not measured.")}
	for _, row := range rows {
		body = append(body, s.measure(row))
	}
	return section("Measurements that decide", body...)
}

// otherMeasurements draws what was measured besides.
func (s *partEditScreen) otherMeasurements(kind fieldkit.PartKind) app.UI {
	_, rows := partMeasureRows(s.form, kind)
	var body []app.UI
	for _, row := range rows {
		body = append(body, s.measure(row))
	}
	body = append(body, button("quiet wide", "Add another measurement", "add measure", func(ctx app.Context) {
		s.caretIn(ctx, measureRows, s.form.addRow(measureRows), "name")
	}))
	return section("Other measurements", body...)
}

// measure draws one reading: those the part has folded to a line until they are
// changed, the others as fields.
func (s *partEditScreen) measure(row measureRow) app.UI {
	if s.unfolded(measureRows, row.key) {
		return s.measureFields(row)
	}
	return app.Div().Class("rowform rowline").Body(
		app.P().Body(app.B().Text(capital(row.name)+": "), app.Text(s.measured(row.key))),
		s.changeButton(measureRows, row.key, "measurement "+row.name, "value"),
	)
}

// measured says a reading in words: as it is kept, or as it was typed over.
func (s *partEditScreen) measured(key string) string {
	f := s.form
	was, known := wasRow(s.view.part.Measurements, key)
	if known && !f.changedRow(measureRows, key) {
		return measurementWords(was, kept.first())
	}
	words := f.get(cell(measureRows, key, "value"))
	if how := f.get(cell(measureRows, key, "how")); how != "" {
		words += ", " + how
	}
	return words + ", not saved yet"
}

// measureFields draws the value of a reading, and once there is one how it was
// taken.
func (s *partEditScreen) measureFields(row measureRow) app.UI {
	f := s.form
	at := func(column string) string { return cell(measureRows, row.key, column) }
	var body []app.UI
	if row.named {
		body = append(body, f.text(at("name"), "What was measured", ""))
	}
	label := capital(row.name)
	if row.named {
		label = "Reading"
	}
	if row.asked.Must {
		label += " (needed at the counter)"
	}
	body = append(body, s.reading(at("value"), label, measureHint(row), row.asked.Dim))
	if f.typed(at("value")) != "" {
		body = append(body,
			f.choose(at("how"), "Taken with", "", "not said", toolOptions(f.start[at("how")])),
			tick("Taken on a worn part", "a new one may differ", f.key+at("worn"), f.get(at("worn")) != "", func(app.Context) {
				s.form.set(at("worn"), wornText(s.form.get(at("worn")) == ""))
			}),
		)
	}
	if !strings.HasPrefix(row.key, askedRow) {
		body = append(body, s.removeButton(measureRows, row.key, "measurement "+row.name))
	}
	return app.Div().Class("block rowform").Body(body...)
}

func measureHint(row measureRow) string {
	hint := row.asked.How
	if row.asked.Why != "" {
		hint += ". If it differs: " + row.asked.Why
	}
	if row.named {
		hint = "with its unit: 34.9 mm, 28 teeth, M12x1.5"
	}
	return capital(hint)
}

// reading draws the line for a value with the keys its dimension needs.
func (s *partEditScreen) reading(name, label, hint string, dim fieldkit.Dimension) app.UI {
	f := s.form
	switch dim {
	case fieldkit.DimLength:
		return f.size(name, label, hint)
	case fieldkit.DimCount:
		return f.whole(name, label, hint)
	case fieldkit.DimText:
		return f.text(name, label, hint)
	}
	return f.amount(name, label, hint, dimensionKeys[dim]...)
}

// dimensionKeys are the units offered as keys.
var dimensionKeys = map[fieldkit.Dimension][]string{
	"":                      {"-", "/", " in", " mm"},
	fieldkit.DimMass:        {" kg", " g", " lb", " oz"},
	fieldkit.DimVolume:      {" L", " mL", " qt"},
	fieldkit.DimTorque:      {" N·m", " lb-ft"},
	fieldkit.DimPressure:    {" kPa", " bar", " psi"},
	fieldkit.DimTemperature: {" °C", " °F"},
	fieldkit.DimAngle:       {"°"},
	fieldkit.DimVoltage:     {" V"},
	fieldkit.DimCurrent:     {" A"},
}

// tools are what a reading is taken with, as kept and as asked.
var tools = []option{
	{"caliper", "caliper"}, {"micrometer", "micrometer"}, {"tape", "tape"}, {"rule", "steel rule"}, {"thread gauge", "thread gauge"},
	{"counted", "counted"}, {"read", "read off the part"}, {"standard", "taken from a standard"}, {"by eye", "by eye"},
}

// toolOptions lists the tools; one the record names besides stays among them.
func toolOptions(now string) []option {
	if now == "" || offers(tools, now) {
		return tools
	}
	return append(slices.Clone(tools), option{now, now})
}

// lookAlikes draws what passes for the part at a glance and does not fit.
func (s *partEditScreen) lookAlikes() app.UI {
	f := s.form
	body := []app.UI{app.If(len(f.rows(alikeRows)) == 0, func() app.UI {
		return emptyLine("None known. Add one when somebody hands you the wrong part: it saves the next trip to the store.")
	})}
	for _, key := range f.rows(alikeRows) {
		body = append(body, s.lookAlike(key))
	}
	body = append(body, button("quiet wide", "Add a look-alike", "add alike", func(ctx app.Context) {
		s.caretIn(ctx, alikeRows, s.form.addRow(alikeRows), "name")
	}))
	return section("Looks like it and does not fit", body...)
}

func (s *partEditScreen) lookAlike(key string) app.UI {
	f := s.form
	at := func(column string) string { return cell(alikeRows, key, column) }
	if !s.unfolded(alikeRows, key) {
		return app.Div().Class("rowform rowline").Body(
			app.P().Body(app.B().Text(capital(f.get(at("name")))+": "), app.Text(f.get(at("tell")))),
			s.changeButton(alikeRows, key, "look-alike "+f.get(at("name")), "name"),
		)
	}
	return app.Div().Class("block rowform").Body(
		f.text(at("name"), "What looks like it", ""),
		f.text(at("tell"), "How to tell", "one line: what to look at, and what it must be"),
		f.area(at("tells"), "Checks, one a line", "what: ours, not theirs, by what. Splines: 30, not 35, by count"),
		f.choose(at("part"), "Is it a part of this kit", "", "no", partOptions(s.kit, s.id)),
		s.removeButton(alikeRows, key, "look-alike "+f.get(at("name"))),
	)
}

// unfolded says whether a row is drawn as fields.
func (s *partEditScreen) unfolded(list, key string) bool {
	return isAdded(key) || strings.HasPrefix(key, askedRow) || s.shown[list+key] || s.form.wrongRow(list, key)
}

// changeButton unfolds a row; first is the cell to begin with.
func (s *partEditScreen) changeButton(list, key, what, first string) app.UI {
	return app.Button().Type("button").Class("quiet").Aria("label", "Change "+what).Text("Change").
		OnClick(func(ctx app.Context, _ app.Event) {
			s.shown[list+key] = true
			s.caretIn(ctx, list, key, first)
		}, app.EventScope(s.form.key, list, key, "change"))
}

// removeButton takes a row out of the form; the record keeps it until it is saved.
func (s *partEditScreen) removeButton(list, key, what string) app.UI {
	return app.Div().Class("row").Body(app.Button().Type("button").Class("quiet").Aria("label", "Remove "+what).Text("Remove").
		OnClick(func(app.Context, app.Event) { s.form.dropRow(list, key) }, app.EventScope(s.form.key, list, key, "remove")))
}

// caretIn puts the caret into a cell that is about to be drawn.
func (s *partEditScreen) caretIn(ctx app.Context, list, key, column string) {
	id := s.form.cellID(list, key, column)
	ctx.Defer(func(app.Context) { focusEnd(id) })
}

// wrongLine says what is wrong with a choice, which has no line of its own for it.
func wrongLine(f *form, name string) app.UI {
	return app.If(f.wrong[name] != "", func() app.UI { return app.P().Class("wrong").Role("alert").Text(f.wrong[name]) })
}
