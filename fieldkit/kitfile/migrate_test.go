package kitfile

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

func old09(t *testing.T) string {
	t.Helper()
	file, err := os.ReadFile("testdata/v0_9.json")
	require.NoError(t, err)
	return string(file)
}

// A file of version 0.9 loads as a kit of the present version; what it becomes
// is kept in a golden file.
func TestVersion09(t *testing.T) {
	kit, err := Load("old.json", []byte(old09(t)))
	require.NoError(t, err)
	assert.Equal(t, current.String(), kit.Version)
	left, _ := kit.Position("left-end")
	assert.Equal(t, fieldkit.Left, left.Side)
	assert.Equal(t, "front-axle", left.System)
	rig, _ := kit.Rig("tinker")
	assert.Equal(t, 212_480*fieldkit.Kilometre, rig.Odometer)
	bearing, _ := kit.Part("bearing")
	assert.Equal(t, 300*fieldkit.Gram, bearing.Mass)
	other, _ := kit.Spares.Find("spare-2")
	assert.Equal(t, "other maker; weighed 310 g", other.Note)
	golden(t, "v0_9.golden.json", Save(kit))

	again, err := Load("new.json", Save(kit))
	require.NoError(t, err)
	assert.Equal(t, kit, again)
}

// What is kept in a journal is read by the same steps as a file, and what a newer
// program kept is refused and not misread.
func TestKeptKitsOfOtherVersions(t *testing.T) {
	loaded, err := Load("old.json", []byte(old09(t)))
	require.NoError(t, err)
	kept, err := DecodeKit([]byte(old09(t)))
	require.NoError(t, err)
	assert.Equal(t, loaded, kept)

	newer := strings.Replace(string(Save(loaded)), `"version": "1.`, `"version": "2.`, 1)
	_, err = DecodeKit([]byte(newer))
	var problems *Problems
	require.ErrorAs(t, err, &problems)
	assert.Contains(t, problems.Error(), "written by a newer program")

	_, err = DecodeKit(Save(fieldkit.Kit{})) // damaged: no version at all
	require.NoError(t, err)
}

// A file of an earlier minor version loads as a kit of the present version, which has
// all its fields, and is saved as one.
func TestEarlierMinorVersion(t *testing.T) {
	kit, err := Load("old.json", []byte(`{"format": "trail-field-kit", "version": "1.0", "id": "k", "name": "k", "currency": "USD"}`))
	require.NoError(t, err)
	assert.Equal(t, current.String(), kit.Version)
	kit.Version = "1.0" // as an older journal has it
	again, err := Load("new.json", Save(kit))
	require.NoError(t, err)
	assert.Equal(t, current.String(), again.Version)
}

// Problems of an old file point into that file, by the names it uses.
func TestProblemsOfVersion09(t *testing.T) {
	cases := []struct {
		name, old, new, pointer, what string
	}{
		{"renamed collection", `"rig": "tinker", "name": "Front`, `"rig": "x", "name": "Front`, "/assemblies/0/rig", `no rig "x"`},
		{"renamed field", `"left-end", "assembly": "front-axle"`, `"left-end", "assembly": "x"`, "/positions/0/assembly", `no system "x"`},
		{"unknown letter of a side", `"side": "L"`, `"side": "M"`, "/positions/0/side", `"M" is not a side`},
		{"side of the wrong kind", `"side": "L"`, `"side": 1`, "/positions/0/side", "1 is a number"},
		{"weight below nothing", `"weightGrams": 300`, `"weightGrams": -300`, "/spares/0/weightGrams", `"weightGrams" is not a field here`},
		{"weight with decimals", `"weightGrams": 300`, `"weightGrams": 300.5`, "/spares/0/weightGrams", `"weightGrams" is not a field here`},
		{"odometer as text", `"odometerKm": 212480`, `"odometerKm": "far"`, "/rigs/0/odometerKm", `"odometerKm" is not a field here`},
		{"spare of no part", `"spare-1", "part": "bearing"`, `"spare-1", "part": "bearings"`, "/spares/0/part", `no part "bearings"`},
		{"spare that names no part", `"spare-1", "part": "bearing"`, `"spare-1"`, "/spares/0/part", `"part" is missing`},
		{"assemblies not a list", `"assemblies": [`, `"assemblies": 7, "old": [`, "/assemblies", "7 is a number"},
		{"field of version 1.0", `"odometerKm": 0`, `"odometerKm": 0, "odometer": "0 km"`, "/rigs/1/odometerKm", `"odometerKm" is not a field here`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			require.Contains(t, old09(t), c.old)
			file := strings.Replace(old09(t), c.old, c.new, 1)
			kit, err := Load("old.json", []byte(file))
			var found *Problems
			require.ErrorAs(t, err, &found)
			assert.Zero(t, kit)
			one, ok := problemAt(found, c.pointer, c.what)
			require.True(t, ok, "%v", err)
			assertPlaced(t, one, file)
			assert.Contains(t, strings.Split(file, "\n")[one.Line-1], strings.Split(c.new, ",")[0])
		})
	}
}

// The chain leads from every old version to the present one, each step one on.
func TestChainOfSteps(t *testing.T) {
	for i, s := range steps {
		assert.True(t, s.from.major < s.to.major || s.from.major == s.to.major && s.from.minor < s.to.minor)
		if i > 0 {
			assert.Equal(t, steps[i-1].to, s.from, "a gap in the chain")
		}
	}
	assert.Equal(t, current.major, steps[len(steps)-1].to.major)
}
