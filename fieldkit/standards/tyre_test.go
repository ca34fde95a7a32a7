package standards_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// Diameters published for sizes, each row with its source: testdata/tyre_checks.csv.
func TestPublishedTyreDiameters(t *testing.T) {
	f, err := os.Open("testdata/tyre_checks.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 10)
	h := handbook(t)
	for _, row := range rows[1:] {
		tyre, err := h.ParseTyre(row[0])
		require.NoError(t, err, row[0])
		published, err := fieldkit.ParseLength(row[2]+" "+row[3], fieldkit.Metric)
		require.NoError(t, err)
		// Pages round to a tenth of an inch, some to a whole one.
		within := 0.055 * float64(fieldkit.Inches)
		assert.InDelta(t, float64(published), float64(tyre.Diameter()), within, "%s: %s", row[0], row[6])
	}
}

// Turns over a mile worked out on published pages as 20168 over the diameter in
// inches: dieseltalk.com (215/65R15, 255/60R15), dodgeforum.com (265/70R17).
func TestPublishedTurns(t *testing.T) {
	h := handbook(t)
	for size, want := range map[string]float64{"215/65R15": 775, "255/60R15": 747, "265/70R17": 638.13} {
		tyre, err := h.ParseTyre(size)
		require.NoError(t, err)
		assert.InDelta(t, want, tyre.TurnsOver(fieldkit.Mile), 1.6, size) // they round the section to half an inch
		assert.InDelta(t, tyre.TurnsOver(fieldkit.Mile)/1.609344, tyre.TurnsOver(fieldkit.Kilometre), 1e-6)
		perMile, ok := standards.DimNamed(tyre, "revs_per_mile")
		require.True(t, ok)
		assert.InDelta(t, tyre.TurnsOver(fieldkit.Mile), float64(perMile.Base)/1e6, 0.051)
	}
}

// Laws of a size: wider or taller gives no smaller diameter; the diameter is the rim
// and two sidewalls.
func TestTyreLaws(t *testing.T) {
	h := handbook(t)
	for width := 155; width <= 375; width += 10 {
		for aspect := 50; aspect <= 85; aspect += 5 {
			name := strconv.Itoa(width) + "/" + strconv.Itoa(aspect) + "R17"
			tyre, err := h.ParseTyre(name)
			require.NoError(t, err)
			assert.Equal(t, tyre.Rim+2*tyre.SectionHeight(), tyre.Diameter())
			taller, err := h.ParseTyre(strconv.Itoa(width) + "/" + strconv.Itoa(aspect+5) + "R17")
			require.NoError(t, err)
			assert.Greater(t, taller.Diameter(), tyre.Diameter())
			checkDesignation(t, h, tyre)
		}
	}
	for _, name := range []string{"33x12.50R15LT 108Q", "37x13.50R17LT LR E", "40x15.50R20", "7.50-16LT 8PR", "9.00R16", "6.50R16LT", "31.5x13.00-16.5"} {
		tyre, err := h.ParseTyre(name)
		require.NoError(t, err, name)
		checkDesignation(t, h, tyre)
	}
}

// Numeric sizes do not say their height: what is given is an estimate, and it says so.
func TestNumericTyreIsAnEstimate(t *testing.T) {
	tyre, err := handbook(t).ParseTyre("7.00-16")
	require.NoError(t, err)
	// 778 mm from memory of ETRTO.
	assert.InDelta(t, 778, float64(tyre.Diameter())/float64(fieldkit.Millimetre), 6)
	assert.False(t, tyre.Listed())
	assert.Contains(t, tyre.Source(), "an estimate")
}
