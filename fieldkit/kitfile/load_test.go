package kitfile

import (
	"encoding"
	"flag"
	"os"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// golden compares text with a file of testdata, or rewrites it.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	if *update {
		require.NoError(t, os.WriteFile("testdata/"+name, got, 0o644))
	}
	want, err := os.ReadFile("testdata/" + name)
	require.NoError(t, err)
	require.NotEmpty(t, want)
	assert.Equal(t, string(want), string(got))
}

func sample(t testing.TB) string {
	t.Helper()
	file, err := os.ReadFile("testdata/kit.json")
	require.NoError(t, err)
	return string(file)
}

// The sample gives every field of every type, and comes back byte for byte.
func TestSampleIsWholeAndStable(t *testing.T) {
	kit, err := Load("kit.json", []byte(sample(t)))
	require.NoError(t, err)
	assert.Equal(t, sample(t), string(Save(kit)))
	given := map[string]bool{}
	all := map[string]bool{}
	fieldsGiven(reflect.ValueOf(kit), given, all)
	for name := range all {
		assert.True(t, given[name], "the sample gives no %s", name)
	}
}

// fieldsGiven notes which fields of which types hold something.
func fieldsGiven(v reflect.Value, given, all map[string]bool) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			fieldsGiven(v.Elem(), given, all)
		}
	case reflect.Slice:
		for i := range v.Len() {
			fieldsGiven(v.Index(i), given, all)
		}
	case reflect.Struct:
		if v.Type().Implements(reflect.TypeFor[encoding.TextMarshaler]()) {
			return
		}
		for _, f := range shapeOf(v.Type()).fields {
			name := v.Type().Name() + "." + f.name
			all[name] = true
			given[name] = given[name] || !isEmpty(v.Field(f.index), f.reading)
			fieldsGiven(v.Field(f.index), given, all)
		}
	}
}

// brokenFile is the sample with one thing wrong.
type brokenFile struct {
	name     string
	old, new string // in the sample, once; old "" replaces the whole file
	pointer  string
	what     string // part of the message
	schema   bool   // the published schema refuses it as well
}

var brokenFiles = []brokenFile{
	// Structure of the text.
	{"empty file", "", "", "", "the file is empty", true},
	{"only white space", "", " \n\t", "", "the file is empty", true},
	{"not JSON", "", "kit", "", `"kit" is not a value`, true},
	{"another kind of document", "", `[1, 2]`, "", "not a kit file", true},
	{"another format", "trail-field-kit", "other", "/format", "not a kit file", true},
	{"no format", `"format": "trail-field-kit",`, "", "/format", "not a kit file", true},
	{"cut off in the middle", "", `{"format": "trail-field-kit", "parts": [{"id": "a"`, "/parts/0", "the file ends in the middle", true},
	{"cut off in a text", "", `{"format": "trail-fi`, "/format", "a text is not closed", true},
	{"text over a line end", `"name": "Front axle"`, "\"name\": \"Front\naxle\"", "/systems/0/name", "not closed on its line", true},
	{"more after the end", "", `{"format": "trail-field-kit", "version": "1.1"} {}`, "", "more text after the end", true},
	{"byte order mark", "{\n  \"format\"", "\uFEFF{\n  \"format\"", "", "byte order mark", true},
	{"not UTF-8", `"Front axle"`, "\"Front \xff axle\"", "/systems/0/name", "not UTF-8", false},
	{"not UTF-8 outside a text", `"order": 2,`, "\"order\": \xff2,", "/positions/1/order", "not UTF-8", true},
	{"comma too many", `"order": 2
    }`, `"order": 2,
    }`, "/systems/0", `"}" stands where a field name`, true},
	{"comma missing", `"order": 2
    },`, `"order": 2
    }`, "/systems", "a comma", true},
	{"colon missing", `"order": 3`, `"order" 3`, "/systems/1/order", "a colon", true},
	{"single quotes", `"Front axle"`, `'Front axle'`, "/systems/0/name", "begins with '", true},
	{"a remark", `"order": 2`, `// second
"order": 2`, "/systems/0", "a remark", true},
	{"field twice", `"order": 2`, `"order": 2, "order": 2`, "/systems/0/order", "given twice", false},
	{"control character", `"Front axle"`, "\"Front\x01axle\"", "/systems/0/name", "control character U+0001", true},
	{"bad escape", `"Front axle"`, `"Front\qaxle"`, "/systems/0/name", "backslash", true},
	{"short escape", `"Front axle"`, `"Front\u12"`, "/systems/0/name", "hexadecimal", true},
	{"half a character", `"Front axle"`, `"Front \ud83d axle"`, "/systems/0/name", "half a character", false},
	{"NaN", `"order": 2`, `"order": NaN`, "/systems/0/order", `"NaN" is not a value`, true},
	{"infinity", `"order": 2`, `"order": -Infinity`, "/systems/0/order", `"-Infinity" is not a value`, true},
	{"leading zero", `"order": 2`, `"order": 02`, "/systems/0/order", `"02" is not a number`, true},
	{"plus sign", `"order": 2`, `"order": +2`, "/systems/0/order", `"+2" is not a number`, true},
	{"number beyond floating point", `"order": 2`, `"order": 1e999`, "/systems/0/order", "beyond any number", true},
	{"number of many digits", `"order": 2`, `"order": 2` + strings.Repeat("0", 60), "/systems/0/order", "beyond any number", true},
	{"nested too deep", `"order": 2`, `"order": ` + strings.Repeat("[", 40) + strings.Repeat("]", 40), "/systems/0/order" + strings.Repeat("/0", 21), "more than 24 deep", true},
	{"text too long", `"Front axle"`, `"` + strings.Repeat("x", fieldkit.MaxString+1) + `"`, "/systems/0/name", "longer than the most, 20000", true},
	{"field name too long", `"order": 2`, `"` + strings.Repeat("o", fieldkit.MaxID+1) + `": 2`, "/systems/0", "a field name of 81 bytes is longer than the most, 80", false},
	{"list too long", `"grease seal"`, strings.Repeat(`"seal",`, fieldkit.MaxList) + `"seal"`, "/parts/0/buyWith", "more than 10000 entries", true},

	// Version.
	{"version missing", `"version": "1.1",`, "", "/version", `"version" is missing`, true},
	{"version no text", `"version": "1.1"`, `"version": 1.0`, "/version", "the version is not a text", true},
	{"version of one figure", `"version": "1.1"`, `"version": "1"`, "/version", `"1" is not a version`, true},
	{"version with zeros", `"version": "1.1"`, `"version": "1.00"`, "/version", `"1.00" is not a version`, true},
	{"version too old", `"version": "1.1"`, `"version": "0.3"`, "/version", "version 0.3 is older than any", true},
	{"version too new", `"version": "1.1"`, `"version": "2.0"`, "/version", "written by a newer program", true},

	// Fields by their types.
	{"unknown field", `"tyre"`, `"tire"`, "/rigs/0/tire", `"tire" is not a field here`, false},
	{"unknown collection", `"donors"`, `"donor"`, "/donor", `"donor" is not a field here`, false},
	{"field missing", `"rig": "tinker",
      "name": "Front axle"`, `"name": "Front axle"`, "/systems/0/rig", `"rig" is missing`, true},
	{"null", `"order": 2`, `"order": null`, "/systems/0/order", "null is not a value", true},
	{"null price", `"price": "31.50 USD"`, `"price": null`, "/parts/0/price", "null is not a value", true},
	{"text for a number", `"order": 2`, `"order": "2"`, "/systems/0/order", `"2" is a text`, true},
	{"decimals in a whole number", `"order": 2`, `"order": 2.5`, "/systems/0/order", "not a whole number", true},
	{"whole number too large", `"order": 2`, `"order": 99999999999999999999`, "/systems/0/order", "too large", true},
	{"number for a text", `"Front axle"`, `7`, "/systems/0/name", "7 is a number", true},
	{"group for a text", `"Front axle"`, `{}`, "/systems/0/name", "a group in { } stands here", true},
	{"text for true or false", `"worn": true`, `"worn": "yes"`, "/parts/0/measurements/0/worn", `"yes" is a text`, true},
	{"text for a list", `[
        "grease seal"
      ]`, `"grease seal"`, "/parts/0/buyWith", `"grease seal" is a text`, true},
	{"text for a group", `"limits": {`, `"limits": "none", "notes": {`, "/trips/0/limits", `"none" is a text`, true},
	{"number in a table of words", `"rear-axle": "full-float"`, `"rear-axle": 1`, "/rigs/0/traits/rear-axle", "1 is a number", true},
	{"bare number for a weight", `"mass": "300 g"`, `"mass": 300`, "/parts/0/mass", "300 is a number", true},
	{"weight without a unit", `"mass": "300 g"`, `"mass": "300"`, "/parts/0/mass", "has no unit", true},
	{"weight in a unit of length", `"mass": "300 g"`, `"mass": "300 mm"`, "/parts/0/mass", `"mm" is not a unit of mass`, true},
	{"ambiguous weight", `"mass": "300 g"`, `"mass": "1,300 g"`, "/parts/0/mass", "can be read as 1300 or as 1.300", false},
	{"price without a currency", `"31.50 USD"`, `"31.50"`, "/parts/0/price", "does not name a currency", true},
	{"price with three decimals", `"31.50 USD"`, `"31.501 USD"`, "/parts/0/price", "more than two decimals", true},
	{"date that can be read two ways", `"odometerOn": "2026-04-30"`, `"odometerOn": "3/4/2026"`, "/rigs/0/odometerOn", "two ways", true},
	{"day that does not exist", `"odometerOn": "2026-04-30"`, `"odometerOn": "2026-02-30"`, "/rigs/0/odometerOn", "not a day of the calendar", true},
	{"moment without a zone", `"2026-05-14T16:20:00Z"`, `"2026-05-14 16:20"`, "/runs/0/started", "not a moment", true},
	{"span of time in words", `"2 h 30 min"`, `"half a day"`, "/trips/0/towns/0/away", "not a span of time", true},
	{"no reading", `"value": "1-5/8 in"`, `"value": ""`, "/parts/0/measurements/0/value", "nothing is written", true},
	{"unknown side", `"side": "left"`, `"side": "Left"`, "/positions/0/side", `"Left" is not a side`, true},
	{"unknown evidence", `"evidence": "measured"`, `"evidence": "guess"`, "/links/0/evidence", `"guess" is not a kind of evidence`, true},
	{"unknown grade", `"does not fit"`, `"no"`, "/links/0/grade", `"no" is not a grade`, true},
	{"unknown issuer", `"issuer": "standard"`, `"issuer": "std"`, "/parts/0/numbers/0/issuer", `"std" is not an issuer`, true},
	{"unknown terrain", `"rough track"`, `"rough"`, "/trips/0/terrain", `"rough" is not a terrain`, true},
	{"unknown type of item", `"type": "spare"`, `"type": "part"`, "/trips/0/friends/0/type", `"part" is not a type of item`, true},
	{"terrain left empty", `"rough track"`, `""`, "/trips/0/terrain", "nothing is written", true},

	// Rules of records.
	{"kit id empty", `"id": "juniper-flat"`, `"id": ""`, "/id", "the id is empty", true},
	{"kit name empty", `"Juniper Flat crew"`, `"  "`, "/name", "nothing is written", true},
	{"currency in words", `"currency": "USD"`, `"currency": "dollars"`, "/currency", `"dollars" is not a currency`, true},
	{"id with a space", `"id": "torrack-30"`, `"id": "torrack 30"`, "/donors/0/id", `"torrack 30" is not an id`, true},
	{"id too long", `"id": "torrack-30"`, `"id": "` + strings.Repeat("t", 81) + `"`, "/donors/0/id", "longer than the most, 80", true},
	{"id twice", `"id": "inner-bearing"`, `"id": "outer-bearing"`, "/parts/1/id", "already the id of part 1", false},
	{"kind that is no id", `"kind": "wheel-end"`, `"kind": "wheel end!"`, "/positions/0/kind", "is not an id", true},
	{"trait that is no id", `"rear-axle": "full-float"`, `"rear axle": "full-float"`, "/rigs/0/traits/rear axle", "is not an id", true},
	{"name empty", `"name": "Front axle"`, `"name": ""`, "/systems/0/name", "nothing is written", true},
	{"control character, escaped", `"name": "Front axle"`, `"name": "Front\u001b[2Jaxle"`, "/systems/0/name", "holds the character U+001B", true},
	{"line break in a name", `"name": "Front axle"`, `"name": "Front\naxle"`, "/systems/0/name", "a text of one line holds a line break", false},
	{"tab in a name", `"name": "Front axle"`, `"name": "Front\taxle"`, "/systems/0/name", "a text of one line holds a tab", false},
	{"turned writing in a name", `"name": "Front axle"`, "\"name\": \"Front \u202eelxa\"", "/systems/0/name", "holds the character U+202E", true},
	{"isolated writing in an entry of a list", `"grease seal"`, "\"grease \u2066seal\"", "/parts/0/buyWith/0", "holds the character U+2066", true},
	{"turned writing in a note", `"Pack with grease`, "\"Pack \u2069with grease", "/positions/1/note", "holds the character U+2069", true},
	{"carriage return in a note", `"Pack with grease`, `"Pack\r\nwith grease`, "/positions/1/note", "holds the character U+000D", true},
	{"control character in a trait", `"rear-axle": "full-float"`, `"rear-axle": "full\u0007float"`, "/rigs/0/traits/rear-axle", "holds the character U+0007", true},
	{"quantity of none", `"quantity": 1,`, `"quantity": 0,`, "/positions/1/quantity", "0 is out of range", true},
	{"count below nothing", `"count": 2`, `"count": -1`, "/spares/0/count", "-1 is out of range", true},
	{"packed none", `"count": 1,
          "bin": "left-drawer",
          "rig": "tinker",
          "packed"`, `"count": 0,
          "bin": "left-drawer",
          "rig": "tinker",
          "packed"`, "/packs/0/lines/0/count", "0 is out of range", true},
	{"used none", `"item": "wheel-grease",
          "count": 1`, `"item": "wheel-grease",
          "count": 0`, "/runs/0/used/0/count", "0 is out of range", true},
	{"weight below nothing", `"mass": "300 g"`, `"mass": "-300 g"`, "/parts/0/mass", "less than nothing", true},
	{"price below nothing", `"31.50 USD"`, `"-31.50 USD"`, "/parts/0/price", "less than nothing", true},
	{"price in another currency", `"31.50 USD"`, `"31.50 EUR"`, "/parts/0/price", "not in USD", false},
	{"odometer below nothing", `"212480 km"`, `"-1 km"`, "/rigs/0/odometer", "less than nothing", true},
	{"trip of no days", `"days": 5`, `"days": 0`, "/trips/0/days", "0 is out of range", true},
	{"rig goes twice", `[
        "tinker"
      ]`, `["tinker", "tinker"]`, "/trips/0/rigs/1", "listed twice", false},
	{"latitude beyond the pole", `38512345`, `90000001`, "/failures/0/place/lat", "beyond 90 degrees", true},
	{"longitude beyond the date line", `-111234567`, `-180000001`, "/failures/0/place/lon", "beyond 180 degrees", true},
	{"year of no vehicle", `"yearFrom": 1988`, `"yearFrom": 88`, "/donors/0/yearFrom", "88 is not a year", false},
	{"years swapped", `"yearTo": 1991`, `"yearTo": 1971`, "/donors/0/yearTo", "1971 is before 1988", false},
	{"rear wheels", `"rearWheels": "single"`, `"rearWheels": "one"`, "/donors/0/rearWheels", "not a rear wheel layout", true},
	{"tyre oversize", `"oversize": 12`, `"oversize": 1200`, "/rigs/0/oversize", "out of range", true},
	{"part tied to itself", `"with": "inner-bearing"`, `"with": "outer-bearing"`, "/links/0/with", "tied to itself", false},
	{"photo by file name", `"9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08"`, `"../photo.jpg"`, "/failures/0/photos/0", "not a photo's name", true},
	{"failure without a day", `"on": "2026-05-14"`, `"on": ""`, "/failures/0/on", "nothing is written", true},
	{"clock far off", `"2026-05-14T16:20:00Z"`, `"0001-01-01T00:00:00Z"`, "/runs/0/started", "not a moment", true},

	// References.
	{"system on no rig", `"rig": "tinker",
      "name": "Front axle"`, `"rig": "tinkr",
      "name": "Front axle"`, "/systems/0/rig", `the kit has no rig "tinkr"; did you mean "tinker"?`, false},
	{"position in no system", `"system": "front-axle"`, `"system": "steering"`, "/positions/0/system", `no system "steering"`, false},
	{"position under none", `"parent": "front-left-end"`, `"parent": "left"`, "/positions/1/parent", `no position "left"`, false},
	{"position under itself", `"system": "front-axle",
      "name": "wheel end"`, `"system": "front-axle", "parent": "front-left-outer-bearing",
      "name": "wheel end"`, "/positions/1/parent", "lies under itself", false},
	{"position with no such part", `"part": "outer-bearing",
      "fitted"`, `"part": "outer",
      "fitted"`, "/positions/1/part", `no part "outer"`, false},
	{"part of no donor", `"donor": "torrack-30"`, `"donor": "torrack"`, "/parts/0/donor", `no donor "torrack"`, false},
	{"look-alike of no part", `"part": "inner-bearing"`, `"part": "inner"`, "/parts/0/lookAlikes/0/part", `no part "inner"`, false},
	{"link for no part", `"for": "outer-bearing"`, `"for": "outer"`, "/links/0/for", `no part "outer"`, false},
	{"link with no part", `"with": "inner-bearing"`, `"with": "inner"`, "/links/0/with", `no part "inner"`, false},
	{"bin on no rig", `"rig": "tinker",
      "name": "left drawer"`, `"rig": "x",
      "name": "left drawer"`, "/bins/0/rig", `no rig "x"`, false},
	{"spare of no part", `"part": "outer-bearing",
      "count"`, `"part": "outer",
      "count"`, "/spares/0/part", `no part "outer"`, false},
	{"spare in no bin", `"bin": "left-drawer",
      "note": "in waxed`, `"bin": "drawer",
      "note": "in waxed`, "/spares/0/bin", `no bin "drawer"`, false},
	{"trip with no such rig", `[
        "tinker"
      ]`, `["wren"]`, "/trips/0/rigs/0", `no rig "wren"`, false},
	{"packing list of no trip", `"trip": "salt-loop",
      "lines"`, `"trip": "loop",
      "lines"`, "/packs/0/trip", `no trip "loop"`, false},
	{"packed part not there", `"item": "outer-bearing"`, `"item": "outer"`, "/packs/0/lines/0/item", `no part "outer"`, false},
	{"tool left at home not there", `"item": "hub-socket"`, `"item": "socket"`, "/packs/0/never/0/item", `no tool "socket"`, false},
	{"consumable used not there", `"item": "wheel-grease"`, `"item": "grease"`, "/runs/0/used/0/item", `no consumable "grease"`, false},
	{"repair on no rig", `"guide": "wheel-bearing",
      "rig": "tinker"`, `"guide": "wheel-bearing",
      "rig": "x"`, "/runs/0/rig", `no rig "x"`, false},
	{"repair of no failure", `"failure": "failure-1"`, `"failure": "failure-2"`, "/runs/0/failure", `no failure "failure-2"`, false},
	{"failure on no trip", `"trip": "salt-loop",
      "position"`, `"trip": "loop",
      "position"`, "/failures/0/trip", `no trip "loop"`, false},
	{"failure of no repair", `"run": "run-1"`, `"run": "run-7"`, "/failures/0/run", `no repair "run-7"`, false},
	{"inspection of no position", `"position": "front-left-outer-bearing",
      "on": "2026-05-16"`, `"position": "front-left",
      "on": "2026-05-16"`, "/inspections/0/position", `no position "front-left"`, false},
}

func (b brokenFile) file(t testing.TB) string {
	if b.old == "" {
		return b.new
	}
	whole := sample(t)
	require.Contains(t, whole, b.old, "the sample has changed")
	return strings.Replace(whole, b.old, b.new, 1)
}

func TestBrokenFilesAreRefused(t *testing.T) {
	s := compiled(t)
	for _, b := range brokenFiles {
		t.Run(b.name, func(t *testing.T) {
			file := b.file(t)
			kit, err := Load("kit.json", []byte(file))
			var found *Problems
			require.ErrorAs(t, err, &found)
			assert.Zero(t, kit)
			if b.schema {
				assert.Error(t, validate(s, []byte(file)), "the schema takes it")
			}
			one, ok := problemAt(found, b.pointer, b.what)
			require.True(t, ok, "no problem at %q with %q in:\n%v", b.pointer, b.what, err)
			assert.NotEmpty(t, one.Do)
			for _, p := range found.List {
				assertPlaced(t, p, file)
			}
			var told *fieldkit.Error
			require.ErrorAs(t, err, &told)
			assert.True(t, strings.HasPrefix(told.Error(), "kit.json, line "), told.Error())
		})
	}
}

// A note may have lines and columns, and any writing that needs no turning over.
func TestNotesHaveLines(t *testing.T) {
	b := brokenFile{old: `"Pack with grease`, new: `"Pack:\n\twith grease שמן`}
	kit, err := Load("kit.json", []byte(b.file(t)))
	require.NoError(t, err)
	assert.Contains(t, kit.Positions.At(1).Note, "Pack:\n\twith")
	assert.NoError(t, validate(compiled(t), []byte(b.file(t))))
}

func problemAt(found *Problems, pointer, what string) (Problem, bool) {
	for _, p := range found.List {
		if p.Pointer == pointer && strings.Contains(p.What+"; "+p.Do, what) {
			return p, true
		}
	}
	return Problem{}, false
}

// assertPlaced tests that a problem's line and column are in the file.
func assertPlaced(t *testing.T, p Problem, file string) {
	t.Helper()
	lines := strings.Split(file, "\n")
	require.Greater(t, p.Line, 0, "%v", p)
	require.LessOrEqual(t, p.Line, len(lines), "%v", p)
	require.Greater(t, p.Column, 0, "%v", p)
	require.LessOrEqual(t, p.Column, len([]rune(lines[p.Line-1]))+1, "%v", p)
	assert.True(t, p.Pointer == "" || p.Pointer[0] == '/', p.Pointer)
	assert.NotEmpty(t, p.What)
	assert.Equal(t, strings.ToLower(p.What[:1]), p.What[:1], "messages begin in lower case")
}

// The place is exact: line and column of the value itself.
func TestPlaceOfAProblem(t *testing.T) {
	file := strings.Replace(sample(t), `"mass": "300 g"`, `"mass": "300 ½½ q"`, 1)
	_, err := Load("kit.json", []byte(file))
	var found *Problems
	require.ErrorAs(t, err, &found)
	require.Len(t, found.List, 1)
	p := found.List[0]
	line := strings.Split(file, "\n")[p.Line-1]
	assert.Contains(t, line, "½½ q")
	assert.Equal(t, strings.Index(line, `"300`)+1, p.Column)
	assert.Equal(t, `part "outer-bearing", mass`, p.Where)
}

// The columns count characters, not bytes.
func TestColumnCountsCharacters(t *testing.T) {
	_, err := Load("kit.json", []byte("{\"½½½\": nil}"))
	var found *Problems
	require.ErrorAs(t, err, &found)
	one, ok := problemAt(found, "/½½½", `"nil" is not a value`)
	require.True(t, ok)
	assert.Equal(t, 9, one.Column)
}
