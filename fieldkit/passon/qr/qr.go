// Package qr draws a link as a QR code (ISO/IEC 18004) that another phone's camera
// opens.
//
//	square, err := qr.Link("https://kit.example/take#", code)
//	svg := square.SVG("Link to axle U-joint", square.Width(328, 2.625))
//
// The address goes into a byte segment, the code (capital letters and digits) into
// an alphanumeric one, which takes a third less room. The square is as small as it
// can be; where there is room it corrects more errors. The mask is the one that the
// standard's penalty rules prefer. Drawing the finder patterns, error correction and
// format is rsc.io/qr/coding.
package qr

import (
	"fmt"
	"math"
	"strings"

	"rsc.io/qr/coding"

	"trailfieldkit/fieldkit"
)

// MaxVersion is the largest square drawn: 117 by 117 modules. On the width of a phone
// a module of it still is as wide as two or three dots of the screen that another
// phone's camera can tell apart at a hand's breadth.
const MaxVersion = 25

// quiet is the white margin the standard asks for, in modules.
const quiet = 4

// Square is a QR code.
type Square struct {
	Version int // 1 to MaxVersion
	Size    int // modules on a side, without the margin
	code    *coding.Code
}

// Black reports a dark module.
func (s Square) Black(x, y int) bool { return s.code.Black(x, y) }

// Link draws address and code. Error of kind TooBig if it does not fit.
func Link(address, code string) (Square, error) {
	segments := []coding.Encoding{coding.String(address), coding.Alpha(code)}
	for _, s := range segments {
		if err := s.Check(); err != nil {
			return Square{}, &fieldkit.Error{Kind: fieldkit.BadInput, What: "the link cannot be drawn", Cause: err}
		}
	}
	bits := func(v coding.Version) (n int) {
		for _, s := range segments {
			n += s.Bits(v)
		}
		return n
	}
	for v := coding.Version(coding.MinVersion); v <= MaxVersion; v++ {
		if bits(v) > v.DataBytes(coding.L)*8 {
			continue
		}
		level := coding.Level(coding.L)
		for l := coding.Level(coding.M); l <= coding.H && bits(v) <= v.DataBytes(l)*8; l++ {
			level = l
		}
		return best(v, level, segments)
	}
	return Square{}, &fieldkit.Error{Kind: fieldkit.TooBig,
		What: "this is too long for a square that a camera can read", Do: "hand it over as a small file, or shorten its notes"}
}

// best draws the square with each of the eight masks and takes the one of the least
// penalty.
func best(v coding.Version, level coding.Level, segments []coding.Encoding) (Square, error) {
	var chosen *coding.Code
	least := 0
	for mask := coding.Mask(0); mask < 8; mask++ {
		plan, err := coding.NewPlan(v, level, mask)
		if err != nil {
			return Square{}, err
		}
		code, err := plan.Encode(segments...)
		if err != nil {
			return Square{}, err
		}
		if p := penalty(code); chosen == nil || p < least {
			chosen, least = code, p
		}
	}
	return Square{Version: int(v), Size: chosen.Size, code: chosen}, nil
}

// Width is the widest the drawing may be, of most points, so that a module is a whole
// number of the screen's own dots: modules of unequal width are misread. Ratio is dots
// for each point, as browsers tell it; where not one dot a module fits, it is one.
func (s Square) Width(most, ratio float64) float64 {
	if !(ratio > 0) {
		ratio = 1
	}
	side := float64(s.Size + 2*quiet)
	return max(math.Floor(most*ratio/side), 1) * side / ratio
}

// SVG draws the square black on white in every theme, with its margin, so many points
// wide. Label is read out in place of the drawing.
func (s Square) SVG(label string, width float64) string {
	var b strings.Builder
	side := s.Size + 2*quiet
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" class="qr" viewBox="0 0 %d %d" width="%.4f" height="%.4f" role="img" aria-label="%s" shape-rendering="crispEdges"><rect width="%d" height="%d" fill="#fff"/><path fill="#000" d="`,
		side, side, width, width, escape.Replace(label), side, side)
	for y := range s.Size {
		for x := 0; x < s.Size; x++ {
			run := 0
			for x+run < s.Size && s.Black(x+run, y) {
				run++
			}
			if run > 0 {
				fmt.Fprintf(&b, "M%d %dh%dv1h-%dz", x+quiet, y+quiet, run, run)
				x += run
			}
		}
	}
	b.WriteString(`"/></svg>`)
	return b.String()
}

var escape = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "'", "&#39;")
