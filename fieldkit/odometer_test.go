package fieldkit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParseOdometer(t *testing.T) {
	for text, want := range map[string]Distance{
		"55240": 55240 * Mile, "55,240": 55240 * Mile, "55 240": 55240 * Mile, "55'240 mi": 55240 * Mile, "55’240": 55240 * Mile,
		"55.240 km": 55240 * Metre, "1,234,567 km": 1234567 * Kilometre, "1.234.567 km": 1234567 * Kilometre, "212\u202f480 km": 212480 * Kilometre,
		" 55\u00a0240 km ": 55240 * Kilometre, "55,240.5 km": 55240500 * Metre, "120.5 km": 120500 * Metre, "7,25 km": 7250 * Metre,
		"240 mi": 240 * Mile, "0": 0,
	} {
		got, err := ParseOdometer(text, Inch)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	for _, bad := range []string{"", "55,24,000", "55 24", "ten", "55,240 kg", "55,240 240"} {
		got, err := ParseOdometer(bad, Inch)
		assert.Error(t, err, bad)
		assert.Zero(t, got, bad)
	}
}

// FuzzParseOdometer holds that thousands marks change nothing in a number, and that
// what is read as a distance without them is read alike.
func FuzzParseOdometer(f *testing.F) {
	for _, s := range []string{"55,240", "1.234.567 km", "55 240 km", "1,300", "120 km", "55'240 mi", "999,999,999 km", "1-3/8", "٣", "\u202f", "1\u202f234"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, err := ParseOdometer(text, Metric)
		if err != nil {
			require.Zero(t, d)
			return
		}
		if plain, err := ParseDistance(text, Metric); err == nil {
			require.Equal(t, plain, d)
		}
		again, err := ParseOdometer(d.String(), Metric)
		require.NoError(t, err)
		require.Equal(t, d, again)
	})
}
