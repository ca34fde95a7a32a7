package kitfile

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

// loadSeeds are short, so that the fuzzer changes what matters: kits of this, of
// a newer and of an older version, and files that are none.
var loadSeeds = []string{
	`{"format":"trail-field-kit","version":"1.0","id":"k","name":"k","currency":"USD","rigs":[{"id":"r","name":"n","odometer":"1.5 mi","traits":{"a":"b"}}],"systems":[{"id":"s","rig":"r","name":"n"}],"positions":[{"id":"p","system":"s","name":"n","side":"left","kind":"k","quantity":2,"proof":{"how":"seen","on":"2026-05-14"}}]}`,
	`{"format":"trail-field-kit","version":"1.0","id":"k","name":"k","currency":"USD","parts":[{"id":"a","kind":"k","name":"n","mass":"1 lb 2 oz","price":"1.50 USD","measurements":[{"name":"bore","value":"1-3/8 in","worn":true}]},{"id":"b","kind":"k","name":"½"}],"links":[{"id":"l","for":"a","with":"b","grade":"drop-in","evidence":"seen"}]}`,
	`{"format":"trail-field-kit","version":"1.0","id":"k","name":"k","currency":"USD","rigs":[{"id":"r","name":"n"}],"trips":[{"id":"t","name":"n","rigs":["r"],"days":3,"distance":"9 km","terrain":"sand","limits":{"money":"5 USD"},"towns":[{"name":"t","away":"2:30"}]}],"failures":[{"id":"f","rig":"r","on":"14 May 2026","what":"w","place":{"lat":-1,"fixedAt":"2026-05-14T18:05:00+02:00"}}]}`,
	`{"format":"trail-field-kit","version":"1.4","id":"k","name":"k","currency":"USD","new":[{"x":1.50}],"rigs":[{"id":"r","name":"n","colour":"\u00e9\ud83d\ude00","a~b/c":null}]}`,
	`{"format":"trail-field-kit","version":"0.9","id":"k","name":"k","currency":"USD","assemblies":[],"parts":[{"id":"p","kind":"k","name":"n"}],"spares":[{"id":"s","part":"p","count":1,"weightGrams":20}],"rigs":[{"id":"r","name":"r","odometerKm":4}]}`,
	`{"format":"trail-field-kit","version":"2.0"}`,
	"\uFEFF{\"format\":\"trail-field-kit\",\"version\":\"1.0\",\"id\":NaN,\"id\":01,\"name\":\"\\ud83d\xff\",\"currency\":1e999}",
	`[[[[[[[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]]]]]`,
	`{"a":'b'`, `{"a":1,}`, `{"a" 1}`, `"\q`, ``,
}

// Whatever the bytes: a file that is taken is saved to the same kit and from
// then on to the same bytes; one that is refused gives no kit, and at least one
// problem with a place.
func FuzzLoad(f *testing.F) {
	for _, seed := range loadSeeds {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, file []byte) {
		requireStraight(t, file)
		kit, err := Load("kit.json", file)
		if err != nil {
			assert.Zero(t, kit)
			var found *Problems
			require.True(t, errors.As(err, &found))
			require.NotEmpty(t, found.List)
			lines := strings.Split(string(file), "\n")
			for _, p := range found.List {
				if p.Line < 1 || p.Line > len(lines) || p.Column < 1 || p.What == "" || p.Do == "" {
					t.Fatalf("%+v", p)
				}
			}
			return
		}
		require.Empty(t, Check(kit))
		saved := Save(kit)
		back, err := Load("kit.json", saved)
		require.NoError(t, err, "%s", saved)
		require.Equal(t, kit, back)
		require.Equal(t, string(saved), string(Save(back)))
	})
}

// A record that is taken is written to the same record.
func FuzzDecodeRecord(f *testing.F) {
	kit, err := Load("kit.json", []byte(sample(f)))
	require.NoError(f, err)
	for _, c := range fieldkit.Collections {
		for _, r := range c.All(kit) {
			f.Add(c.Name, EncodeRecord(r))
		}
	}
	f.Add("parts", []byte(`{"id":"p","kind":"k","name":"n","price":"0.00","x":[1, 2]}`))
	f.Add("runs", []byte(`{"id":"","guide":"","rig":"","started":"2026-05-14T23:59:60+23:59"}`))
	f.Add("boats", []byte(`{}`))
	f.Fuzz(func(t *testing.T, collection string, raw []byte) {
		r, err := DecodeRecord(collection, raw)
		if err != nil {
			assert.Nil(t, r)
			var told *fieldkit.Error
			require.True(t, errors.As(err, &told))
			return
		}
		written := EncodeRecord(r)
		back, err := DecodeRecord(collection, written)
		require.NoError(t, err, "%s", written)
		require.Equal(t, r, back)
		require.Equal(t, string(written), string(EncodeRecord(back)))
		CheckRecord(fieldkit.Kit{}, r)
	})
}
