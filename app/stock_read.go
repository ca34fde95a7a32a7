package app

import "trailfieldkit/fieldkit"

// stockReader reads the fields that several stock forms share; ok is false once
// one of them was wrong.
type stockReader struct {
	form     *form
	first    fieldkit.System
	currency string
	ok       bool
}

func (r *stockReader) take(name string, err error) { r.ok = r.form.refuse(name, err) && r.ok }

func (r *stockReader) need(name, what, do string) string {
	v := r.form.typed(name)
	if v == "" {
		r.take(name, badField(what, do))
	}
	return v
}

func (r *stockReader) count(name string) int {
	n, err := wholeNumber(r.form.typed(name), 0, 9999)
	r.take(name, err)
	return n
}

func (r *stockReader) size(name string) fieldkit.Value {
	v, err := fieldkit.ParseValue(r.form.typed(name))
	if err == nil && (v.Dim == fieldkit.DimText || v.Base <= 0) {
		err = badField("this is not an amount", "write 500 mL, 400 g or a number of pieces")
	}
	r.take(name, err)
	return v
}

func (r *stockReader) mass() fieldkit.Mass {
	m, err := optionalAmount(r.form.get("mass"), r.first, fieldkit.ParseMass)
	r.take("mass", err)
	return m
}

func (r *stockReader) volume() fieldkit.Volume {
	v, err := optionalAmount(r.form.get("volume"), r.first, fieldkit.ParseVolume)
	r.take("volume", err)
	return v
}

func (r *stockReader) massLimit() fieldkit.Mass {
	m, err := optionalLimit(r.form.get("mass"), r.first, fieldkit.ParseMass)
	r.take("mass", err)
	return m
}

func (r *stockReader) volumeLimit() fieldkit.Volume {
	v, err := optionalLimit(r.form.get("volume"), r.first, fieldkit.ParseVolume)
	r.take("volume", err)
	return v
}

func (r *stockReader) price() *fieldkit.Money {
	m, err := optionalMoney(r.form.get("price"), r.currency)
	r.take("price", err)
	return m
}
