package fieldkit

import (
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParseValue(t *testing.T) {
	cases := []struct {
		name, text string
		want       Value
	}{
		{"bare number is a count", "28", Value{Dim: DimCount, Base: 28_000_000}},
		{"counted teeth", "28 teeth", Value{Dim: DimCount, Base: 28_000_000}},
		{"length", "1-3/8 in", Value{Dim: DimLength, Base: 34_925_000}},
		{"hose, not a drive", "2 m", Value{Dim: DimLength, Base: 2_000_000_000}},
		{"a drive", "2 km", Value{Dim: DimDistance, Base: 2_000_000}},
		{"a drive in miles", "2 mi", Value{Dim: DimDistance, Base: 3_218_688}},
		{"weight", "300 g", Value{Dim: DimMass, Base: 300_000_000_000}},
		{"fluid", "300 cm3", Value{Dim: DimVolume, Base: 300_000_000_000_000}},
		{"torque", "90 N·m", Value{Dim: DimTorque, Base: 90_000_000}},
		{"pressure", "2.4 bar", Value{Dim: DimPressure, Base: 240_000_000}},
		{"temperature", "-5 °C", Value{Dim: DimTemperature, Base: 482_670}},
		{"temperature with the printed minus", "−5 °C", Value{Dim: DimTemperature, Base: 482_670}},
		{"angle", "12°", Value{Dim: DimAngle, Base: 43_200}},
		{"voltage", "12.6 V", Value{Dim: DimVoltage, Base: 12_600_000}},
		{"current", "30 A", Value{Dim: DimCurrent, Base: 30_000_000}},
		{"a thread is text", "M14×1.5", Value{Dim: DimText, Text: "M14×1.5"}},
		{"an inch thread is text", "9/16-18 UNF", Value{Dim: DimText, Text: "9/16-18 UNF"}},
		{"a pipe thread is text", "1/2 NPT", Value{Dim: DimText, Text: "1/2 NPT"}},
		{"a screw is text", "#10-24", Value{Dim: DimText, Text: "#10-24"}},
		{"a tyre is text", "7.00-16", Value{Dim: DimText, Text: "7.00-16"}},
		{"a range is text", "6-8", Value{Dim: DimText, Text: "6-8"}},
		{"colour is text", " green ", Value{Dim: DimText, Text: "green"}},
		{"what can be read two ways stays text", "1,234 mm", Value{Dim: DimText, Text: "1,234 mm"}},
		{"what is beyond any size stays text", "99999999999999999999 mm", Value{Dim: DimText, Text: "99999999999999999999 mm"}},
		{"colder than can be stays text", "-300 °C", Value{Dim: DimText, Text: "-300 °C"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := ParseValue(c.text)
			require.NoError(t, err)
			assert.Equal(t, c.want, got)
			back, err := ParseValue(got.String())
			require.NoError(t, err)
			assert.Equal(t, got, back)
		})
	}
	_, err := ParseValue(" ")
	assert.ErrorContains(t, err, "nothing is written")
	_, err = ParseValue(strings.Repeat("x", MaxString+1))
	var told *Error
	require.ErrorAs(t, err, &told)
	assert.Equal(t, TooBig, told.Kind)
}

// The quick way to the first unit leads where reading the number leads.
func TestFirstUnitOfPlainNumbers(t *testing.T) {
	chance := rand.New(rand.NewSource(1))
	signs := []rune("0123456789.,/ -–½minftkgs°\"3")
	for range 20_000 {
		text := []rune{rune('0' + chance.Intn(10))}
		for range chance.Intn(10) {
			text = append(text, signs[chance.Intn(len(signs))])
		}
		s := strings.TrimSpace(string(text))
		want := ""
		_, after, err := cutNumber(s)
		if err == nil {
			want, _ = cutUnit(after)
		}
		got, ok := firstUnit(s)
		require.Equal(t, err == nil, ok, s)
		require.Equal(t, want, got, s)
	}
}

func TestParseValueAs(t *testing.T) {
	v, err := ParseValueAs("1-3/8", DimLength, Inch)
	require.NoError(t, err)
	assert.Equal(t, Value{Dim: DimLength, Base: 34_925_000}, v)
	assert.Equal(t, "1-3/8 in (34.93 mm)", v.Both(Inch))
	v, err = ParseValueAs("34.9", DimLength, Metric)
	require.NoError(t, err)
	assert.Equal(t, "34.9 mm", v.Show(Metric))
	_, err = ParseValueAs("1 3/8/2", DimLength, Inch)
	assert.EqualError(t, err, `"1 3/8/2" is not a size: the fraction is not a whole number over a whole number; write 1-3/8, 1.375 in or 34.9 mm`)
	_, err = ParseValueAs("green", DimCount, Inch)
	assert.Error(t, err)
	v, err = ParseValueAs("M14×1.5", DimText, Inch)
	require.NoError(t, err)
	assert.Equal(t, "M14×1.5", v.Both(Inch))
	assert.True(t, Value{}.IsZero())
	assert.False(t, v.IsZero())
}
