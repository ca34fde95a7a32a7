package kitfile

import (
	"encoding"
	"go/ast"
	goparser "go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

func kitOf(t *testing.T) fieldkit.Kit {
	t.Helper()
	kit, err := Load("kit.json", []byte(sample(t)))
	require.NoError(t, err)
	return kit
}

// Check finds in a kit in hand what Load finds in a file; what cannot be said in
// a file is here.
func TestCheckOfAKitInHand(t *testing.T) {
	cases := []struct {
		name    string
		change  func(k *fieldkit.Kit)
		pointer string
		what    string
	}{
		{"format", func(k *fieldkit.Kit) { k.Format = "" }, "/format", "the format is not"},
		{"version", func(k *fieldkit.Kit) { k.Version = "2.0" }, "/version", `"2.0" is not a version`},
		{"enum", func(k *fieldkit.Kit) { k.Positions.Ref(0).Side = "up" }, "/positions/0/side", `"up" is not a side`},
		{"enum left out", func(k *fieldkit.Kit) { k.Links.Ref(0).Grade = "" }, "/links/0/grade", "nothing is written"},
		{"value left out", func(k *fieldkit.Kit) { k.Consumables[0].Size = fieldkit.Value{} }, "/consumables/0/size", "nothing is written"},
		{"value of no dimension", func(k *fieldkit.Kit) { k.Inspections.Ref(0).Value.Dim = "smell" }, "/inspections/0/value", `"smell" is not a dimension`},
		{"day not in the calendar", func(k *fieldkit.Kit) { k.Failures.Ref(0).On.Day = 32 }, "/failures/0/on", "not a day of the calendar"},
		{"clock far ahead", func(k *fieldkit.Kit) { k.Runs[0].Started.Time = k.Runs[0].Started.AddDate(9000, 0, 0) }, "/runs/0/started", "out of range"},
		{"text not UTF-8", func(k *fieldkit.Kit) { k.Rigs[0].Note = "a\xff" }, "/rigs/0/note", "not UTF-8"},
		{"text too long", func(k *fieldkit.Kit) { k.Rigs[0].Note = strings.Repeat("x", fieldkit.MaxString+1) }, "/rigs/0/note", "longer than the most"},
		{"list too long", func(k *fieldkit.Kit) {
			k.Rigs[0].Extra = nil
			k.Parts.Ref(0).BuyWith = make([]string, fieldkit.MaxList+1)
		}, "/parts/0/buyWith", "more than the most"},
		{"span too long", func(k *fieldkit.Kit) { k.Failures.Ref(0).Lost = fieldkit.MaxMinutes + 1 }, "/failures/0/lost", "longer than a year"},
		{"price without a currency", func(k *fieldkit.Kit) { k.Parts.Ref(0).Price = &fieldkit.Money{} }, "/parts/0/price", "not in USD"},
		{"blank entry of a list", func(k *fieldkit.Kit) { k.Links.At(0).Changes[0] = " " }, "/links/0/changes/0", "nothing is written"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			k := kitOf(t)
			c.change(&k)
			problems := Check(k)
			one, ok := problemAt(&Problems{List: problems}, c.pointer, c.what)
			require.True(t, ok, "%v", problems)
			assert.Zero(t, one.Line)
			assert.NotEmpty(t, one.Where)
			if c.name == "text not UTF-8" {
				return // Save mends it, at the price of a character
			}
			_, err := Load("kit.json", Save(k))
			assert.Error(t, err, "Check refuses what Load takes")
		})
	}
	assert.Empty(t, Check(kitOf(t)))
}

func TestRingOfParents(t *testing.T) {
	k := kitOf(t)
	for i, id := range []string{"a", "b", "c", "d"} {
		parent := []string{"b", "c", "a", "a"}[i] // d hangs off the ring a, b, c
		k.Positions = k.Positions.With(fieldkit.Position{ID: id, System: "brakes", Parent: parent, Name: id, Kind: "k", Quantity: 1})
	}
	problems := Check(k)
	require.Len(t, problems, 1, "one problem a ring")
	assert.Contains(t, problems[0].What, "lies under itself")
}

func TestCheckRecord(t *testing.T) {
	k := kitOf(t)
	good := fieldkit.Spare{ID: "new", Part: "inner-bearing", Count: 1}
	assert.Empty(t, CheckRecord(k, good))
	assert.Empty(t, CheckRecord(k, &good), "a pointer will do")
	problems := CheckRecord(k, fieldkit.Spare{ID: "new", Part: "inner", Count: -1})
	require.Len(t, problems, 2)
	assert.Equal(t, "/part", problems[0].Pointer)
	assert.Equal(t, `spare "new", part`, problems[0].Where)
	assert.Equal(t, `did you mean "inner-bearing"?`, problems[0].Do)
	assert.Equal(t, "/count", problems[1].Pointer)
}

func TestReferringTo(t *testing.T) {
	k := kitOf(t)
	var keys []string
	for _, r := range ReferringTo(k, "parts", "outer-bearing") {
		keys = append(keys, r.Collection()+"/"+r.Key())
	}
	assert.Equal(t, []string{"positions/front-left-outer-bearing", "links/outer-for-inner", "spares/spare-outer", "packs/salt-loop-pack", "failures/failure-1"}, keys)
	assert.Empty(t, ReferringTo(k, "parts", "nothing"))
	// Removing a record makes problems in the records it names, and only there.
	c, _ := fieldkit.CollectionNamed("parts")
	c.Remove(&k, "outer-bearing")
	broken := map[string]bool{}
	for _, p := range Check(k) {
		broken[strings.Join(tokens(p.Pointer)[:2], "/")] = true
	}
	assert.Len(t, broken, len(keys))
}

func TestCheckAgainst(t *testing.T) {
	cat := fieldkit.Catalog{
		PartKinds: []fieldkit.PartKind{
			{ID: "wheel-end"},
			{ID: "tapered-bearing-set", Deciding: []fieldkit.Attribute{{Name: "bore", Dim: fieldkit.DimLength}, {Name: "rollers", Dim: fieldkit.DimCount}},
				Wear: &fieldkit.Wear{Name: "hub temperature", Limit: fieldkit.Value{Dim: fieldkit.DimTemperature, Base: 700_000}}},
		},
		ToolKinds:   []fieldkit.ToolKind{{ID: "bearing-nut-socket"}},
		Consumables: []fieldkit.ConsumableKind{{ID: "wheel-bearing-grease"}},
		Stores:      []fieldkit.StoreKind{{ID: "farm-and-ranch"}, {ID: "bearing-belt"}},
		Traits: []fieldkit.Trait{
			{ID: "front-hubs", Ask: "what hubs", Options: []string{"locking", "fixed"}},
			{ID: "rear-axle", Ask: "which axle", Options: []string{"full-float", "semi-float"}},
		},
	}
	require.Empty(t, CheckAgainst(kitOf(t), cat))
	cases := []struct {
		name    string
		change  func(k *fieldkit.Kit)
		pointer string
		what    string
	}{
		{"kind of a position", func(k *fieldkit.Kit) { k.Positions.Ref(0).Kind = "wheel-ends" }, "/positions/0/kind", `did you mean "wheel-end"?`},
		{"kind of a part", func(k *fieldkit.Kit) { k.Parts.Ref(1).Kind = "bearing" }, "/parts/1/kind", `no part kind "bearing"`},
		{"kind of a tool", func(k *fieldkit.Kit) { k.Tools[0].Kind = "jack" }, "/tools/0/kind", `no tool kind "jack"`},
		{"kind of a consumable", func(k *fieldkit.Kit) { k.Consumables[0].Kind = "tar" }, "/consumables/0/kind", `no kind of consumable "tar"`},
		{"kind of a store", func(k *fieldkit.Kit) { k.Trips[0].Towns[0].Stores[0] = "bakery" }, "/trips/0/towns/0/stores/0", `no kind of store "bakery"`},
		{"trait", func(k *fieldkit.Kit) { k.Rigs[0].Traits = map[string]string{"roof": "tin"} }, "/rigs/0/traits/roof", `no trait "roof"`},
		{"option of a trait", func(k *fieldkit.Kit) { k.Rigs[0].Traits = map[string]string{"front-hubs": "square"} }, "/rigs/0/traits/front-hubs", "write locking or fixed"},
		{"reading that is no size", func(k *fieldkit.Kit) {
			k.Parts.At(0).Measurements[0].Value = fieldkit.Value{Dim: fieldkit.DimText, Text: "1 3/8/2"}
		}, "/parts/0/measurements/0/value", `"1 3/8/2" is not a size`},
		{"reading of another dimension", func(k *fieldkit.Kit) {
			k.Parts.At(0).Measurements[0].Value = fieldkit.Value{Dim: fieldkit.DimMass, Base: int64(fieldkit.Kilogram)}
		}, "/parts/0/measurements/0/value", `"kg" is not a unit of length`},
		{"reading without a unit", func(k *fieldkit.Kit) {
			k.Parts.At(0).Measurements[0].Value = fieldkit.Value{Dim: fieldkit.DimCount, Base: 34_900_000}
		}, "/parts/0/measurements/0/value", `"34.9" has no unit`},
		{"wear reading", func(k *fieldkit.Kit) {
			k.Inspections.Ref(0).Value = fieldkit.Value{Dim: fieldkit.DimCount, Base: 62_000_000}
		}, "/inspections/0/value", `"62" has no unit`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			k := kitOf(t)
			c.change(&k)
			problems := CheckAgainst(k, cat)
			require.Len(t, problems, 1)
			assert.Equal(t, c.pointer, problems[0].Pointer)
			assert.Contains(t, problems[0].What+"; "+problems[0].Do, c.what)
			assert.Empty(t, Check(k), "the kit still loads")
		})
	}
}

// enums lists every word that fieldkit declares for its types.
func TestEnumsAreWhole(t *testing.T) {
	declared := map[string][]string{} // by type name
	sources, err := filepath.Glob("../*.go")
	require.NoError(t, err)
	require.NotEmpty(t, sources)
	note := func(n ast.Node) bool {
		spec, ok := n.(*ast.ValueSpec)
		if !ok {
			return true
		}
		if typ, ok := spec.Type.(*ast.Ident); ok && len(spec.Values) == 1 {
			if lit, ok := spec.Values[0].(*ast.BasicLit); ok && lit.Kind == token.STRING {
				word, _ := strconv.Unquote(lit.Value)
				declared[typ.Name] = append(declared[typ.Name], word)
			}
		}
		return true
	}
	for _, source := range sources {
		file, err := goparser.ParseFile(token.NewFileSet(), source, nil, 0)
		require.NoError(t, err)
		ast.Inspect(file, note)
	}
	delete(declared, "ErrorKind") // never in a file
	assert.Len(t, enums, len(declared))
	for typ, e := range enums {
		words := declared[typ.Name()]
		require.NotEmpty(t, words, typ.Name())
		for _, w := range words {
			if w != "" {
				assert.Contains(t, e.words, w)
			}
		}
	}
}

// Every string field of a record that ends in an ID of another collection is
// followed: a change in the types must not leave a reference unchecked.
func TestReferencesAreWhole(t *testing.T) {
	k := kitOf(t)
	followed, leads := map[string]bool{}, map[string]map[string]bool{}
	for _, c := range fieldkit.Collections {
		leads[c.Name] = map[string]bool{}
		for i := range c.Len(k) {
			references(c.At(k, i), (*trail)(nil).field(c.Name), func(at *trail, to, _ string) {
				followed[digits.Replace(at.pointer())] = true
				leads[c.Name][to] = true
				if at.token == "item" { // where one type of item may stand, all may
					for _, to := range itemCollections {
						leads[c.Name][to] = true
					}
				}
			})
		}
	}
	assert.Equal(t, leads, leadsTo(), "which collections lead to which")
	ids := map[string]bool{}
	for _, c := range fieldkit.Collections {
		for _, r := range c.All(k) {
			ids[r.Key()] = true
		}
	}
	named := map[string]bool{}
	for _, c := range fieldkit.Collections {
		for _, r := range c.All(k) {
			idsIn(reflect.ValueOf(r), "/"+c.Name, ids, named)
		}
	}
	assert.Equal(t, named, followed)
}

var digits = strings.NewReplacer("/0", "", "/1", "")

// idsIn notes where texts stand that are the ID of some record.
func idsIn(v reflect.Value, at string, ids, named map[string]bool) {
	switch v.Kind() {
	case reflect.String:
		if ids[v.String()] && !strings.HasSuffix(at, "/id") {
			named[at] = true
		}
	case reflect.Slice:
		for i := range v.Len() {
			idsIn(v.Index(i), at, ids, named)
		}
	case reflect.Struct:
		if v.Type().Implements(reflect.TypeFor[encoding.TextMarshaler]()) {
			return
		}
		for _, f := range shapeOf(v.Type()).fields {
			idsIn(v.Field(f.index), at+"/"+f.name, ids, named)
		}
	}
}
