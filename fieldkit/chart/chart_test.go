package chart_test

import (
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit/chart"
)

var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := "testdata/" + name
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got+"\n"), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, string(want), got+"\n")
}

func pads() chart.Series {
	s := chart.Series{
		Points: []chart.Point{{69_000, 11.5}, {73_000, 10.1}, {77_000, 8.7}, {81_000, 7.2}, {88_900, 3.7}},
		Limit:  3, Now: 88_900, X: "odometer, km", Y: "lining thickness",
		Figure: func(y float64) string { return fmt.Sprintf("%.1f mm", y) },
		Far:    func(x float64) string { return fmt.Sprintf("%.0f", x) },
		Said:   "five readings fall from 11.5 mm to 3.7 mm",
	}
	for x := 69_000.0; x <= 91_000; x += 2_000 {
		line := 11.6 - (x-69_000)*0.0004
		s.Band = append(s.Band, chart.Span{X: x, Low: line - 0.4, Line: line, High: line + 0.4})
	}
	return s
}

func bars() []chart.Bar {
	return []chart.Bar{{"steering", 7, "7"}, {"brakes & <hubs>", 3.5, "3½"}, {"a system of a name far too long to stand there", 0.001, "few"}, {"electrics", 0, "none"}}
}

func TestGoldenDrawings(t *testing.T) {
	golden(t, "bars.svg", chart.Bars("Failures by system", bars()))
	golden(t, "trend.svg", chart.Trend("Wear of the front pads", pads()))
	rising := pads()
	for i := range rising.Points {
		rising.Points[i].Y = 14.5 - rising.Points[i].Y // play that grows
	}
	for i, b := range rising.Band {
		rising.Band[i] = chart.Span{X: b.X, Low: 14.5 - b.High, Line: 14.5 - b.Line, High: 14.5 - b.Low}
	}
	rising.Limit = 11.5
	golden(t, "rising.svg", chart.Trend("Play of a joint", rising))
	few := pads()
	few.Points, few.Band = few.Points[:1], nil
	golden(t, "one-reading.svg", chart.Trend("One reading", few))
}

// A name is cut to the room that its figure leaves.
func TestNamesLeaveRoomForTheirFigures(t *testing.T) {
	name := "Firewood on the North Bench"
	for label, shown := range map[string]string{
		"4 h":                              "Firewood on the North B…",
		"1 h 15 min":                       "Firewood on the North…",
		"a figure of very many characters": "Firewoo…",
	} {
		drawn := chart.Bars("Hours", []chart.Bar{{name, 1, label}})
		assert.Contains(t, drawn, ">"+shown+"<", label)
		assert.Contains(t, drawn, ">"+label+"<")
	}
}

// Lengths are as the figures, the greatest over the whole width.
func TestLayout(t *testing.T) {
	placed, high := chart.Layout(bars())
	assert.Equal(t, chart.Wide, placed[0].Length)
	assert.Equal(t, chart.Wide/2, placed[1].Length)
	assert.Positive(t, placed[2].Length, "what is small is seen")
	assert.Zero(t, placed[3].Length)
	for i := 1; i < len(placed); i++ {
		assert.Equal(t, placed[1].Y-placed[0].Y, placed[i].Y-placed[i-1].Y)
	}
	assert.Greater(t, high, placed[3].Y)
	placed, _ = chart.Layout([]chart.Bar{{"x", math.NaN(), ""}, {"y", -3, ""}, {"z", math.Inf(1), ""}})
	for _, p := range placed {
		assert.Zero(t, p.Length)
	}
	assert.Empty(t, chart.Bars("none", nil))
	assert.Empty(t, chart.Trend("none", chart.Series{}))
}

// Readings keep their order and their proportions; everything lies inside.
func TestFrame(t *testing.T) {
	s := pads()
	f := chart.FrameOf(s)
	x0, y0 := f.At(69_000, 11.5)
	x1, y1 := f.At(77_000, 8.7)
	xm, ym := f.At(73_000, 10.1)
	assert.InDelta(t, (x0+x1)/2, xm, 1e-9)
	assert.InDelta(t, (y0+y1)/2, ym, 1e-9)
	assert.Less(t, y0, y1, "a greater reading stands higher")
	_, limit := f.At(69_000, 3)
	assert.Greater(t, limit, y1)
	for _, p := range append(s.Points, chart.Point{X: 1e9, Y: -1e9}, chart.Point{X: -1e9, Y: 1e9}) {
		x, y := f.At(p.X, p.Y)
		assert.True(t, x >= 0 && x <= chart.Wide && y >= 0 && y <= 320, "%v", p)
	}
	one := chart.FrameOf(chart.Series{Points: []chart.Point{{5, 2}}, Limit: 2})
	x, y := one.At(5, 2)
	assert.False(t, math.IsNaN(x) || math.IsNaN(y), "one reading at its limit")
}

// What is drawn is XML, is one image with a name and a description, and carries no style
// of its own, whatever names hold.
func FuzzBars(f *testing.F) {
	f.Add("a</svg><script>", "b\" onload=\"x", 3.0)
	f.Add("\x00\xff", "é中🛻", math.Inf(1))
	f.Fuzz(func(t *testing.T, name, label string, value float64) {
		svg := chart.Bars(name, []chart.Bar{{name, value, label}, {label, 1, name}})
		if err := wellFormed(svg); err != nil {
			t.Fatalf("%v in %q", err, svg)
		}
	})
}

func TestDrawingsAreAccessible(t *testing.T) {
	for _, svg := range []string{chart.Bars("Failures by system", bars()), chart.Trend("Wear", pads())} {
		require.NoError(t, wellFormed(svg))
		assert.Contains(t, svg, `role="img"`)
		assert.Contains(t, svg, "<title id=")
		assert.Contains(t, svg, "<desc id=")
		assert.NotContains(t, svg, "style")
	}
	assert.Contains(t, chart.Bars("Failures by system", bars()), "steering 7; brakes &amp; &lt;hubs&gt; 3½")
}

func wellFormed(svg string) error {
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		if e, ok := token.(xml.StartElement); ok {
			switch e.Name.Local {
			case "svg", "title", "desc", "text", "rect", "path", "line", "circle":
			default:
				return fmt.Errorf("element %s", e.Name.Local)
			}
		}
	}
}
