package standards

import (
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
)

// Fuse is a blade or cartridge fuse by rating and body: 30 A maxi APX.
type Fuse struct {
	Body                 string // as the table has it: "mini ATM/APM"
	Rating               string // amperes
	Colour               string
	Width, Depth, Height fieldkit.Length
	source               string
}

// fuseWords are the ways people write a body.
var fuseWords = map[string]string{
	"REGULAR": "regular ATO/ATC", "ATO": "regular ATO/ATC", "ATC": "regular ATO/ATC", "BLADE": "regular ATO/ATC", "STANDARD": "regular ATO/ATC",
	"MINI": "mini ATM/APM", "ATM": "mini ATM/APM", "APM": "mini ATM/APM",
	"LOW-PROFILE MINI": "low-profile mini", "LOW PROFILE MINI": "low-profile mini", "LOW-PROFILE": "low-profile mini", "LOW PROFILE": "low-profile mini",
	"MICRO2": "micro2 (2 leg)", "MICRO 2": "micro2 (2 leg)", "MICRO3": "micro3 (3 leg)", "MICRO 3": "micro3 (3 leg)",
	"MAXI": "maxi APX", "APX": "maxi APX", "JCASE": "JCASE cartridge", "CARTRIDGE": "JCASE cartridge",
}

// ParseFuse reads a fuse: 30 A maxi, mini 10 A, ATO 20A. The error is a *Misread.
func (h *Handbook) ParseFuse(text string) (Fuse, error) { return parse(text, h.readFuse) }

func (h *Handbook) readFuse(s *scan) (Fuse, *Misread) {
	body := s.word(h.fuseBodies...)
	s.blank()
	at := s.at
	rating := s.decimal()
	if rating == "" {
		return Fuse{}, s.expected(KindFuse, "the rating in amperes")
	}
	s.skip(" -")
	if s.word("A", "AMP", "AMPS", "AMPERE") == "" && body == "" {
		return Fuse{}, s.expected(KindFuse, "A for amperes")
	}
	if s.blank(); body == "" {
		if body = s.word(h.fuseBodies...); body == "" {
			return Fuse{}, s.expected(KindFuse, "the body, such as mini or maxi")
		}
	}
	s.blank()
	s.word("FUSE")
	name := fuseWords[body]
	if name == "" {
		name = strings.ToLower(body)
	}
	f, ok := h.fuses.named(strings.ToLower(name) + " " + rating)
	if !ok {
		s.at = at
		return Fuse{}, s.misread(KindFuse, "no %s fuse of %s A is listed", name, rating)
	}
	return f, nil
}

func (f Fuse) Kind() Kind     { return KindFuse }
func (f Fuse) Listed() bool   { return true }
func (f Fuse) String() string { return f.Rating + " A " + f.Body }

func (f Fuse) Dims() []Dim {
	var d dims
	d = append(d, Dim{"rating", ampere(f.Rating)})
	d.text("colour", f.Colour)
	d.text("body", f.Body)
	d.length("width", f.Width)
	d.length("depth", f.Depth)
	d.length("height", f.Height)
	return d
}

func ampere(rating string) fieldkit.Value {
	v, _ := fieldkit.ParseValueAs(rating+" A", fieldkit.DimCurrent, fieldkit.Metric)
	return v
}

func (f Fuse) Source() string { return f.source }

func (f Fuse) Explain() []Piece {
	return []Piece{{f.Rating, "amperes: never a larger one than was there"}, {f.Body, "body; the colour of this rating is " + f.Colour}}
}

func (o *opener) fuses(h *Handbook) {
	h.fuseBodies = keys(fuseWords)
	o.each("fuses", func(r row) {
		f := Fuse{Body: r.text("body"), Rating: r.text("rating_A"), Colour: r.text("colour"), Width: r.mm("width_mm"), Depth: r.mm("depth_mm"), Height: r.mm("height_mm"), source: r.source()}
		if body := strings.ToUpper(f.Body); !slices.Contains(h.fuseBodies, body) {
			h.fuseBodies = append(h.fuseBodies, body)
		}
		h.fuses.add(f, strings.ToLower(f.Body)+" "+f.Rating)
	})
}
