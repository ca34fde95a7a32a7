//go:build browser

package browsertest

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/stretchr/testify/require"
)

// colour reads a computed colour of the first element a selector finds.
func (v *traveller) colour(selector, property string) [3]float64 {
	v.t.Helper()
	text := ask[string](v.phone, fmt.Sprintf(`getComputedStyle(document.querySelector(%q)).getPropertyValue(%q)`, selector, property))
	inside, found := strings.CutPrefix(text, "rgb(")
	require.True(v.t, found, "%s of %s is %q", property, selector, text)
	var c [3]float64
	for i, part := range strings.SplitN(strings.TrimSuffix(inside, ")"), ",", 3) {
		n, err := strconv.ParseFloat(strings.TrimSpace(part), 64)
		require.NoError(v.t, err)
		c[i] = n
	}
	return c
}

// luminance and contrast are those of WCAG 2.2, "relative luminance" and "contrast
// ratio"; 7:1 is its criterion 1.4.6.
func luminance(c [3]float64) float64 {
	linear := func(value float64) float64 {
		value /= 255
		if value <= 0.04045 {
			return value / 12.92
		}
		return math.Pow((value+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c[0]) + 0.7152*linear(c[1]) + 0.0722*linear(c[2])
}

func contrast(a, b [3]float64) float64 {
	x, y := luminance(a), luminance(b)
	return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
}
