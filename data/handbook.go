package data

import (
	"slices"
	"strings"
	"sync"

	"trailfieldkit/data/tables"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/lookup"
	"trailfieldkit/fieldkit/standards"
)

var handbook struct {
	sync.Once
	book *standards.Handbook
}

// Handbook gives the published tables in the form in which designations are read. The
// first call reads the tables it needs, some tens of milliseconds; a program that
// never asks reads none.
func Handbook() *standards.Handbook {
	handbook.Do(func() {
		book, err := standards.Open(opened)
		if err != nil {
			panic("data: the embedded tables: " + err.Error()) // their own tests check them
		}
		handbook.book = book
	})
	return handbook.book
}

// opened gives an embedded table as package standards wants it.
func opened(name string) (standards.Table, bool) {
	t, ok := tables.TableNamed(name)
	columns := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		columns[i] = c.Name
	}
	return standards.Table{Columns: columns, Rows: t.Rows}, ok
}

var shelf struct {
	sync.Once
	shelf *lookup.Shelf
}

// Shelf gives the published tables ready to be searched. The first call makes it.
func Shelf() *lookup.Shelf {
	shelf.Do(func() { shelf.shelf = lookup.NewShelf(Handbook(), TableRows()) })
	return shelf.shelf
}

// rowTables are the tables whose rows are no designations that package standards
// reads, and what people call one.
var rowTables = []struct{ table, name string }{
	{"bulbs", "bulb"},
	{"circlips", "retaining ring, circlip, snap ring"},
	{"e_rings", "E-ring"},
	{"hose_clamps", "hose clamp"},
	{"load_index", "tyre load index"},
	{"load_range", "tyre load range"},
	{"speed_symbols", "tyre speed symbol"},
	{"bearing_suffixes", "bearing suffix"},
}

// TableRows gives the rows of tables that are searched by their text and figures.
func TableRows() (rows []lookup.Row) {
	for _, of := range rowTables {
		t, _ := tables.TableNamed(of.table)
		for i := range t.Rows {
			rows = append(rows, rowOf(t, i, of.name))
		}
	}
	return rows
}

func rowOf(t tables.Table, i int, names string) lookup.Row {
	var key []string
	for _, name := range t.Key {
		key = append(key, t.Cell(i, name))
	}
	called, _, _ := strings.Cut(names, ",")
	r := lookup.Row{Table: t.Name, Key: key, Name: strings.Join(key, " "), Words: []string{names}, Source: t.Cell(i, "source")}
	r.Title = called + " " + r.Name
	for _, c := range t.Columns[:len(t.Columns)-2] { // without confidence and source
		v, ok := t.Value(i, c.Name)
		switch {
		case !ok || slices.Contains(t.Key, c.Name) && v.Dim != fieldkit.DimLength:
		case v.Dim == fieldkit.DimText:
			r.Words = append(r.Words, v.Text)
		case !SaidTwice(t, c.Name):
			r.Figures = append(r.Figures, standards.Dim{Name: PlainColumn(c.Name), Value: v})
		}
	}
	return r
}

// otherUnits are the ends of columns that say in other units what another column says.
var otherUnits = map[string]string{"_in": "_mm", "_in_frac": "_mm", "_lb": "_kg", "_mph": "_km_h", "_f": "_c"}

// SaidTwice reports whether a column says in other units what another one says.
func SaidTwice(t tables.Table, column string) bool {
	for end, other := range otherUnits {
		if stem, is := strings.CutSuffix(column, end); is && t.Column(stem+other) >= 0 {
			return true
		}
	}
	return false
}

// PlainColumn is the name of a column in words, without its unit.
func PlainColumn(name string) string {
	for _, end := range []string{"_mm", "_in", "_kg", "_lb"} {
		name = strings.TrimSuffix(name, end)
	}
	return strings.ReplaceAll(name, "_", " ")
}
