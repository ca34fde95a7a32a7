package tables

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
)

// MaxFile is the largest file read as a table, in bytes.
const MaxFile = 1 << 20

// closing columns stand at the end of every table.
var closing = []Column{
	{Name: "confidence", What: "how far the row can be trusted: high, medium or low", form: word},
	{Name: "source", What: "the standard, and where the figures were read", form: word},
}

// Load reads and checks a CSV file as the named table. The error is a
// *fieldkit.Error that gives the line, the value and the rule it breaks; the table
// is empty then.
//
// The rules: UTF-8 with line feeds; the columns of the table in their order; every
// figure a plain decimal between the bounds of its column; confidence and source on
// every row; no two rows with the same key; each row one line, with no blanks around
// a text.
func Load(name string, file []byte) (Table, error) {
	t, known := described()[name]
	if !known {
		return Table{}, &fieldkit.Error{Kind: fieldkit.NotFound, What: fmt.Sprintf("there is no table %q", name), Do: "describe it before adding its file"}
	}
	t.Columns = append(slices.Clip(t.Columns), closing...)
	l := loader{table: t, where: name + ".csv"}
	if err := l.read(file); err != nil {
		return Table{}, err
	}
	l.table.Sources = sourcesOf(l.table)
	return l.table, nil
}

// loader reads one file; line is where it is.
type loader struct {
	table Table
	where string
	line  int
}

func (l *loader) read(file []byte) error {
	if err := l.checkFile(file); err != nil {
		return err
	}
	r := csv.NewReader(bytes.NewReader(file))
	header, err := l.next(r)
	if err != nil {
		return err
	}
	if err := l.checkHeader(header); err != nil {
		return err
	}
	seen := map[string]int{}
	for {
		cells, err := l.next(r)
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		for i, cell := range cells {
			if err := l.checkCell(l.table.Columns[i], cell); err != nil {
				return err
			}
		}
		key := l.keyOf(cells)
		if first, twice := seen[key]; twice {
			return l.refuse("", fmt.Sprintf("%q stands on line %d already", key, first), "keep one of the two rows")
		}
		seen[key] = l.line
		l.table.Rows = append(l.table.Rows, cells)
	}
}

// next gives the cells of the next row, or io.EOF.
func (l *loader) next(r *csv.Reader) ([]string, error) {
	cells, err := r.Read()
	var fault *csv.ParseError
	switch {
	case errors.As(err, &fault):
		l.line = fault.Line
		return nil, l.refuse("", fault.Err.Error(), "write the row as CSV, quotes around what holds a comma")
	case err != nil:
		return nil, err
	}
	line, _ := r.FieldPos(0)
	l.line++
	if line != l.line {
		return nil, l.refuse("", "the line is blank", "take it out")
	}
	return cells, nil
}

func (l *loader) keyOf(cells []string) string {
	parts := make([]string, len(l.table.Key))
	for i, name := range l.table.Key {
		parts[i] = cells[l.table.at(name)]
	}
	return strings.Join(parts, " | ")
}

func (l *loader) refuse(column, what, do string) error {
	where := l.where
	if l.line > 0 {
		where += fmt.Sprintf(", line %d", l.line)
	}
	if column != "" {
		where += ", " + column
	}
	return &fieldkit.Error{Kind: fieldkit.BadInput, Where: where, What: what, Do: do}
}

// sourcesOf counts the statements the sources of the rows are joined from.
func sourcesOf(t Table) []Source {
	count := map[string]int{}
	last := len(t.Columns) - 1
	for _, cells := range t.Rows {
		for part := range strings.SplitSeq(cells[last], "; ") {
			count[part]++
		}
	}
	var list []Source
	for text, rows := range count {
		list = append(list, Source{text, rows})
	}
	slices.SortFunc(list, func(a, b Source) int {
		if a.Rows != b.Rows {
			return b.Rows - a.Rows
		}
		return strings.Compare(a.Text, b.Text)
	})
	return list
}
