package standards

import (
	"fmt"
	"maps"
	"slices"
	"strconv"

	"trailfieldkit/fieldkit"
)

// Table is a published table: a text for every column of every row.
type Table struct {
	Columns []string
	Rows    [][]string
}

// Tables opens a published table by its name, "ball_bearings"; ok is false if there
// is none.
type Tables func(name string) (t Table, ok bool)

// opener reads tables and keeps the first thing that is wrong.
type opener struct {
	tables Tables
	err    error
}

// row is one row of a table that is being read.
type row struct {
	from  *opener
	table string
	line  int // of the rows, from 1
	at    map[string]int
	cells []string
}

// each calls read with every row of a table.
func (o *opener) each(name string, read func(r row)) {
	t, ok := o.tables(name)
	if !ok {
		o.fail(&fieldkit.Error{Kind: fieldkit.NotFound, What: fmt.Sprintf("there is no table %q", name), Do: "bring it along with the program"})
		return
	}
	at := map[string]int{}
	for i, c := range t.Columns {
		at[c] = i
	}
	for i, cells := range t.Rows {
		read(row{o, name, i + 1, at, cells})
	}
}

func (o *opener) fail(err error) {
	if o.err == nil {
		o.err = err
	}
}

func (r row) text(column string) string {
	i, ok := r.at[column]
	if !ok || i >= len(r.cells) {
		r.refuse(column, "there is no such column", "check the name of the column")
		return ""
	}
	return r.cells[i]
}

func (r row) refuse(column, what, do string) {
	r.from.fail(&fieldkit.Error{Kind: fieldkit.BadInput, Where: fmt.Sprintf("table %s, row %d, %s", r.table, r.line, column), What: what, Do: do})
}

// mm, inch, and the like read a cell; a blank gives 0: not known.
func (r row) mm(column string) fieldkit.Length   { return r.length(column, " mm") }
func (r row) inch(column string) fieldkit.Length { return r.length(column, " in") }

func (r row) length(column, unit string) fieldkit.Length {
	cell := r.text(column)
	if cell == "" {
		return 0
	}
	q, err := fieldkit.ParseLength(cell+unit, fieldkit.Metric)
	if err != nil {
		r.refuse(column, fmt.Sprintf("%q is not a size", cell), "write a decimal")
	}
	return q
}

// whole reads a whole number.
func (r row) whole(column string) int {
	cell := r.text(column)
	if cell == "" {
		return 0
	}
	n, err := strconv.Atoi(cell)
	if err != nil {
		r.refuse(column, fmt.Sprintf("%q is not a whole number", cell), "write digits")
	}
	return n
}

// thousandths reads a number and gives a thousand times it: 11.5 is 11500.
func (r row) thousandths(column string) int64 {
	cell := r.text(column)
	if cell == "" {
		return 0
	}
	v, err := fieldkit.ParseValueAs(cell, fieldkit.DimCount, fieldkit.Metric)
	if err != nil {
		r.refuse(column, fmt.Sprintf("%q is not a number", cell), "write a decimal")
	}
	return v.Base / 1000
}

// figure reads a decimal that is no quantity of ours, such as a stress area.
func (r row) figure(column string) float64 {
	cell := r.text(column)
	if cell == "" {
		return 0
	}
	x, err := strconv.ParseFloat(cell, 64)
	if err != nil {
		r.refuse(column, fmt.Sprintf("%q is not a number", cell), "write a decimal")
	}
	return x
}

func (r row) source() string { return r.text("source") }

// catalogue is what a table lists, found by what it is called.
type catalogue[T any] struct {
	all []T
	by  map[string]int // folded name to place
}

func (c *catalogue[T]) add(t T, names ...string) {
	if c.by == nil {
		c.by = map[string]int{}
	}
	for _, n := range names {
		if _, taken := c.by[n]; n != "" && !taken {
			c.by[n] = len(c.all)
		}
	}
	c.all = append(c.all, t)
}

func (c *catalogue[T]) named(name string) (t T, ok bool) {
	i, ok := c.by[name]
	if !ok {
		return t, false
	}
	return c.all[i], true
}

// common gives how many characters a text shares with the beginning of the name
// that shares most with it: up to there it could be read.
func (c *catalogue[T]) common(s *scan, text string) int {
	most := 0
	if s.quiet {
		return most
	}
	for name := range c.by {
		n := 0
		for n < len(name) && n < len(text) && name[n] == text[n] {
			n++
		}
		most = max(most, n)
	}
	return most
}

// keys lists the keys of a map, sorted.
func keys[V any](of map[string]V) []string { return slices.Sorted(maps.Keys(of)) }
