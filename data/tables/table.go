package tables

import (
	"fmt"
	"slices"
	"strconv"

	"trailfieldkit/fieldkit"
)

// Table is one published table. Rows are in the order of the file and hold a text
// for every column.
type Table struct {
	Name     string // as its file is called, without .csv
	Title    string
	Standard string   // what it is published in
	Key      []string // the columns that together tell a row from all others
	Columns  []Column
	Rows     [][]string
	Sources  []Source // most used first; each row says its own
}

// Source is one statement on where figures come from, and how many rows make it.
type Source struct {
	Text string
	Rows int
}

// Column describes one column of a table.
type Column struct {
	Name string // as in the first line of the file
	Unit string // of its figures; "" for counts, codes and words
	What string // what it says, for people

	form      form
	low, high float64 // what its figures lie between
}

// form is how the cells of a column are written.
type form int

const (
	words   form = iota // any text, or blank
	word                // a text that must be there
	figure              // one number, or blank
	must                // one number that must be there
	figures             // numbers joined by / or by -, or blank
)

// Numeric reports whether the cells that are not blank are one number each.
func (c Column) Numeric() bool { return c.form == figure || c.form == must }

// Dimension says what the column measures: a text for codes and words, a count for
// numbers without a unit, "" for units the kit has no quantity for (areas,
// strengths, viscosities).
func (c Column) Dimension() fieldkit.Dimension {
	switch {
	case !c.Numeric():
		return fieldkit.DimText
	case c.Unit == "":
		return fieldkit.DimCount
	}
	return dimensions[c.Unit]
}

var dimensions = map[string]fieldkit.Dimension{
	"mm": fieldkit.DimLength, "in": fieldkit.DimLength,
	"kg": fieldkit.DimMass, "lb": fieldkit.DimMass,
	"lb-ft": fieldkit.DimTorque,
	"psi":   fieldkit.DimPressure,
	"°C":    fieldkit.DimTemperature, "°F": fieldkit.DimTemperature,
	"V": fieldkit.DimVoltage, "A": fieldkit.DimCurrent,
}

// Column gives the place of the named column; -1 if there is none.
func (t Table) Column(name string) int {
	return slices.IndexFunc(t.Columns, func(c Column) bool { return c.Name == name })
}

// at gives the place of a column the program names itself.
func (t Table) at(name string) int {
	i := t.Column(name)
	if i < 0 {
		panic(fmt.Sprintf("tables: %s has no column %q", t.Name, name))
	}
	return i
}

// Row finds the row whose key columns read as given, in the order of Key.
func (t Table) Row(key ...string) (row int, ok bool) {
	if len(key) != len(t.Key) {
		return 0, false
	}
	places := make([]int, len(key))
	for i, name := range t.Key {
		places[i] = t.at(name)
	}
	for r, cells := range t.Rows {
		same := true
		for i, c := range places {
			same = same && cells[c] == key[i]
		}
		if same {
			return r, true
		}
	}
	return 0, false
}

// Cell gives a cell as it is written; "" is a blank. It panics on a column the
// table does not have.
func (t Table) Cell(row int, column string) string { return t.Rows[row][t.at(column)] }

// Value gives a cell as a quantity: a length, a mass, a count. Where the kit has no
// quantity of that unit, or the cell is several numbers, it is a text with the
// unit. ok is false for a blank. It panics on a column the table does not have.
func (t Table) Value(row int, column string) (v fieldkit.Value, ok bool) {
	i := t.at(column)
	c, cell := t.Columns[i], t.Rows[row][i]
	if cell == "" {
		return fieldkit.Value{}, false
	}
	written := cell
	if c.Unit != "" {
		written += " " + c.Unit
	}
	if dim := c.Dimension(); dim != fieldkit.DimText && dim != "" {
		if v, err := fieldkit.ParseValueAs(written, dim, fieldkit.Metric); err == nil {
			return v, true
		}
	}
	return fieldkit.Value{Dim: fieldkit.DimText, Text: written}, true
}

// Number gives a cell as a bare number in the unit of its column, for units the kit
// has no quantity for. ok is false for a blank and for what is no single number. It
// panics on a column the table does not have.
func (t Table) Number(row int, column string) (x float64, ok bool) {
	x, err := strconv.ParseFloat(t.Cell(row, column), 64)
	return x, err == nil
}
