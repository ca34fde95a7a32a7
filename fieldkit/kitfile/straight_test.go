package kitfile

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

// decoded reads a kept kit the long way.
func decoded(raw []byte) (kit fieldkit.Kit, err error) {
	err = decodeKept("", raw, reflect.ValueOf(&kit).Elem())
	return kit, err
}

// requireStraight holds a text that is read straight to what the decoder reads.
func requireStraight(t *testing.T, raw []byte) (straight bool) {
	if kit, ok := readStraight(raw, false); ok {
		var want fieldkit.Kit
		require.NoError(t, Decode("", raw, &want), "%s", raw)
		require.Equal(t, want, kit, "%s", raw)
	}
	kit, ok := readStraight(raw, true)
	if !ok {
		require.Zero(t, kit)
		return false
	}
	want, err := decoded(raw)
	require.NoError(t, err, "%s", raw)
	require.Equal(t, want, kit, "%s", raw)
	return true
}

// Every kit of today is read straight, as it is kept and as it is saved.
func TestReadsStraightWhatIsWritten(t *testing.T) {
	for seed := range int64(40) {
		kit := roll(seed).kit(1 + int(seed)%7)
		require.True(t, requireStraight(t, SaveCompact(kit)), "seed %d", seed)
		require.True(t, requireStraight(t, Save(kit)), "seed %d", seed)
	}
	long := roll(1).kit(1300)
	require.True(t, requireStraight(t, SaveCompact(long)))
}

// Whatever else is done to the text of a kit: it is read straight to what the decoder
// makes of it, or not at all.
func TestReadsStraightOrNotAtAll(t *testing.T) {
	pieces := []string{`"`, `,`, `:`, `{`, `}`, `[`, `]`, `null`, `0`, `-`, `1e3`, `01`, `+5`, `true`, `\`, `\u00e9`, "\n", "\x01", "é", "\xff", " ",
		`"id":`, `"name":""`, `"new":1,`, `"on":"2026-02-31"`, `"left"`, `"sideways"`, `"9.9"`, `"1.7"`, `"2.0"`}
	straight, not := 0, 0
	for seed := range int64(250) {
		d := roll(seed)
		d.extra = seed%9 == 0
		raw := string(SaveCompact(d.kit(1 + d.Intn(3))))
		for range 16 {
			at := d.Intn(len(raw) + 1)
			upTo := min(len(raw), at+d.Intn(1+d.Intn(12)))
			changed := raw[:at] + raw[upTo:]
			if d.Intn(3) > 0 {
				changed = raw[:at] + pieces[d.Intn(len(pieces))] + raw[upTo:]
			}
			if requireStraight(t, []byte(changed)) {
				straight++
			} else {
				not++
			}
		}
	}
	assert.Greater(t, straight, 300)
	assert.Greater(t, not, 300)
}

func TestReadsStraightOnlyWhatHasNoProblem(t *testing.T) {
	const head = `{"format":"trail-field-kit","version":"1.1","id":"k","name":"k","currency":"USD"`
	for name, c := range map[string]struct {
		rest string
		ok   bool
	}{
		"as it is":           {`}`, true},
		"spread":             {" ,\n\t\"rigs\" : [ { \"name\" : \"r\" , \"id\" : \"r\" } ] }\r\n ", true},
		"empty":              {`,"rigs":[],"parts":[]}`, true},
		"a table":            {`,"rigs":[{"id":"r","name":"r","traits":{"a":"b"}}]}`, true},
		"an empty table":     {`,"rigs":[{"id":"r","name":"r","traits":{}}]}`, true},
		"an empty date":      {`,"positions":[{"id":"p","system":"s","name":"n","kind":"k","quantity":1,"fitted":""}]}`, true},
		"given twice":        {`,"name":"l"}`, false},
		"twice in a table":   {`,"rigs":[{"id":"r","name":"r","traits":{"a":"b","a":"c"}}]}`, false},
		"not known":          {`,"new":1}`, false},
		"missing":            {`,"rigs":[{"id":"r"}]}`, false},
		"null":               {`,"rigs":null}`, false},
		"a word of no enum":  {`,"links":[{"id":"l","for":"a","with":"b","grade":"perhaps","evidence":"seen"}]}`, false},
		"not a date":         {`,"positions":[{"id":"p","system":"s","name":"n","kind":"k","quantity":1,"fitted":"soon"}]}`, false},
		"a leading zero":     {`,"positions":[{"id":"p","system":"s","name":"n","kind":"k","quantity":01}]}`, false},
		"more behind it":     {`}}`, false},
		"a comma at the end": {`,}`, false},
		"cut off":            {``, false},
		"a long text":        {`,"rigs":[{"id":"r","name":"` + strings.Repeat("x", fieldkit.MaxString+1) + `"}]}`, false},
		"a long list":        {`,"packs":[{"id":"p","trip":"t","never":[` + strings.Repeat(`{"type":"tool","item":"t","count":1},`, fieldkit.MaxList) + `{"type":"tool","item":"t","count":1}]}]}`, false},
		"a longest list":     {`,"packs":[{"id":"p","trip":"t","never":[` + strings.Repeat(`{"type":"tool","item":"t","count":1},`, fieldkit.MaxList-1) + `{"type":"tool","item":"t","count":1}]}]}`, true},
	} {
		t.Run(name, func(t *testing.T) {
			assert.Equal(t, c.ok, requireStraight(t, []byte(head+c.rest)))
			_, err := decoded([]byte(head + c.rest))
			if c.ok {
				require.NoError(t, err)
			}
		})
	}
	_, ok := readStraight([]byte(head+`,"positions":[{"id":"p","system":"s","name":"n","kind":"k","quantity":1,"fitted":""}]}`), false)
	assert.False(t, ok, "a file may not leave a date empty")
	for _, other := range []string{`"version":"1.1"`, `"format":"trail-field-kit","version":"0.9"`, `"format":"trail-field-kit","version":"2.0"`, `"format":"another","version":"1.1"`} {
		assert.False(t, requireStraight(t, []byte(`{`+other+`,"id":"k","name":"k","currency":"USD"}`)), other)
	}
}
