package fieldkit

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Factors as printed in NIST Special Publication 811 (2008), appendix B.8:
// exact where the table sets them in bold, else rounded to seven digits.
func TestPublishedFactors(t *testing.T) {
	cases := []struct {
		dim    Dimension
		text   string
		factor string // of the reference unit, as printed
		ref    string
		exact  bool
	}{
		{DimLength, "1 in", "2.54e-2", "m", true},
		{DimLength, "1 ft", "3.048e-1", "m", true},
		{DimLength, "1 thou", "2.54e-5", "m", true}, // "mil (0.001 in)"
		{DimLength, "1 µm", "1.0e-6", "m", true},
		{DimDistance, "1 mi", "1.609344e3", "m", true},
		{DimMass, "1 lb", "4.535924e-1", "kg", false},
		{DimMass, "1 lb", "4.5359237e-1", "kg", true}, // footnote 22 of the table: exactly
		{DimMass, "1 oz", "2.834952e-2", "kg", false},
		{DimVolume, "1 gal", "3.785412", "L", false},
		{DimVolume, "1 qt", "9.463529e-1", "L", false},
		{DimVolume, "1 pt", "4.731765e-1", "L", false},
		{DimVolume, "1 fl oz", "2.957353e-2", "L", false},
		{DimTorque, "1 lb-ft", "1.355818", "N·m", false},
		{DimTorque, "1000 lb-in", "1.129848e2", "N·m", false},
		{DimPressure, "1 psi", "6.894757", "kPa", false},
		{DimPressure, "1 bar", "1.0e2", "kPa", true},
	}
	for _, c := range cases {
		t.Run(c.text, func(t *testing.T) {
			base, err := parseWithUnit(c.text, c.dim)
			require.NoError(t, err)
			ref := map[string]int64{"m": 1_000_000_000, "kg": int64(Kilogram), "L": int64(Litre), "N·m": int64(NewtonMetre), "kPa": int64(Kilopascal)}[c.ref]
			if c.dim == DimDistance {
				ref = int64(Metre)
			}
			got := big.NewRat(base, ref)
			if c.exact {
				assert.Zero(t, got.Cmp(rat(c.factor)), "%s is %s %s", c.text, got.FloatString(12), c.ref)
				return
			}
			// Half a unit of the seventh digit, as the table is rounded.
			off := new(big.Rat).Quo(new(big.Rat).Sub(got, rat(c.factor)), rat(c.factor))
			assert.Negative(t, off.Abs(off).Cmp(rat("5e-7")), "%s is %s %s, published %s", c.text, got.FloatString(12), c.ref, c.factor)
		})
	}
}

func rat(s string) *big.Rat {
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		panic("bad constant " + s)
	}
	return r
}

// A symbol as it is printed finds the unit that its name, folded, finds.
func TestSymbolsAreNames(t *testing.T) {
	for _, u := range units {
		for _, dim := range []Dimension{u.dim, ""} {
			found, ok := unitOf(u.symbol, dim)
			require.True(t, ok, u.symbol)
			folded, ok := unitOf(" "+u.symbol+" ", dim)
			require.True(t, ok, u.symbol)
			assert.Equal(t, folded, found, "%q %s", u.symbol, dim)
		}
	}
}

// The US gallon is 231 cubic inches (NIST Handbook 44, appendix C): its litres
// follow from the inch.
func TestGallonIs231CubicInches(t *testing.T) {
	gallon, err := ParseVolume("1 gal", Inch)
	require.NoError(t, err)
	inch := big.NewRat(int64(Inches), 100_000_000) // decimetres; their cube is litres
	cubic := new(big.Rat).Mul(new(big.Rat).Mul(inch, inch), inch)
	cubic.Mul(cubic, big.NewRat(231, 1))
	assert.Zero(t, cubic.Cmp(big.NewRat(int64(gallon), int64(Litre))))
	for text, want := range map[string]int64{"4 qt": 1, "8 pt": 1, "128 fl oz": 1} {
		v, err := ParseVolume(text, Inch)
		require.NoError(t, err)
		assert.Equal(t, gallon, v/Volume(want), text)
	}
}

// Fixed points: melting ice and boiling water under the old definitions, the
// point where the two scales meet, absolute zero (NIST SP 811, appendix B.9;
// -40 and absolute zero by its formula t/°C = (t/°F - 32)/1.8).
func TestTemperatureFixedPoints(t *testing.T) {
	for _, pair := range [][2]string{
		{"0 °C", "32 °F"}, {"100 °C", "212 °F"}, {"-40 °C", "-40 °F"}, {"-273.15 °C", "-459.67 °F"}, {"37 °C", "98.6 °F"}, {"0.01 °C", "32.018 °F"},
	} {
		c, err := ParseTemperature(pair[0], Metric)
		require.NoError(t, err)
		f, err := ParseTemperature(pair[1], Metric)
		require.NoError(t, err)
		assert.Equal(t, c, f, "%v", pair)
	}
	zero, err := ParseTemperature("-273.15 °C", Metric)
	require.NoError(t, err)
	assert.Zero(t, zero)
	_, err = ParseTemperature("-274 °C", Metric)
	assert.ErrorContains(t, err, "colder than anything can be")
}

// Each spelling of a unit means that unit and no other of its dimension.
func TestSpellings(t *testing.T) {
	for _, u := range units {
		for _, spelling := range append([]string{u.symbol}, u.aliases...) {
			found, ok := unitOf(spelling, u.dim)
			require.True(t, ok, spelling)
			assert.Equal(t, u.symbol, found.symbol, "%q", spelling)
			if u.symbol != "" {
				found, ok = unitOf(" "+spelling+". ", u.dim)
				require.True(t, ok, spelling)
				assert.Equal(t, u.symbol, found.symbol)
			}
		}
	}
	_, ok := unitOf("furlong", "")
	assert.False(t, ok)
}

// The quick way of reading and printing gives what the exact way gives.
func TestQuickWayAgreesWithExactWay(t *testing.T) {
	d := dice(1)
	for range 4000 {
		u := units[d.Intn(len(units))]
		base := d.base()
		if u.dim == DimTemperature && base < 0 {
			base = -(base + 1)
		}
		text := exactText(u.dim, base)
		quick, ok := quickBase(text, u.dim)
		exact, err := parseAmount(text, u.dim, "")
		require.NoError(t, err, text)
		rounded, fits := roundToInt64(exact)
		require.True(t, fits)
		require.Equal(t, base, rounded, text)
		if ok {
			require.Equal(t, rounded, quick, text)
		}
		if digits, ok := wholeFactorDigits(u, base); ok {
			if digits == "" {
				require.Greater(t, len(slowDigits(u, base)), maxExactDecimals)
				continue
			}
			require.Equal(t, slowDigits(u, base), digits, "%d %s", base, u.symbol)
		}
	}
}

// slowDigits is the fewest decimals that read back to base, by trying them.
func slowDigits(u unit, base int64) string {
	r := u.reading(base)
	for n := 0; ; n++ {
		text := r.FloatString(n)
		if back, ok := roundToInt64(u.base(rat(text))); ok && back == base {
			return text
		}
	}
}
