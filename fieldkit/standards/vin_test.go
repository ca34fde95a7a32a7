package standards_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// Numbers with a right check digit, as published: 49 CFR 565.15 (1G4AH59H45G118341),
// the guide of NHTSA (1J9RP1A36A1644345), and two that are widely printed
// (1M8GDM9AXKP042788, seventeen 1s).
var publishedVINs = []string{"1G4AH59H45G118341", "1J9RP1A36A1644345", "1M8GDM9AXKP042788", "11111111111111111"}

func TestPublishedVINs(t *testing.T) {
	h := handbook(t)
	for _, text := range publishedVINs {
		v, err := h.ParseVIN(text)
		require.NoError(t, err)
		assert.Equal(t, standards.VIN{Text: text}, v)
		_, ok := v.Check()
		assert.True(t, ok)
		assert.True(t, v.NorthAmerican())
		checkDesignation(t, h, v)
	}
	spaced, err := h.ParseVIN("1m8gdm9ax kp042788")
	require.NoError(t, err)
	assert.Equal(t, "1M8GDM9AXKP042788", spaced.Text)
}

// Any one character misread in the published numbers is noticed, unless the one taken
// for it counts the same modulo 11 (A and 1 both count 1); the number itself is among
// the corrections when the slip is a look-alike or two neighbours change places.
func TestOneWrongCharacterIsNoticed(t *testing.T) {
	h := handbook(t)
	noticed, offered := 0, 0
	for _, text := range publishedVINs[:3] {
		for i := range text {
			for _, c := range "0123456789ABCDEFGHJKLMNPRSTUVWXYZ" {
				if i == 0 && (c < '1' || c > '5') {
					continue // not North America: nothing is required there
				}
				wrong := text[:i] + string(c) + text[i+1:]
				_, err := h.ParseVIN(wrong)
				if err == nil {
					continue
				}
				noticed++
				if !standards.LookAlike(c, rune(text[i])) {
					continue
				}
				offered++
				var m *standards.Misread
				require.True(t, errors.As(err, &m))
				assert.Contains(t, names(m.Nearest), text, wrong)
			}
		}
	}
	assert.Greater(t, noticed, 1300)
	assert.Greater(t, offered, 60)
}

func names(list []standards.Designation) (names []string) {
	for _, d := range list {
		names = append(names, d.String())
	}
	return names
}

func TestNeighboursInTheWrongOrder(t *testing.T) {
	_, err := handbook(t).ParseVIN("1M8GDM9AXKP402788")
	var m *standards.Misread
	require.True(t, errors.As(err, &m))
	assert.Contains(t, names(m.Nearest), "1M8GDM9AXKP042788")
}

// Outside North America no check digit is required.
func TestForeignVINIsOnlyWarnedOf(t *testing.T) {
	v, err := handbook(t).ParseVIN("YX1AB00C0D0000001")
	require.NoError(t, err)
	_, ok := v.Check()
	assert.False(t, ok)
	said := ""
	for _, p := range v.Explain() {
		said += p.Says + "\n"
	}
	assert.Contains(t, said, "elsewhere none is required")
}

// Model years as in 49 CFR 565.15: A is 1980 with a figure in the seventh place and
// 2010 with a letter, up to 10,000 lb; Y is 2000, 1 is 2001, 9 is 2009.
func TestModelYears(t *testing.T) {
	for text, want := range map[string][2]int{
		"1M8GDM9AXKP042788": {1989, 2019}, // seventh a 9
		"1G4AH59H45G118341": {2005, 2035},
		"1J9RP1A36A1644345": {2010, 1980}, // seventh an A
		"1AAAAA000Y0000000": {2000, 2030},
		"1AAAAA00010000000": {2001, 2031},
		"1AAAAA00090000000": {2009, 2039},
		"1AAAAAA00A0000000": {2010, 1980},
		"1AAAAA00000000000": {0, 0}, // 0 is no year
		"1AAAAA000U0000000": {0, 0},
	} {
		likely, other := standards.VIN{Text: text}.ModelYears()
		assert.Equal(t, want, [2]int{likely, other}, text)
	}
	v := standards.VIN{Text: "1M8GDM9AXKP042788"}
	assert.Equal(t, []int{1989}, v.DonorYears(8_800*fieldkit.Pound))
	assert.Equal(t, []int{1989, 2019}, v.DonorYears(14_000*fieldkit.Pound), "heavier donors get both")
	assert.Equal(t, []int{1989, 2019}, v.DonorYears(0), "weight not known")
}

// Before 1981 there is no common form: the number is kept as it is.
func TestEarlyNumbersArePlainText(t *testing.T) {
	h := handbook(t)
	v, err := h.ParseVIN("f25 hrw 12345")
	require.NoError(t, err)
	assert.Equal(t, standards.VIN{Text: "F25 HRW 12345", Plain: true}, v)
	assert.Empty(t, v.Dims())
	d, err := h.ParseAs(standards.KindVIN, "F25HRW12345")
	require.NoError(t, err)
	assert.Equal(t, "F25HRW12345", d.String())
	for _, text := range []string{"", "F25", "F25?HRW", strings.Repeat("1", 18)} {
		v, err := h.ParseVIN(text)
		assert.Error(t, err, text)
		assert.Zero(t, v)
	}
}
