package tables

import (
	"bytes"
	"embed"
	"slices"
	"sync"
)

//go:embed *.csv
var files embed.FS

// described holds the descriptions of all tables by name, without their rows.
var described = sync.OnceValue(func() map[string]Table {
	all := map[string]Table{}
	for _, group := range [][]Table{bearings, seals, fasteners, fluids, drive, wheels, electrics} {
		for _, t := range group {
			all[t.Name] = t
		}
	}
	return all
})

// Names lists the tables, sorted. It reads none of them.
var Names = sync.OnceValue(func() []string {
	var names []string
	for name := range described() {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
})

// kept holds the tables read so far.
var kept = struct {
	sync.Mutex
	tables map[string]Table
}{tables: map[string]Table{}}

// TableNamed gives the table of that name; ok is false if there is none. It panics
// only when the embedded file is broken.
func TableNamed(name string) (t Table, ok bool) {
	kept.Lock()
	defer kept.Unlock()
	if t, ok := kept.tables[name]; ok {
		return t, true
	}
	file, ok := File(name)
	if !ok {
		return Table{}, false
	}
	t, err := Load(name, file)
	if err != nil {
		panic("tables: the embedded table is broken: " + err.Error())
	}
	kept.tables[name] = t
	return t, true
}

// Outline gives a table without its rows and sources, and how many rows there are.
// It costs next to nothing: a list of all tables need not read them.
func Outline(name string) (t Table, rows int, ok bool) {
	file, ok := File(name)
	if !ok {
		return Table{}, 0, false
	}
	t = described()[name]
	t.Columns = append(slices.Clip(t.Columns), closing...)
	return t, bytes.Count(file, []byte("\n")) - 1, true // a row is a line: Load sees to it
}

// Tables gives all tables, sorted by name.
func Tables() []Table {
	all := make([]Table, 0, len(Names()))
	for _, name := range Names() {
		t, _ := TableNamed(name)
		all = append(all, t)
	}
	return all
}

// File gives the CSV file of a table byte by byte as it is embedded.
func File(name string) (file []byte, ok bool) {
	if _, ok := described()[name]; !ok {
		return nil, false
	}
	file, err := files.ReadFile(name + ".csv")
	return file, err == nil
}
