package app

import (
	"fmt"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit/standards/measure"
)

// Drawings show where each size of a part is taken. They are line drawings of our own
// on a sheet of 320 × 220, in the colour of the text; a size is a line between two
// arrows with a letter, and the letter stands before the name of its field.

// sheet is a drawing under way.
type sheet struct {
	strings.Builder
	letters map[string]string // by attribute
}

// letters gives the attributes of a kind that its drawing shows their letters.
func lettersOf(kind measure.Kind) map[string]string {
	letters := map[string]string{}
	shown := drawings[kind.Name]
	for _, a := range kind.Attributes {
		for _, name := range shown.sizes {
			if name == a.Name {
				letters[name] = string(rune('A' + len(letters)))
			}
		}
	}
	return letters
}

// drawing draws where the sizes of a kind are taken; nothing for a kind without one.
func drawing(kind measure.Kind) app.UI {
	shown, ok := drawings[kind.Name]
	if !ok {
		return app.Div().Hidden(true)
	}
	return app.Figure().Class("drawing").Body(app.Raw(drawingText(kind, shown)))
}

func drawingText(kind measure.Kind, shown sketch) string {
	s := &sheet{letters: lettersOf(kind)}
	fmt.Fprintf(s, `<svg viewBox="0 0 320 220" role="img" aria-label="Drawing: where the sizes of a %s are taken" fill="none" stroke="currentColor" stroke-width="3" stroke-linejoin="round" stroke-linecap="round">`, kind.Name)
	shown.draw(s)
	s.WriteString("</svg>")
	return s.String()
}

// path draws a line by the commands of an SVG path.
func (s *sheet) path(d string) { fmt.Fprintf(s, `<path d="%s"/>`, d) }

// thin draws a line that is no edge: an axis, a hidden or extended edge.
func (s *sheet) thin(d string) {
	fmt.Fprintf(s, `<path d="%s" stroke-width="1.5" stroke-dasharray="7 5"/>`, d)
}

// filled draws an area: a section that was cut.
func (s *sheet) filled(d string) {
	fmt.Fprintf(s, `<path d="%s" fill="currentColor" fill-opacity="0.22"/>`, d)
}

func (s *sheet) circle(x, y, r float64) {
	fmt.Fprintf(s, `<circle cx="%g" cy="%g" r="%g"/>`, x, y, r)
}

// across dimensions a size from left to right at height y, along from top to bottom
// at x. The letter stands in a gap of the line, or beside a line too short for one.
func (s *sheet) across(name string, x1, x2, y float64) {
	s.arrows(x1, y, x2, y)
	if x2-x1 < 70 {
		s.letter(name, x2+20, y)
		return
	}
	s.letter(name, (x1+x2)/2, y)
}

func (s *sheet) along(name string, x, y1, y2 float64) {
	s.arrows(x, y1, x, y2)
	if y2-y1 < 70 {
		s.letter(name, x, y2+20)
		return
	}
	s.letter(name, x, (y1+y2)/2)
}

// point leads from a letter to what it is about: something to count or to look at.
func (s *sheet) point(name string, x, y, atX, atY float64) {
	fmt.Fprintf(s, `<path d="M%g %gL%g %g" stroke-width="2"/><circle cx="%g" cy="%g" r="4" fill="currentColor"/>`, x, y, atX, atY, atX, atY)
	s.letter(name, x, y)
}

func (s *sheet) arrows(x1, y1, x2, y2 float64) {
	const long, wide = 9, 4
	fmt.Fprintf(s, `<path d="M%g %gL%g %g" stroke-width="2"/>`, x1, y1, x2, y2)
	if y1 == y2 {
		s.tip(x1, y1, x1+long, y1-wide, x1+long, y1+wide)
		s.tip(x2, y2, x2-long, y2-wide, x2-long, y2+wide)
		return
	}
	s.tip(x1, y1, x1-wide, y1+long, x1+wide, y1+long)
	s.tip(x2, y2, x2-wide, y2-long, x2+wide, y2-long)
}

func (s *sheet) tip(x, y, ax, ay, bx, by float64) {
	fmt.Fprintf(s, `<path d="M%g %gL%g %gL%g %gZ" fill="currentColor" stroke-width="1"/>`, x, y, ax, ay, bx, by)
}

// letter writes the letter of an attribute on a disc of the ground, so that lines
// behind it do not disturb.
func (s *sheet) letter(name string, x, y float64) {
	fmt.Fprintf(s, `<circle class="ground" cx="%g" cy="%g" r="15" stroke="none"/><text x="%g" y="%g" text-anchor="middle" font-size="26" font-weight="800" fill="currentColor" stroke="none">%s</text>`,
		x, y, x, y+9, s.letters[name])
}
