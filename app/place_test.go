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
