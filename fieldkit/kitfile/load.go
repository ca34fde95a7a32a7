package kitfile

import (
	"fmt"
	"reflect"

	"trailfieldkit/fieldkit"
)

// Load reads and checks a kit file; name is what messages call it. The error is
// a *Problems that lists everything wrong, with the kit zero; its first problem
// is of kind TooNew for a file of a newer major version and TooBig for one beyond
// a limit. Kits of older versions come back in the present one.
func Load(name string, data []byte) (fieldkit.Kit, error) {
	found := &faults{}
	if kit, ok := readStraight(data, false); ok {
		if newChecker(&kit, found).kitWhole(); found.none() {
			present(&kit)
			return kit, nil
		}
		found = &faults{}
	}
	d, ok := parse(name, data, found)
	if !ok {
		return fieldkit.Kit{}, found.placed(d)
	}
	v, ok := readVersion(d.root, found)
	if !ok || !migrate(d, v, found) {
		return fieldkit.Kit{}, found.placed(d)
	}
	var kit fieldkit.Kit
	dec := &decoder{doc: d, found: found, keepUnknown: v.newerMinor()}
	dec.decode(reflect.ValueOf(&kit).Elem())
	checkInto(kit, found)
	if !found.none() {
		return fieldkit.Kit{}, found.placed(d)
	}
	present(&kit)
	return kit, nil
}

// present makes a kit of an older minor version one of today: it lacks nothing but
// fields that may be left out, and whatever is added to it must be read again.
func present(kit *fieldkit.Kit) {
	if v, ok := parseVersion(kit.Version); ok && v.major == current.major && v.minor < current.minor {
		kit.Version = current.String()
	}
}

// Decode reads JSON into any value built of the types of a kit or a catalog:
// structs by their json tags, lists, tables, texts and numbers. It is strict:
// unknown and missing fields are problems, and into is left zero if there is one.
// The error is a *Problems.
func Decode(name string, data []byte, into any) error {
	found := &faults{}
	d, ok := parse(name, data, found)
	target := reflect.ValueOf(into).Elem()
	if ok {
		dec := &decoder{doc: d, found: found}
		dec.decode(target)
	}
	if !found.none() {
		target.SetZero()
		return found.placed(d)
	}
	return nil
}

// DecodeRecord reads one record of the named collection as EncodeRecord wrote
// it. Unknown fields are kept, values of the wrong type are refused; references
// are not followed. The error is a *Problems, or of kind NotFound when there is
// no such collection.
func DecodeRecord(collection string, raw []byte) (fieldkit.Record, error) {
	c, ok := fieldkit.CollectionNamed(collection)
	if !ok {
		return nil, &fieldkit.Error{Kind: fieldkit.NotFound, What: fmt.Sprintf("%s is not a collection of a kit", quoted(collection)), Do: "update this program"}
	}
	into := c.New()
	if err := decodeKept(collection, raw, reflect.ValueOf(into).Elem()); err != nil {
		return nil, err
	}
	return c.Value(into), nil
}

// DecodeKit reads a kit as Save wrote it, now or in an earlier version, as leniently
// as DecodeRecord reads a record: a kit that was damaged and recovered must still
// open. One of a newer major version is refused, whatever it holds: it would be
// misread. The error is a *Problems.
func DecodeKit(raw []byte) (fieldkit.Kit, error) {
	kit, ok := readStraight(raw, true)
	if !ok {
		if err := decodeKept("", raw, reflect.ValueOf(&kit).Elem()); err != nil {
			return fieldkit.Kit{}, err
		}
	}
	present(&kit)
	return kit, nil
}

// decodeKept reads what this program wrote and kept; about is the collection of
// the record it is, if it is one.
func decodeKept(about string, raw []byte, into reflect.Value) error {
	found := &faults{}
	d, ok := parse("", raw, found)
	d.about = about
	if ok && about == "" {
		ok = bringUp(d, found)
	}
	if ok {
		dec := &decoder{doc: d, found: found, keepUnknown: true, emptyIsZero: true}
		dec.decode(into)
	}
	if !found.none() {
		return found.placed(d)
	}
	return nil
}

// bringUp migrates a kept kit that says of which version it is. One that does not, as
// a damaged one may, is taken for one of the present version.
func bringUp(d *document, found *faults) bool {
	written := d.root.member("version")
	if written == nil || written.kind != text {
		return true
	}
	if _, ok := parseVersion(written.text); !ok {
		return true
	}
	v, ok := readVersion(d.root, found)
	return ok && migrate(d, v, found)
}
