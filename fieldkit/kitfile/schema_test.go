package kitfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

const schemaFile = "../../data/kit.schema.json"

func schema(t *testing.T) map[string]any {
	t.Helper()
	raw, err := os.ReadFile(schemaFile)
	require.NoError(t, err)
	var s map[string]any
	require.NoError(t, json.Unmarshal(raw, &s))
	return s
}

// compiled is the published schema as a validator of the reference kind: an
// implementation that has nothing to do with this package.
func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("kit.schema.json", schema(t)))
	c.AssertFormat()
	s, err := c.Compile("kit.schema.json")
	require.NoError(t, err)
	return s
}

func validate(s *jsonschema.Schema, file []byte) error {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(file))
	if err != nil {
		return err
	}
	return s.Validate(doc)
}

// written are the types that are kept as text, by the name of their definition.
var written = map[reflect.Type]string{
	reflect.TypeFor[fieldkit.Mass](): "mass", reflect.TypeFor[fieldkit.Volume](): "volume",
	reflect.TypeFor[fieldkit.Distance](): "distance", reflect.TypeFor[fieldkit.Minutes](): "span",
	reflect.TypeFor[fieldkit.Money](): "price", reflect.TypeFor[fieldkit.Value](): "value",
	reflect.TypeFor[fieldkit.Date](): "date", reflect.TypeFor[fieldkit.Moment](): "moment",
	reflect.TypeFor[fieldkit.Side](): "side", reflect.TypeFor[fieldkit.Evidence](): "evidence",
	reflect.TypeFor[fieldkit.Issuer](): "issuer", reflect.TypeFor[fieldkit.Grade](): "grade",
	reflect.TypeFor[fieldkit.Move](): "move", reflect.TypeFor[fieldkit.Yardstick](): "yardstick",
	reflect.TypeFor[fieldkit.Weekday](): "weekday", reflect.TypeFor[fieldkit.Dust](): "dust",
	reflect.TypeFor[fieldkit.Terrain](): "terrain", reflect.TypeFor[fieldkit.ItemType](): "itemType",
	reflect.TypeFor[fieldkit.Judgement](): "judgement",
	reflect.TypeFor[fieldkit.Mode]():      "failureMode",
}

// matcher compares Go types with the schema, field by field, both ways.
type matcher struct {
	t    *testing.T
	defs map[string]any
	used map[string]bool // definitions that some field has
}

func TestSchemaMatchesTypes(t *testing.T) {
	s := schema(t)
	m := &matcher{t, s["$defs"].(map[string]any), map[string]bool{}}
	m.fields("kit", s, reflect.TypeFor[fieldkit.Kit]())
	for name := range m.defs {
		assert.True(t, m.used[name], "definition %q is used nowhere", name)
	}
}

func (m *matcher) fields(where string, s map[string]any, typ reflect.Type) {
	props := s["properties"].(map[string]any)
	want := shapeOf(typ)
	assert.ElementsMatch(m.t, want.names(), slices.Collect(maps.Keys(props)), where)
	assert.NotEmpty(m.t, s["title"], where)
	assert.NotEmpty(m.t, s["description"], where)
	assert.NotContains(m.t, s, "additionalProperties", "%s must stay open for later minor versions", where)
	required := wordsOf(s["required"])
	for _, f := range want.fields {
		at := where + "." + f.name
		assert.Equal(m.t, !f.optional, slices.Contains(required, f.name), "%s required", at)
		if p, ok := props[f.name].(map[string]any); ok {
			assert.NotEmpty(m.t, p["description"], at)
			m.value(at, p, typ.Field(f.index).Type, f.optional)
		}
	}
	assert.Subset(m.t, want.names(), required, where)
}

func (m *matcher) value(at string, p map[string]any, typ reflect.Type, optional bool) {
	if typ.Kind() == reflect.Pointer {
		typ = typ.Elem()
	}
	name, _ := strings.CutPrefix(fmt.Sprint(p["$ref"]), "#/$defs/")
	def, _ := m.defs[name].(map[string]any)
	if p["$ref"] != nil {
		require.NotNil(m.t, def, "%s: no definition %q", at, name)
		m.used[name] = true
	}
	if want, ok := written[typ]; ok {
		assert.Equal(m.t, want, name, at)
		assert.Equal(m.t, "string", def["type"], at)
		if e, isEnum := enums[typ]; isEnum {
			assert.Equal(m.t, e.words, wordsOf(def["enum"]), at)
		}
		return
	}
	if r := readingOf(typ); r.kind == asList {
		typ = reflect.SliceOf(reflect.TypeOf(reflect.Zero(typ).Interface().(longList).Empty()))
	}
	switch typ.Kind() {
	case reflect.Struct:
		assert.Equal(m.t, lowerFirst(typ.Name()), strings.Replace(name, "system", "assembly", 1), at)
		m.fields(name, def, typ)
	case reflect.Slice:
		assert.Equal(m.t, "array", p["type"], at)
		limit := fieldkit.MaxList
		if strings.Count(at, ".") == 1 && strings.HasPrefix(at, "kit.") {
			limit = fieldkit.MaxRecords
		}
		assert.EqualValues(m.t, limit, p["maxItems"], at)
		items := p["items"].(map[string]any)
		if all, ok := items["allOf"].([]any); ok { // a definition and a bound on top
			items = all[0].(map[string]any)
		}
		m.value(at+"[]", items, typ.Elem(), false)
	case reflect.Map:
		assert.Equal(m.t, "object", p["type"], at)
		m.value(at+"{}", p["additionalProperties"].(map[string]any), typ.Elem(), false)
		m.value(at+"{key}", p["propertyNames"].(map[string]any), typ.Key(), false)
	case reflect.String:
		m.text(at, p, name, optional)
	case reflect.Bool:
		assert.Equal(m.t, "boolean", p["type"], at)
	case reflect.Int, reflect.Int64:
		assert.Equal(m.t, "integer", p["type"], at)
		assert.Contains(m.t, p, "minimum", at)
		assert.Contains(m.t, p, "maximum", at)
	default:
		m.t.Errorf("%s: no rule for %s", at, typ)
	}
}

// text checks a plain string: required ones must say something, IDs are IDs.
func (m *matcher) text(at string, p map[string]any, name string, optional bool) {
	switch name {
	case "id", "photo":
	case "words":
		assert.False(m.t, optional, at)
	case "text":
		assert.True(m.t, optional, at)
	default:
		assert.True(m.t, p["type"] == "string" || p["const"] != nil, at)
	}
}

func lowerFirst(s string) string { return strings.ToLower(s[:1]) + s[1:] }

func wordsOf(list any) (words []string) {
	all, _ := list.([]any)
	for _, one := range all {
		words = append(words, one.(string))
	}
	return words
}

// The named limits of the schema are those of the program.
func TestSchemaLimits(t *testing.T) {
	defs := schema(t)["$defs"].(map[string]any)
	get := func(def, key string) any { return defs[def].(map[string]any)[key] }
	assert.EqualValues(t, fieldkit.MaxID, get("id", "maxLength"))
	assert.EqualValues(t, fieldkit.MaxString, get("text", "maxLength"))
	assert.EqualValues(t, fieldkit.MaxString, get("words", "maxLength"))
	for _, name := range []string{"mass", "volume", "distance", "span", "price"} {
		assert.EqualValues(t, fieldkit.MaxAmountText, get(name, "maxLength"), name)
	}
	bound := func(def, field, key string) any {
		return get(def, "properties").(map[string]any)[field].(map[string]any)[key]
	}
	assert.EqualValues(t, maxFitted, bound("position", "quantity", "maximum"))
	assert.EqualValues(t, maxDays, bound("trip", "days", "maximum"))
	assert.EqualValues(t, maxPieces, bound("spare", "count", "maximum"))
	assert.EqualValues(t, maxOversize, bound("rig", "oversize", "maximum"))
	assert.EqualValues(t, minOversize, bound("rig", "oversize", "minimum"))
	assert.EqualValues(t, maxLat, bound("place", "lat", "maximum"))
	assert.EqualValues(t, -maxLon, bound("place", "lon", "minimum"))
	assert.EqualValues(t, maxOrder, bound("bin", "order", "maximum"))
	assert.EqualValues(t, fieldkit.MaxEngineHours, bound("rig", "engineHours", "maximum"))
	assert.EqualValues(t, fieldkit.MaxEngineHours, bound("inspection", "engineHours", "maximum"))
	assert.EqualValues(t, fieldkit.MaxTripHours, bound("trip", "engineHours", "maximum"))
	assert.EqualValues(t, fieldkit.MaxEngineHours, bound("service", "everyHours", "maximum"))
	assert.EqualValues(t, fieldkit.MaxEngineHours, bound("serviceDone", "hours", "maximum"))
	assert.EqualValues(t, fieldkit.MaxMonths, bound("service", "everyMonths", "maximum"))
	assert.EqualValues(t, fieldkit.MaxShelf, bound("cost", "shelf", "maximum"))
	assert.EqualValues(t, maxCrossings, bound("service", "everyCrossings", "maximum"))
	assert.EqualValues(t, lastYear, bound("donor", "yearTo", "maximum"))
}

// What Save writes is valid by the published schema, kept unknown fields included.
func TestSchemaAcceptsSavedKits(t *testing.T) {
	s := compiled(t)
	file, err := os.ReadFile("testdata/kit.json")
	require.NoError(t, err)
	require.NoError(t, validate(s, file))
	for seed := range int64(40) {
		d := roll(seed)
		d.extra = seed%2 == 1
		require.NoError(t, validate(s, Save(d.kit(1+int(seed)%5))), "seed %d", seed)
	}
}

// The kits that come with the program keep to the published schema.
func TestSchemaAcceptsEmbeddedKits(t *testing.T) {
	s := compiled(t)
	for _, name := range []string{"demo.json", "blank.json"} {
		file, err := os.ReadFile("../../data/" + name)
		require.NoError(t, err)
		assert.NoError(t, validate(s, file), name)
		kit, err := Load(name, file)
		require.NoError(t, err)
		assert.Equal(t, string(file), string(Save(kit)), "%s is not as Save writes it", name)
	}
}

// The examples in the schema are read by the types they stand for.
func TestSchemaExamplesAreRead(t *testing.T) {
	defs := schema(t)["$defs"].(map[string]any)
	for typ, name := range written {
		for _, example := range wordsOf(defs[name].(map[string]any)["examples"]) {
			found := &faults{}
			d := &decoder{doc: &document{root: &node{kind: text, text: example}}, found: found}
			d.decode(reflect.New(typ).Elem())
			assert.Empty(t, found.list, "%s: %s", name, example)
		}
	}
}
