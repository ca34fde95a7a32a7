package kitfile

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

// Every record comes back from its journal form, and that form is stable.
func TestRecordRoundTrip(t *testing.T) {
	for seed := range int64(20) {
		d := roll(seed)
		d.extra = seed%2 == 1
		k := d.kit(4)
		for _, c := range fieldkit.Collections {
			for _, r := range c.All(k) {
				raw := EncodeRecord(r)
				back, err := DecodeRecord(c.Name, raw)
				require.NoError(t, err, "%s", raw)
				require.Equal(t, r, back)
				require.Equal(t, string(raw), string(EncodeRecord(back)))
			}
		}
	}
}

// An empty record of each collection can be kept: a form may be half filled in.
func TestEmptyRecordRoundTrip(t *testing.T) {
	for _, c := range fieldkit.Collections {
		empty := c.Value(c.New())
		back, err := DecodeRecord(c.Name, EncodeRecord(empty))
		require.NoError(t, err, "%s: %s", c.Name, EncodeRecord(empty))
		assert.Equal(t, empty, back)
	}
	unpriced := fieldkit.Tool{ID: "jack", Price: &fieldkit.Money{}}
	back, err := DecodeRecord("tools", EncodeRecord(unpriced))
	require.NoError(t, err)
	assert.Equal(t, unpriced, back)
}

func TestRecordKeepsUnknownFields(t *testing.T) {
	raw := `{"id":"x","rig":"r","name":"n","colour":{"rgb":[1,2,3.0]}}`
	r, err := DecodeRecord("systems", []byte(raw))
	require.NoError(t, err)
	assert.Equal(t, fieldkit.Assembly{ID: "x", Rig: "r", Name: "n", Extra: fieldkit.Extra{"colour": `{"rgb":[1,2,3.0]}`}}, r)
	assert.Equal(t, raw, string(EncodeRecord(r)))
}

func TestRecordRefused(t *testing.T) {
	cases := []struct{ name, collection, raw, what string }{
		{"not JSON", "parts", `{`, "the file ends in the middle"},
		{"not a group", "parts", `[]`, "a list in [ ] stands here"},
		{"wrong type", "bins", `{"id":"b","rig":"r","name":"n","order":"1"}`, `bin "b", order: "1" is a text`},
		{"wrong unit", "bins", `{"id":"b","rig":"r","name":"n","massLimit":"2 mm"}`, `bin "b", massLimit: "mm" is not a unit of mass`},
		{"unknown word", "positions", `{"id":"p","system":"s","name":"n","kind":"k","quantity":1,"side":"up"}`, `"up" is not a side`},
		{"field missing", "spares", `{"id":"s","part":"p"}`, `"count" is missing`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r, err := DecodeRecord(c.collection, []byte(c.raw))
			assert.Nil(t, r)
			var found *Problems
			require.ErrorAs(t, err, &found)
			assert.ErrorContains(t, err, c.what)
		})
	}
	_, err := DecodeRecord("boats", []byte(`{}`))
	var told *fieldkit.Error
	require.True(t, errors.As(err, &told))
	assert.Equal(t, fieldkit.NotFound, told.Kind)
}

func TestDecodeCatalogs(t *testing.T) {
	type file struct {
		Kinds  []fieldkit.PartKind `json:"kinds"`
		Source string              `json:"source"`
	}
	good := `{"source": "common practice", "kinds": [{"id": "pad", "name": "brake pad", "system": "brakes",
		"deciding": [{"name": "length", "dimension": "length", "how": "caliper", "must": true}],
		"wear": {"name": "lining thickness", "limit": "3 mm", "falling": true, "how": "caliper"},
		"mass": "1 lb", "hoursIfNotCarried": "6 h", "hoursIfCarried": "45 min"}]}`
	var f file
	require.NoError(t, Decode("kinds.json", []byte(good), &f))
	assert.Equal(t, fieldkit.Pound, f.Kinds[0].Mass)
	assert.Equal(t, fieldkit.DimLength, f.Kinds[0].Deciding[0].Dim)
	assert.Equal(t, fieldkit.Minutes(360), f.Kinds[0].IfLeft)

	f = file{Source: "before"}
	bad := `{"kinds": [{"id": "pad", "nme": "brake pad", "deciding": [{"name": "length", "dimension": "width", "how": "caliper", "must": 1}]}], "source": ""}`
	err := Decode("kinds.json", []byte(bad), &f)
	assert.Zero(t, f, "a refused catalog leaves nothing behind")
	for _, what := range []string{
		`kinds.json, line 1, kind "pad", nme: "nme" is not a field here; did you mean "name"?`,
		`kind "pad", deciding "length", dimension: "width" is not a dimension`,
		`must: 1 is a number; write true or false`,
		`hoursIfCarried: "hoursIfCarried" is missing`,
	} {
		assert.ErrorContains(t, err, what)
	}
	var kinds []fieldkit.ToolKind
	require.NoError(t, Decode("tools.json", []byte(`[{"id": "jack", "name": "jack"}]`), &kinds))
	assert.Equal(t, []fieldkit.ToolKind{{ID: "jack", Name: "jack"}}, kinds)
}
