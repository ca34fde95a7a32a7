package app

import (
	"slices"
	"strconv"
	"strings"
)

// Rows are lists inside a form: numbers, measurements, look-alikes. The form's
// field "numbers" holds the keys of the rows in order, "numbers/KEY/value" one
// cell. A row of the record has its place there as key; an added one begins with
// addedRow. All of it is part of the draft, a half-typed row too.
const addedRow = "n"

// cell names a field of a row.
func cell(list, key, column string) string { return list + "/" + key + "/" + column }

// rows returns the keys of a list's rows.
func (f *form) rows(list string) []string { return strings.Fields(f.get(list)) }

// isAdded tells rows the record does not have yet.
func isAdded(key string) bool { return strings.HasPrefix(key, addedRow) }

// addRow puts an empty row at the end and returns its key.
func (f *form) addRow(list string) string {
	keys, n := f.rows(list), 1
	for slices.Contains(keys, addedRow+strconv.Itoa(n)) {
		n++
	}
	key := addedRow + strconv.Itoa(n)
	f.set(list, strings.Join(append(keys, key), " "))
	return key
}

// dropRow takes a row out with all its cells.
func (f *form) dropRow(list, key string) {
	for name := range f.values {
		if strings.HasPrefix(name, cell(list, key, "")) {
			delete(f.values, name)
			delete(f.wrong, name)
		}
	}
	keys := slices.DeleteFunc(f.rows(list), func(k string) bool { return k == key })
	f.set(list, strings.Join(keys, " "))
}

// fillRows puts the rows of a record into the fields a form starts with.
func fillRows[T any](fields map[string]string, list string, records []T, cells func(T) map[string]string) {
	var keys []string
	for i, r := range records {
		key := strconv.Itoa(i)
		keys = append(keys, key)
		for column, value := range cells(r) {
			fields[cell(list, key, column)] = value
		}
	}
	fields[list] = strings.Join(keys, " ")
}

// wasRow finds the entry of the record a row stands for; ok is false for an added
// row.
func wasRow[T any](records []T, key string) (was T, ok bool) {
	if i, err := strconv.Atoi(key); err == nil && i >= 0 && i < len(records) {
		return records[i], true
	}
	return was, false
}

// cellID is the page's name of a cell, to put the caret there.
func (f *form) cellID(list, key, column string) string {
	return (&field{Form: f.key, Name: cell(list, key, column)}).id()
}

// wrongRow says whether something in a row is marked as wrong, so that it is
// shown open.
func (f *form) wrongRow(list, key string) bool {
	for name := range f.wrong {
		if strings.HasPrefix(name, cell(list, key, "")) {
			return true
		}
	}
	return false
}

// changedRow says whether a row was typed over since the form was opened.
func (f *form) changedRow(list, key string) bool {
	for name, value := range f.values {
		if strings.HasPrefix(name, cell(list, key, "")) && f.start[name] != value {
			return true
		}
	}
	return false
}
