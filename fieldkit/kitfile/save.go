package kitfile

import (
	"reflect"

	"trailfieldkit/fieldkit"
)

// Save writes a kit as a file: fields in the order of the types, those not given
// left out, kept unknown fields at the end of their group, two spaces a level,
// a line feed at the end. The same kit gives the same bytes.
//
// A kit of an earlier minor version is written as of the present one, which has all
// its fields. A kit that holds unknown fields is written as of the next minor version,
// so that they are kept when it is read again.
func Save(k fieldkit.Kit) []byte { return SaveInTurns(k, nil) }

// SaveInTurns is Save, and calls turn every few records of a long list, if there is one:
// others can have theirs meanwhile.
func SaveInTurns(k fieldkit.Kit, turn func()) []byte { return append(write(k, true, turn), '\n') }

// SaveCompact is Save for programs only: all on one line, without white space.
func SaveCompact(k fieldkit.Kit) []byte { return write(k, false, nil) }

func write(k fieldkit.Kit, lines bool, turn func()) []byte {
	present(&k)
	records := 1
	for _, c := range fieldkit.Collections {
		records += c.Len(k)
	}
	for {
		w := &writer{lines: lines, turn: turn, b: make([]byte, 0, records*usualRecord)}
		w.value(reflect.ValueOf(&k).Elem(), readingOf(reflect.TypeFor[fieldkit.Kit]()))
		if next := (version{current.major, current.minor + 1}); w.extras && k.Version == current.String() {
			k.Version = next.String()
			continue
		}
		return w.b
	}
}

// usualRecord is about how many bytes a record takes, so that a large kit is written
// into memory that is taken once.
const usualRecord = 256

// EncodeRecord writes one record as compact JSON, unknown fields included. The
// same record gives the same bytes.
func EncodeRecord(r fieldkit.Record) []byte {
	return appendValue(nil, reflect.ValueOf(r))
}
