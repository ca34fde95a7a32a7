package chart

import (
	"fmt"
	"math"
	"unicode/utf8"
)

// Bar is one figure with its name. Label is how the figure is written, with its unit.
type Bar struct {
	Name  string
	Value float64 // 0 or more
	Label string
}

// Sizes of a drawing, in its own units.
const (
	Wide      = 328.0
	barRow    = 56.0 // a line of text and the bar under it
	barThick  = 20.0
	barTop    = 26.0 // from the top of a row to its bar
	leastBar  = 3.0  // so that something small is still seen
	leastName = 8    // characters of a name at least
	nameRoom  = 24   // and at most
	lineRoom  = 32   // characters of a name and its figure together
	textUnits = 18
)

// Placed is where a bar stands.
type Placed struct{ Y, Length float64 }

// Layout places bars below each other, the greatest over the whole width. A bar of
// nothing has no length, any other at least what can be seen. Values that are no
// number, and those below nothing, count as nothing.
func Layout(bars []Bar) (placed []Placed, high float64) {
	most := 0.0
	for _, b := range bars {
		most = math.Max(most, amount(b.Value))
	}
	for i, b := range bars {
		p := Placed{Y: float64(i)*barRow + barTop}
		if v := amount(b.Value); v > 0 {
			p.Length = math.Max(leastBar, v/most*Wide)
		}
		placed = append(placed, p)
	}
	return placed, float64(len(bars)) * barRow
}

func amount(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
		return 0
	}
	return v
}

// Bars draws figures as bars, in the order given. No bars draw nothing.
func Bars(title string, bars []Bar) string {
	if len(bars) == 0 {
		return ""
	}
	placed, high := Layout(bars)
	said := ""
	for i, b := range bars {
		if i > 0 {
			said += "; "
		}
		said += b.Name + " " + b.Label
	}
	d := open(title, said, high)
	for i, b := range bars {
		d.text(0, placed[i].Y-8, "start", "", short(b.Name, max(leastName, min(nameRoom, lineRoom-utf8.RuneCountInString(b.Label)))))
		d.text(Wide, placed[i].Y-8, "end", "chart-figure", b.Label)
		d.raw(fmt.Sprintf(`<rect class="chart-ground" x="0" y="%s" width="%s" height="%s"/>`, n(placed[i].Y), n(Wide), n(barThick)))
		if placed[i].Length > 0 {
			d.raw(fmt.Sprintf(`<rect class="chart-bar" x="0" y="%s" width="%s" height="%s"/>`, n(placed[i].Y), n(placed[i].Length), n(barThick)))
		}
	}
	return d.close()
}

// short cuts a name to what fits beside its figure.
func short(name string, most int) string {
	if r := []rune(name); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return name
}
