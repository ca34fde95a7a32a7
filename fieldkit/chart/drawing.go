package chart

import (
	"fmt"
	"hash/fnv"
	"math"
	"strconv"
	"strings"
)

// drawing is an SVG element under way.
type drawing struct{ strings.Builder }

// open begins a drawing with its title and what it shows in words. Their IDs come from
// the title, so that two drawings on a page differ.
func open(title, said string, high float64) *drawing {
	h := fnv.New32a()
	h.Write([]byte(title))
	id := fmt.Sprintf("chart-%08x", h.Sum32())
	d := &drawing{}
	fmt.Fprintf(d, `<svg class="chart" viewBox="0 0 %s %s" role="img" aria-labelledby="%s-title %s-desc">`, n(Wide), n(high), id, id)
	fmt.Fprintf(d, `<title id="%s-title">%s</title><desc id="%s-desc">%s</desc>`, id, escape(title), id, escape(said))
	return d
}

func (d *drawing) raw(s string) { d.WriteString(s) }

// text writes at a point; anchor is start, middle or end.
func (d *drawing) text(x, y float64, anchor, class, s string) {
	if class != "" {
		class = ` class="` + class + `"`
	}
	fmt.Fprintf(d, `<text%s x="%s" y="%s" text-anchor="%s" font-size="%d">%s</text>`, class, n(x), n(y), anchor, textUnits, escape(s))
}

func (d *drawing) line(class string, x1, y1, x2, y2 float64) {
	fmt.Fprintf(d, `<line class="%s" x1="%s" y1="%s" x2="%s" y2="%s"/>`, class, n(x1), n(y1), n(x2), n(y2))
}

func (d *drawing) close() string {
	d.WriteString("</svg>")
	return d.String()
}

// n writes a coordinate to a tenth.
func n(x float64) string { return strconv.FormatFloat(math.Round(x*10)/10+0, 'f', -1, 64) }

var escaping = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&#34;", "'", "&#39;")

// escape makes a text safe between tags and in quoted attributes; what neither HTML nor
// XML can hold is dropped.
func escape(s string) string {
	return escaping.Replace(strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' && r != '\n' || r == 0x7f || r == 0xfffe || r == 0xffff {
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\ufffd")))
}
