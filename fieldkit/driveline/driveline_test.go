package driveline

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

func value(t testing.TB, s string) fieldkit.Value {
	v, err := fieldkit.ParseValue(s)
	require.NoError(t, err)
	return v
}

const lbft = 1.3558179483314004 // N·m in one pound-foot, NIST SP 811

// splines.csv: geometry of the 24/48 pitch by SAE/ANSI B92.1, with the torque in lb-ft
// for each ksi of shear in a solid bar of that diameter.
func TestShaftsOfTheSplineTable(t *testing.T) {
	file, err := os.Open("testdata/splines.csv")
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 13)
	for _, row := range rows[1:] {
		n, _ := strconv.Atoi(row[0])
		inch, _ := strconv.ParseFloat(row[3], 64)
		perKsi, _ := strconv.ParseFloat(row[7], 64)
		assert.InDelta(t, inch, float64(SplineDiameter(n))/float64(fieldkit.Inches), 5e-4, "%d splines", n)
		ksi := fieldkit.Pressure(math.Round(6894.757293168 * float64(fieldkit.Kilopascal))) // NIST SP 811
		got := float64(ShaftTorque(SplineDiameter(n), ksi)) / float64(fieldkit.NewtonMetre) / lbft
		assert.InDelta(t, perKsi, got, 0.05, "%d splines", n)
	}
	// Read at board.moparts.org: 27 to 31 splines gain 51 %.
	ratio := float64(ShaftTorque(SplineDiameter(31), fieldkit.Kilopascal)) / float64(ShaftTorque(SplineDiameter(27), fieldkit.Kilopascal))
	assert.InDelta(t, math.Pow(32.0/28, 3), ratio, 1e-3)
	assert.Zero(t, ShaftTorque(0, fieldkit.Kilopascal))
	assert.Zero(t, ShaftTorque(fieldkit.Inches, 0))
	assert.Zero(t, SplineDiameter(0))
}

// A textbook bar: 50 mm at 60 MPa carries 60e6·π·0.05³/16 = 1472.6 N·m.
func TestShaftTorque(t *testing.T) {
	assert.InDelta(t, 1472.62, float64(ShaftTorque(50*fieldkit.Millimetre, 60_000*fieldkit.Kilopascal))/float64(fieldkit.NewtonMetre), 0.01)
	assert.InDelta(t, 577.350, float64(ShearYield(1_000_000*fieldkit.Kilopascal))/1000/float64(fieldkit.Kilopascal), 1e-3) // 1000 MPa/√3
}

// rig: 400 N·m, first gear 4, low range 2.5, axles 4: 4000 N·m into a drive shaft,
// 16 000 at an axle. Front: 1000 kg at friction 1 on tyres of 800 mm: 3922.66 N·m.
func testRig(t testing.TB) (fieldkit.Kit, fieldkit.Rig) {
	rig := fieldkit.Rig{ID: "r", Driveline: &fieldkit.Driveline{
		Engine: value(t, "400 N·m"), First: value(t, "4"), Low: value(t, "2.5"), Friction: value(t, "1"), Tyre: value(t, "800 mm"), Yield: value(t, "900 MPa"),
		Front: fieldkit.Axle{Ratio: value(t, "4"), Load: 1000 * fieldkit.Kilogram},
		Rear:  fieldkit.Axle{Ratio: value(t, "4"), Load: 1200 * fieldkit.Kilogram, Locked: true},
	}}
	part := func(id, kind string, name, v string) fieldkit.Part {
		p := fieldkit.Part{ID: id, Kind: kind, Name: id}
		if name != "" {
			p.Measurements = []fieldkit.Measurement{{Name: name, Value: value(t, v)}}
		}
		return p
	}
	kit := fieldkit.Kit{
		Rigs:    []fieldkit.Rig{rig},
		Systems: []fieldkit.Assembly{{ID: "f", Rig: "r", Name: "Front axle"}, {ID: "b", Rig: "r", Name: "Rear axle"}, {ID: "d", Rig: "r", Name: "Driveline"}},
		Parts: fieldkit.ListOf([]fieldkit.Part{
			part("inner", "front-axle-shaft", "differential splines", "30"), part("stub", "stub-shaft", "hub splines", "27"),
			part("rear", "rear-axle-shaft", "differential splines", "35"), part("cross", "axle-u-joint", "torque rating", "3000 N·m"),
			part("cross-1310", "drive-shaft-u-joint", "", ""), part("tube", "drive-shaft", "", ""),
		}),
		Positions: fieldkit.ListOf([]fieldkit.Position{
			{ID: "inner-l", System: "f", Name: "inner shaft", Kind: "front-axle-shaft", Part: "inner"},
			{ID: "stub-l", System: "f", Name: "stub shaft", Kind: "stub-shaft", Part: "stub"},
			{ID: "stub-r", System: "f", Name: "stub shaft", Kind: "stub-shaft", Part: "stub"},
			{ID: "joint-l", System: "f", Name: "joint", Kind: "axle-u-joint", Part: "cross"},
			{ID: "rear-l", System: "b", Name: "axle shaft", Kind: "rear-axle-shaft", Part: "rear"},
			{ID: "front-u", System: "d", Name: "U-joint, front drive shaft", Kind: "drive-shaft-u-joint", Part: "cross-1310"},
			{ID: "rear-u", System: "d", Name: "U-joint, rear drive shaft, front end", Kind: "drive-shaft-u-joint"},
			{ID: "bulb", System: "d", Kind: "bulb"},
		}),
	}
	return kit, rig
}

func TestCheck(t *testing.T) {
	kit, rig := testRig(t)
	r := Check(kit, rig)
	require.NotNil(t, r.Weakest)
	nm := func(q fieldkit.Torque) float64 { return float64(q) / float64(fieldkit.NewtonMetre) }

	// Open differential in front: half of the axle's grip, 1961.33 N·m. 27 splines are
	// 28/24 in: 900 MPa/√3 · π · 0.0296333³/16 = 2655.0 N·m.
	stub, ok := r.At("stub-l")
	require.True(t, ok)
	assert.InDelta(t, 1961.33, nm(stub.Torque), 1e-2)
	assert.Equal(t, ByGrip, stub.Limit)
	assert.InDelta(t, 2655.0, nm(stub.Strength), 0.5)
	assert.InDelta(t, 2655.0/1961.33, stub.Margin, 1e-3)

	// Locked behind: all of the grip of 1200 kg, 4707.19 N·m, on one shaft of 1.5 in.
	rear, ok := r.At("rear-l")
	require.True(t, ok)
	assert.InDelta(t, 4707.19, nm(rear.Torque), 1e-2)
	assert.InDelta(t, 5642.2, nm(rear.Strength), 1)

	joint, ok := r.At("joint-l")
	require.True(t, ok)
	assert.Equal(t, "rating written down", joint.How)
	assert.InDelta(t, 3000/1961.33, joint.Margin, 1e-4)

	assert.Equal(t, "rear-l", r.Weakest.Position)
	assert.Equal(t, "stub-l", r.Next.Position, "both rear shafts would be upgraded, then the stub shaft is next")
	assert.Greater(t, r.Weakest.Factor, r.Next.Factor)
	var open []string
	for _, l := range r.Open {
		open = append(open, l.Position)
		assert.NotEmpty(t, l.Missing)
		assert.Zero(t, l.Margin)
	}
	assert.Equal(t, []string{"front-u", "rear-u"}, open)
	assert.Contains(t, r.Open[0].Missing[0], "torque rating", "no rating found: left open, not guessed")
	// Front drive shaft: grip 3922.66/4 is less than the engine's 4000.
	assert.InDelta(t, 980.665, nm(r.Open[0].Torque), 1e-3)
}

func TestEngineBoundsWhereTyresHold(t *testing.T) {
	kit, rig := testRig(t)
	rig.Driveline.Engine = value(t, "50 N·m")
	stub, ok := Check(kit, rig).At("stub-l")
	require.True(t, ok)
	assert.Equal(t, ByEngine, stub.Limit)
	assert.InDelta(t, 50*4*2.5*4/2, float64(stub.Torque)/float64(fieldkit.NewtonMetre), 1e-6)
	rig.Driveline.Stall = value(t, "1.5")
	stub, _ = Check(kit, rig).At("stub-l")
	assert.InDelta(t, 50*4*2.5*4/2*1.5, float64(stub.Torque)/float64(fieldkit.NewtonMetre), 1e-6)
}

// Without a tyre there is only what engine and gears could do, were the tyres to hold: the
// margin is the least it may be, and no life is reckoned from it.
func TestUnknownTyre(t *testing.T) {
	kit, rig := testRig(t)
	known, _ := Check(kit, rig).At("stub-l")
	assert.False(t, known.AtLeast())
	rig.Tyre, rig.Driveline.Tyre = "tall ones", fieldkit.Value{}
	stub, ok := Check(kit, rig).At("stub-l")
	require.True(t, ok)
	assert.Equal(t, ByEngine, stub.Limit)
	assert.True(t, stub.AtLeast())
	assert.Equal(t, []string{"tyre diameter"}, stub.Missing)
	assert.Less(t, stub.Margin, known.Margin)
	assert.Zero(t, stub.Factor)

	kit, rig = testRig(t)
	rig.Driveline.Engine = fieldkit.Value{}
	stub, _ = Check(kit, rig).At("stub-l")
	assert.True(t, stub.AtLeast())
	assert.Equal(t, known.Factor, stub.Factor, "more than the tyres hold reaches nothing")
}

func TestWhatIsMissingIsNamed(t *testing.T) {
	for name, c := range map[string]struct {
		edit func(*fieldkit.Kit, *fieldkit.Rig)
		says string
	}{
		"nothing known": {func(_ *fieldkit.Kit, r *fieldkit.Rig) { r.Driveline = nil }, "axle ratio"},
		"neither bound": {func(_ *fieldkit.Kit, r *fieldkit.Rig) {
			r.Driveline.Engine = fieldkit.Value{}
			r.Driveline.Friction = fieldkit.Value{}
		}, "engine torque"},
		"no steel":          {func(_ *fieldkit.Kit, r *fieldkit.Rig) { r.Driveline.Yield = fieldkit.Value{} }, "yield strength"},
		"shaft not counted": {func(k *fieldkit.Kit, _ *fieldkit.Rig) { k.Parts.Ref(1).Measurements = nil }, "splines counted"},
		"part not known":    {func(k *fieldkit.Kit, _ *fieldkit.Rig) { k.Positions.Ref(1).Part = "" }, "what is fitted"},
	} {
		t.Run(name, func(t *testing.T) {
			kit, rig := testRig(t)
			c.edit(&kit, &rig)
			found := false
			for _, l := range Check(kit, rig).Open {
				if l.Position == "stub-l" {
					found = true
					assert.Contains(t, l.Missing[0]+" "+l.Missing[len(l.Missing)-1], c.says)
				}
			}
			assert.True(t, found)
		})
	}
	kit, rig := testRig(t)
	rig.Driveline.Friction = fieldkit.Value{}
	_, ok := Check(kit, rig).At("stub-l")
	assert.True(t, ok, "one bound alone is enough")
}

// A part's own steel and its thinnest measure stand.
func TestThinnestMeasure(t *testing.T) {
	kit, rig := testRig(t)
	kit.Parts.Ref(1).Measurements = append(kit.Parts.At(1).Measurements,
		fieldkit.Measurement{Name: "shaft diameter", Value: value(t, "25 mm")}, fieldkit.Measurement{Name: "yield strength", Value: value(t, "1200 MPa")})
	l, ok := Check(kit, rig).At("stub-l")
	require.True(t, ok)
	assert.InDelta(t, 1200e6/math.Sqrt(3)*math.Pi*0.025*0.025*0.025/16, float64(l.Strength)/float64(fieldkit.NewtonMetre), 0.01)
}

// Tyre sizes by their own rule: 37 in as written; 16 in + 2·0.75·265 mm.
func TestTyreDiameter(t *testing.T) {
	for size, mm := range map[string]float64{
		"37x12.50R17LT": 939.8, "37×12.50R17LT": 939.8, "LT265/75R16": 406.4 + 397.5, "315/70R17": 431.8 + 441, "7.50R16": 0, "": 0, "big": 0, "a/b": 0,
	} {
		assert.InDelta(t, mm, float64(tyreDiameter(fieldkit.Rig{Tyre: size}, fieldkit.Driveline{}))/float64(fieldkit.Millimetre), 1e-6, size)
	}
}
