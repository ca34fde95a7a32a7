package app

import (
	"encoding/json"
	"hash/fnv"
	"maps"
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// baseField is a hidden field: which state of its record a form began with. It is
// kept in the draft, so that a draft taken up days later still knows.
const baseField = "base"

// baseOf names the present state of a record; a record that is not there yet has
// none.
func baseOf(r fieldkit.Record) string {
	h := fnv.New64a()
	_, _ = h.Write(kitfile.EncodeRecord(r)) // a hash does not fail
	return strconv.FormatUint(h.Sum64(), 36)
}

// follow lets a form in which nothing was typed show the record as it is by now.
// One that is being typed in keeps its text; starting over gives the fresh record.
func follow(f *form, fresh map[string]string) {
	if maps.Equal(f.start, fresh) {
		return
	}
	untouched := maps.Equal(f.values, f.start)
	f.start = fresh
	if untouched {
		f.startOver()
	}
}

// chosenThen does something more once a field was chosen in.
func chosenThen(drawn app.UI, more func()) app.UI {
	if choose, ok := drawn.(*field); ok {
		chosen := choose.OnType
		choose.OnType = func(ctx app.Context, v string) {
			chosen(ctx, v)
			more()
		}
	}
	return drawn
}

// forget puts fields back to what the form began with, once what was typed in them
// is saved; the rest of the draft stays.
func (f *form) forget(names ...string) {
	for _, name := range names {
		delete(f.values, name)
		if was, ok := f.start[name]; ok {
			f.values[name] = was
		}
	}
	f.revision++
	if maps.Equal(f.values, f.start) {
		f.done()
		return
	}
	if draft, err := json.Marshal(f.values); err == nil {
		remember(f.draft, string(draft))
	}
}
