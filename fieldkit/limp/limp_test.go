package limp_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/limp"
	"trailfieldkit/fieldkit/repair"
)

// Three rigs that are built differently.
var (
	heavy = map[string]string{"drive": "part-time 4x4", "front-hub": "locking hub", "rear-axle": "full-float", "differential-lock": "selectable", "parking-brake": "shoes in the rear rotor"}
	light = map[string]string{"drive": "full-time 4x4", "front-hub": "unit bearing", "rear-axle": "semi-float", "differential-lock": "none", "parking-brake": "drive shaft"}
	plain = map[string]string{"drive": "rear drive", "rear-axle": "full-float", "differential-lock": "none", "parking-brake": "rear drums"}
)

// What the trade knows of each fault (common practice).
func TestAssess(t *testing.T) {
	for _, c := range []struct {
		name    string
		traits  map[string]string
		broken  []limp.Fault
		verdict repair.Verdict
		axles   string
		says    []string
	}{
		{"nothing broken", heavy, nil, repair.May, "both", nil},
		{"full-float rolls without its shaft, front pulls", heavy, []limp.Fault{limp.RearAxleShaft}, repair.MayWithin, "front only", []string{"full-float axle carries the wheel", "hubs locked"}},
		{"semi-float does not", light, []limp.Fault{limp.RearAxleShaft}, repair.MayNot, "front only", []string{"wheel can leave the rig"}},
		{"unlocked hubs", heavy, []limp.Fault{limp.FrontAxleShaft}, repair.MayWithin, "rear only", []string{"Unlock both front hubs"}},
		{"the stub holds a unit bearing together", light, []limp.Fault{limp.FrontAxleShaft}, repair.MayWithin, "rear only", []string{"leave it in and tight", "Lock the centre differential"}},
		{"rear drive shaft out", heavy, []limp.Fault{limp.RearShaft}, repair.MayWithin, "front only", []string{"plug the hole"}},
		{"with the parking brake on it", light, []limp.Fault{limp.RearShaft}, repair.MayWithin, "front only", []string{"holds nothing now"}},
		{"front drive shaft out", heavy, []limp.Fault{limp.FrontShaft}, repair.MayWithin, "rear only", []string{"flail"}},
		{"both drive shafts", heavy, []limp.Fault{limp.RearShaft, limp.FrontShaft}, repair.MayNot, "none", []string{"no axle is left", "towed or winched"}},
		{"rear drive and no shaft", plain, []limp.Fault{limp.RearShaft}, repair.MayNot, "none", nil},
		{"steering loose", heavy, []limp.Fault{limp.SteeringLoose}, repair.MayNot, "both", []string{"nobody steering"}},
		{"fuel", heavy, []limp.Fault{limp.FuelSmell}, repair.MayNot, "both", []string{"upwind"}},
		{"both circuits", heavy, []limp.Fault{limp.FrontCircuit, limp.RearCircuit}, repair.MayNot, "both", []string{"No brakes are left"}},
		{"front circuit", heavy, []limp.Fault{limp.FrontCircuit}, repair.MayWithin, "both", []string{"Only the rear brakes are left", "starting guess", "swing the tail"}},
		{"sinking pedal", heavy, []limp.Fault{limp.BrakeFluidLow}, repair.MayNot, "both", []string{"must not sink"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := limp.Assess(limp.Facts{Traits: c.traits}, limp.Damage{Broken: c.broken})
			assert.Equal(t, c.verdict, a.Verdict)
			assert.Equal(t, c.axles, a.Axles)
			said := all(a)
			for _, text := range c.says {
				assert.Contains(t, said, text)
			}
			if c.verdict == repair.MayNot {
				assert.Zero(t, a.PerHour+a.Within)
				assert.Contains(t, said, "ask for help")
			}
			assert.Equal(t, c.verdict == repair.May, a.Why == "")
		})
	}
}

func all(a limp.Answer) string {
	text := a.Why
	for _, l := range a.Lines {
		text += "\n" + l.Text
	}
	return text + "\n" + strings.Join(a.Watch, "\n")
}

// What is not known of a rig counts as its worst, and is asked for.
func TestUnknownIsTheWorseCase(t *testing.T) {
	a := limp.Assess(limp.Facts{}, limp.Damage{Broken: []limp.Fault{limp.RearAxleShaft}})
	assert.Equal(t, repair.MayNot, a.Verdict)
	assert.Contains(t, a.Ask, "rear-axle")
	assert.Contains(t, a.Ask, "drive")
}

// More faults never make a rig safer, and their order does not matter.
func TestFaultsOnlyTighten(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	severity := []repair.Verdict{repair.May, repair.MayWithin, repair.MayNot}
	looser := func(a, b fieldkit.Distance) bool { return b == 0 && a != 0 || a != 0 && b > a }
	for range 3000 {
		f := limp.Facts{Traits: []map[string]string{heavy, light, plain, nil}[r.IntN(4)]}
		if r.IntN(2) == 0 {
			f.Tyre, f.Spare, f.Track = 940*fieldkit.Millimetre, fieldkit.Length(800+r.IntN(200))*fieldkit.Millimetre, 1700*fieldkit.Millimetre
		}
		broken := slices.Clone(limp.Faults())
		r.Shuffle(len(broken), func(i, j int) { broken[i], broken[j] = broken[j], broken[i] })
		broken = broken[:r.IntN(5)]
		fewer := limp.Assess(f, limp.Damage{Broken: broken})
		more := limp.Assess(f, limp.Damage{Broken: append(slices.Clone(broken), limp.Faults()[r.IntN(len(limp.Faults()))])})
		require.GreaterOrEqual(t, slices.Index(severity, more.Verdict), slices.Index(severity, fewer.Verdict), "%v", broken)
		if more.Verdict == repair.MayWithin {
			require.False(t, looser(fewer.PerHour, more.PerHour), "%v", broken)
			require.False(t, looser(fewer.Within, more.Within), "%v", broken)
		}
		slices.Reverse(broken)
		require.Equal(t, fewer, limp.Assess(f, limp.Damage{Broken: broken}))
	}
}

// The formula against the balance of moments, solved step by step: the load that
// shifts is deceleration × height over wheelbase (Newton's second law).
func TestOneAxleAgreesWithTheBalanceOfMoments(t *testing.T) {
	for _, axle := range []limp.Axle{limp.FrontAxle, limp.RearAxle} {
		for share := 0.3; share <= 0.7; share += 0.1 {
			for _, ratio := range []float64{0.2, 0.28, 0.35} {
				const friction = 0.6
				g := 0.0
				for range 200 {
					load := share - g*ratio
					if axle == limp.FrontAxle {
						load = share + g*ratio
					}
					g = friction * min(load, 1)
				}
				got := limp.OneAxle(axle, share, ratio, friction)
				assert.InDelta(t, g, got.G, 1e-9, "%s %g %g", axle, share, ratio)
				assert.LessOrEqual(t, got.Share, 1.0)
			}
		}
	}
	// v²/2a: 36 km/h at half of gravity is 100/(2·4.903) = 10.2 m.
	assert.InDelta(t, 10.197, float64(limp.Stopping{G: 0.5}.StopWithin(36*fieldkit.Kilometre))/1000, 0.001)
}

// A 33 in spare beside 37 in tyres on a track of 1.70 m: 37/33 − 1 = 12.1 %, a circle of
// 1.70/0.1212 = 14.0 m, and 2 in lower.
func TestCompare(t *testing.T) {
	u, ok := limp.Compare(37*fieldkit.Inches, 33*fieldkit.Inches, 1700*fieldkit.Millimetre)
	require.True(t, ok)
	assert.InDelta(t, 100*4/33.0, u.Percent, 1e-9)
	assert.InDelta(t, 1700*33/4.0, float64(u.Radius)/float64(fieldkit.Millimetre), 0.001)
	assert.Equal(t, -2*fieldkit.Inches, u.Clearance)
	same, ok := limp.Compare(37*fieldkit.Inches, 37*fieldkit.Inches, 1)
	assert.True(t, ok)
	assert.Zero(t, same)
	_, ok = limp.Compare(0, 1, 1)
	assert.False(t, ok)
}

// 40 L left at 20 L on 100 km: nine tenths are 36 L, 180 km; a half more drunk is
// 120 km, a fifth less 225 km.
func TestRange(t *testing.T) {
	f := limp.Facts{FuelLeft: 40 * fieldkit.Litre, Burnt: 20 * fieldkit.Litre, Driven: 100 * fieldkit.Kilometre}
	low, high, ok := f.Range()
	require.True(t, ok)
	assert.InDelta(t, 120, float64(low)/float64(fieldkit.Kilometre), 1e-3)
	assert.InDelta(t, 225, float64(high)/float64(fieldkit.Kilometre), 1e-3)
	assert.Contains(t, all(limp.Assess(f, limp.Damage{})), "The fuel goes for 120 km")
	_, _, ok = limp.Facts{}.Range()
	assert.False(t, ok)
}

func TestSpareIsOverloaded(t *testing.T) {
	f := limp.Facts{Traits: heavy, Tyre: 940 * fieldkit.Millimetre, Spare: 838 * fieldkit.Millimetre, SpareAxle: limp.RearAxle,
		Weight: 3000 * fieldkit.Kilogram, FrontShare: 40, SpareLoad: 850 * fieldkit.Kilogram}
	a := limp.Assess(f, limp.Damage{Broken: []limp.Fault{limp.SpareFitted}})
	// 60 % of 3000 kg on two wheels: 900 kg on each.
	assert.Contains(t, all(a), "about 900 kg")
	assert.Contains(t, all(a), "Take weight off that corner")
	assert.Equal(t, 30*fieldkit.Kilometre, a.PerHour)
}

// Every fault has something to say, within what a glance takes in, and nothing said
// holds a figure that is not one.
func TestEveryFaultIsJudged(t *testing.T) {
	for _, fault := range limp.Faults() {
		for _, traits := range []map[string]string{heavy, light, plain} {
			a := limp.Assess(limp.Facts{Traits: traits}, limp.Damage{Broken: []limp.Fault{fault}})
			assert.NotEqual(t, repair.May, a.Verdict, "%s", fault)
			for _, l := range a.Lines {
				assert.Less(t, len(l.Text), 280, l.Text)
				assert.NotContains(t, l.Text, "NaN")
			}
		}
	}
	assert.False(t, math.IsNaN(limp.OneAxle(limp.FrontAxle, 0, 0, 0).G))
}
