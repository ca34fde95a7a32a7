package app

import (
	"fmt"

	"trailfieldkit/fieldkit"
)

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
	const do = "write 500 mL, 400 g or a number of pieces"
	typed := r.form.typed(name)
	v, err := fieldkit.ParseValue(typed)
	switch {
	case typed == "":
		err = badField("it is not said how much it holds", do)
	case err != nil || v.Dim == fieldkit.DimText || v.Base <= 0:
		err = badField(fmt.Sprintf("%q is not an amount", typed), do)
	}
	r.take(name, err)
	return v
}

// quantity reads a field in a way: optionalAmount or optionalLimit.
func quantity[Q amount](r *stockReader, name string,
	way func(string, fieldkit.System, func(string, fieldkit.System) (Q, error)) (Q, error), parse func(string, fieldkit.System) (Q, error)) Q {
	q, err := way(r.form.get(name), r.first, parse)
	r.take(name, err)
	return q
}

func (r *stockReader) mass() fieldkit.Mass {
	return quantity(r, "mass", optionalAmount, fieldkit.ParseMass)
}

func (r *stockReader) volume() fieldkit.Volume {
	return quantity(r, "volume", optionalAmount, fieldkit.ParseVolume)
}

func (r *stockReader) price() *fieldkit.Money {
	m, err := optionalMoney(r.form.get("price"), r.currency)
	r.take("price", err)
	return m
}
