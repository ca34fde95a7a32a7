package data

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

func TestCatalogLoads(t *testing.T) {
	cat, err := LoadCatalog(catalogFiles)
	require.NoError(t, err)
	assert.Equal(t, cat, Catalog())
	assert.GreaterOrEqual(t, len(cat.PartKinds), 45)
	assert.GreaterOrEqual(t, len(cat.ToolKinds), 50)
	assert.GreaterOrEqual(t, len(cat.Consumables), 20)
	assert.GreaterOrEqual(t, len(cat.Stores), 9)
	assert.GreaterOrEqual(t, len(cat.Traits), 10)
}

// A part that holds the rig on the road or stops it says what a wrong one does.
func TestDangerousKindsWarn(t *testing.T) {
	for _, id := range []string{
		"steering-pump", "steering-box", "steering-hose", "tie-rod-end", "drag-link-end", "ball-joint", "king-pin-kit",
		"unit-bearing", "wheel-bearing", "spindle-nut", "rear-axle-shaft", "drive-shaft", "brake-pads", "brake-rotor",
		"brake-caliper", "brake-hose", "brake-line", "brake-shoes", "wheel-cylinder", "master-cylinder", "wheel-stud", "lug-nut",
		"wheel", "tyre", "coil-spring", "coolant-hose", "fuel-pump", "fuel-hose", "battery", "battery-cable", "throttle-cable", "winch",
	} {
		kind, ok := Catalog().PartKind(id)
		require.True(t, ok, id)
		assert.NotEmpty(t, kind.Caution, id)
	}
}

// A wear limit is a starting guess, and falls or rises in the direction the
// reading does: what is left gets less, what is lost or loose gets more.
func TestWearDirection(t *testing.T) {
	for _, k := range Catalog().PartKinds {
		if k.Wear == nil {
			continue
		}
		left := strings.Contains(k.Wear.Name, "depth") || k.Wear.Name == "lining thickness" || k.Wear.Name == "brush length"
		assert.Equal(t, left, k.Wear.Falling, "%s: %s", k.ID, k.Wear.Name)
	}
}

// The factors told for measuring a stud circle follow from the circle: n holes
// equally spaced on diameter D are D·sin(π/n) apart, and the widest reach of five
// is D·sin(2π/5).
func TestStudCircleFactors(t *testing.T) {
	unit, _ := Catalog().PartKind("unit-bearing")
	how := map[string]string{}
	for _, a := range unit.Deciding {
		how[a.Name] = a.How
	}
	said := func(text, after string) float64 {
		m := regexp.MustCompile(after + `\D*?([0-9]\.[0-9]+)`).FindStringSubmatch(text)
		require.Len(t, m, 2, "%q in %q", after, text)
		f, err := strconv.ParseFloat(m[1], 64)
		require.NoError(t, err)
		return f
	}
	assert.InDelta(t, 1/math.Sin(math.Pi/3), said(how["bearing bolt circle"], "spacing x"), 0.001)
	assert.InDelta(t, 1/math.Sin(math.Pi/4), said(how["bearing bolt circle"], "for 3, x"), 0.001)
	assert.InDelta(t, 1/math.Sin(2*math.Pi/5), said(how["stud circle"], "times"), 0.005)
}

// Snap-in valve holes are 0.453 in and 0.625 in across (trade sizes of rim valve
// holes, from memory); the metric figures beside them must be the same sizes.
func TestValveHoleSizes(t *testing.T) {
	kind, _ := Catalog().PartKind("valve-stem")
	pairs := regexp.MustCompile(`([0-9.]+ mm) \(([0-9.]+ in)\)`).FindAllStringSubmatch(kind.Deciding[0].How, -1)
	require.Len(t, pairs, 2)
	for _, p := range pairs {
		mm, err := fieldkit.ParseLength(p[1], fieldkit.Metric)
		require.NoError(t, err)
		in, err := fieldkit.ParseLength(p[2], fieldkit.Inch)
		require.NoError(t, err)
		assert.InDelta(t, float64(mm), float64(in), float64(fieldkit.Millimetre)/20, p[0])
	}
}

func TestBrokenCatalogIsRefused(t *testing.T) {
	for name, c := range map[string]struct {
		file, old, new string
		pointer, what  string
	}{
		"id twice":               {"stores", `"id": "dealer"`, `"id": "parts-chain"`, "/stores/1/id", "twice"},
		"id in capitals":         {"stores", `"id": "dealer"`, `"id": "Dealer"`, "/stores/1/id", "not an id"},
		"id ends in a dash":      {"stores", `"id": "dealer"`, `"id": "dealer-"`, "/stores/1/id", "not an id"},
		"nothing to say":         {"stores", `"name": "vehicle dealer"`, `"name": " "`, "/stores/1/name", "nothing is written"},
		"looked up by luck":      {"stores", `"by": ["number", "donor"]`, `"by": ["luck", "donor"]`, "/stores/1/by/0", "no store looks up"},
		"one option":             {"traits", `"options": ["locking hub", "drive flange", "unit bearing"]`, `"options": ["locking hub"]`, "/traits/0/options", "without a choice"},
		"option twice":           {"traits", `"drive flange", "unit bearing"`, `"drive flange", "drive flange"`, "/traits/0/options/2", "twice"},
		"unknown alternative":    {"tool_kinds", `"alternatives": ["pipe-wrench"]`, `"alternatives": ["pipe-wrenches"]`, "/toolKinds/1/alternatives/0", "no tool"},
		"its own alternative":    {"tool_kinds", `"alternatives": ["pipe-wrench"]`, `"alternatives": ["socket-set-large"]`, "/toolKinds/1/alternatives/0", "own alternative"},
		"weightless tool":        {"tool_kinds", `"mass": "4.5 kg"`, `"mass": "0 kg"`, "/toolKinds/0/mass", "no mass"},
		"house-sized":            {"tool_kinds", `"volume": "5 L"`, `"volume": "5000 L"`, "/toolKinds/0/volume", "no volume"},
		"unknown store":          {"consumables", `"stores": ["parts-chain", "farm-ranch", "hardware", "truck-stop"]`, `"stores": ["chandler"]`, "/consumables/0/stores/0", "no store"},
		"field not known":        {"consumables", `"grade": "medium strength"`, `"strength": "medium"`, "/consumables/11/strength", "not a field"},
		"no source":              {"part_kinds", `  "source": `, `  "sources": `, "/source", "missing"},
		"sold by nobody known":   {"part_kinds", `"stores": ["parts-chain", "wrecking-yard", "dealer"]`, `"stores": ["chandler"]`, "/partKinds/0/stores/0", "no store"},
		"reading without unit":   {"part_kinds", `"limit": "1 mm"`, `"limit": "1 furlong"`, "/partKinds/5/wear/limit", "not a limit"},
		"a week at the roadside": {"part_kinds", `"hoursIfCarried": "3 h"`, `"hoursIfCarried": "7 days"`, "/partKinds/0/hoursIfCarried", "out of range"},
		"measure without a how":  {"part_kinds", `"how": "count the ribs on the belt"`, `"how": ""`, "/partKinds/0/deciding/2/how", "nothing is written"},
		"measure twice":          {"part_kinds", `"name": "belt ribs", "dimension": "count", "how": "count the ribs`, `"name": "reservoir", "dimension": "count", "how": "count the ribs`, "/partKinds/0/deciding/6/name", "twice"},
		"repair not an id":       {"part_kinds", `"repairs": ["steering-pump"]`, `"repairs": ["steering pump"]`, "/partKinds/0/repairs/0", "not an id"},
		"dimension not known":    {"part_kinds", `"dimension": "count"`, `"dimension": "number"`, "/partKinds/0/deciding/2/dimension", "not a dimension"},
	} {
		t.Run(name, func(t *testing.T) {
			files := catalogWith(t, c.file, c.old, c.new)
			cat, err := LoadCatalog(files)
			assert.Zero(t, cat)
			var found *kitfile.Problems
			require.ErrorAs(t, err, &found)
			var lines []string
			for _, p := range found.List {
				lines = append(lines, fmt.Sprintf("%s: %s", p.Pointer, p.What))
				assert.Positive(t, p.Line, "%s: %s", p.Pointer, p.What)
			}
			assert.Condition(t, func() bool {
				for _, p := range found.List {
					if p.Pointer == c.pointer && strings.Contains(p.What, c.what) {
						return true
					}
				}
				return false
			}, "want %s: %s; got\n%s", c.pointer, c.what, strings.Join(lines, "\n"))
		})
	}
}

func TestMissingCatalogFileIsSaid(t *testing.T) {
	files := catalogWith(t, "traits", "", "")
	delete(files, "catalog/traits.json")
	cat, err := LoadCatalog(files)
	assert.Zero(t, cat)
	var told *fieldkit.Error
	require.True(t, errors.As(err, &told))
	assert.Equal(t, fieldkit.NotFound, told.Kind)
	assert.Equal(t, "catalog/traits.json", told.Where)
}

// catalogWith gives the embedded files with the first place of old in one of them
// replaced.
func catalogWith(t *testing.T, file, old, new string) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	names, err := fs.Glob(catalogFiles, "catalog/*")
	require.NoError(t, err)
	for _, name := range names {
		raw, err := fs.ReadFile(catalogFiles, name)
		require.NoError(t, err)
		if name == "catalog/"+file+".json" && old != "" {
			require.Contains(t, string(raw), old)
			raw = []byte(strings.Replace(string(raw), old, new, 1))
		}
		files[name] = &fstest.MapFile{Data: raw}
	}
	return files
}
