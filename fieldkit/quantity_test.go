package fieldkit

import (
	"encoding"
	"fmt"
	"math"
	"math/rand"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What people write on a rig, and what it is in nanometres.
func TestParseLength(t *testing.T) {
	const mm = int64(Millimetre)
	cases := []struct {
		name, text string
		system     System
		want       int64
	}{
		{"mixed number with a dash", "1-3/8", Inch, 34_925_000},
		{"mixed number with a space", "1 3/8", Inch, 34_925_000},
		{"mixed number with a unit", "1-3/8 in", Metric, 34_925_000},
		{"inch mark", `1.375"`, Metric, 34_925_000},
		{"typographic inch mark", "1.375″", Metric, 34_925_000},
		{"one sign for a fraction", "½", Inch, 12_700_000},
		{"whole and one sign", "2½ in", Metric, 63_500_000},
		{"whole, dash and one sign", "2-½ in", Metric, 63_500_000},
		{"fraction alone", "7/16", Inch, 11_112_500},
		{"improper fraction", "11/8 in", Metric, 34_925_000},
		{"decimal point", "34.93", Metric, 34_930_000},
		{"decimal comma", "34,93 mm", Inch, 34_930_000},
		{"decimal comma after nothing", "0,375 in", Metric, 9_525_000},
		{"no digit before the point", ".375", Inch, 9_525_000},
		{"no digit after the point", "3.", Metric, 3 * mm},
		{"leading zeros", "010", Metric, 10 * mm},
		{"leading zeros with a unit", "007 mm", Metric, 7 * mm},
		{"centimetres", "3.5 cm", Metric, 35 * mm},
		{"metres of hose", "1.2 m", Metric, 1200 * mm},
		{"feet and inches", "5 ft 3 in", Metric, 63 * 25_400_000},
		{"feet and inches in marks", `5' 3-1/2"`, Metric, 1_612_900_000},
		{"thousandths", "8 thou", Metric, 203_200},
		{"micrometres", "12 µm", Metric, 12_000},
		{"no space", "12mm", Inch, 12 * mm},
		{"capitals", "12 MM", Inch, 12 * mm},
		{"abbreviated with a point", "3 in.", Metric, 76_200_000},
		{"minus", "-2 mm", Metric, -2 * mm},
		{"printed minus", "−2 mm", Metric, -2 * mm},
		{"minus before a mixed number", "-1-1/2 in", Metric, -38_100_000},
		{"spaces around", "  4 mm ", Metric, 4 * mm},
		{"finer than the base unit is rounded", "0.0000004 mm", Metric, 0},
		{"half of the base unit is rounded away from nothing", "0.0000005 mm", Metric, 1},
		{"largest", "9223372036854.775807 mm", Metric, math.MaxInt64},
		{"smallest", "-9223372036854.775808 mm", Metric, math.MinInt64},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := ParseLength(c.text, c.system)
			require.NoError(t, err)
			assert.Equal(t, Length(c.want), got)
		})
	}
}

func TestParseLengthRefuses(t *testing.T) {
	cases := []struct{ name, text, what string }{
		{"nothing", "  ", "nothing is written"},
		{"words", "wide", "a number is missing"},
		{"grouped digits or a decimal comma", "1,234 mm", "can be read as 1234 or as 1.234"},
		{"grouped digits", "12,345,678 mm", "more than one decimal mark"},
		{"point and comma", "1.234,5 mm", "more than one decimal mark"},
		{"two fractions", "1 3/8/2", "not a whole number over a whole number"},
		{"fraction of a decimal", "1.5/2 in", "not a whole number over a whole number"},
		{"fraction over nothing", "1/0 in", "over nothing"},
		{"fraction without an end", "1/ in", "not a whole number over a whole number"},
		{"another dimension", "3 kg", `"kg" is not a unit of length`},
		{"unknown unit", "3 ells", `"ells" is not a unit of length`},
		{"unit twice", "3 in 2 in", "gives in twice"},
		{"number without a unit after one", "3 ft 2", "has no unit"},
		{"two numbers", "3 2", "has no unit"},
		{"two minus signs", "--3 mm", "a number is missing"},
		{"minus inside", "5 ft -3 in", "is not a unit of length"},
		{"exponent", "1e3 mm", `"e" is not a unit`},
		{"too large", "9223372036854.775808 mm", "beyond any size"},
		{"far too large", "99999999999999999999999999 km", "not a unit of length"},
		{"too small", "-9223372036854.775809 mm", "beyond any size"},
		{"too long", fmt.Sprintf("%070d mm", 1), "is not a length"},
		{"not a number", "NaN mm", "a number is missing"},
		{"infinity", "∞ mm", "a number is missing"},
		{"digits of another script", "٣ mm", "a number is missing"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := ParseLength(c.text, Metric)
			var told *Error
			require.ErrorAs(t, err, &told)
			assert.Zero(t, got)
			assert.Equal(t, BadInput, told.Kind)
			assert.Contains(t, told.What, c.what)
			assert.NotEmpty(t, told.Do)
		})
	}
	_, err := ParseLength("12", "")
	assert.ErrorContains(t, err, "has no unit", "a bare number needs a system")
}

// A text with several fractions of one sign is read the same way every time.
func TestSeveralOneSignFractions(t *testing.T) {
	for range 200 {
		got, err := ParseLength("1½ ft ¼ in", Metric)
		require.NoError(t, err)
		require.Equal(t, Length(18*25_400_000+6_350_000), got)
	}
}

func TestParseOtherQuantities(t *testing.T) {
	cases := []struct {
		text string
		want any
	}{
		{"2 lb 4 oz", Mass(2*Pound + 4*Ounce)},
		{"5#", Mass(5 * Pound)},
		{"2.5 kg", Mass(2_500_000_000_000)},
		{"300 mL", Volume(300 * Millilitre)},
		{"300 cc", Volume(300 * Millilitre)},
		{"300 cm3", Volume(300 * Millilitre)},
		{"300 cm³", Volume(300 * Millilitre)},
		{"1 L 500 mL", Volume(1500 * Millilitre)},
		{"16 fl oz", Volume(473_176_473_000_000)},
		{"120 km", Distance(120 * Kilometre)},
		{"75 mi", Distance(75 * Mile)},
		{"90 N·m", Torque(90 * NewtonMetre)},
		{"90 Nm", Torque(90 * NewtonMetre)},
		{"100 ft-lbs", Torque(135_581_795)},
		{"2.4 bar", Pressure(240 * Kilopascal)},
		{"35 psi", Pressure(241_316_505)},
		{"90 C", Temperature(653_670)},
	}
	for _, c := range cases {
		t.Run(c.text, func(t *testing.T) {
			into := reflect.New(reflect.TypeOf(c.want))
			require.NoError(t, into.Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(c.text)))
			assert.Equal(t, c.want, into.Elem().Interface())
		})
	}
}

// The system read first stands first, the other in brackets; sizes that a rule
// or a drill index has are printed as fractions.
func TestPrintingAsPeopleWrite(t *testing.T) {
	length := func(s string) Length {
		q, err := ParseLength(s, Metric)
		require.NoError(t, err)
		return q
	}
	cases := []struct {
		name, got, want string
	}{
		{"fraction beside metric", length("1-3/8 in").Both(Inch), "1-3/8 in (34.93 mm)"},
		{"metric first", length("34.93 mm").Both(Metric), "34.93 mm (1.375 in)"},
		{"finest fraction", length("1/64 in").Show(Inch), "1/64 in"},
		{"between the fractions", length("0.01 in").Show(Inch), "0.01 in"},
		{"whole inches", length("50.8 mm").Both(Inch), "2 in (50.8 mm)"},
		{"below nothing", length("-1-1/2 in").Show(Inch), "-1-1/2 in"},
		{"nothing", Length(0).Both(Metric), "0 mm (0 in)"},
		{"rounds away from nothing", Length(-4_000).Show(Metric), "0 mm"},
		{"heavy", (12*Kilogram + 340*Gram).Both(Metric), "12.3 kg (27 lb)"},
		{"light", (340 * Gram).Both(Inch), "12 oz (340 g)"},
		{"fluid", (500 * Millilitre).Both(Metric), "500 mL (16.9 fl oz)"},
		{"tank", (75 * Litre).Both(Metric), "75 L (19.81 gal)"},
		{"tight", (120 * NewtonMetre).Both(Metric), "120 N·m (89 lb-ft)"},
		{"snug", (8 * NewtonMetre).Both(Inch), "71 lb-in (8 N·m)"},
		{"tyre", (240 * Kilopascal).Both(Inch), "34.8 psi (240 kPa)"},
		{"far", (640 * Kilometre).Both(Inch), "398 mi (640 km)"},
		{"near", (2500 * Metre).Both(Metric), "2.5 km (1.6 mi)"},
		{"hot", Temperature(653_670).Both(Metric), "90 °C (194 °F)"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, c.got) })
	}
	assert.Equal(t, "34.93 mm", length("34.93 mm").Show("neither"), "metric where no system is chosen")
}

// The text kept in files is the shortest that reads back, and says what was typed.
func TestExactTextKeepsWhatWasTyped(t *testing.T) {
	for _, typed := range []string{"1-3/8 in", "34.93 mm", "0.035 in", "2 ft", "3.5 m", "7/16 in", "12 µm", "8 thou"} {
		q, err := ParseLength(typed, Metric)
		require.NoError(t, err)
		back, err := ParseLength(q.String(), "")
		require.NoError(t, err)
		assert.Equal(t, q, back)
		assert.LessOrEqual(t, len([]rune(q.String())), len([]rune(typed)), "%s became %s", typed, q)
	}
}

// dice gives the random numbers of a property test.
type random struct{ *rand.Rand }

func dice(seed int64) random { return random{rand.New(rand.NewSource(seed))} }

// base gives whole numbers of all sizes, the extremes among them.
func (r random) base() int64 {
	switch r.Intn(8) {
	case 0:
		return []int64{0, 1, -1, math.MaxInt64, math.MinInt64, math.MaxInt64 - 1, math.MinInt64 + 1}[r.Intn(7)]
	case 1:
		return r.Int63() - r.Int63()
	case 2:
		return int64(Inches) / 64 * r.Int63n(4000)
	case 3:
		return int64(Ounce) * r.Int63n(4000)
	}
	return r.Int63n(1 << (1 + r.Intn(62)))
}

// textual are the types kept as text, with a random value of each.
var textual = []func(random) any{
	func(r random) any { return Length(r.base()) },
	func(r random) any { return Distance(r.base()) },
	func(r random) any { return Mass(r.base()) },
	func(r random) any { return Volume(r.base()) },
	func(r random) any { return Torque(r.base()) },
	func(r random) any { return Pressure(r.base()) },
	func(r random) any { return Temperature(r.base() & math.MaxInt64) },
	func(r random) any { return Minutes(r.Int63n(int64(MaxMinutes) + 1)) },
	func(r random) any { return Money{r.base(), "USD"} },
	func(r random) any { return Date{2000, 1, 1}.AddDays(r.Intn(90_000) - 36_000) },
	func(r random) any {
		dim := valueDimensions[r.Intn(len(valueDimensions))]
		base := r.base()
		if dim == DimTemperature {
			base &= math.MaxInt64
		}
		return Value{Dim: dim, Base: base}
	},
}

// Every value of every type is read back from the text it is kept as.
func TestTextRoundTrip(t *testing.T) {
	r := dice(2)
	for range 300 {
		for _, make := range textual {
			want := make(r)
			text, err := want.(encoding.TextMarshaler).MarshalText()
			require.NoError(t, err)
			into := reflect.New(reflect.TypeOf(want))
			require.NoError(t, into.Interface().(encoding.TextUnmarshaler).UnmarshalText(text), "%T %s", want, text)
			require.Equal(t, want, into.Elem().Interface(), "%s", text)
			require.LessOrEqual(t, len(text), MaxAmountText)
		}
	}
}

// The zero value of every type is read back as well: an empty field stays empty.
func TestZeroRoundTrip(t *testing.T) {
	for _, make := range textual {
		zero := reflect.Zero(reflect.TypeOf(make(dice(1)))).Interface()
		if _, isValue := zero.(Value); isValue {
			continue // a value that was never set is no text
		}
		text, err := zero.(encoding.TextMarshaler).MarshalText()
		require.NoError(t, err)
		into := reflect.New(reflect.TypeOf(zero))
		require.NoError(t, into.Interface().(encoding.TextUnmarshaler).UnmarshalText(text), "%T %q", zero, text)
		assert.Equal(t, zero, into.Elem().Interface())
	}
}

// What is refused leaves the value as it was.
func TestRefusedTextChangesNothing(t *testing.T) {
	r := dice(3)
	for _, make := range textual {
		want := make(r)
		if _, isValue := want.(Value); isValue {
			continue // takes any text but none
		}
		into := reflect.New(reflect.TypeOf(want))
		into.Elem().Set(reflect.ValueOf(want))
		require.Error(t, into.Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte("what?")))
		assert.Equal(t, want, into.Elem().Interface())
	}
}
