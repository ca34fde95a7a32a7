package kitfile

import (
	"bytes"
	"encoding/json"
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
func Save(k fieldkit.Kit) []byte {
	present(&k)
	if k.Version == current.String() && holdsExtra(reflect.ValueOf(k)) {
		k.Version = version{current.major, current.minor + 1}.String()
	}
	var b bytes.Buffer
	if err := json.Indent(&b, appendValue(nil, reflect.ValueOf(k)), "", "  "); err != nil {
		panic("kitfile: wrote what is not JSON: " + err.Error())
	}
	b.WriteByte('\n')
	return b.Bytes()
}

// EncodeRecord writes one record as compact JSON, unknown fields included. The
// same record gives the same bytes.
func EncodeRecord(r fieldkit.Record) []byte {
	return appendValue(nil, reflect.ValueOf(r))
}
