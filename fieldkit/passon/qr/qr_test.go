package qr_test

import (
	"encoding/xml"
	"fmt"
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit/passon/qr"
)

const address = "https://kit.example.org/field/take#"

func code(n int) string {
	rnd := rand.New(rand.NewPCG(uint64(n), 6))
	var b strings.Builder
	for range n {
		b.WriteByte("ABCDEFGHIJKLMNOPQRSTUVWXYZ234567"[rnd.IntN(32)])
	}
	return b.String()
}

// A decoder that shares nothing with the drawing reads every size of square back.
func TestAnotherDecoderReadsIt(t *testing.T) {
	for _, n := range []int{0, 1, 20, 100, 333, 534, 900, 1200, 1463, 1790} {
		t.Run(fmt.Sprint(n), func(t *testing.T) {
			s, err := qr.Link(address, code(n))
			require.NoError(t, err)
			require.Equal(t, address+code(n), decode(t, picture(s, 4)))
		})
	}
}

// picture paints a square, with its margin, so many pixels a module.
func picture(s qr.Square, scale int) image.Image {
	side := (s.Size + 8) * scale
	img := image.NewGray(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			dark := false
			if mx, my := x/scale-4, y/scale-4; mx >= 0 && my >= 0 && mx < s.Size && my < s.Size {
				dark = s.Black(mx, my)
			}
			img.SetGray(x, y, map[bool]color.Gray{true: {0}, false: {255}}[dark])
		}
	}
	return img
}

func decode(t *testing.T, img image.Image) string {
	t.Helper()
	bitmap, err := gozxing.NewBinaryBitmapFromImage(img)
	require.NoError(t, err)
	result, err := qrcode.NewQRCodeReader().Decode(bitmap, map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_TRY_HARDER: true})
	require.NoError(t, err)
	return result.GetText()
}

// Facts of ISO/IEC 18004: the side is 17 + 4 times the version; finder patterns of 7
// by 7 stand in three corners; the timing patterns alternate between them; the module
// beside the lower left finder is dark.
func TestShapeOfTheStandard(t *testing.T) {
	finder := []string{"#######", "#.....#", "#.###.#", "#.###.#", "#.###.#", "#.....#", "#######"}
	for _, n := range []int{5, 300, 1500} {
		s, err := qr.Link(address, code(n))
		require.NoError(t, err)
		assert.Equal(t, 17+4*s.Version, s.Size)
		for _, corner := range [][2]int{{0, 0}, {s.Size - 7, 0}, {0, s.Size - 7}} {
			for y, row := range finder {
				for x := range row {
					assert.Equal(t, row[x] == '#', s.Black(corner[0]+x, corner[1]+y))
				}
			}
		}
		for i := 8; i < s.Size-8; i++ {
			assert.Equal(t, i%2 == 0, s.Black(i, 6))
			assert.Equal(t, i%2 == 0, s.Black(6, i))
		}
		assert.True(t, s.Black(8, 4*s.Version+9), "dark module")
	}
}

// Capacities of ISO/IEC 18004, table 7, level L: 25 characters fit version 1 as
// alphanumeric alone, 1853 fit version 25. A byte segment of the address costs its
// header and 8 bits a character.
func TestLimit(t *testing.T) {
	s, err := qr.Link("", code(25-3)) // the empty byte segment's header takes 12 bits, three characters
	require.NoError(t, err)
	assert.Equal(t, 1, s.Version)
	_, err = qr.Link("", code(1853-5)) // and 20 bits, up to five characters, from version 10 on
	require.NoError(t, err)
	_, err = qr.Link("", code(1853))
	require.ErrorContains(t, err, "too long for a square")
	_, err = qr.Link(address, "lower case")
	require.Error(t, err)
}

// At each ratio of dots to points that phones have, a module is a whole number of dots,
// at least one, and the drawing is as wide as that allows.
func TestModulesAreWholeDots(t *testing.T) {
	for _, n := range []int{20, 333, 900, 1790} {
		s, err := qr.Link(address, code(n))
		require.NoError(t, err)
		side := float64(s.Size + 8)
		for _, ratio := range []float64{1, 1.5, 2, 2.625, 2.75, 3, 3.5} {
			for _, most := range []float64{148, 328, 560} {
				width := s.Width(most, ratio)
				dots := width * ratio / side
				assert.InDelta(t, math.Round(dots), dots, 1e-9)
				if most*ratio >= side {
					assert.LessOrEqual(t, width, most+1e-9)
					assert.Greater(t, width+side/ratio, most)
				} else {
					assert.InDelta(t, 1, dots, 1e-9)
				}
			}
		}
		assert.InDelta(t, s.Width(328, 1), s.Width(328, math.NaN()), 1e-9)
	}
}

// The drawing is sound XML, whatever the label, and paints exactly the dark modules.
func TestSVG(t *testing.T) {
	s, err := qr.Link(address, code(200))
	require.NoError(t, err)
	drawn := s.SVG(`<b>"5/8 & more'`, 186)
	var svg struct {
		Label   string `xml:"aria-label,attr"`
		ViewBox string `xml:"viewBox,attr"`
		Path    struct {
			D string `xml:"d,attr"`
		} `xml:"path"`
	}
	require.NoError(t, xml.Unmarshal([]byte(drawn), &svg))
	assert.Equal(t, `<b>"5/8 & more'`, svg.Label)
	assert.Equal(t, fmt.Sprintf("0 0 %d %d", s.Size+8, s.Size+8), svg.ViewBox)
	dark, painted := 0, map[[2]int]bool{}
	for _, piece := range strings.Split(strings.TrimSuffix(svg.Path.D, "z"), "z") {
		var x, y, run, back int
		_, err := fmt.Sscanf(piece, "M%d %dh%dv1h-%d", &x, &y, &run, &back)
		require.NoError(t, err)
		for i := range run {
			painted[[2]int{x + i - 4, y - 4}] = true
		}
	}
	for y := range s.Size {
		for x := range s.Size {
			if s.Black(x, y) {
				dark++
				require.True(t, painted[[2]int{x, y}])
			}
		}
	}
	assert.Len(t, painted, dark)
	assert.NotContains(t, drawn, "style")
}
