package fieldkit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParseMoney(t *testing.T) {
	cases := []struct {
		text string
		want Money
	}{
		{"12.50 USD", Money{1250, "USD"}},
		{"12,50 eur", Money{1250, "EUR"}},
		{"12.50", Money{1250, "CAD"}},
		{"12", Money{1200, "CAD"}},
		{"12.5", Money{1250, "CAD"}},
		{"0", Money{0, "CAD"}},
		{"-3.20 USD", Money{-320, "USD"}},
		{"−3.20 USD", Money{-320, "USD"}},
		{"1234.56USD", Money{123456, "USD"}},
		{"0.05 USD", Money{5, "USD"}},
		{"10000000000000000.00 USD", Money{1_000_000_000_000_000_000, "USD"}},
		{"12.50 usd", Money{1250, "USD"}},
	}
	for _, c := range cases {
		got, err := ParseMoney(c.text, "CAD")
		require.NoError(t, err, c.text)
		assert.Equal(t, c.want, got, c.text)
	}
	for text, what := range map[string]string{
		"":                         "not a price",
		"free":                     "not a price",
		"1,234":                    "can be read as 1234 or as 1.234",
		"12.505":                   "more than two decimals",
		"12 dollars":               "does not name a currency",
		"$12":                      "not a price",
		"99999999999999999999 USD": "too large",
		"12.50 USD each and per single piece with its box and its two seals": "too long",
	} {
		got, err := ParseMoney(text, "CAD")
		assert.ErrorContains(t, err, what, text)
		assert.Zero(t, got)
	}
	_, err := ParseMoney("12", "")
	assert.ErrorContains(t, err, "does not name a currency")
}

func TestMoneyPrints(t *testing.T) {
	assert.Equal(t, "12.50 USD", Money{1250, "USD"}.String())
	assert.Equal(t, "-0.05 USD", Money{-5, "USD"}.String())
	assert.Equal(t, "-92233720368547758.08 USD", Money{math.MinInt64, "USD"}.String())
	assert.Equal(t, Money{3750, "USD"}, Money{1250, "USD"}.Times(3))
	assert.True(t, Money{0, "USD"}.IsZero())
}

func TestParseMinutes(t *testing.T) {
	for text, want := range map[string]Minutes{
		"2 h 30 min": 150, "2:30": 150, "90 min": 90, "1.5 h": 90, "1,5 h": 90, "2": 120, "½ h": 30,
		"1 d": 1440, "1 hour 5 minutes": 65, "0 min": 0, "0:05": 5, "20 s": 0,
	} {
		got, err := ParseMinutes(text)
		if text == "20 s" {
			assert.Error(t, err, text)
			continue
		}
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "soon", "2:75", "2:5", "2:", ":30", "1:2:3", "2 h 30", "-2 h", "400 d", "2 km", "1,234 min"} {
		got, err := ParseMinutes(text)
		var told *Error
		assert.ErrorAs(t, err, &told, text)
		assert.Zero(t, got, text)
	}
}

// Whole numbers give the same span in the quick way as in the exact one.
func TestWholeMinutesAgreeWithExactWay(t *testing.T) {
	for _, text := range []string{"2 h 30 min", "90 min", "2", "1 d 2 h 3 min", "2h30min", "0 min", "8784 h", "5 min 5 min"} {
		quick, ok := wholeMinutes(text)
		require.True(t, ok, text)
		exact, ok := exactMinutes(text)
		require.True(t, ok, text)
		assert.Equal(t, exact.Num().Int64(), int64(quick), text)
		assert.True(t, exact.IsInt(), text)
	}
	for _, text := range []string{"1.5 h", "½ h", "1 1/2 h", "2 h 30", "8785 h", "99999999999 h", ""} {
		_, ok := wholeMinutes(text)
		assert.False(t, ok, text)
	}
}

func TestMinutesPrint(t *testing.T) {
	for want, m := range map[string]Minutes{
		"0 min": 0, "45 min": 45, "2 h": 120, "2 h 30 min": 150, "-5 min": -5, "-2 h 30 min": -150,
		"-153722867280912930 h 8 min": math.MinInt64,
	} {
		assert.Equal(t, want, m.String())
	}
	assert.Equal(t, 2.5, Minutes(150).Hours())
}
