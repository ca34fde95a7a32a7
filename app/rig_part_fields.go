package app

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/fit"
)

// Lists of rows in the part form.
const (
	numberRows  = "number"
	measureRows = "measure"
	alikeRows   = "alike"
)

// newDonor is chosen in place of a donor: it is written down on the next screen.
const newDonor = "new"

// partFields is what the form starts with: the part, or for a new one what the
// position it is for already says.
func partFields(p fieldkit.Part, known bool, at fieldkit.Position, first fieldkit.System) map[string]string {
	fields := map[string]string{"name": p.Name, "kind": p.Kind, "donor": p.Donor, "note": p.Note,
		"mass":    amountText(p.Mass, first, fieldkit.ParseMass),
		"volume":  amountText(p.Volume, first, fieldkit.ParseVolume),
		"buyWith": strings.Join(p.BuyWith, "\n"),
	}
	if p.Price != nil {
		fields["price"] = p.Price.String()
	}
	if known {
		fields[baseField] = baseOf(p)
	} else {
		fields["name"], fields["kind"] = at.Name, at.Kind
	}
	fillRows(fields, numberRows, p.Numbers, func(n fieldkit.Number) map[string]string {
		cells := map[string]string{"value": n.Value, "issuer": string(n.Issuer), "from": n.From}
		if n.Proof != nil {
			cells["how"], cells["by"] = string(n.Proof.How), n.Proof.By
		}
		return cells
	})
	fillRows(fields, measureRows, p.Measurements, func(m fieldkit.Measurement) map[string]string {
		return map[string]string{"name": m.Name, "value": valueText(m.Value, first), "how": m.How, "worn": wornText(m.Worn)}
	})
	fillRows(fields, alikeRows, p.LookAlikes, func(l fieldkit.LookAlike) map[string]string {
		return map[string]string{"name": l.Name, "tell": l.Tell, "part": l.Part, "tells": tellLines(l.Tells, first)}
	})
	return fields
}

func wornText(worn bool) string {
	if worn {
		return "yes"
	}
	return ""
}

// partReading is what reading the form needs to know besides the form.
type partReading struct {
	kit   fieldkit.Kit
	cat   fieldkit.Catalog
	first fieldkit.System
	today fieldkit.Date
}

// read makes a part of what was typed, beginning with the part as it was; every
// wrong field is marked.
func (r partReading) read(f *form, p fieldkit.Part) (fieldkit.Part, bool) {
	ok := f.short()
	if p.Name = f.typed("name"); p.Name == "" {
		ok = f.refuse("name", badField("the part has no name", "write what you would call it at a counter")) && ok
	}
	kind, known := r.cat.PartKind(f.get("kind"))
	if p.Kind = f.get("kind"); !known {
		ok = f.refuse("kind", badField("no kind is chosen", "choose what it is")) && ok
	}
	if p.Donor = f.get("donor"); p.Donor == newDonor {
		p.Donor = ""
		ok = f.refuse("donor", badField("the donor is not written down yet", "tap the button below, or choose not known yet")) && ok
	}
	if _, there := r.kit.Donor(p.Donor); p.Donor != "" && !there {
		ok = f.refuse("donor", badField("the donor chosen is not in this kit any more", "choose another")) && ok
	}
	var err error
	p.Mass, err = optionalAmount(f.get("mass"), r.first, fieldkit.ParseMass)
	ok = f.refuse("mass", err) && ok
	p.Volume, err = optionalAmount(f.get("volume"), r.first, fieldkit.ParseVolume)
	ok = f.refuse("volume", err) && ok
	p.Price, err = optionalMoney(f.get("price"), r.kit.Currency)
	ok = f.refuse("price", err) && ok
	p.BuyWith, p.Note = lines(f.get("buyWith")), f.typed("note")

	var rowsOK [3]bool
	p.Numbers, rowsOK[0] = r.numbers(f, p.Numbers)
	p.Measurements, rowsOK[1] = r.measurements(f, kind, p.Measurements)
	p.LookAlikes, rowsOK[2] = r.lookAlikes(f, p.LookAlikes)
	return p, ok && rowsOK[0] && rowsOK[1] && rowsOK[2]
}

func (r partReading) numbers(f *form, was []fieldkit.Number) ([]fieldkit.Number, bool) {
	var list []fieldkit.Number
	ok := true
	for _, key := range f.rows(numberRows) {
		at := func(column string) string { return cell(numberRows, key, column) }
		n, _ := wasRow(was, key)
		n.Value, n.From = f.typed(at("value")), f.typed(at("from"))
		if n.Value == "" && n.From == "" && isAdded(key) {
			continue // an added row with nothing written
		}
		if n.Value == "" {
			ok = f.refuse(at("value"), badField("no number is written", "write it as it stands, or remove this number")) && ok
		}
		if f.get(at("value")) != f.start[at("value")] {
			ok = f.refuse(at("value"), fieldkit.MixedScript(n.Value)) && ok
		}
		if n.Issuer = fieldkit.Issuer(f.get(at("issuer"))); n.Issuer == "" {
			ok = f.refuse(at("issuer"), badField("it is not said whose number this is", "choose one")) && ok
		}
		n.Proof = proofOf(n.Proof, f.get(at("how")), f.typed(at("by")))
		list = append(list, n)
	}
	return list, ok
}

func (r partReading) lookAlikes(f *form, was []fieldkit.LookAlike) ([]fieldkit.LookAlike, bool) {
	var list []fieldkit.LookAlike
	ok := true
	for _, key := range f.rows(alikeRows) {
		at := func(column string) string { return cell(alikeRows, key, column) }
		l, _ := wasRow(was, key)
		l.Name, l.Tell, l.Part = f.typed(at("name")), f.typed(at("tell")), f.get(at("part"))
		if l.Name == "" && l.Tell == "" && isAdded(key) {
			continue
		}
		if l.Name == "" {
			ok = f.refuse(at("name"), badField("the look-alike has no name", "write what it is, or remove it")) && ok
		}
		if l.Tell == "" {
			ok = f.refuse(at("tell"), badField("it does not say how to tell them apart", "write what to look at")) && ok
		}
		if was := f.get(at("tells")); was != tellLines(l.Tells, r.first) {
			tells, err := readTells(was, r.first)
			ok = f.refuse(at("tells"), err) && ok
			l.Tells = tells
		}
		list = append(list, l)
	}
	return list, ok
}

// tellLines writes checks that tell two parts apart, one a line.
func tellLines(tells []fieldkit.Tell, first fieldkit.System) string {
	var list []string
	for _, t := range tells {
		list = append(list, fit.TellLine(t, first))
	}
	return strings.Join(list, "\n")
}

func readTells(text string, first fieldkit.System) (tells []fieldkit.Tell, err error) {
	for _, line := range lines(text) {
		t, err := fit.ReadTell(line, first)
		if err != nil {
			return nil, err
		}
		tells = append(tells, t)
	}
	return tells, nil
}

// measureRow is one line of measurements in the form.
type measureRow struct {
	key   string
	name  string
	named bool               // the person names it; otherwise the name is given
	asked fieldkit.Attribute // of the kind; empty for what the kind does not ask for
}

// askedRow begins the key of a row for an attribute the part has no reading of.
const askedRow = "d:"

// partMeasureRows lists the rows in the order shown: first what decides for the
// kind, then everything else that was measured or is being typed. A reading taken
// for another kind stays when the kind is changed.
func partMeasureRows(f *form, kind fieldkit.PartKind) (deciding, other []measureRow) {
	claimed := map[string]bool{}
	for _, a := range kind.Deciding {
		row := measureRow{key: askedRow + a.Name, name: a.Name, asked: a}
		for _, key := range f.rows(measureRows) {
			if !isAdded(key) && !claimed[key] && strings.EqualFold(f.get(cell(measureRows, key, "name")), a.Name) {
				row.key = key
				break
			}
		}
		claimed[row.key] = true
		deciding = append(deciding, row)
	}
	for _, key := range f.rows(measureRows) {
		if !claimed[key] {
			other = append(other, measureRow{key: key, name: f.get(cell(measureRows, key, "name")), named: true})
		}
	}
	for _, name := range slices.Sorted(maps.Keys(f.values)) {
		key, isValue := strings.CutSuffix(name, "/value")
		key, isAsked := strings.CutPrefix(key, measureRows+"/"+askedRow)
		if isValue && isAsked && !claimed[askedRow+key] && f.typed(name) != "" {
			other = append(other, measureRow{key: askedRow + key, name: key})
		}
	}
	return deciding, other
}

func (r partReading) measurements(f *form, kind fieldkit.PartKind, was []fieldkit.Measurement) ([]fieldkit.Measurement, bool) {
	deciding, other := partMeasureRows(f, kind)
	var list []fieldkit.Measurement
	ok := true
	for _, row := range slices.Concat(deciding, other) {
		at := func(column string) string { return cell(measureRows, row.key, column) }
		m, known := wasRow(was, row.key)
		before := m
		m.Name, m.How, m.Worn = strings.TrimSpace(row.name), f.typed(at("how")), f.get(at("worn")) != ""
		text := f.typed(at("value"))
		if text == "" && (!row.named || isAdded(row.key) && m.Name == "") {
			continue // not measured
		}
		if m.Name == "" {
			ok = f.refuse(at("name"), badField("the measurement has no name", "write what was measured")) && ok
		}
		if isAdded(row.key) && named(list, m.Name) {
			ok = f.refuse(at("name"), badField(fmt.Sprintf("%q is here twice", m.Name), "correct the other one, or give this one another name")) && ok
		}
		if !known || text != valueText(before.Value, r.first) {
			value, err := readMeasured(text, row.asked.Dim, r.first)
			ok = f.refuse(at("value"), err) && ok
			m.Value = value
		}
		if !known || m.Value != before.Value || m.How != before.How || m.Worn != before.Worn {
			m.On = r.today
		}
		list = append(list, m)
	}
	return list, ok
}

func named(list []fieldkit.Measurement, name string) bool {
	return slices.ContainsFunc(list, func(m fieldkit.Measurement) bool { return strings.EqualFold(m.Name, name) })
}

// readMeasured reads one reading. Sizes and counts of a part are more than
// nothing.
func readMeasured(text string, dim fieldkit.Dimension, first fieldkit.System) (fieldkit.Value, error) {
	v, err := fieldkit.ParseValueAs(text, dim, first)
	if err != nil {
		return fieldkit.Value{}, err
	}
	positive := v.Dim == fieldkit.DimLength || v.Dim == fieldkit.DimCount || v.Dim == fieldkit.DimMass || v.Dim == fieldkit.DimVolume
	if positive && v.Base <= 0 && dim != fieldkit.DimText {
		return fieldkit.Value{}, badField(fmt.Sprintf("%q is not more than nothing", text), "measure again, or leave it empty")
	}
	return v, nil
}
