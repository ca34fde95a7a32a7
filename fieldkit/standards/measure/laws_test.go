package measure_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
	"trailfieldkit/fieldkit/standards/measure"
)

// nominal gives readings that are just what the table has for a part: those that a
// person can take.
func nominal(k measure.Kind, d standards.Designation) (given []measure.Given) {
	for _, a := range k.Attributes {
		v, ok := standards.DimNamed(d, a.Name)
		if !ok || v.Dim != a.Dim || a.Name == "circle" {
			continue
		}
		given = append(given, measure.Given{Name: a.Name, Text: v.String()})
	}
	return given
}

// A part that measures what its standard has is found, fits, and is among the
// likeliest; the likelihoods are between 0 and 1 and add up to less than 1; what is
// measured next is not what was measured.
func TestEveryListedPartIsFound(t *testing.T) {
	h := handbook(t)
	kinds := map[string][]standards.Kind{
		"bearing": {standards.KindBall, standards.KindRoller, standards.KindNeedle}, "tapered": {standards.KindTaperMetric, standards.KindTaperInch},
		"seal": {standards.KindSeal}, "o-ring": {standards.KindORing}, "thread": {standards.KindInchThread, standards.KindMetricThread, standards.KindPipeThread},
		"bolt": {standards.KindBolt}, "fitting": {standards.KindFitting}, "hose": {standards.KindHose}, "u-joint": {standards.KindUJoint},
		"spline": {standards.KindSpline}, "wheel": {standards.KindWheel}, "battery": {standards.KindBattery}, "fuse": {standards.KindFuse}, "wire": {standards.KindWire},
	}
	checked := 0
	for _, k := range measure.Kinds() {
		for _, kind := range kinds[k.Name] {
			all := h.Listed(kind)
			step := max(1, len(all)/25)
			for i := 0; i < len(all); i += step {
				d := all[i]
				r, err := k.Find(h, measure.Query{Given: nominal(k, d)})
				require.NoError(t, err, "%s %s", k.Name, d)
				checked++
				assert.True(t, r.Fits, "%s %s", k.Name, d)
				at := slices.IndexFunc(r.Candidates, func(c measure.Candidate) bool { return c.Designation.String() == d.String() })
				require.GreaterOrEqual(t, at, 0, "%s %s", k.Name, d)
				assert.True(t, r.Candidates[at].Fits, "%s %s", k.Name, d)
				assert.Less(t, at, 12, "%s %s is far down", k.Name, d)
				for _, f := range r.Candidates[at].Misfits {
					assert.True(t, f.Within, "%s %s %s", k.Name, d, f.Name)
				}
				checkResult(t, r)
			}
		}
	}
	assert.Greater(t, checked, 300)
}

func checkResult(t *testing.T, r measure.Result) {
	t.Helper()
	sum, before := 0.0, math.Inf(1)
	for i, c := range r.Candidates {
		if math.IsNaN(c.Likelihood) || c.Likelihood < 0 || len(c.Misfits) != len(r.Readings) {
			t.Fatalf("place %d: %v", i+1, c)
		}
		sum += c.Likelihood
		if r.Fits && c.Fits {
			if c.Likelihood > before {
				t.Fatalf("place %d is likelier than the one before", i+1)
			}
			before = c.Likelihood
		}
	}
	assert.Less(t, sum, 1.0)
	for _, x := range r.Readings {
		if r.Fits {
			assert.NotEqual(t, x.Name, r.Next.Measurement)
		}
	}
	assert.NotEmpty(t, r.Next.Why)
	assert.GreaterOrEqual(t, r.Next.Gain, 0.0)
}

// The order of the readings does not matter, nor the system they are written in.
func TestOrderAndSystemDoNotMatter(t *testing.T) {
	for _, lines := range [][]string{
		{"bearing bore=35 od=72 width=17", "bearing width=17 bore=35 od=72", "bearing od=7.2cm width=17mm bore=35mm"},
		{"bearing bore=25.4mm od=50.8mm", "bearing bore=1in od=2in", "bearing od=2in bore=1in"},
		{"o-ring id=25.4 cs=3.175", "o-ring cs=1/8 id=1in"},
		{"wheel studs=5 spacing=66.675", "wheel spacing=2-5/8 studs=5"},
	} {
		want := find(t, lines[0])
		for _, line := range lines[1:] {
			got := find(t, line)
			for i := range min(10, len(want.Candidates)) {
				assert.Equal(t, want.Candidates[i].Designation.String(), got.Candidates[i].Designation.String(), line)
				assert.InDelta(t, want.Candidates[i].Likelihood, got.Candidates[i].Likelihood, 1e-9, line)
			}
			assert.Equal(t, want.Next.Measurement, got.Next.Measurement)
		}
	}
}

// A worn part may be off on one side only: a bore larger, an outside smaller.
func TestWearIsOneSided(t *testing.T) {
	assert.True(t, find(t, "bearing bore=35.2 od=71.8 width=17 type=ball -worn").Fits)
	assert.False(t, find(t, "bearing bore=35.2 od=71.8 width=17 type=ball").Fits)
	assert.False(t, find(t, "bearing bore=34.8 od=72.2 width=17 type=ball -worn").Fits)
	// A reading as new is likelier for a worn part of that size than for one that
	// would have had to wear.
	r := find(t, "tapered bore=35 od=72 -worn")
	assert.Equal(t, fitting(r)[0], first(r))
	for _, c := range r.Candidates[:3] {
		for _, f := range c.Misfits {
			assert.Zero(t, f.Off.Base, "%s %s", c.Designation, f.Name)
		}
	}
}

// A coarser tool leaves more candidates, never fewer.
func TestToolsDecideWhatFits(t *testing.T) {
	for _, line := range []string{"thread nominal=7.9", "seal shaft=40 bore=62", "o-ring id=25 cs=3.5", "bearing bore=30 od=62"} {
		caliper, rule, tape := fitting(find(t, line+" -tool=caliper")), fitting(find(t, line+" -tool=steel-rule")), fitting(find(t, line+" -tool=tape"))
		assert.Subset(t, rule, caliper, line)
		assert.Subset(t, tape, rule, line)
		assert.Greater(t, len(tape), len(caliper), line)
	}
	// How far a reading may be off can be said with it.
	assert.Len(t, fitting(find(t, "seal shaft=40±1.2 bore=62 width=7")), len(fitting(find(t, "seal shaft=40+-1.2mm bore=62 width=7"))))
	assert.Greater(t, len(fitting(find(t, "seal shaft=40±1.2 bore=62"))), len(fitting(find(t, "seal shaft=40 bore=62"))))
	// One decimal of an inch is no more exact than half of it.
	assert.Contains(t, fitting(find(t, "tapered bore=1.6in od=2.9in width=.8in")), "LM501349/LM501310")
	// A thread gauge is exact, whatever the lengths were taken with.
	assert.Equal(t, []string{"1/2-20 UNF"}, fitting(find(t, "thread -tool=caliper nominal=12.6 tpi=20")))
}

// What was measured and what is to be measured next together leave less doubt: the
// next reading, taken as the likeliest candidate has it, leaves it likelier.
func TestNextReadingHelps(t *testing.T) {
	h := handbook(t)
	for _, line := range []string{"bearing bore=35", "thread nominal=7.9", "fitting thread_od=9/16", "battery length=260", "tapered bore=1-1/4", "wheel spacing=67.2", "fuse width=10.9", "bolt nominal=1/2"} {
		kind, query := parseLine(t, line)
		for range 4 {
			r, err := kind.Find(h, query)
			require.NoError(t, err)
			next := r.Next
			if next.Measurement == "" {
				break
			}
			a, ok := kind.AttributeNamed(next.Measurement)
			require.True(t, ok)
			v, ok := standards.DimNamed(r.Candidates[0].Designation, a.Name)
			if !ok {
				break
			}
			query.Given = append(query.Given, measure.Given{Name: a.Name, Text: v.String()})
			after, err := kind.Find(h, query)
			require.NoError(t, err)
			assert.Greater(t, after.Candidates[0].Likelihood, r.Candidates[0].Likelihood, "%s, then %s", line, a.Name)
			assert.Greater(t, next.Gain, 0.0)
		}
	}
}

func TestWrongReadings(t *testing.T) {
	h := handbook(t)
	kind, _ := measure.KindNamed("bearing")
	for text, want := range map[string]struct {
		given []measure.Given
		kind  fieldkit.ErrorKind
	}{
		"nothing is measured":                   {nil, fieldkit.BadInput},
		`"colour" is not measured on a bearing`: {[]measure.Given{{Name: "colour", Text: "red"}}, fieldkit.NotFound},
		"bore is given twice":                   {[]measure.Given{{Name: "bore", Text: "35"}, {Name: "id", Text: "35"}}, fieldkit.BadInput},
		`bore: "x" is not a size`:               {[]measure.Given{{Name: "bore", Text: "x"}}, fieldkit.BadInput},
		`bore: "-35" is not a measurement`:      {[]measure.Given{{Name: "bore", Text: "-35"}}, fieldkit.BadInput},
		`bore: "0" is not a measurement`:        {[]measure.Given{{Name: "bore", Text: "0"}}, fieldkit.BadInput},
		`bore: "5 kg" is not`:                   {[]measure.Given{{Name: "bore", Text: "35±5 kg"}}, fieldkit.BadInput},
		`bore: "kg" is not a unit`:              {[]measure.Given{{Name: "bore", Text: "35 kg"}}, fieldkit.BadInput},
		`type: "" says nothing`:                 {[]measure.Given{{Name: "type", Text: ""}}, fieldkit.BadInput},
	} {
		r, err := kind.Find(h, measure.Query{Given: want.given})
		assert.Zero(t, r)
		var fault *fieldkit.Error
		require.True(t, errors.As(err, &fault), text)
		assert.Equal(t, want.kind, fault.Kind)
		assert.Contains(t, err.Error(), text)
		assert.NotEmpty(t, fault.Do)
	}
}

func TestKindsAreComplete(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range measure.Kinds() {
		assert.NotEmpty(t, k.Title)
		assert.GreaterOrEqual(t, len(k.Attributes), 2, k.Name)
		for _, name := range append([]string{k.Name}, k.Aliases...) {
			found, ok := measure.KindNamed(name)
			require.True(t, ok)
			assert.Equal(t, k.Name, found.Name, "%s means two kinds", name)
		}
		for _, a := range k.Attributes {
			assert.NotEmpty(t, a.How, "%s %s", k.Name, a.Name)
			assert.NotEmpty(t, a.Tool.Name, "%s %s", k.Name, a.Name)
			for _, name := range append([]string{a.Name}, a.Aliases...) {
				found, ok := k.AttributeNamed(name)
				require.True(t, ok)
				assert.Equal(t, a.Name, found.Name, "%s: %s means two attributes", k.Name, name)
			}
		}
		seen[k.Name] = true
	}
	assert.Len(t, seen, 16)
	for _, tool := range measure.Tools {
		assert.NotEmpty(t, tool.Why)
		found, ok := measure.ToolNamed(tool.Name)
		require.True(t, ok)
		assert.Equal(t, tool.Name, found.Name)
	}
}
