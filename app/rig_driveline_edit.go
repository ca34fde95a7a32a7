package app

import (
	"fmt"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
)

// drivelineEditScreen is where engine, gears and axles of a rig are written down.
type drivelineEditScreen struct {
	app.Compo
	form  *form
	rig   fieldkit.Rig
	found bool
}

func (s *drivelineEditScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *drivelineEditScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *drivelineEditScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	id := param(ctx, "rig")
	same := s.form != nil && s.rig.ID == id
	s.rig, s.found = kept.kit().Rig(id)
	fields := drivelineFields(s.rig, kept.first())
	if same {
		follow(s.form, fields)
		return
	}
	s.form = newForm("driveline/"+id, fields)
}

// drivelineValues are the single figures of the form, with their dimensions.
var drivelineValues = []struct {
	field, label, hint string
	dim                fieldkit.Dimension
	at                 func(*fieldkit.Driveline) *fieldkit.Value
}{
	{"engine", "Greatest torque of the engine", "400 N·m or 295 lb-ft", fieldkit.DimTorque, func(d *fieldkit.Driveline) *fieldkit.Value { return &d.Engine }},
	{"first", "Ratio of the lowest gear", "from the gearbox's tag or book: 5.6", fieldkit.DimCount, func(d *fieldkit.Driveline) *fieldkit.Value { return &d.First }},
	{"stall", "Converter at stall", "an automatic's torque ratio, about 2; empty for a clutch", fieldkit.DimCount, func(d *fieldkit.Driveline) *fieldkit.Value { return &d.Stall }},
	{"low", "Ratio of the transfer case in low", "2.72", fieldkit.DimCount, func(d *fieldkit.Driveline) *fieldkit.Value { return &d.Low }},
	{"friction", "Grip of the tyres", "1 on dry rock, 0.8 on hard ground, 0.5 on gravel (common practice)", fieldkit.DimCount, func(d *fieldkit.Driveline) *fieldkit.Value { return &d.Friction }},
	{"tyre", "Tyre diameter", "empty to take it from the size on the sidewall", fieldkit.DimLength, func(d *fieldkit.Driveline) *fieldkit.Value { return &d.Tyre }},
	{"yield", "Yield strength of the shafts' steel", "in MPa or psi, where a part does not say; the maker or the steel's data sheet knows", fieldkit.DimPressure, func(d *fieldkit.Driveline) *fieldkit.Value { return &d.Yield }},
}

var drivelineAxles = []struct {
	field, title string
	at           func(*fieldkit.Driveline) *fieldkit.Axle
}{
	{"front", "Front axle", func(d *fieldkit.Driveline) *fieldkit.Axle { return &d.Front }},
	{"rear", "Rear axle", func(d *fieldkit.Driveline) *fieldkit.Axle { return &d.Rear }},
}

const lockable = "can be locked"

func drivelineFields(r fieldkit.Rig, first fieldkit.System) map[string]string {
	fields := map[string]string{}
	if r.ID != "" {
		fields[baseField] = baseOf(r)
	}
	d := fieldkit.Driveline{}
	if r.Driveline != nil {
		d = *r.Driveline
	}
	for _, v := range drivelineValues {
		if x := *v.at(&d); !x.IsZero() {
			fields[v.field] = valueText(x, first)
		}
	}
	for _, a := range drivelineAxles {
		axle := a.at(&d)
		if !axle.Ratio.IsZero() {
			fields[a.field+"Ratio"] = valueText(axle.Ratio, first)
		}
		fields[a.field+"Load"] = amountText(axle.Load, first, fieldkit.ParseMass)
		fields[a.field+"Locked"] = ""
		if axle.Locked {
			fields[a.field+"Locked"] = lockable
		}
	}
	return fields
}

func (s *drivelineEditScreen) Render() app.UI {
	p := page{title: "Engine, gears and axles", dest: "/rig", sub: s.rig.Name, back: link("/rig/driveline", "rig", s.rig.ID)}
	if s.form == nil {
		return frame(p)
	}
	if !s.found {
		p.body = []app.UI{emptyLine("There is no such rig in this kit. It may have been deleted, or the link is for another kit.")}
		return frame(p)
	}
	f := s.form
	var figures []app.UI
	for _, v := range drivelineValues {
		keys := map[fieldkit.Dimension][]string{fieldkit.DimTorque: {" N·m", " lb-ft"}, fieldkit.DimPressure: {" MPa", " psi"}, fieldkit.DimLength: {" mm", " in"}, fieldkit.DimCount: {"."}}[v.dim]
		figures = append(figures, f.amount(v.field, v.label, v.hint, keys...))
	}
	p.body = []app.UI{f.restoredNotice(), section("What drives it", figures...)}
	for _, a := range drivelineAxles {
		p.body = append(p.body, section(a.title,
			f.amount(a.field+"Ratio", "Ratio of ring and pinion", "ring teeth over pinion teeth, or off the tag: 4.56", "."),
			f.amount(a.field+"Load", "Load on this axle, ready for the trip", "weighed, or half of the rig", " kg", " lb"),
			f.pick(a.field+"Locked", "Differential", []option{{"", "open"}, {lockable, lockable}}),
		))
	}
	p.body = append(p.body,
		app.P().Class("soft").Text("Splines and shaft diameters are measurements of the part, and so are a "+`"yield strength"`+" of its own and a joint's "+`"torque rating"`+". What is not known stays open; nothing is guessed."),
		f.saving("Save driveline", s.save))
	return frame(p)
}

// readDriveline makes a driveline of what was typed; every wrong field is marked.
func readDriveline(f *form, r fieldkit.Rig, first fieldkit.System) (fieldkit.Rig, bool) {
	ok, d := f.short(), fieldkit.Driveline{}
	if r.Driveline != nil {
		d = *r.Driveline
	}
	for _, v := range drivelineValues {
		x, err := optionalValue(f.typed(v.field), v.dim, first)
		ok = f.refuse(v.field, err) && ok
		*v.at(&d) = x
	}
	for _, a := range drivelineAxles {
		axle := a.at(&d)
		var err error
		axle.Ratio, err = optionalValue(f.typed(a.field+"Ratio"), fieldkit.DimCount, first)
		ok = f.refuse(a.field+"Ratio", err) && ok
		axle.Load, err = optionalAmount(f.get(a.field+"Load"), first, fieldkit.ParseMass)
		ok = f.refuse(a.field+"Load", err) && ok
		axle.Locked = f.get(a.field+"Locked") == lockable
	}
	r.Driveline = &d
	return r, ok
}

// optionalValue reads a figure above nothing of a dimension, which may be left out.
func optionalValue(text string, dim fieldkit.Dimension, first fieldkit.System) (fieldkit.Value, error) {
	if text == "" {
		return fieldkit.Value{}, nil
	}
	v, err := fieldkit.ParseValueAs(text, dim, first)
	if err == nil && v.Base <= 0 {
		err = badField(fmt.Sprintf("%q is not above nothing", text), "leave it out if it is not known")
	}
	if err != nil {
		return fieldkit.Value{}, err
	}
	return v, nil
}

func (s *drivelineEditScreen) save(ctx app.Context) {
	r, ok := readDriveline(s.form, s.rig, kept.first())
	if !ok {
		s.form.wrongAbove(ctx)
		return
	}
	s.form.keep(ctx, "Saved driveline: "+r.Name, r, to(link("/rig/driveline", "rig", r.ID)))
}
