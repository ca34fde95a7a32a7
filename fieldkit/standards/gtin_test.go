package standards_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit/standards"
)

func TestPublishedGTINs(t *testing.T) {
	h := handbook(t)
	for text, want := range map[string]string{
		"8904000210037":   "08904000210037", // gs1india.org
		"7300011000017":   "07300011000017", // gs1.se
		"036000291452":    "00036000291452", // widely printed UPC-A
		"0 36000 29145 2": "00036000291452",
		"6291041500213":   "06291041500213", // gs1.org, check digit calculator
		"73513537":        "00000073513537", // widely printed EAN-8
		"00036000291452":  "00036000291452",
	} {
		g, err := h.ParseGTIN(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, g.String())
		checkDesignation(t, h, g)
	}
	short, err := h.ParseGTIN("036000291452")
	require.NoError(t, err)
	assert.Equal(t, "036000291452", short.Short())
}

// UPC-E 04252614 is UPC-A 042100005264 (widely printed).
func TestUPCE(t *testing.T) {
	h := handbook(t)
	g, err := h.ParseUPCE("04252614")
	require.NoError(t, err)
	assert.Equal(t, "00042100005264", g.String())
	assert.Equal(t, "042100005264", g.Short())
	_, err = h.ParseUPCE("04252613")
	assert.ErrorContains(t, err, "check digit")
	_, err = h.ParseUPCE("24252614")
	assert.ErrorContains(t, err, "begins with 0 or 1")
	// Each rule of the last digit, the long form worked out by hand from the GS1
	// General Specifications: where noughts come back in.
	for short, long := range map[string]string{
		"01234505": "012000003455", "01234521": "012200003453", "01234531": "012300000451",
		"01234543": "012340000053", "01234558": "012345000058", "01234593": "012345000096",
	} {
		g, err := h.ParseUPCE(short[:7] + long[11:])
		if assert.NoError(t, err, short) {
			assert.Equal(t, long, g.Short(), short)
		}
	}
}

// The check digit finds every single wrong digit (GS1 General Specifications).
func TestEveryWrongDigitIsNoticed(t *testing.T) {
	h := handbook(t)
	const right = "6291041500213"
	for i := range right {
		for c := '0'; c <= '9'; c++ {
			if c == rune(right[i]) {
				continue
			}
			wrong := right[:i] + string(c) + right[i+1:]
			g, err := h.ParseGTIN(wrong)
			assert.Zero(t, g)
			var m *standards.Misread
			require.True(t, errors.As(err, &m), wrong)
			assert.NotEmpty(t, m.Nearest)
		}
	}
}
