package chart

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"
)

// Point is a reading: what was read (Y) at how far (X).
type Point struct{ X, Y float64 }

// Span is what a line may be at X: between Low and High.
type Span struct{ X, Low, Line, High float64 }

// Series is what a trend shows. X and Y name the axes, with their units.
type Series struct {
	Points []Point
	Band   []Span // of the line through them, from left to right; none where there is none
	Limit  float64
	Now    float64 // where the rig is, on the way
	X, Y   string
	Figure func(y float64) string // writes a reading
	Far    func(x float64) string // writes a distance
	Said   string                 // what it shows, in words
}

// Frame is how readings and distances become places on the drawing.
type Frame struct {
	X0, X1, Y0, Y1           float64 // what is shown
	left, right, top, bottom float64
}

const (
	trendHigh  = 320.0
	trendLeft  = 4.0
	trendTop   = 54.0
	trendFoot  = 50.0 // under the axis, for its figures and its name
	shareAbove = 0.08 // of the readings' span, over and under it
)

// FrameOf holds all readings, the limit and the line itself; of its interval only what
// lies no further off than the readings do, so that a wide one does not press the rest
// flat.
func FrameOf(s Series) Frame {
	f := Frame{X0: math.Inf(1), X1: math.Inf(-1), Y0: s.Limit, Y1: s.Limit, left: trendLeft, right: Wide - trendLeft, top: trendTop, bottom: trendHigh - trendFoot}
	see := func(x, y float64) {
		f.X0, f.X1 = math.Min(f.X0, x), math.Max(f.X1, x)
		f.Y0, f.Y1 = math.Min(f.Y0, y), math.Max(f.Y1, y)
	}
	for _, p := range s.Points {
		see(p.X, p.Y)
	}
	for _, b := range s.Band {
		see(b.X, b.Line)
	}
	if s.Now > 0 {
		f.X1 = math.Max(f.X1, s.Now)
	}
	if f.X1 <= f.X0 {
		f.X0, f.X1 = f.X0-1, f.X0+1
	}
	room := (f.Y1 - f.Y0) * shareAbove
	if room == 0 {
		room = math.Max(math.Abs(f.Y0)*shareAbove, 1)
	}
	f.Y0, f.Y1 = f.Y0-room, f.Y1+room
	return f
}

// At places a reading; what lies outside is put on the edge.
func (f Frame) At(x, y float64) (px, py float64) {
	u := math.Min(math.Max((x-f.X0)/(f.X1-f.X0), 0), 1)
	v := math.Min(math.Max((y-f.Y0)/(f.Y1-f.Y0), 0), 1)
	return f.left + u*(f.right-f.left), f.bottom - v*(f.bottom-f.top)
}

// Trend draws readings over distance or hours: each a disc, the line through them, its interval
// as a shaded band, the limit as a broken line with its word. Without a reading it draws
// nothing.
func Trend(title string, s Series) string {
	if len(s.Points) == 0 {
		return ""
	}
	f := FrameOf(s)
	d := open(title, s.Said, trendHigh)
	d.text(f.left, 18, "start", "", short(s.Y, 34))
	if len(s.Band) > 1 {
		var upper, lower, line []string
		for _, b := range s.Band {
			x, high := f.At(b.X, b.High)
			_, low := f.At(b.X, b.Low)
			_, mid := f.At(b.X, b.Line)
			upper = append(upper, n(x)+" "+n(high))
			lower = append([]string{n(x) + " " + n(low)}, lower...)
			line = append(line, n(x)+" "+n(mid))
		}
		d.raw(fmt.Sprintf(`<path class="chart-band" d="M%sZ"/>`, strings.Join(append(upper, lower...), "L")))
		d.raw(fmt.Sprintf(`<path class="chart-line" d="M%s"/>`, strings.Join(line, "L")))
	}
	d.line("chart-axis", f.left, f.bottom, f.right, f.bottom)
	_, limit := f.At(f.X0, s.Limit)
	d.line("chart-limit", f.left, limit, f.right, limit)
	over := limit - 6
	if over < f.top+textUnits {
		over = limit + textUnits
	}
	d.text(f.left, over, "start", "chart-figure", "limit "+s.Figure(s.Limit))
	if s.Now > 0 {
		x, _ := f.At(s.Now, f.Y0)
		d.line("chart-now", x, f.top, x, f.bottom)
	}
	for _, p := range s.Points {
		x, y := f.At(p.X, p.Y)
		d.raw(fmt.Sprintf(`<circle class="chart-dot" cx="%s" cy="%s" r="6"/>`, n(x), n(y)))
	}
	first, last := s.Points[0], s.Points[len(s.Points)-1]
	x, y := f.At(first.X, first.Y)
	if lastX, lastY := f.At(last.X, last.Y); y-lastY > steep*(lastX-x) {
		d.text(x+30, y+6, "start", "chart-figure", s.Figure(first.Y)) // under a line that goes up from it
	} else {
		d.text(x, above(y), "start", "chart-figure", s.Figure(first.Y))
	}
	if len(s.Points) > 1 {
		d.lastFigure(f, last, s.Figure(last.Y), last.Y-first.Y)
	}
	d.text(f.left, f.bottom+20, "start", "", s.Far(f.X0))
	d.text(f.right, f.bottom+20, "end", "", s.Far(f.X1))
	d.text((f.left+f.right)/2, f.bottom+42, "middle", "", s.X)
	return d.close()
}

// letter is how wide a letter of a figure is, about; besideDisc how far a figure reaches
// over the middle of its disc; a line steeper than steep leaves room for one under it.
const (
	letter     = 10.8
	besideDisc = 6.0
	steep      = 0.3
)

// lastFigure writes the last reading over its disc: to the right where the line comes from
// above, to the left where it goes on upward, so that it lies over neither line nor other
// discs where there is room.
func (d *drawing) lastFigure(f Frame, p Point, words string, rises float64) {
	x, y := f.At(p.X, p.Y)
	wide := letter * float64(utf8.RuneCountInString(words))
	end := x - besideDisc + wide
	if rises > 0 {
		end = x + besideDisc
	}
	end = math.Min(math.Max(end, f.left+wide), f.right)
	d.text(end, above(y), "end", "chart-figure", words)
}

// above is where a figure stands over its disc; under it where the name of the axis is.
func above(y float64) float64 {
	if up := y - 12; up >= 18+textUnits {
		return up
	}
	return y + 26
}
