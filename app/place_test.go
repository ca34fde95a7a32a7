package app

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

var testFix = fieldkit.Place{
	Text: "second ford", Lat: 41_512_300, Lon: -118_702_400, Accuracy: 8 * fieldkit.Metre,
	FixedAt: fieldkit.Moment{Time: time.Date(2026, 5, 14, 15, 20, 0, 0, time.UTC)},
}

func TestPlaceWords(t *testing.T) {
	words := placeWords(testFix)
	assert.Contains(t, words, "41.51230° N 118.70240° W, within 8 m (26 ft), ")
	assert.Contains(t, words, "May 2026")
}

func TestFixTextReadsBack(t *testing.T) {
	f := newForm("place", map[string]string{"fix at": fixText(testFix)})
	back := placeOf(f)
	want := testFix
	want.Text = "" // the words are a field of their own
	assert.Equal(t, want, back)
	assert.True(t, back.HasFix())
}

// What a device says of its position is checked before it is taken for one.
func TestFixOfADevice(t *testing.T) {
	at := testFix.FixedAt
	p, err := fixOf(41.5123, -118.7024, 7.6, at)
	require.NoError(t, err)
	assert.Equal(t, fieldkit.Place{Lat: 41_512_300, Lon: -118_702_400, Accuracy: 8 * fieldkit.Metre, FixedAt: at}, p)
	for _, c := range [][3]float64{{math.NaN(), 0, 1}, {0, math.NaN(), 1}, {0, 0, math.NaN()}, {91, 0, 1}, {0, -181, 1}, {0, 0, -1}, {math.Inf(1), 0, 1}, {0, 0, math.Inf(1)}, {0, 0, 1e300}} {
		p, err := fixOf(c[0], c[1], c[2], at)
		assert.ErrorContains(t, err, "nowhere on the globe", "%v", c)
		assert.Zero(t, p)
	}
	f := fieldkit.Failure{ID: "f", Rig: "hobnail", On: testDay, What: "x"}
	f.Place, err = fixOf(-90, 180, farthestOff, at)
	require.NoError(t, err)
	assert.Empty(t, kitfile.CheckRecord(data.DemoKit(), f), "what is taken may be kept")
}

func TestPlaceOfRubbish(t *testing.T) {
	for _, text := range []string{"", "1 2 3", "a b c d", "1 2 x 2026-05-14T15:20:00Z", "1 2 3 yesterday", "1 2 3 4 5"} {
		f := newForm("place", map[string]string{"fix at": text})
		assert.Equal(t, fieldkit.Place{}, placeOf(f), "%q", text)
	}
}
