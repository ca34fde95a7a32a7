package app

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/fieldkit"
)

var testFix = fieldkit.Place{
	Text: "second ford", Lat: 41_512_300, Lon: -118_702_400, Accuracy: 8 * fieldkit.Metre,
	FixedAt: fieldkit.Moment{Time: time.Date(2026, 5, 14, 15, 20, 0, 0, time.UTC)},
}

func TestDegrees(t *testing.T) {
	for micro, want := range map[int64]string{
		0: "0.00000° N", 41_512_300: "41.51230° N", -41_512_300: "41.51230° S", -9: "0.00000° S", 90_000_000: "90.00000° N", -1_000_010: "1.00001° S",
	} {
		assert.Equal(t, want, degrees(micro, "N", "S"))
	}
}

// 1 ft = 0.3048 m exactly: 8 m are 26.2 ft, 100 m are 328.1 ft.
func TestMetres(t *testing.T) {
	assert.Equal(t, "8 m (26 ft)", metres(8*fieldkit.Metre))
	assert.Equal(t, "100 m (328 ft)", metres(100*fieldkit.Metre))
	assert.Equal(t, "0 m (0 ft)", metres(0))
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

func TestPlaceOfRubbish(t *testing.T) {
	for _, text := range []string{"", "1 2 3", "a b c d", "1 2 x 2026-05-14T15:20:00Z", "1 2 3 yesterday", "1 2 3 4 5"} {
		f := newForm("place", map[string]string{"fix at": text})
		assert.Equal(t, fieldkit.Place{}, placeOf(f), "%q", text)
	}
}
