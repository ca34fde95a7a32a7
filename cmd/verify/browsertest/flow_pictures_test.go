//go:build browser

package browsertest

import (
	"bytes"
	"flag"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/cmd/internal/chromium"
)

var screens = flag.Bool("screens", false, "write the pictures of README.md anew")

const (
	pictures    = "../../../testdata/screens"
	largestSize = 60 << 10 // bytes of one picture: a page with five opens on a slow link
)

// The pictures in README.md are of the program itself: with -screens this test takes
// them, without it checks that they are there.
func TestPictures(t *testing.T) {
	names := []string{"rig", "card", "pack", "repair", "log"}
	if *screens {
		takePictures(t)
	}
	readme, err := os.ReadFile("../../../README.md")
	require.NoError(t, err)
	for _, name := range names {
		content, err := os.ReadFile(filepath.Join(pictures, name+".png"))
		if !assert.NoError(t, err, "run with -screens to take it") {
			continue
		}
		shape, err := png.DecodeConfig(bytes.NewReader(content))
		require.NoError(t, err)
		assert.Equal(t, []int{chromium.PhoneWidth, chromium.PhoneHeight}, []int{shape.Width, shape.Height}, name)
		assert.Less(t, len(content), largestSize, name)
		assert.Contains(t, string(readme), "testdata/screens/"+name+".png")
	}
}

func takePictures(t *testing.T) {
	v := withDemo(t, "/rig")
	require.NoError(t, v.Resize(chromium.PhoneWidth, chromium.PhoneHeight, 1))
	v.Run(`document.querySelector('details').open = true`)
	v.picture("rig")

	v.Go(padsCard)
	v.picture("card")

	v.Go(nextTrip)
	v.Tap("button:Plan the kit")
	v.See("packed")
	v.Tap("button:Close this line")
	v.Tap("checkbox:2 × axle U-joint 1350, sealed")
	v.See("1 of ")
	v.Run(`document.querySelector('progress').previousElementSibling.scrollIntoView({ block: 'start' })`)
	v.Run(`scrollBy(0, -12)`)
	v.picture("pack")

	v.Go("/repair/run?id=run-wicket-u-joint")
	v.next("Done, next")
	v.picture("repair")

	v.Go("/log?show=failures")
	v.picture("log")
}

// picture writes what the phone shows, in as few colours as it has.
func (v *traveller) picture(name string) {
	v.t.Helper()
	v.Settle()
	file := filepath.Join(v.t.TempDir(), name+".png")
	v.Screenshot(file)
	taken, err := os.Open(file)
	require.NoError(v.t, err)
	defer taken.Close()
	full, err := png.Decode(taken)
	require.NoError(v.t, err)
	var small bytes.Buffer
	encoder := png.Encoder{CompressionLevel: png.BestCompression}
	require.NoError(v.t, encoder.Encode(&small, paletted(full)))
	require.NoError(v.t, os.MkdirAll(pictures, 0o755))
	require.NoError(v.t, os.WriteFile(filepath.Join(pictures, name+".png"), small.Bytes(), 0o644))
}

// paletted keeps the 256 most frequent colours of a picture; the others become the
// nearest of them.
func paletted(full image.Image) *image.Paletted {
	counts := map[color.RGBA]int{}
	box := full.Bounds()
	each := func(do func(x, y int, c color.RGBA)) {
		for y := box.Min.Y; y < box.Max.Y; y++ {
			for x := box.Min.X; x < box.Max.X; x++ {
				do(x, y, color.RGBAModel.Convert(full.At(x, y)).(color.RGBA))
			}
		}
	}
	each(func(_, _ int, c color.RGBA) { counts[c]++ })
	all := make([]color.RGBA, 0, len(counts))
	for c := range counts {
		all = append(all, c)
	}
	slices.SortFunc(all, func(a, b color.RGBA) int {
		if n := counts[b] - counts[a]; n != 0 {
			return n
		}
		return strings.Compare(string([]byte{a.R, a.G, a.B}), string([]byte{b.R, b.G, b.B}))
	})
	var palette color.Palette
	for _, c := range all[:min(len(all), 256)] {
		palette = append(palette, c)
	}
	out := image.NewPaletted(box, palette)
	nearest := map[color.RGBA]uint8{}
	each(func(x, y int, c color.RGBA) {
		index, known := nearest[c]
		if !known {
			index = uint8(palette.Index(c))
			nearest[c] = index
		}
		out.SetColorIndex(x, y, index)
	})
	return out
}
