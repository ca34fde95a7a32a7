package app

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"trailfieldkit/fieldkit"
)

// typed returns what a field holds, without blanks around it.
func (f *form) typed(name string) string { return strings.TrimSpace(f.get(name)) }

// short marks fields that hold what a kit may not keep: too much, or characters that
// are not seen. The text stays as it was typed. ok is false if there are such.
func (f *form) short() (ok bool) {
	ok = true
	for name := range f.values {
		ok = f.refuse(name, f.unfit(name)) && ok
	}
	return ok
}

// unfit says what is wrong with the text of a field, whatever it means. A text that
// stands as the form began is taken as it is.
func (f *form) unfit(name string) error {
	text := f.values[name]
	if text == f.start[name] {
		return nil
	}
	if over := len(text) - fieldkit.MaxString; over > 0 {
		// The limit is in bytes, as it is stored; people count characters.
		most := utf8.RuneCountInString(strings.ToValidUTF8(text[:fieldkit.MaxString], ""))
		return badField(fmt.Sprintf("this has %d characters, and %d of them fit here", utf8.RuneCountInString(text), most), "shorten it")
	}
	return fieldkit.ShowHidden(text, severalLines[name])
}

// amount is a quantity as the domain has it.
type amount interface {
	~int64
	Show(fieldkit.System) string
	String() string
}

// amountText writes a quantity into a field: as people read it where that reads
// back to the same quantity, exactly otherwise. None is an empty field.
func amountText[Q amount](q Q, first fieldkit.System, parse func(string, fieldkit.System) (Q, error)) string {
	if q == 0 {
		return ""
	}
	if back, err := parse(q.Show(first), first); err == nil && back == q {
		return q.Show(first)
	}
	return q.String()
}

// valueText writes a measured value into a field, by the same rule.
func valueText(v fieldkit.Value, first fieldkit.System) string {
	if back, err := fieldkit.ParseValueAs(v.Show(first), v.Dim, first); err == nil && back == v {
		return v.Show(first)
	}
	return v.String()
}

// optionalAmount reads a quantity that may be left out and is never below
// nothing.
func optionalAmount[Q amount](text string, first fieldkit.System, parse func(string, fieldkit.System) (Q, error)) (Q, error) {
	if strings.TrimSpace(text) == "" {
		return 0, nil
	}
	q, err := parse(text, first)
	if err == nil && q < 0 {
		err = badField(fmt.Sprintf("%q is less than nothing", strings.TrimSpace(text)), "leave the minus away")
	}
	if err != nil {
		return 0, err
	}
	return q, nil
}

// optionalLimit reads the most of something, which may be left out. Nothing at all is
// refused: kept, it would mean no limit.
func optionalLimit[Q amount](text string, first fieldkit.System, parse func(string, fieldkit.System) (Q, error)) (Q, error) {
	q, err := optionalAmount(text, first, parse)
	if err == nil && q == 0 && strings.TrimSpace(text) != "" {
		err = badField("a limit of nothing leaves no room for anything", "leave it empty for no limit, or write the least that there is room for")
	}
	return q, err
}

// optionalWhole reads a whole number that may be left out.
func optionalWhole(text string, least, most int) (int, error) {
	if strings.TrimSpace(text) == "" {
		return 0, nil
	}
	return wholeNumber(strings.TrimSpace(text), least, most)
}

// optionalDate reads a day that may be left out.
func optionalDate(text string) (fieldkit.Date, error) {
	if text == "" {
		return fieldkit.Date{}, nil
	}
	return fieldkit.ParseDate(text)
}

// pastDate reads a day that has been, today or before; it may be left out.
func pastDate(text string, today fieldkit.Date) (fieldkit.Date, error) {
	d, err := optionalDate(text)
	if err == nil && today.Before(d) {
		err = badField("this day is still to come", "write the day it was done, or correct this device's date")
	}
	if err != nil {
		return fieldkit.Date{}, err
	}
	return d, nil
}

// pastDate reads a field by the same rule. A day that stands as the form began is
// taken as it is: the clock of this device may be behind.
func (f *form) pastDate(name string, today fieldkit.Date) (fieldkit.Date, error) {
	if f.get(name) == f.start[name] {
		return optionalDate(f.typed(name))
	}
	return pastDate(f.typed(name), today)
}

// dayOf reads a day that has been and must be given.
func (f *form) dayOf(name string, today fieldkit.Date) (fieldkit.Date, error) {
	d, err := f.pastDate(name, today)
	if err == nil && d.IsZero() {
		_, err = fieldkit.ParseDate("")
	}
	return d, err
}

// optionalMoney reads a price that may be left out, in the kit's currency.
func optionalMoney(text, currency string) (*fieldkit.Money, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	m, err := fieldkit.ParseMoney(text, currency)
	switch {
	case err != nil:
		return nil, err
	case m.Currency != currency:
		return nil, badField(fmt.Sprintf("%q is not in %s, the currency of this kit", strings.TrimSpace(text), currency), "write it in "+currency)
	case m.Cents < 0:
		return nil, badField(fmt.Sprintf("%q is less than nothing", strings.TrimSpace(text)), "leave the minus away")
	}
	return &m, nil
}

// paragraph makes one line of what is written in several, for texts that are kept on one.
func paragraph(text string) string { return strings.Join(lines(text), " ") }

// untabbed puts blanks for tabs, which come in with what is pasted from a table: a text
// that is kept on one line holds none.
func untabbed(text string) string { return strings.ReplaceAll(text, "\t", " ") }

// lines splits what is written one a line; blank lines do not count.
func lines(text string) []string {
	var list []string
	for line := range strings.Lines(untabbed(text)) {
		if line = strings.TrimSpace(line); line != "" {
			list = append(list, line)
		}
	}
	return list
}
