package standards_test

import (
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// Laws that hold for every designation, whatever its kind.
func checkDesignation(t *testing.T, h *standards.Handbook, d standards.Designation) {
	t.Helper()
	name := d.String()
	back, err := h.ParseAs(d.Kind(), name)
	if assert.NoError(t, err, "%s %q", d.Kind(), name) {
		assert.Equal(t, d, back, "%s %q reads back as something else", d.Kind(), name)
	}
	readings, err := h.Parse(name)
	if assert.NoError(t, err, name) {
		among := false
		for _, r := range readings {
			among = among || r.Designation.Kind() == d.Kind() && r.Designation.String() == name
		}
		assert.True(t, among, "%q is not read as %s", name, d.Kind())
	}
	assert.NotEmpty(t, d.Source(), name)
	assert.NotEmpty(t, d.Explain(), name)
	for _, p := range d.Explain() {
		assert.NotEmpty(t, p.Text, name)
		assert.NotEmpty(t, p.Says, "%s: %s", name, p.Text)
	}
	seen := map[string]bool{}
	for _, dim := range d.Dims() {
		assert.False(t, seen[dim.Name], "%s has two of %s", name, dim.Name)
		seen[dim.Name] = true
		assert.NotEmpty(t, standards.Label(dim.Name))
		if dim.Value.Dim == fieldkit.DimText {
			assert.NotEmpty(t, dim.Value.Text, "%s %s", name, dim.Name)
		} else {
			assert.Positive(t, dim.Value.Base, "%s %s", name, dim.Name)
		}
	}
}

func TestListedDesignationsKeepTheLaws(t *testing.T) {
	h := handbook(t)
	for _, kind := range h.Kinds() {
		t.Run(string(kind), func(t *testing.T) {
			names := map[string]bool{}
			for _, d := range h.Listed(kind) {
				require.Equal(t, kind, d.Kind())
				assert.True(t, d.Listed())
				assert.False(t, names[d.String()], "%s is listed twice", d)
				names[d.String()] = true
				checkDesignation(t, h, d)
			}
		})
	}
}

func TestEveryTableIsRead(t *testing.T) {
	h := handbook(t)
	least := map[standards.Kind]int{
		standards.KindBall: 330, standards.KindRoller: 160, standards.KindNeedle: 200, standards.KindTaperMetric: 280,
		standards.KindTaperInch: 800, standards.KindORing: 369, standards.KindSeal: 150, standards.KindInchThread: 70,
		standards.KindMetricThread: 60, standards.KindPipeThread: 40, standards.KindBolt: 400, standards.KindFitting: 60,
		standards.KindHose: 38, standards.KindWheel: 33, standards.KindUJoint: 7, standards.KindSpline: 12,
		standards.KindBattery: 36, standards.KindFuse: 57, standards.KindWire: 18, standards.KindGearOil: 14,
		standards.KindGrease: 9, standards.KindBrakeFluid: 4,
	}
	for kind, n := range least {
		assert.GreaterOrEqual(t, len(h.Listed(kind)), n, kind)
	}
}

func TestLabelsAreWords(t *testing.T) {
	h := handbook(t)
	for _, kind := range h.Kinds() {
		for _, d := range h.Listed(kind) {
			for _, dim := range d.Dims() {
				for _, r := range standards.Label(dim.Name) {
					require.True(t, r != '_' && !unicode.IsUpper(r), "%s is labelled %q", dim.Name, standards.Label(dim.Name))
				}
			}
		}
	}
}
